/** What may be left out is what the reader does not miss: asked of the schema, and tried on the demo. */
import { describe, expect, test } from 'vitest'
import { withoutValue } from '../src/protocol/place.ts'
import type { Json } from '../src/protocol/record.ts'
import { type Path, pathText, valueAt } from '../src/schema/locate.ts'
import { isOptional } from '../src/schema/optional.ts'
import { checkShape } from '../src/schema/shape.ts'
import { demo } from './demo.ts'

function namedPlaces(value: unknown, path: Path = []): readonly Path[] {
  if (Array.isArray(value)) return value.flatMap((one, i) => namedPlaces(one, [...path, i]))
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([name, inner]) => [[...path, name], ...namedPlaces(inner, [...path, name])])
}

describe('every field of the demo', () => {
  const plan = demo() as unknown as Json
  const fields = namedPlaces(plan)
  const left = (path: Path) => {
    const without = withoutValue(plan, path)
    return without.ok && checkShape(without.value).issues.length === 0
  }

  test('is asked', () => {
    expect(fields.length).toBeGreaterThan(120)
    expect(valueAt(plan, fields[0]!)).toBeDefined()
  })

  test('is optional where the plan reads without it, and nowhere else', () => {
    const wrong = fields.filter((path) => isOptional(path) !== left(path)).map(pathText)
    // The width and land of a bevel are needed; those of a rounding are not.
    expect(wrong.filter((path) => !/^fins\.edges\.\w+\.(width|land)$/.test(path))).toEqual([])
  })
})

test('fields of other plans', () => {
  expect(isOptional(['tube', 'ahead'])).toBe(true)
  expect(isOptional(['materials', 'g10', 'E1'])).toBe(true)
  expect(isOptional(['flight', 'history'])).toBe(false)
  expect(isOptional(['fins', 'outline', 'points', 0, 1])).toBe(false)
  expect(isOptional(['study', 'pointLoad'], true)).toBe(true)
  expect(isOptional(['study', 'outline'], true)).toBe(false)
  expect(isOptional(['no', 'such'])).toBe(false)
})
