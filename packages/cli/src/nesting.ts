/** The effort that nesting may take, as an option of a command, and how it gets on. */
import { type NestEffort, type Nesting, nestingBudgets } from '@finwright/core/assess/nest-section.ts'
import type { NestProgress } from '@finwright/core/nest/search-nest.ts'
import { Option } from 'commander'
import type { Progress } from './progress.ts'

export const nestingOption = (usual: NestEffort): Option =>
  new Option('--nesting <effort>', 'quick fills the cloth; thorough goes on for seconds to save more of it')
    .choices(Object.keys(nestingBudgets))
    .default(usual)

/** Said at the start and after every share of the search as large. */
const saidEvery = 0.25

export function nestingOf(effort: NestEffort, { step }: Progress): Nesting {
  let first: NestProgress | null = null
  let said = 0
  const onRound = (progress: NestProgress): void => {
    first ??= progress
    if (progress.spent < said) return
    said = (Math.floor(progress.spent / saidEvery) + 1) * saidEvery
    const percent = (100 * progress.spent).toFixed(0)
    step(first === progress ? 'Nesting' : `Nesting: ${percent} % searched, ${savedText(progress, first)}`)
  }
  return { budget: nestingBudgets[effort], watch: { onRound } }
}

function savedText({ usedArea, buyLength }: NestProgress, first: NestProgress): string {
  const less = (now: number, before: number): string => `${(100 * (1 - now / before)).toFixed(1)} % less`
  if (buyLength < first.buyLength) return `${less(buyLength, first.buyLength)} to buy than at first`
  return `${less(usedArea, first.usedArea)} cloth than at first`
}
