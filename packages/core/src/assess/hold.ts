/**
 * Will it hold? Fin, structure, flutter, strength and root joint along the flight.
 *
 * Fins differ where alternate bays are mirrored; both kinds are computed and the one that does worse is reported.
 */
import { finForm } from '../air/fin-form.ts'
import { finPolygon, tipMiddle } from '../geometry/fin-outline.ts'
import type { Issue } from '../issue.ts'
import type { Assessment, BondSection, FlutterSection } from './assessment.ts'
import { filletFigures, type JointResult, jointResult } from './bond-section.ts'
import type { CanDesign } from './design.ts'
import { keptAir } from './fin-air.ts'
import { type FlutterAsides, finFlutter, flutterAsides } from './fin-flutter.ts'
import { finPlate, plateSection } from './fin-plate.ts'
import { finRoot } from './fin-root.ts'
import { finSection } from './fin-section.ts'
import { type Flown, flightSection, type Section } from './flown.ts'
import { airPoints, screeningResult } from './flutter-section.ts'
import { type HeatSection, heatSection } from './heat-section.ts'
import { heldFins } from './held-fin.ts'
import { curedPlies, type SkinPly } from './skins.ts'
import { type AssessmentParts, allSteps, type Steps } from './steps.ts'
import { strengthSection } from './strength-section.ts'
import { rootFigures, structureSection } from './structure-section.ts'

type Answer = Pick<Assessment, 'fin' | 'structure' | 'flutter' | 'strength'> & Pick<BondSection, 'margin' | 'joint'>

export interface Held extends Section<Answer> {
  readonly heat: HeatSection
  /** Least flutter speed ratio wherever it could be computed; infinite where nowhere. */
  readonly least: number
}

/** Everything but what stands beside the flutter margin and the fillet radius that would be enough, which take longer than the answer itself. */
interface Margins extends Held {
  readonly asides: () => Steps<Held>
}

/** `asides: false` leaves out what stands beside the flutter margin and the fillet radius that would be enough. */
export function willItHold(design: CanDesign, flight: Flown, { asides = true } = {}): Held {
  const margins = allSteps(marginSteps(design, flight))
  return asides ? allSteps(margins.asides()) : margins
}

/** Of the two kinds of fin that mirrored bays make, the one that reaches flutter first. */
export function* marginSteps(design: CanDesign, flight: Flown): Steps<Margins> {
  const skins = curedPlies(design)
  if (!design.layup.mirrorAlternateBays) return yield* finSteps(design, skins, { flight, opposite: false })
  const one = allSteps(finSteps(design, skins, { flight, opposite: false }))
  yield { parts: {}, next: 'The other kind of fin' }
  const other = allSteps(finSteps(design, skins, { flight, opposite: true }))
  const worse = other.least < one.least ? other : one
  yield { parts: partsOf(worse), next: '' }
  return worse
}

const partsOf = ({ value: { fin, structure, flutter, strength } }: Held): AssessmentParts => ({
  ...{ fin, structure, flutter, strength },
})

interface WhichFin {
  readonly flight: Flown
  readonly opposite: boolean
}

function* finSteps(design: CanDesign, skins: readonly SkinPly[], { flight, opposite }: WhichFin): Steps<Margins> {
  const { tube, loads } = design
  const plate = finPlate(design, skins, { opposite })
  const air = keptAir(finPolygon(design.fins.outline))
  const root = finRoot(design, plate)
  const heat = flight.history === null ? null : heatSection(design, plate, flight.history)
  const fins = heldFins(design, plate, root.value)
  const fin = finSection(design, plate)
  yield { parts: { fin, flight: flightSection(design, flight, heat?.value ?? null).value }, next: 'Modes of the fin' }
  const held = fins.fin(root.value.hold === null ? 'clamped' : 'likely')
  const form = finForm(design.fins.outline.points, tube.outerRadius)
  const structure = structureSection({
    ...{ model: plate.model, modes: fins.modes('clamped'), outline: plate.outline },
    load: { at: tipMiddle(design.fins.outline), force: loads.tipLoad, rootSegment: plate.rootSegment },
    sectionAt: ({ x, y }) => plateSection(plate.at(x, y).laminate),
  })
  yield { parts: {}, next: 'Strength, ply by ply' }
  const strength = strengthSection(design, { plate, held, air, flight })
  const loaded = { root: root.value, reactions: strength.reactions }
  const joint = jointResult(design, { ...loaded, searchRadius: false })
  const strengthPart = { ...strength.value, rootLine: joint.line }
  const bond = { fillet: filletFigures(design), ...joint.value }
  yield { parts: { strength: strengthPart, bond }, next: '' }
  const cold = (): number => 1
  const warmth = { resinFactor: heat?.resinFactor ?? cold, otherResinFactor: heat?.otherResinFactor ?? cold }
  const inFlight = { plate, root: root.value, fins, air, flight, ...warmth }
  const flutter = yield* finFlutter(design, inFlight)
  const thickness = plate.at(form.centroidChord, form.centroidSpan).laminate.h
  const screening = screeningResult({ model: plate.model, form, thickness }, airPoints(flight))
  const margin = { ...flutter.answer.value, screening }
  const whole = { ...structure.value, root: rootFigures(root.value, fins, flutter.hold) }
  yield { parts: { structure: whole, flutter: margin }, next: '' }
  const heldWith = ({ beside, drivers }: FlutterAsides, joint: JointResult): Held => ({
    value: {
      ...{ fin, structure: whole, flutter: { ...margin, beside, drivers }, strength: strengthPart },
      ...joint.value,
    },
    warnings: [
      ...root.warnings,
      ...(heat?.warnings ?? []),
      ...structure.warnings,
      ...flutter.answer.warnings,
      ...heldOtherwise(flutter.answer.value.margin, beside),
      ...strength.warnings,
      ...joint.warnings,
    ],
    heat: heat?.value ?? null,
    least: flutter.answer.least?.ratio ?? Number.POSITIVE_INFINITY,
  })
  return {
    ...heldWith({ beside: [], drivers: [] }, joint),
    *asides() {
      const sufficient = jointResult(design, { ...loaded, searchRadius: true })
      return heldWith(yield* flutterAsides(design, inFlight, flutter), sufficient)
    },
  }
}

/** The worst way of holding is chosen once, cold; another may come out below it where the margin is least. */
function heldOtherwise(
  { speedRatio, requiredRatio }: FlutterSection['margin'],
  beside: FlutterSection['beside'],
): Issue[] {
  const below = beside.filter(
    ({ assumption, speedRatio: other }) =>
      assumption.startsWith('root held') && other !== null && other < requiredRatio,
  )
  if (speedRatio === null || speedRatio < requiredRatio || below.length === 0) return []
  const [{ assumption, speedRatio: other }] = below
  return [
    {
      code: 'flutter/held-otherwise',
      path: 'flutter.beside',
      value: other,
      message: `The fin holds as its root is taken to be held; ${assumption} it would reach ${(other ?? 0).toFixed(2)} of the flight speed, below the ${requiredRatio} asked for.`,
      hint: 'How a tube holds a fin is the least certain part of the answer: stiffen the fin until every way of holding it is enough.',
    },
  ]
}
