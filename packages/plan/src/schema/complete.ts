/**
 * The complete plan: what was typed, with the defaults written in where nothing was said, and the list of those defaults
 * with their sources. A key that stands with `undefined` was at fault and keeps out its default.
 */
import type { Default, DerivedDefault } from './defaults.data.ts'
import { defaults, historyDefaults, mountingDefaults, studyDefaults, thrustDefaults } from './defaults.data.ts'
import { type Path, pathText, valueAt } from './locate.ts'

export interface Defaulted {
  readonly path: string
  readonly value: unknown
  readonly source: string
}

export interface Completed {
  readonly plan: unknown
  readonly defaulted: readonly Defaulted[]
}

export function withDefaults(plan: unknown): Completed {
  const complete: unknown = structuredClone(plan)
  const defaulted: Defaulted[] = []
  for (const rule of rulesFor(complete)) {
    for (const path of placesOf(rule.path.split(/\.|(?=\[\])/), complete)) fill(complete, path, rule, defaulted)
  }
  return { plan: complete, defaulted }
}

function rulesFor(plan: unknown): readonly (Default | DerivedDefault)[] {
  if (valueAt(plan, ['study']) !== undefined) return studyDefaults
  const kind = valueAt(plan, ['flight', 'kind'])
  const flight = kind === 'thrust' ? thrustDefaults : kind === 'history' ? historyDefaults : []
  const mounting = valueAt(plan, ['fins', 'mounting', 'kind']) === 'tabbed' ? mountingDefaults : []
  return [...defaults, ...flight, ...mounting]
}

/** Every place that a default's path stands for in this plan. */
function placesOf(parts: readonly string[], plan: unknown): readonly Path[] {
  let places: Path[] = [[]]
  for (const part of parts) {
    if (part !== '[]') places = places.map((place) => [...place, part])
    else places = places.flatMap((place) => indices(valueAt(plan, place)).map((i) => [...place, i]))
  }
  return places
}

const indices = (list: unknown): readonly number[] => (Array.isArray(list) ? list.map((_, i) => i) : [])

function fill(plan: unknown, path: Path, rule: Default | DerivedDefault, defaulted: Defaulted[]): void {
  const parent = valueAt(plan, path.slice(0, -1))
  const key = path.at(-1)!
  if (typeof parent !== 'object' || parent === null || Array.isArray(parent) || Object.hasOwn(parent, key)) return
  const near = parent as Record<string, unknown>
  const at = (place: string): unknown => valueAt(plan, place.split('.'))
  const value = 'derive' in rule ? rule.derive(at, near) : structuredClone(rule.value)
  if (value === undefined) return
  near[key] = value
  if (!isEmptyObject(value)) defaulted.push({ path: pathText(path), value, source: rule.source })
}

/** An object that is only there to hold further defaults is not worth telling. */
const isEmptyObject = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length === 0
