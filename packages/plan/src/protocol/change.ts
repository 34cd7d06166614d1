/**
 * What a revision changed, told by place: a value, or the order of a list. A later command made on an older revision is
 * carried over these, so that two windows may work on one plan.
 *
 * An order says for each place of the new list where its entry came from; null is an entry that was not there before. The
 * old list's length is kept, so that an order can be undone: [1, 0] swaps two, [0, null, 1] puts one between, [0] of two
 * takes the last away.
 */
import type { Path } from '../schema/locate.ts'

export type Change =
  | { readonly kind: 'value'; readonly path: Path }
  | { readonly kind: 'file'; readonly name: string }
  | {
      readonly kind: 'order'
      readonly path: Path
      readonly before: number
      readonly from: readonly (number | null)[]
    }

export type OrderChange = Extract<Change, { kind: 'order' }>

export const inserted = (path: Path, before: number, at: number): OrderChange => ({
  kind: 'order',
  path,
  before,
  from: [...places(0, at), null, ...places(at, before)],
})

export const removed = (path: Path, before: number, at: number): OrderChange => ({
  kind: 'order',
  path,
  before,
  from: places(0, before).filter((i) => i !== at),
})

export function moved(path: Path, before: number, from: number, to: number): OrderChange {
  const rest = places(0, before).filter((i) => i !== from)
  return { kind: 'order', path, before, from: [...rest.slice(0, to), from, ...rest.slice(to)] }
}

const places = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i)

/** The changes that undo these. */
export const inverse = (changes: readonly Change[]): readonly Change[] => [...changes].reverse().map(undoing)

function undoing(change: Change): Change {
  if (change.kind !== 'order') return change
  const { path, before, from } = change
  const back = places(0, before).map((i) => {
    const place = from.indexOf(i)
    return place < 0 ? null : place
  })
  return { kind: 'order', path, before: from.length, from: back }
}

/** Where a place is after a change of order; null where it was taken away. */
export function carried(path: Path, change: Change): Path | null {
  if (change.kind !== 'order' || path.length <= change.path.length || !within(path, change.path)) return path
  const at = path[change.path.length]
  if (typeof at !== 'number') return path
  const place = change.from.indexOf(at)
  return place < 0 ? null : [...change.path, place, ...path.slice(change.path.length + 1)]
}

/** A change as it reads after another one; null where that took its place away. */
export function carriedChange(change: Change, over: Change): Change | null {
  if (change.kind === 'file') return change
  const path = carried(change.path, over)
  return path === null ? null : { ...change, path }
}

/** Whether a place is another or lies in it. */
export const within = (path: Path, outer: Path): boolean =>
  outer.length <= path.length && outer.every((part, i) => part === path[i])

export const overlapping = (a: Path, b: Path): boolean => within(a, b) || within(b, a)
