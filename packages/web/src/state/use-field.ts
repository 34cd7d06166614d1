/** One field of the plan: what was typed, what holds where nothing was, and what is wrong with it. */
import type { Issue } from '@finwright/core/issue.ts'
import { type Path, pathText, valueAt } from '@finwright/plan/schema/locate.ts'
import { useFaults, useReadPlan, useTyped } from './use.ts'

export interface FieldState {
  readonly typed: unknown
  /** What holds where nothing was typed. */
  readonly standing: { readonly value: unknown; readonly source: string } | null
  /** What the plan reader says of it as it stands in the plan. */
  readonly issues: readonly Issue[]
}

export function useField(path: Path): FieldState {
  const typed = useTyped(path)
  const read = useReadPlan()
  const faults = useFaults()
  const name = pathText(path)
  const filled = read?.defaulted.find((one) => one.path === name)
  const value = filled?.value ?? valueAt(read?.complete, path)
  const standing = typed === undefined && value !== undefined ? { value, source: filled?.source ?? '' } : null
  return { typed, standing, issues: faults.filter((issue) => issue.path === name) }
}
