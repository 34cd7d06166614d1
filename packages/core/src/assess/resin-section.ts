import type { Patterns } from '../pattern/patterns.ts'
import type { ResinSection } from './assessment.ts'
import type { CanDesign } from './design.ts'
import type { Section } from './flown.ts'
import { notComputed } from './not-computed.ts'
export function canResin(_d: CanDesign, _p: Patterns): Section<ResinSection> {
  return { value: notComputed.noCan.resin, warnings: [] }
}
