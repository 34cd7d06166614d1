/**
 * The design while some of it may still be missing: every part may be undefined, so that one wrong field does not hide
 * what can be said about the others. Materials are whole or missing.
 */
import type { Issue } from '@finwright/core/issue.ts'

interface Material {
  readonly id: string
  readonly name: string
}

export type Loose<T> = T extends Material | string | number | boolean | null | undefined
  ? T
  : T extends readonly [infer A, infer B]
    ? readonly [Loose<A> | undefined, Loose<B> | undefined]
    : T extends readonly (infer U)[]
      ? readonly (Loose<U> | undefined)[]
      : { readonly [K in keyof T]: Loose<T[K]> | undefined }

/** Where the resolvers say what they found wrong. */
export type Report = (issue: Issue) => void

/** What an attachment holds, or why it cannot be had. */
export type ReadAttachment = (
  name: string,
) => { readonly ok: true; readonly text: string } | { readonly ok: false; readonly reason: string }

/** The list, when it is one whose every entry is known. */
export function allKnown<T>(list: readonly (T | undefined)[] | undefined): readonly T[] | undefined {
  return list?.every((entry) => entry !== undefined) ? (list as readonly T[]) : undefined
}

/** A list, or undefined for whatever else stands in its place. */
export const listOf = <T>(value: readonly T[] | undefined): readonly T[] | undefined =>
  Array.isArray(value) ? value : undefined

/** The first place in a finished design that is still undefined or no number, or null. */
export function gapIn(value: unknown, path = ''): string | null {
  if (value === undefined || (typeof value === 'number' && Number.isNaN(value))) return path
  if (typeof value !== 'object' || value === null) return null
  for (const [key, part] of Object.entries(value)) {
    const gap = gapIn(part, `${path}/${key}`)
    if (gap !== null) return gap
  }
  return null
}
