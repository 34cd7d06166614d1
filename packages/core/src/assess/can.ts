/** A fin can assessed: every question in turn, each by its own section. */
import type { Checked } from '../issue.ts'
import type { Assessment } from './assessment.ts'
import { filletFigures } from './bond-section.ts'
import { canPatterns, patternInput, patternSection } from './can-patterns.ts'
import type { CanDesign } from './design.ts'
import { flightSection, flown } from './flown.ts'
import { marginSteps } from './hold.ts'
import { canNest, type Nesting } from './nest-section.ts'
import { notComputed } from './not-computed.ts'
import { canResin } from './resin-section.ts'
import { shearSection } from './shear-section.ts'
import { curedPlies } from './skins.ts'
import { canSources } from './sources.ts'
import type { Steps } from './steps.ts'

export function* canSteps(design: CanDesign, nesting?: Nesting): Steps<Checked<Assessment>> {
  const skins = curedPlies(design)
  const flight = flown(design.flight)
  const patterns = canPatterns(design, skins)
  const issues = [...(flight.ok ? [] : flight.issues), ...(patterns.ok ? [] : patterns.issues)]
  if (!flight.ok || !patterns.ok) return { ok: false, issues }
  const resin = canResin(design, patterns.value)
  const sources = canSources(design)
  yield { parts: { resin: resin.value, sources }, next: 'Cutting the fin into elements' }
  const margins = yield* marginSteps(design, flight.value)
  yield { parts: {}, next: 'Shear of every ply' }
  const sheared = shearSection(design, patternInput(design, skins), patterns.value)
  const pattern = patternSection(patterns.value, sheared)
  yield { parts: { pattern }, next: 'Nesting the pieces on the cloth' }
  const nest = canNest(design, patterns.value, nesting)
  if (!nest.ok) return nest
  yield { parts: { nest: nest.value }, next: 'What moves the margin' }
  const held = yield* margins.asides()
  const { fin, structure, flutter, strength, margin, joint } = held.value
  const seen = flightSection(design, flight.value, held.heat)
  const warnings = [
    ...flight.warnings,
    ...seen.warnings,
    ...held.warnings,
    ...patterns.warnings,
    ...patterns.value.rules,
    ...sheared.issues,
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
    ...{ fin, structure, flutter, strength },
    bond: { fillet: filletFigures(design), margin, joint },
    roll: notComputed.rollSection,
    pattern,
    nest: nest.value,
    resin: resin.value,
    sources,
    warnings,
  }
  return { ok: true, value, warnings }
}
