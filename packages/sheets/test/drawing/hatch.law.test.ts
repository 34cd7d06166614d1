import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { XY } from '../../src/drawing/drawing.ts'
import { hatched } from '../../src/drawing/hatch.ts'

const square = (side: number, [x, y]: XY = [0, 0]): XY[] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
]
const total = (pairs: readonly (readonly [XY, XY])[]): number =>
  pairs.reduce((sum, [a, b]) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]), 0)

test('lines of a fine hatch times their spacing make the area, at any angle', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -4, max: 4, noNaN: true }),
      fc.double({ min: 10, max: 80, noNaN: true }),
      (angle, side) => {
        const spacing = 0.05
        expect(total(hatched([square(side)], { angle, spacing })) * spacing).toBeCloseTo(side ** 2, -1)
      },
    ),
    { numRuns: 40 },
  )
})

test('an outline inside another is a hole', () => {
  const spacing = 0.01
  const ring = hatched([square(30), square(10, [10, 10])], { angle: 0.7, spacing })
  expect(total(ring) * spacing).toBeCloseTo(900 - 100, 0)
})

test('the lines lie at the angle, from +x towards +y', () => {
  const pairs = hatched([square(20)], { angle: Math.PI / 6, spacing: 1 })
  expect(pairs.length).toBeGreaterThan(10)
  for (const [a, b] of pairs) expect(Math.atan2(b[1] - a[1], b[0] - a[0])).toBeCloseTo(Math.PI / 6, 6)
})

test('neighbouring areas share their lines', () => {
  const place = (pairs: readonly (readonly [XY, XY])[]) => pairs.map(([[x, y]]) => (-x + y) / Math.SQRT2)
  const left = place(hatched([square(10)], { angle: Math.PI / 4, spacing: 2 }))
  const right = place(hatched([square(10, [10, 0])], { angle: Math.PI / 4, spacing: 2 }))
  for (const value of [...left, ...right]) expect(Math.abs(value / 2 - Math.round(value / 2))).toBeLessThan(1e-9)
})
