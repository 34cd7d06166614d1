/**
 * Will it hold? Fin, structure, flutter, strength and root joint along the flight.
 *
 * Fins differ where alternate bays are mirrored; both kinds are computed and the one that does worse is reported.
 */
import { finForm } from '../air/fin-form.ts'
import { finPolygon, tipMiddle } from '../geometry/fin-outline.ts'
import type { Issue } from '../issue.ts'
import type { Assessment, BondSection, FlutterSection } from './assessment.ts'
import { jointResult } from './bond-section.ts'
import type { CanDesign } from './design.ts'
import { keptAir } from './fin-air.ts'
import { finFlutter, flutterAsides } from './fin-flutter.ts'
import { finPlate, plateSection } from './fin-plate.ts'
import { finRoot } from './fin-root.ts'
import { finSection } from './fin-section.ts'
import type { Flown, Section } from './flown.ts'
import { airPoints, screeningResult } from './flutter-section.ts'
import { type HeatSection, heatSection } from './heat-section.ts'
import { heldFins } from './held-fin.ts'
import { type SkinPly, skinPlies } from './skins.ts'
import { strengthSection } from './strength-section.ts'
import { rootFigures, structureSection } from './structure-section.ts'

type Answer = Pick<Assessment, 'fin' | 'structure' | 'flutter' | 'strength'> & Pick<BondSection, 'margin' | 'joint'>

export interface Held extends Section<Answer> {
  readonly heat: HeatSection
  /** Least flutter speed ratio wherever it could be computed; infinite where nowhere. */
  readonly least: number
}

/** `asides: false` leaves out what stands beside the flutter margin and the fillet radius that would be enough, which take longer than the answer itself. */
export function willItHold(design: CanDesign, flight: Flown, { asides = true } = {}): Held {
  const skins = skinPlies(design)
  const one = finHolds(design, skins, { flight, asides, opposite: false })
  if (!design.layup.mirrorAlternateBays) return one
  const other = finHolds(design, skins, { flight, asides, opposite: true })
  return other.least < one.least ? other : one
}

interface WhichFin {
  readonly flight: Flown
  readonly asides: boolean
  readonly opposite: boolean
}

function finHolds(design: CanDesign, skins: readonly SkinPly[], { flight, asides, opposite }: WhichFin): Held {
  const { tube, loads } = design
  const plate = finPlate(design, skins, { opposite })
  const air = keptAir(finPolygon(design.fins.outline))
  const root = finRoot(design, plate)
  const heat = flight.history === null ? null : heatSection(design, plate, flight.history)
  const fins = heldFins(design, plate, root.value)
  const held = fins.fin(root.value.hold === null ? 'clamped' : 'likely')
  const form = finForm(design.fins.outline.points, tube.outerRadius)
  const structure = structureSection({
    ...{ model: plate.model, modes: fins.modes('clamped'), outline: plate.outline },
    load: { at: tipMiddle(design.fins.outline), force: loads.tipLoad, rootSegment: plate.rootSegment },
    sectionAt: ({ x, y }) => plateSection(plate.at(x, y).laminate),
  })
  const cold = (): number => 1
  const warmth = { resinFactor: heat?.resinFactor ?? cold, otherResinFactor: heat?.otherResinFactor ?? cold }
  const inFlight = { plate, root: root.value, fins, air, flight, ...warmth }
  const flutter = finFlutter(design, inFlight)
  const beside = asides ? flutterAsides(design, inFlight, flutter) : { beside: [], drivers: [] }
  const thickness = plate.at(form.centroidChord, form.centroidSpan).laminate.h
  const screening = screeningResult({ model: plate.model, form, thickness }, airPoints(flight))
  const strength = strengthSection(design, { plate, held, air, flight })
  const joint = jointResult(design, { root: root.value, reactions: strength.reactions, searchRadius: asides })
  return {
    value: {
      fin: finSection(design, plate),
      structure: { ...structure.value, root: rootFigures(root.value, fins, flutter.hold) },
      flutter: { ...flutter.answer.value, ...beside, screening },
      strength: { ...strength.value, rootLine: joint.line },
      ...joint.value,
    },
    warnings: [
      ...root.warnings,
      ...(heat?.warnings ?? []),
      ...structure.warnings,
      ...flutter.answer.warnings,
      ...heldOtherwise(flutter.answer.value.margin, beside.beside),
      ...strength.warnings,
      ...joint.warnings,
    ],
    heat: heat?.value ?? null,
    least: flutter.answer.least?.ratio ?? Number.POSITIVE_INFINITY,
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
