import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { convexHull, convexParts, isConvex, type Loop } from '../../src/nest/convex.ts'
import { enclosing } from '../../src/nest/enclosing.ts'
import { convexSum, noFitParts, noFitTable, turnedLoops } from '../../src/nest/no-fit.ts'
import { isDeepInside, unionOutline } from '../../src/nest/outline.ts'
import type { Point } from '../../src/nest/piece.ts'
import { starOutline } from './random-pieces.ts'

const grid = (outline: readonly Point[]): Loop =>
  outline.map(([x, y]) => ({ x: Math.round(x * 1e6), y: Math.round(y * 1e6) }))
const starLoop = starOutline.map(grid)
const moved = (loop: Loop, x: number, y: number) => loop.map((p) => ({ x: p.x + x, y: p.y + y }))
const areaOf = (loop: Loop): number =>
  loop.reduce((sum, p, i) => sum + p.x * loop[(i + 1) % loop.length].y - p.y * loop[(i + 1) % loop.length].x, 0) / 2
const overlap = (A: Loop, B: Loop): number => areaPaths(intersect([moved(A, 0, 0)], [moved(B, 0, 0)], FillRule.NonZero))

describe('convex parts', () => {
  test('are convex and add up to the outline', () => {
    fc.assert(
      fc.property(starLoop, (loop) => {
        const parts = convexParts(loop)
        expect(parts.every(isConvex)).toBe(true)
        expect(parts.reduce((sum, part) => sum + areaOf(part), 0)).toBeCloseTo(areaOf(loop), 0)
      }),
    )
  })
  test('of a convex outline is the outline', () => {
    fc.assert(
      fc.property(starLoop, (loop) => {
        expect(convexParts(convexHull(loop))).toHaveLength(1)
      }),
    )
  })
  test('by hand: an L is two', () => {
    const L = grid([
      [0, 0],
      [2, 0],
      [2, 1],
      [1, 1],
      [1, 2],
      [0, 2],
    ])
    expect(convexParts(L)).toHaveLength(2)
  })
})

describe('Minkowski sum', () => {
  test('of a square and the same square turned by 45° has the area of the octagon', () => {
    // |A + B| = |A| + |B| + 2 V(A, B); for unit squares at 45° the octagon is 1 + 1 + 2√2.
    const square = grid([
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ])
    const turned = grid([
      [0, -Math.SQRT1_2],
      [Math.SQRT1_2, 0],
      [0, Math.SQRT1_2],
      [-Math.SQRT1_2, 0],
    ])
    expect(areaOf(convexSum(square, turned)) / 1e12).toBeCloseTo(2 + 2 * Math.SQRT2, 5)
  })
  test('of a loop and a point is the loop moved', () => {
    const square = grid([
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ])
    const point = [{ x: 5, y: 7 }]
    expect(areaOf(convexSum(square, point))).toBe(1e12)
  })
})

describe('no-fit region', () => {
  const offset = fc.integer({ min: -260_000, max: 260_000 })

  test('holds exactly the positions at which two outlines overlap, by an independent clipper', () => {
    let inside = 0
    fc.assert(
      fc.property(
        starLoop,
        starLoop,
        fc.array(fc.tuple(offset, offset), { minLength: 8, maxLength: 8 }),
        (A, B, spots) => {
          const region = unionOutline(noFitParts(convexParts(A), convexParts(B)))
          for (const [x, y] of spots) {
            const area = overlap(A, moved(B, x, y))
            if (isDeepInside(region, x, y, 3)) {
              inside++
              expect(area).toBeGreaterThan(0)
            } else if (!isDeepInside(region, x, y, 1)) {
              // Up to 1 µm deep along edges of at most a metre.
              expect(area).toBeLessThan(2e6)
            }
          }
        },
      ),
      { numRuns: 60 },
    )
    expect(inside).toBeGreaterThan(50)
  })

  test('its outline has no piece inside: every edge has the region on its left only', () => {
    fc.assert(
      fc.property(starLoop, starLoop, (A, B) => {
        const region = unionOutline(noFitParts(convexParts(A), convexParts(B)))
        for (let e = 0; e < region.count; e++) {
          const length = Math.hypot(region.U[e], region.V[e])
          const x = region.X[e] + region.U[e] / 2
          const y = region.Y[e] + region.V[e] / 2
          expect(isDeepInside(region, x, y, 1)).toBe(false)
          if (length > 50) {
            const off = 3 / length
            expect(isDeepInside(region, x + off * region.V[e], y - off * region.U[e], 1)).toBe(false)
          }
        }
      }),
      { numRuns: 60 },
    )
  })

  test('a piece may lie in a hole of another', () => {
    // A C-shaped frame whose mouth is closed to less than the piece: the free pocket inside is a hole of the region.
    const frame = grid([
      [0, 0],
      [1, 0],
      [1, 0.45],
      [0.9, 0.45],
      [0.9, 0.1],
      [0.1, 0.1],
      [0.1, 0.9],
      [0.9, 0.9],
      [0.9, 0.55],
      [1, 0.55],
      [1, 1],
      [0, 1],
    ])
    const block = grid([
      [0, 0],
      [0.2, 0],
      [0.2, 0.2],
      [0, 0.2],
    ])
    const region = unionOutline(noFitParts(convexParts(frame), convexParts(block)))
    expect(isDeepInside(region, 400_000, 400_000, 1)).toBe(false)
    expect(isDeepInside(region, 850_000, 400_000, 1)).toBe(true)
    expect(isDeepInside(region, 1_100_000, 400_000, 1)).toBe(false)
  })

  test('of turned shapes follows from the table', () => {
    fc.assert(
      fc.property(
        starLoop,
        starLoop,
        fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 3 })),
        fc.array(fc.tuple(offset, offset), { minLength: 6, maxLength: 6 }),
        (A, B, [k, l], spots) => {
          const shapes = [convexParts(A), convexParts(B)]
          const table = noFitTable(shapes)
          const pairs = [
            [0, 1],
            [1, 0],
            [0, 0],
          ] as const
          for (const [i, j] of pairs) {
            const direct = unionOutline(noFitParts(turnedLoops(shapes[i], k), turnedLoops(shapes[j], l)))
            const looked = table(4 * i + k, 4 * j + l)
            for (const [x, y] of spots) {
              if (isDeepInside(direct, x, y, 3)) expect(isDeepInside(looked, x, y, 1)).toBe(true)
              if (isDeepInside(looked, x, y, 3)) expect(isDeepInside(direct, x, y, 1)).toBe(true)
            }
          }
        },
      ),
      { numRuns: 40 },
    )
  })
})

describe('an enclosing outline', () => {
  test('holds the outline, adds no more than allowed and has fewer corners', () => {
    fc.assert(
      fc.property(starLoop, fc.double({ min: 0, max: 0.1, noNaN: true }), (loop, share) => {
        const allowance = { area: share * areaOf(loop), reach: 5000 }
        const simple = enclosing(loop, allowance)
        expect(simple.length).toBeLessThanOrEqual(loop.length)
        // Rounding a corner to the grid may cut off its length times a micrometre.
        expect(areaOf(simple) - areaOf(loop)).toBeLessThanOrEqual(allowance.area + 1e6)
        expect(areaOf(loop) - overlap(loop, simple)).toBeLessThan(1e6)
      }),
    )
  })
  test('drops a shallow hollow and a chamfer, keeps a deep notch', () => {
    const loop = grid([
      [0, 0],
      [0.1, 0.0005],
      [0.2, 0],
      [0.2, 0.199],
      [0.199, 0.2],
      [0.1, 0.2],
      [0.1, 0.1],
      [0, 0.1],
    ])
    const simple = enclosing(loop, { area: 1e-4 * 1e12, reach: 1000 })
    expect(simple).toHaveLength(6)
  })
})
