/**
 * Will it hold? Fin, structure, flutter, strength and root joint along the flight.
 *
 * Fins differ where alternate bays are mirrored; both kinds are computed and the one that does worse is reported.
 */
import { finForm } from '../air/fin-form.ts'
import { finPolygon, tipMiddle } from '../geometry/fin-outline.ts'
import type { Assessment, BondSection } from './assessment.ts'
import { jointResult } from './bond-section.ts'
import type { CanDesign } from './design.ts'
import { keptAir } from './fin-air.ts'
import { finPlate, plateSection } from './fin-plate.ts'
import { finRoot } from './fin-root.ts'
import { finSection } from './fin-section.ts'
import type { Flown, Section } from './flown.ts'
import { airPoints, flutterResult, screeningResult } from './flutter-section.ts'
import { type HeatSection, heatSection } from './heat-section.ts'
import { heldFin } from './held-fin.ts'
import type { SkinPly } from './skins.ts'
import { strengthSection } from './strength-section.ts'
import { solvedModes, structureSection } from './structure-section.ts'

type Answer = Pick<Assessment, 'fin' | 'structure' | 'flutter' | 'strength'> & Pick<BondSection, 'margin' | 'joint'>

export interface Held extends Section<Answer> {
  readonly heat: HeatSection
  /** Least flutter speed ratio wherever it could be computed; infinite where nowhere. */
  readonly least: number
}

export function willItHold(design: CanDesign, skins: readonly SkinPly[], flight: Flown): Held {
  const one = finHolds(design, skins, { flight, opposite: false })
  if (!design.layup.mirrorAlternateBays) return one
  const other = finHolds(design, skins, { flight, opposite: true })
  return other.least < one.least ? other : one
}

interface WhichFin {
  readonly flight: Flown
  readonly opposite: boolean
}

function finHolds(design: CanDesign, skins: readonly SkinPly[], { flight, opposite }: WhichFin): Held {
  const { fins, tube, loads } = design
  const plate = finPlate(design, skins, { opposite })
  const air = keptAir(finPolygon(fins.outline))
  const root = finRoot(design, plate)
  const heat = flight.history === null ? null : heatSection(design, plate, flight.history)
  const clamped = solvedModes(plate.model)
  const hold = root.value.hold
  const grip = { plate, skins, section: root.value.section.section }
  const likely = hold === null ? null : heldFin(design, { ...grip, spring: hold.likely.spring })
  const bare = { model: plate.model, laminateAt: (x: number, y: number) => plate.at(x, y).laminate }
  const form = finForm(fins.outline.points, tube.outerRadius)
  const structure = structureSection({
    ...{ model: plate.model, modes: clamped, outline: plate.outline },
    load: { at: tipMiddle(fins.outline), force: loads.tipLoad, rootSegment: plate.rootSegment },
    sectionAt: ({ x, y }) => plateSection(plate.at(x, y).laminate),
  })
  const points = airPoints(flight)
  const flutter = flutterResult({
    model: plate.model,
    modes: clamped,
    omegas: clamped.omega,
    structuralDamping: loads.structuralDamping,
    points,
    air: { flowDirection: 0, order: 2, faces: 2, aerodynamicDamping: true },
    thicknessAt: (x, y) => plate.at(x, y).laminate.h,
  })
  const thickness = plate.at(form.centroidChord, form.centroidSpan).laminate.h
  const strength = strengthSection(design, { plate, held: likely ?? bare, air, flight })
  const {
    value: joint,
    line,
    warnings: ofJoint,
  } = jointResult(design, { root: root.value, reactions: strength.reactions })
  return {
    value: {
      fin: finSection(design, skins, plate),
      structure: structure.value,
      flutter: { ...flutter.value, screening: screeningResult({ model: plate.model, form, thickness }, points) },
      strength: { ...strength.value, rootLine: line },
      ...joint,
    },
    warnings: [
      ...root.warnings,
      ...(heat?.warnings ?? []),
      ...structure.warnings,
      ...flutter.warnings,
      ...strength.warnings,
      ...ofJoint,
    ],
    heat: heat?.value ?? null,
    least: flutter.least,
  }
}
