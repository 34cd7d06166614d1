import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { nestPieces } from '../../src/nest/nest.ts'
import type { NestCloth, NestPiece, Point, StockRoll } from '../../src/nest/piece.ts'
import { balanced, randomPieces, unbalanced } from './random-pieces.ts'

/** Written out, not imported: counter-clockwise by `rotation`, then moved. */
function laid(piece: NestPiece, at: { x: number; y: number; rotation: number }): Point[] {
  const [c, s] = [Math.cos(at.rotation), Math.sin(at.rotation)]
  return piece.outline.map(([x, y]) => [x * c - y * s + at.x, x * s + y * c + at.y])
}

const clip = (outline: readonly Point[]) =>
  outline.map(([x, y]) => ({ x: Math.round(x * 1e8), y: Math.round(y * 1e8) }))
const overlap = (P: readonly Point[], Q: readonly Point[]): number =>
  areaPaths(intersect([clip(P)], [clip(Q)], FillRule.NonZero))

/** Least distance between the corners of one and points along the edges of the other, both ways. */
function sampledDistance(P: readonly Point[], Q: readonly Point[]): number {
  const along = (R: readonly Point[]): Point[] =>
    R.flatMap(([x, y], i) => {
      const [u, v] = R[(i + 1) % R.length]
      return Array.from({ length: 20 }, (_, k): Point => [x + ((u - x) * k) / 20, y + ((v - y) * k) / 20])
    })
  const [A, B] = [along(P), along(Q)]
  return Math.min(...A.map(([x, y]) => Math.min(...B.map(([u, v]) => Math.hypot(x - u, y - v)))))
}

const roll = (cloth: NestCloth, width: number, length: number): StockRoll => ({
  id: `roll ${width}`,
  cloth,
  width,
  length,
  selvedge: 0.01,
})

describe('a nest of random pieces', () => {
  const gap = 0.003
  for (const cloth of [balanced, unbalanced]) {
    test(`${cloth.name}: nothing overlaps, all lies inside the selvedges, every warp is right`, () => {
      let pairs = 0
      fc.assert(
        fc.property(randomPieces(cloth), fc.double({ min: 0.3, max: 1.0, noNaN: true }), (pieces, length) => {
          const rolls = [roll(cloth, 0.5, length), roll(cloth, 0.3, 0.4)]
          const nest = nestPieces({ pieces, rolls, gap, effort: 0.2 })
          if (!nest.ok) throw new Error(JSON.stringify(nest.issues))
          const seen = new Set<string>()
          for (const { width, selvedge, availableLength, usedLength, placements } of nest.value.rolls) {
            const outlines = placements.map((at) => {
              const piece = pieces.find(({ id }) => id === at.piece)!
              expect(seen.has(piece.id)).toBe(false)
              seen.add(piece.id)
              const [wx, wy] = [Math.sin(piece.angle), Math.cos(piece.angle)]
              const across = wx * Math.sin(at.rotation) + wy * Math.cos(at.rotation)
              const along = wx * Math.cos(at.rotation) - wy * Math.sin(at.rotation)
              const skew = cloth === balanced ? Math.min(Math.abs(across), Math.abs(along)) : Math.abs(across)
              expect(skew).toBeLessThan(1e-12)
              return laid(piece, at)
            })
            for (const [x, y] of outlines.flat()) {
              expect(x).toBeGreaterThanOrEqual(-1e-9)
              expect(x).toBeLessThanOrEqual(Math.min(usedLength, availableLength ?? Infinity) + 1e-9)
              expect(y).toBeGreaterThanOrEqual(selvedge - 1e-9)
              expect(y).toBeLessThanOrEqual(width - selvedge + 1e-9)
            }
            outlines.forEach((P, i) => {
              for (const Q of outlines.slice(i + 1)) {
                pairs++
                expect(overlap(P, Q)).toBe(0)
                expect(sampledDistance(P, Q)).toBeGreaterThanOrEqual(gap)
              }
            })
          }
          expect(seen.size).toBe(pieces.length)
        }),
        { numRuns: 15 },
      )
      expect(pairs).toBeGreaterThan(60)
    })
  }

  test('an outline that repeats a point, or has points on a straight edge, nests like any other', () => {
    const square: Point[] = [
      [0, 0],
      [0.05, 0],
      [0.1, 0],
      [0.1, 0.1],
      [0.1, 0.1],
      [0, 0.1],
    ]
    const pieces = Array.from({ length: 4 }, (_, i) => ({ id: `${i}`, cloth: balanced, outline: square, angle: 0 }))
    const nest = nestPieces({ pieces, rolls: [roll(balanced, 0.2232, 5)], gap })
    if (!nest.ok) throw new Error('no nest')
    expect(nest.value.rolls[0].usedLength).toBeCloseTo(0.203, 4)
  })

  test('touching pieces are allowed when the gap is zero, and still do not overlap', () => {
    const square: Point[] = [
      [0, 0],
      [0.1, 0],
      [0.1, 0.1],
      [0, 0.1],
    ]
    const pieces = Array.from({ length: 8 }, (_, i) => ({ id: `${i}`, cloth: balanced, outline: square, angle: 0 }))
    const nest = nestPieces({ pieces, rolls: [roll(balanced, 0.2202, 5)], gap: 0 })
    if (!nest.ok) throw new Error('no nest')
    expect(nest.value.rolls[0].usedLength).toBeCloseTo(0.4, 4)
  })
})
