/** One field of the plan: what was typed, what holds where nothing was, and what is wrong with it. */
import type { Issue } from '@finwright/core/issue.ts'
import type { Answers } from '@finwright/plan/protocol/work.ts'
import { type Path, pathText, valueAt } from '@finwright/plan/schema/locate.ts'
import { useSelected, useSession, useTyped } from './use.ts'

export interface FieldState {
  readonly typed: unknown
  /** What holds where nothing was typed. */
  readonly standing: { readonly value: unknown; readonly source: string } | null
  /** What the plan reader says of it as it stands in the plan. */
  readonly issues: readonly Issue[]
}

export function useField(path: Path): FieldState {
  const typed = useTyped(path)
  const { answers } = useSession()
  const document = useSelected(answers, (state) => state.document)
  const faults = useSelected(answers, faultsOf)
  const name = pathText(path)
  const filled = document?.value.defaulted.find((one) => one.path === name)
  const value = filled?.value ?? valueAt(document?.value.complete, path)
  const standing = typed === undefined && value !== undefined ? { value, source: filled?.source ?? '' } : null
  return { typed, standing, issues: faults.filter((issue) => issue.path === name) }
}

const noFaults: readonly Issue[] = []

/** Of the present plan. */
const faultsOf = ({ issues, key }: Answers): readonly Issue[] => (issues?.key === key ? issues.value : noFaults)
