/**
 * The whole: a design in, an assessment out, or every reason why the geometry or the flight cannot be made.
 *
 * Pure and deterministic: the same design and effort give the same object, number for number.
 */
import type { Checked } from '../issue.ts'
import type { Assessment } from './assessment.ts'
import { canSteps } from './can.ts'
import type { Design } from './design.ts'
import type { Nesting } from './nest-section.ts'
import { allSteps, type Steps } from './steps.ts'
import { assessStudy } from './study.ts'

export interface AssessOptions {
  /** How a nest is looked for; filled only when left out. */
  readonly nesting?: Nesting
}

export const assess = (design: Design, options: AssessOptions = {}): Checked<Assessment> =>
  allSteps(assessSteps(design, options))

/** The same answer, its sections told one after the other: what is quick first. A study has one step. */
export function* assessSteps(design: Design, { nesting }: AssessOptions = {}): Steps<Checked<Assessment>> {
  return design.kind === 'can' ? yield* canSteps(design, nesting) : assessStudy(design)
}
