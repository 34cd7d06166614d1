/**
 * A unit as written, `oz/yd^2`: found in the table, with its exact factor and its dimension.
 *
 * At most one unit over one other; the power stands on the lower one, or on the only one. `m2`, `m^2` and `m²` are the same.
 */

import type { Family, UnitForm } from './quantities.data.ts'
import { divide, power, type Rational, rational } from './rational.ts'
import { type Dimension, type Unit, units } from './units.data.ts'

export interface WrittenUnit {
  /** As printed. */
  readonly name: string
  readonly dimension: Dimension
  readonly factor: Rational
  readonly offset: Rational
  /** More than a single unit without power. */
  readonly compound: boolean
}

const families: { readonly [family in Family]: Dimension } = {
  length: [1, 0, 0, 0, 0, 0],
  mass: [0, 1, 0, 0, 0, 0],
  time: [0, 0, 1, 0, 0, 0],
  speed: [1, 0, -1, 0, 0, 0],
  frequency: [0, 0, -1, 0, 0, 0],
  force: [1, 1, -2, 0, 0, 0],
  pressure: [-1, 1, -2, 0, 0, 0],
  energy: [2, 1, -2, 0, 0, 0],
  amount: [0, 0, 0, 0, 0, 1],
  arealMass: [-2, 1, 0, 0, 0, 0],
  angle: [0, 0, 0, 0, 1, 0],
  temperature: [0, 0, 0, 1, 0, 0],
}

const bySpelling: ReadonlyMap<string, Unit> = new Map(
  units.flatMap((unit) => [unit.name, ...unit.also].map((spelling) => [spelling, unit] as const)),
)

export const sameDimension = (a: Dimension, b: Dimension): boolean => a.every((exponent, i) => exponent === b[i])

/** All spellings of the units of a family, longest first. */
export function spellings(family: Family): readonly string[] {
  const all = units.filter((unit) => sameDimension(unit.dimension, families[family]))
  return all.flatMap(({ name, also }) => [name, ...also]).sort((a, b) => b.length - a.length)
}

/** All spellings there are. */
export const everySpelling: readonly string[] = [...bySpelling.keys()]

export function dimensionOf({ over, under, power: stated }: UnitForm): Dimension {
  const exponent = stated ?? 1
  if (under === undefined) return families[over].map((x) => x * exponent) as unknown as Dimension
  const below = families[under]
  return families[over].map((x, i) => x - exponent * below[i]!) as unknown as Dimension
}

/** The unit, or null when the text names none. */
export function findUnit(text: string): WrittenUnit | null {
  const parts = text.trim().split(/\s*\/\s*/)
  if (parts.length > 2) return null
  const over = findPart(parts[0]!)
  if (over === null) return null
  if (parts.length === 1) return over
  const under = findPart(parts[1]!)
  if (under === null || over.compound) return null
  return {
    name: `${over.name}/${under.name}`,
    dimension: over.dimension.map((x, i) => x - under.dimension[i]!) as unknown as Dimension,
    factor: divide(over.factor, under.factor),
    offset: rational('0'),
    compound: true,
  }
}

function findPart(text: string): WrittenUnit | null {
  const match = /^(.+?)\s*\^?\s*([23²³])?$/u.exec(text.trim())
  const unit = match === null ? undefined : bySpelling.get(match[1]!.replace(/^(deg|°)\s+(?=[CF]$)/, '$1'))
  if (match === null || unit === undefined) return null
  const exponent = { '2': 2, '²': 2, '3': 3, '³': 3 }[match[2] ?? ''] ?? 1
  const { name, dimension, factor, offset } = unit
  if (exponent === 1) return { name, dimension, factor, offset, compound: false }
  return {
    name: metric.has(name) ? `${name}${exponent}` : `${name}^${exponent}`,
    dimension: dimension.map((x) => x * exponent) as unknown as Dimension,
    factor: power(factor, exponent),
    offset: rational('0'),
    compound: true,
  }
}

const metric = new Set(['um', 'mm', 'cm', 'm', 'km'])
