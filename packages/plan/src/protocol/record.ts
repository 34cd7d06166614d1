/**
 * What the app works on and the server keeps: a plan file as typed, with the files it names; or the shelf, the stock that
 * all plans share. Everything here is plain JSON and never changed in place.
 */
import { z } from 'zod'

export type Json = null | boolean | number | string | readonly Json[] | JsonObject
export interface JsonObject {
  readonly [name: string]: Json
}

/** A file beside the plan, told by what it holds: the bytes are kept once, under their SHA-256. */
export interface FileReference {
  /** 64 hexadecimal digits. */
  readonly sha256: string
  /** Bytes. */
  readonly size: number
}

export type RecordKind = 'plan' | 'shelf'

export interface PlanRecord {
  readonly kind: RecordKind
  /** Of a shelf: `{ "stock": … }`, the plan file's own section and nothing else. */
  readonly plan: JsonObject
  readonly files: { readonly [name: string]: FileReference }
}

export const emptyShelf: PlanRecord = { kind: 'shelf', plan: { stock: {} }, files: {} }

/** A place in the plan: names and places in lists, `['plies', 2, 'angle']`. */
export const placeShape = z.array(z.union([z.string().max(200), z.int().min(0).max(100_000)])).max(40)

/** Nested deeper than this no plan is; the reader of plan files stops at the same depth. */
export const deepest = 40

/** Whether lists and objects nest no deeper than a plan may; counts without recursion, so that no depth breaks it. */
export function shallowEnough(value: unknown): boolean {
  let level: unknown[] = [value]
  for (let depth = 0; depth <= deepest + 1; depth += 1) {
    level = level.flatMap((one) => (typeof one === 'object' && one !== null ? Object.values(one) : []))
    if (level.length === 0) return true
  }
  return false
}

export const jsonShape = z.custom<Json>((value) => value !== undefined && shallowEnough(value), 'not JSON, or too deep')

export const objectShape = z.custom<JsonObject>(
  (value) => typeof value === 'object' && value !== null && !Array.isArray(value) && shallowEnough(value),
  'not an object, or too deep',
)

export const isObject = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Same names and values, in whatever order the names stand. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (a === b) return true
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false
  if (Array.isArray(a) !== Array.isArray(b)) return false
  const [keys, others] = [Object.keys(a), Object.keys(b)]
  const at = (value: object, key: string): unknown => (value as Record<string, unknown>)[key]
  return keys.length === others.length && keys.every((key) => Object.hasOwn(b, key) && sameJson(at(a, key), at(b, key)))
}
