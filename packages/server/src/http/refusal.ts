/** How a request is refused: a status and issues, in the one shape, never a page of HTML. */
import type { Issue } from '@finwright/core/issue.ts'
import type { Conflict } from '@finwright/plan/protocol/rebase.ts'
import type { Refused } from '@finwright/plan/protocol/wire.ts'

/** Thrown by handlers; what was asked for has not been done. */
export class Refusal extends Error {
  readonly status: number
  readonly issues: readonly Issue[]
  readonly conflict: Conflict | undefined
  constructor(status: number, issues: readonly Issue[], conflict?: Conflict) {
    super(issues.map(({ message }) => message).join('\n'))
    this.status = status
    this.issues = issues
    this.conflict = conflict
  }
}

/** A value that is not there reads null, so that every issue has the same five keys. */
export function refusedBody({ issues, conflict }: Refusal): Refused {
  const told = issues.map(({ code, path, value, message, hint }) => ({
    code,
    path,
    value: value ?? null,
    message,
    hint,
  }))
  return conflict === undefined ? { issues: told } : { issues: told, conflict }
}

export const notFound = (what: string, value: string, hint: string): Refusal =>
  new Refusal(404, [
    {
      code: 'server/not-found',
      path: '',
      value: value.slice(0, 80),
      message: `There is no ${what} '${value.slice(0, 80)}'.`,
      hint,
    },
  ])
