/** What every sheet is made from, and what every sheet hands back. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import type { Figures } from './layout/figures.ts'
import type { Identity, Paper } from './layout/paper.ts'

export interface SheetInput {
  readonly assessment: Assessment
  readonly design: CanDesign
  readonly identity: Identity
  readonly paper: Paper
  readonly figures: Figures
}
