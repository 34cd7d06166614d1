import fc from 'fast-check'
import { expect, test } from 'vitest'
import { orientation } from '../../src/geometry/mesh-orientation.ts'

test('a point moved off a line by the least possible turns the sign', () => {
  // 0.1, 0.2, 0.3 are not in proportion as binary numbers: ask about points that are
  expect(orientation(0, 0, 3, 1, 9, 3)).toBe(0)
  const up = 3 + 2 ** -51
  expect(orientation(0, 0, 3, 1, 9, up)).toBeGreaterThan(0)
  expect(orientation(0, 0, 3, 1, 9, 3 - 2 ** -51)).toBeLessThan(0)
  // far from the origin, where the differences cancel
  const o = 2 ** 20
  expect(orientation(o, o, o + 3 * 2 ** -32, o + 2 ** -32, o + 9 * 2 ** -32, o + 3 * 2 ** -32)).toBe(0)
  expect(orientation(o, o, o + 3 * 2 ** -32, o + 2 ** -32, o + 9 * 2 ** -32, o + 4 * 2 ** -32)).toBeGreaterThan(0)
})

test('swapping two points turns the sign, a cycle keeps it', () => {
  const number = fc.double({ min: -1e3, max: 1e3, noNaN: true })
  fc.assert(
    fc.property(number, number, number, number, number, number, (ax, ay, bx, by, cx, cy) => {
      const sign = Math.sign(orientation(ax, ay, bx, by, cx, cy))
      expect(Math.sign(orientation(bx, by, cx, cy, ax, ay)) - sign).toBe(0)
      expect(Math.sign(orientation(bx, by, ax, ay, cx, cy)) + sign).toBe(0)
    }),
    { seed: 3 },
  )
})

test('nearly collinear triples agree with whole-number arithmetic', () => {
  fc.assert(
    fc.property(fc.bigInt({ min: -(2n ** 26n), max: 2n ** 26n }), fc.integer({ min: -3, max: 3 }), (k, off) => {
      const [p, q] = [
        [1n + 7n * k, 2n + 5n * k],
        [1n - 21n * k, 2n - 15n * k + BigInt(off)],
      ]
      const exact = (1n - q[0]) * (p[1] - q[1]) - (2n - q[1]) * (p[0] - q[0])
      const found = orientation(1, 2, Number(p[0]), Number(p[1]), Number(q[0]), Number(q[1]))
      expect(Math.sign(found)).toBe(exact > 0n ? 1 : exact < 0n ? -1 : 0)
    }),
    { seed: 4 },
  )
})
