/** What the summary answers to `Will it hold?`: the same words on every sheet. */
import { answersIn } from '../answers.ts'
import type { SheetInput } from '../sheet.ts'

export function holdAnswer({ assessment, figures }: Pick<SheetInput, 'assessment' | 'figures'>): string {
  return answersIn(assessment, figures.units).find(({ question }) => question === 'Will it hold?')?.answer ?? ''
}
