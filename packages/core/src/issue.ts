/**
 * The one shape of every error and warning, in every package.
 *
 * `path` names the plan field (`fins.core.thickness`) or the assessment leaf (`flutter.margin`); `value` is what stood
 * there; `message` says what is wrong and what is allowed, in the user's words; `hint` says what to do next.
 */
export interface Issue {
  readonly code: string
  readonly path: string
  readonly value: unknown
  readonly message: string
  readonly hint: string
}

/** What an outcome of bad input is: all the issues at once, never the first only. */
export type Checked<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] }

/** A promise of our own code. Throws when broken: a fault of ours, never of the input. */
export function invariant(condition: boolean, message: string): asserts condition {
  if (!condition) throw new Error(`broken promise: ${message}`)
}
