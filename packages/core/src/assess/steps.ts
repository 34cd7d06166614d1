/**
 * An assessment made in steps: sections are told as soon as they are known, and whoever asked may stop between two steps by asking
 * for no more. The last step's value is the whole answer, the same as when nobody looks on.
 */
import type {
  Assessment,
  BondSection,
  FinSection,
  FlightSection,
  FlutterSection,
  PatternSection,
  ResinSection,
  StrengthSection,
  StructureSection,
} from './assessment.ts'
import type { NestSection } from './nest-section.ts'

export interface AssessmentParts {
  readonly flight?: FlightSection
  readonly fin?: FinSection
  readonly structure?: StructureSection
  /** What stands beside the margin comes with the whole answer. */
  readonly flutter?: Omit<FlutterSection, 'beside' | 'drivers'>
  readonly strength?: StrengthSection
  /** The radius that would be enough comes with the whole answer. */
  readonly bond?: BondSection
  readonly pattern?: PatternSection
  readonly nest?: NestSection
  readonly resin?: ResinSection
  readonly sources?: Assessment['sources']
}

/** Parts that became known in a step, and what comes next, in words. */
export interface Step {
  readonly parts: AssessmentParts
  readonly next: string
}

/** `R` is what it comes to in the end. */
export type Steps<R> = Generator<Step, R, void>

/** All steps at once. */
export function allSteps<R>(steps: Steps<R>): R {
  let step = steps.next()
  while (!step.done) step = steps.next()
  return step.value
}
