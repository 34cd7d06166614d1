import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  area,
  bounds,
  centroid,
  contains,
  isConvex,
  type Polygon,
  perimeter,
  signedArea,
} from '../../src/geometry/polygon.ts'
import { selfCrossing } from '../../src/geometry/polygon-crossing.ts'

const square: Polygon = [
  [1, 1],
  [3, 1],
  [3, 3],
  [1, 3],
]

describe('measures', () => {
  test('of a square', () => {
    expect(signedArea(square)).toBe(4)
    expect(signedArea([...square].reverse())).toBe(-4)
    expect(perimeter(square)).toBe(8)
    expect(centroid(square)).toEqual([2, 2])
    expect(bounds(square)).toEqual({ left: 1, right: 3, bottom: 1, top: 3 })
  })

  test('far from the origin a small polygon keeps its digits', () => {
    const far = square.map(([x, y]) => [x * 1e-3 + 1e4, y * 1e-3 - 1e4] as const)
    expect(area(far) / 4e-6).toBeCloseTo(1, 6)
  })

  test('centroid of a trapezoid: height (a + 2b) / (3 (a + b)) above the longer side', () => {
    const [x, y] = centroid([
      [0, 0],
      [6, 0],
      [4, 3],
      [2, 3],
    ])
    expect(x).toBeCloseTo(3, 14)
    expect(y).toBeCloseTo((3 * (6 + 2 * 2)) / (3 * (6 + 2)), 14)
  })

  test('convex or not', () => {
    expect(isConvex(square)).toBe(true)
    expect(isConvex([...square].reverse())).toBe(false)
    expect(isConvex([...square.slice(0, 3), [2.5, 2]])).toBe(false)
    const star = [0, 2, 4, 1, 3].map((k) => [Math.cos((k * 2 * Math.PI) / 5), Math.sin((k * 2 * Math.PI) / 5)] as const)
    expect(isConvex(star)).toBe(false)
  })

  test('inside, outside, on the boundary', () => {
    expect(contains(square, [2, 2])).toBe(true)
    expect(contains(square, [4, 2])).toBe(false)
    expect(contains(square, [3, 2], 1e-12)).toBe(true)
    expect(contains(square, [3.1, 2], 0.2)).toBe(true)
  })
})

describe('self crossing', () => {
  test('a bow tie crosses in its middle', () => {
    const bowTie: Polygon = [
      [0, 0],
      [2, 2],
      [2, 0],
      [0, 2],
    ]
    expect(selfCrossing(bowTie)).toEqual({ first: 0, second: 2, at: [1, 1] })
  })

  test('a corner that touches another side, a fold and a repeated corner are found', () => {
    const touch: Polygon = [
      [0, 0],
      [4, 0],
      [4, 4],
      [2, 0],
      [0, 4],
    ]
    const fold: Polygon = [
      [0, 0],
      [4, 0],
      [2, 0],
      [2, 3],
    ]
    const repeated: Polygon = [
      [0, 0],
      [4, 0],
      [4, 0],
      [2, 3],
    ]
    for (const polygon of [touch, fold, repeated]) expect(selfCrossing(polygon)).not.toBeNull()
  })

  test('a polygon whose corners go once round a point does not cross', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0.2, max: 1, noNaN: true }), { minLength: 3, maxLength: 30 }), (radii) => {
        const round = radii.map((radius, k): readonly [number, number] => {
          const angle = (2 * Math.PI * k) / radii.length
          return [radius * Math.cos(angle), radius * Math.sin(angle)]
        })
        expect(selfCrossing(round)).toBeNull()
        expect(signedArea(round)).toBeGreaterThan(0)
      }),
    )
  })
})
