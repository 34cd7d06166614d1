/** How a command ends: exit code 0 when it did its work, 2 for what the user can mend, 1 for a fault of ours. */
import type { Issue } from '@finwright/core/issue.ts'

export const exitCode = { done: 0, fault: 1, mend: 2 } as const

/** Thrown by a command when the user has to mend something; nothing has been written then. */
export class Refusal extends Error {
  readonly issues: readonly Issue[]
  constructor(issues: readonly Issue[]) {
    super(issues.map(({ message }) => message).join('\n'))
    this.issues = issues
  }
}

/** The issues as a person reads them: where, what, and the way out. */
export function issuesAsText(issues: readonly Issue[]): string {
  return issues
    .map(
      ({ path, message, hint }) =>
        `  ${path === '' ? '' : `${path}: `}${message}\n${hint === '' ? '' : `      ${hint}\n`}`,
    )
    .join('')
}

/** A value that is not there reads null, so that every issue has the same five keys. */
export function issuesAsJson(issues: readonly Issue[]): string {
  return `${JSON.stringify(issues, (_, value) => value ?? null, 2)}\n`
}
