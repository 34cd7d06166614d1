import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { convexParts, type Loop } from '../../src/nest/convex.ts'
import { addField, depthAt, emptyStore } from '../../src/nest/field.ts'
import { noFitParts, noFitTable, turnedLoops } from '../../src/nest/no-fit.ts'
import { isDeepInside, type Outline, unionOutline } from '../../src/nest/outline.ts'
import { starOutline } from './random-pieces.ts'

const starLoop = starOutline.map((outline): Loop => {
  return outline.map(([x, y]) => ({ x: Math.round(x * 1e6), y: Math.round(y * 1e6) }))
})
const offset = fc.integer({ min: -260_000, max: 260_000 })

/** Least distance to any edge, by all of them. */
function distance({ count, X, Y, U, V }: Outline, x: number, y: number): number {
  let least = Infinity
  for (let e = 0; e < count; e++) {
    const share = ((x - X[e]) * U[e] + (y - Y[e]) * V[e]) / (U[e] ** 2 + V[e] ** 2)
    const s = Math.max(0, Math.min(1, share))
    least = Math.min(least, Math.hypot(x - X[e] - s * U[e], y - Y[e] - s * V[e]))
  }
  return least
}

describe('depth in a no-fit region', () => {
  test('is the distance to its outline to less than a cell, never 0 inside, 0 outside', () => {
    let [deep, out] = [0, 0]
    fc.assert(
      fc.property(
        starLoop,
        starLoop,
        fc.array(fc.tuple(offset, offset), { minLength: 20, maxLength: 20 }),
        (A, B, at) => {
          const region = unionOutline(noFitParts(convexParts(A), convexParts(B)))
          const store = emptyStore()
          // A second field in one store, so that offsets matter.
          addField(store, unionOutline(noFitParts(convexParts(B), convexParts(A))))
          const field = addField(store, region)
          const cell = 1 / store.frame[field + 2]
          for (const [x, y] of at) {
            const exact = distance(region, x, y)
            const depth = depthAt(store, field, x, y)
            if (isDeepInside(region, x, y, 1)) {
              // In cells off the outline bilinear between exact corners: off by what the distance bends within a cell.
              deep++
              expect(Math.abs(depth - exact)).toBeLessThan(0.75 * cell)
              expect(depth).toBeGreaterThan(1)
            } else if (exact > 1) {
              out++
              expect(depth).toBe(0)
            } else expect(depth).toBeLessThanOrEqual(1.01)
          }
        },
      ),
      { numRuns: 60 },
    )
    expect(Math.min(deep, out)).toBeGreaterThan(100)
  })

  test('near the outline it is exact on either side: points put there on purpose', () => {
    fc.assert(
      fc.property(starLoop, starLoop, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (A, B, share) => {
        const region = unionOutline(noFitParts(convexParts(A), convexParts(B)))
        const store = emptyStore()
        const field = addField(store, region)
        for (let e = 0; e < region.count; e++) {
          const length = Math.hypot(region.U[e], region.V[e])
          if (length < 100) continue
          const [nx, ny] = [region.V[e] / length, -region.U[e] / length]
          const [x, y] = [region.X[e] + share * region.U[e], region.Y[e] + share * region.V[e]]
          for (const off of [-30, -3, 3, 30]) {
            const [px, py] = [x + off * nx, y + off * ny]
            const expected = isDeepInside(region, px, py, 1) ? distance(region, px, py) : 0
            if (expected > 0 || distance(region, px, py) > 1.01) {
              expect(depthAt(store, field, px, py)).toBeCloseTo(expected, 3)
            }
          }
        }
      }),
      { numRuns: 40 },
    )
  })

  test('a hole of the region has no depth, its rim does: judged by points inside it', () => {
    const frame: Loop = [
      [0, 0],
      [100, 0],
      [100, 45],
      [90, 45],
      [90, 10],
      [10, 10],
      [10, 90],
      [90, 90],
      [90, 55],
      [100, 55],
      [100, 100],
      [0, 100],
    ].map(([x, y]) => ({ x: x * 1e4, y: y * 1e4 }))
    const block: Loop = [
      [0, 0],
      [20, 0],
      [20, 20],
      [0, 20],
    ].map(([x, y]) => ({ x: x * 1e4, y: y * 1e4 }))
    const store = emptyStore()
    const field = addField(store, noFitTable([convexParts(frame), convexParts(block)])(0, 4))
    // The window is 80 wide, the block 20: its corner is free from 10 to 70 both ways.
    for (const [x, y] of [
      [40, 40],
      [11, 11],
      [69, 69],
      [11, 69],
    ]) {
      expect(depthAt(store, field, x * 1e4, y * 1e4)).toBe(0)
    }
    expect(depthAt(store, field, 71e4, 20e4)).toBeCloseTo(1e4, 3)
    expect(depthAt(store, field, 85e4, 40e4)).toBeGreaterThan(1e4)
    expect(turnedLoops([block], 2)[0][1].x).toBe(-20e4)
  })
})
