/** Copies of a plan with one place changed: the rest is shared, nothing is changed in place. */
import type { Path } from '../schema/locate.ts'
import { isObject, type Json } from './record.ts'

/** Why a place cannot be written: the path up to where it stops leading anywhere. */
export interface NoPlace {
  readonly ok: false
  readonly at: Path
}

export type Placed = { readonly ok: true; readonly value: Json } | NoPlace

/** With the value there; objects on the way that are missing are made, places in lists must exist. */
export const withValue = (root: Json | undefined, path: Path, value: Json): Placed => placed(root, path, () => value)

/** Without the name at the end of the path. A place in a list is no name: lists have commands of their own. */
export function withoutValue(root: Json, path: Path): Placed {
  const name = path.at(-1)
  if (typeof name !== 'string') return { ok: false, at: path }
  return placed(root, path.slice(0, -1), (owner) => {
    if (!isObject(owner)) return undefined
    return Object.fromEntries(Object.entries(owner).filter(([key]) => key !== name))
  })
}

/** With the list there changed. */
export const withList = (root: Json, path: Path, change: (list: readonly Json[]) => readonly Json[]): Placed =>
  placed(root, path, (list) => (Array.isArray(list) ? change(list) : undefined))

type Make = (before: Json | undefined) => Json | undefined

function placed(root: Json | undefined, path: Path, make: Make, depth = 0): Placed {
  if (depth === path.length) {
    const value = make(root)
    return value === undefined ? { ok: false, at: path } : { ok: true, value }
  }
  const key = path[depth]!
  const inner = placed(entry(root, key), path, make, depth + 1)
  if (!inner.ok) return inner
  if (typeof key === 'number') {
    if (!Array.isArray(root) || !(key >= 0 && key < root.length)) return { ok: false, at: path.slice(0, depth + 1) }
    return { ok: true, value: root.map((one: Json, i) => (i === key ? inner.value : one)) }
  }
  if (root !== undefined && !isObject(root)) return { ok: false, at: path.slice(0, depth + 1) }
  const owner = Object.entries(root ?? {})
  const rest = owner.some(([name]) => name === key)
    ? owner.map(([name, value]) => [name, name === key ? inner.value : value] as const)
    : [...owner, [key, inner.value] as const]
  return { ok: true, value: Object.fromEntries(rest) }
}

function entry(value: Json | undefined, key: string | number): Json | undefined {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
  return (value as { readonly [name: string | number]: Json })[key]
}
