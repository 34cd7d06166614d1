/** A fin can assessed: every question in turn, each by its own section. */
import { finForm } from '../air/fin-form.ts'
import { tipMiddle } from '../geometry/fin-outline.ts'
import type { Checked } from '../issue.ts'
import type { Assessment } from './assessment.ts'
import { bondSection } from './bond-section.ts'
import { canNest, canPatterns, nestSection, patternSection } from './can-patterns.ts'
import type { CanDesign } from './design.ts'
import { type FinPlate, finPlate } from './fin-plate.ts'
import { finSection } from './fin-section.ts'
import { type Flown, flightSection, flown, type Section } from './flown.ts'
import { airPoints, flutterResult, screeningResult } from './flutter-section.ts'
import { heatSection } from './heat-section.ts'
import { notComputed } from './not-computed.ts'
import { canResin } from './resin-section.ts'
import { type SkinPly, skinPlies } from './skins.ts'
import { canSources } from './sources.ts'
import { strengthSection } from './strength-section.ts'
import { solvedModes, structureSection } from './structure-section.ts'

export function assessCan(design: CanDesign): Checked<Assessment> {
  const skins = skinPlies(design)
  const flight = flown(design.flight)
  const patterns = canPatterns(design, skins)
  const issues = [...(flight.ok ? [] : flight.issues), ...(patterns.ok ? [] : patterns.issues)]
  if (!flight.ok || !patterns.ok) return { ok: false, issues }
  const nest = canNest(design, patterns.value)
  if (!nest.ok) return nest
  const resin = canResin(design, patterns.value)
  const bond = bondSection(design)
  const held = holds(design, skins, flight.value)
  const { history } = flight.value
  const heat = history === null ? null : heatSection(design, held.plate, history)
  const seen = flightSection(design, flight.value, heat?.value ?? null)
  const warnings = [
    ...flight.warnings,
    ...seen.warnings,
    ...(heat?.warnings ?? []),
    ...held.warnings,
    ...bond.warnings,
    ...patterns.warnings,
    ...patterns.value.rules,
    ...nest.warnings,
    ...resin.warnings,
    ...notComputed.roll,
  ]
  const value: Assessment = {
    format: 'finwright/assessment',
    version: 1,
    kind: 'can',
    name: design.name,
    note: design.note,
    flight: seen.value,
    ...held.value,
    bond: bond.value,
    roll: notComputed.rollSection,
    pattern: patternSection(patterns.value),
    nest: nestSection(nest.value),
    resin: resin.value,
    sources: canSources(design),
    warnings,
  }
  return { ok: true, value, warnings }
}

interface HeldFin extends Section<Pick<Assessment, 'fin' | 'structure' | 'flutter' | 'strength'>> {
  readonly plate: FinPlate
  /** Least flutter speed ratio wherever it could be computed. */
  readonly least: number
}

/** Fin, structure, flutter and strength of the fin that does worst: fins differ where alternate bays are mirrored. */
function holds(design: CanDesign, skins: readonly SkinPly[], flight: Flown): HeldFin {
  const one = holdsFin(design, skins, { flight, opposite: false })
  if (!design.layup.mirrorAlternateBays) return one
  const other = holdsFin(design, skins, { flight, opposite: true })
  return other.least < one.least ? other : one
}

function holdsFin(
  design: CanDesign,
  skins: readonly SkinPly[],
  { flight, opposite }: { readonly flight: Flown; readonly opposite: boolean },
): HeldFin {
  const { fins, tube, loads } = design
  const plate = finPlate(design, skins, { opposite })
  const { model, at } = plate
  const form = finForm(fins.outline.points, tube.outerRadius)
  const modes = solvedModes(model)
  const fin = finSection(design, skins, plate)
  const structure = structureSection(model, modes, {
    at: tipMiddle(fins.outline),
    force: loads.tipLoad,
    rootSegment: plate.rootSegment,
  })
  const points = airPoints(flight)
  const flutter = flutterResult({
    model,
    modes,
    omegas: modes.omega,
    structuralDamping: loads.structuralDamping,
    points,
    air: { flowDirection: 0, order: 2, faces: 2, aerodynamicDamping: true },
    thicknessAt: (x, y) => at(x, y).laminate.h,
  })
  const thickness = at(form.centroidChord, form.centroidSpan).laminate.h
  const strength = strengthSection({
    model,
    laminateAt: (x, y) => at(x, y).laminate,
    form,
    flight,
    angleOfAttack: loads.angleOfAttack ?? 0,
  })
  return {
    value: {
      fin,
      structure: structure.value,
      flutter: { ...flutter.value, screening: screeningResult({ model, form, thickness }, points) },
      strength: strength.value,
    },
    warnings: [...structure.warnings, ...flutter.warnings, ...strength.warnings],
    plate,
    least: flutter.least,
  }
}
