/**
 * The whole: a design in, an assessment out, or every reason why the geometry or the flight cannot be made.
 *
 * Pure and deterministic: the same design and effort give the same object, number for number.
 */
import type { Checked } from '../issue.ts'
import type { Assessment } from './assessment.ts'
import { assessCan } from './can.ts'
import type { Design } from './design.ts'
import type { Nesting } from './nest-section.ts'
import { assessStudy } from './study.ts'

export interface AssessOptions {
  /** How a nest is looked for; filled only when left out. */
  readonly nesting?: Nesting
}

export function assess(design: Design, { nesting }: AssessOptions = {}): Checked<Assessment> {
  return design.kind === 'can' ? assessCan(design, nesting) : assessStudy(design)
}
