import { expect, test } from 'vitest'
import type { Polygon } from '../../src/geometry/polygon.ts'
import { joined, polylineInside } from '../../src/geometry/polyline-clip.ts'

const notched: Polygon = [
  [0, 0],
  [6, 0],
  [6, 4],
  [4, 4],
  [4, 2],
  [2, 2],
  [2, 4],
  [0, 4],
]

test('a line across a notch comes out in two parts', () => {
  const parts = polylineInside(notched, [
    [-1, 3],
    [7, 3],
  ])
  expect(parts).toEqual([
    [
      [0, 3],
      [2, 3],
    ],
    [
      [4, 3],
      [6, 3],
    ],
  ])
})

test('a line inside stays whole, corners and all; one outside vanishes', () => {
  const line = [
    [1, 3],
    [1, 1],
    [5, 1],
  ] as const
  expect(polylineInside(notched, line)).toEqual([line])
  expect(
    polylineInside(notched, [
      [2.5, 3],
      [3.5, 3.5],
    ]),
  ).toEqual([])
})

test('segments are put together, the last with the first', () => {
  const ring = [
    [
      [0, 0],
      [1, 0],
    ],
    [
      [5, 5],
      [6, 6],
    ],
    [
      [-1, 0],
      [0, 0],
    ],
  ] as const
  expect(joined(ring)).toEqual([
    [
      [5, 5],
      [6, 6],
    ],
    [
      [-1, 0],
      [0, 0],
      [1, 0],
    ],
  ])
})
