import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { piecesAsLaid } from '../../src/nest/free-turn.ts'
import { type NestInput, nestPieces } from '../../src/nest/nest.ts'
import { nudger } from '../../src/nest/nudge.ts'
import type { NestCloth, NestPiece, Point, StockRoll } from '../../src/nest/piece.ts'
import { searchNest } from '../../src/nest/search-nest.ts'
import { placedOutline } from '../../src/nest/turn.ts'
import { verifyNest } from '../../src/nest/verify.ts'
import { balanced, bayOutline, demoBay, randomPieces } from './random-pieces.ts'

const film: NestCloth = { id: 'film', name: 'film', weave: 'film', warpShare: { value: 0.5 } }
const gap = 0.003
const roll = (width: number, length: number, cloth = film): StockRoll => {
  return { id: 'roll', cloth, width, length, selvedge: 0 }
}

function nested(input: NestInput) {
  const nest = nestPieces(input)
  if (!nest.ok) throw new Error(JSON.stringify(nest.issues))
  return nest.value
}

const used = (input: NestInput): number => nested(input).rolls[0]!.usedLength

/** A strip 20 mm wide that lies askew in its own axes. */
const strip = (angle: number): Point[] => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const corners: Point[] = [
    [0, 0],
    [0.4, 0],
    [0.4, 0.02],
    [0, 0.02],
  ]
  return corners.map(([x, y]) => [x * c - y * s, x * s + y * c])
}

describe('film may lie at any turn', () => {
  test('the demo’s bay takes over 5 % less of it than of balanced cloth, by filling alone', () => {
    const outline = bayOutline(demoBay, { over: 0.01, run: 0.015 })
    const of = (cloth: NestCloth) =>
      Array.from({ length: 8 }, (_, i): NestPiece => ({ id: `${i}`, cloth, outline, angle: 0 }))
    const [free, bound] = [film, balanced].map((cloth) => used({ pieces: of(cloth), rolls: [roll(1, 5, cloth)], gap }))
    console.log(`film ${free!.toFixed(3)} m, balanced cloth ${bound!.toFixed(3)} m`)
    expect(free!).toBeLessThan(0.95 * bound!)
  })

  test('a strip that lies askew goes on a tape hardly wider than it, which cloth cannot do', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 1.4, noNaN: true }), (angle) => {
        const one = (cloth: NestCloth): NestInput => {
          return { pieces: [{ id: 'a', cloth, outline: strip(angle), angle: 0 }], rolls: [roll(0.021, 1, cloth)], gap }
        }
        expect(used(one(film))).toBeCloseTo(0.4, 4)
        const refused = nestPieces(one(balanced))
        expect(refused.ok).toBe(false)
      }),
      { numRuns: 20, seed: 4 },
    )
  })

  test('legal, filled and searched, and the search is never worse', () => {
    fc.assert(
      fc.property(randomPieces(film), (pieces) => {
        const input = { pieces, rolls: [roll(0.5, 10)], gap, effort: 0.2 }
        const nest = nested(input)
        verifyNest(pieces, nest.rolls, gap)
        const found = searchNest(input, { budget: 20_000 })
        if (!found.ok) throw new Error('no nest')
        verifyNest(pieces, found.value.rolls, gap)
        expect(found.value.rolls[0]!.usedLength).toBeLessThanOrEqual(nest.rolls[0]!.usedLength + 1e-9)
      }),
      { numRuns: 10, seed: 7 },
    )
  })

  test('two hands of one shape turn opposite ways and both lie along the roll', () => {
    const mirrored = strip(0.3)
      .map(([x, y]): Point => [x, -y])
      .reverse()
    const pieces = [strip(0.3), mirrored].map(
      (outline, i): NestPiece => ({ id: `${i}`, cloth: film, outline, angle: 0 }),
    )
    expect(used({ pieces, rolls: [roll(0.044, 2)], gap })).toBeCloseTo(0.4, 4)
  })

  test('moved by hand it keeps its turn, and stops at the gap', () => {
    const pieces = ['a', 'b'].map((id): NestPiece => ({ id, cloth: film, outline: strip(0.3), angle: 0 }))
    const rolls = [roll(0.1, 2)]
    const laid = nested({ pieces, rolls, gap }).rolls[0]!
    const nudge = nudger({ pieces: piecesAsLaid(pieces, [laid]), stock: rolls, gap })
    const from = laid.placements[0]!
    const moved = nudge(laid, { piece: from.piece, x: from.x + 0.3, y: from.y + 0.5 })
    if (!moved.ok) throw new Error(JSON.stringify(moved.issues))
    const { placement, roll: after } = moved.value
    expect(placement.rotation).toBeCloseTo(from.rotation, 9)
    expect(Math.hypot(placement.x - from.x, placement.y - from.y)).toBeGreaterThan(0.01)
    verifyNest(pieces, [after], gap)
    expect(Math.max(...placedOutline(strip(0.3), placement).map(([, y]) => y))).toBeLessThanOrEqual(0.1 + 1e-9)
  })
})

test('cloth and peel ply keep their quarter turns', () => {
  const peel: NestCloth = { id: 'peel', name: 'peel ply', weave: 'peel ply', warpShare: { value: 0.5 } }
  const pieces = ['a', 'b'].map((id): NestPiece => ({ id, cloth: peel, outline: strip(0.3), angle: 0 }))
  const { placements } = nested({ pieces, rolls: [roll(0.5, 2, peel)], gap }).rolls[0]!
  for (const { rotation } of placements) expect(Math.abs(Math.sin(2 * rotation))).toBeLessThan(1e-9)
})
