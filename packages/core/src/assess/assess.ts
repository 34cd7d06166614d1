/**
 * The whole: a design in, an assessment out, or every reason why the geometry or the flight cannot be made.
 *
 * Pure and deterministic: the same design gives the same object, number for number.
 */
import type { Checked } from '../issue.ts'
import type { Assessment } from './assessment.ts'
import { assessCan } from './can.ts'
import type { Design } from './design.ts'
import { assessStudy } from './study.ts'

export function assess(design: Design): Checked<Assessment> {
  return design.kind === 'can' ? assessCan(design) : assessStudy(design)
}
