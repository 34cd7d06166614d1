import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { nestPieces } from '../../src/nest/nest.ts'
import { nudger } from '../../src/nest/nudge.ts'
import type { NestedRoll, NestPiece, Point, StockRoll } from '../../src/nest/piece.ts'
import { placedOutline } from '../../src/nest/turn.ts'
import { verifyNest } from '../../src/nest/verify.ts'
import { balanced, randomPieces, unbalanced } from './random-pieces.ts'

const gap = 0.003
const square: Point[] = [
  [0, 0],
  [0.1, 0],
  [0.1, 0.1],
  [0, 0.1],
]
const stock = (defects: readonly Point[][] = []): StockRoll => ({
  ...{ id: 'roll', cloth: unbalanced, width: 0.42, length: 2, selvedge: 0.01, defects },
})
const pieces = ['a', 'b'].map((id): NestPiece => ({ id, cloth: unbalanced, outline: square, angle: Math.PI / 2 }))
const laid = (at: readonly (readonly [string, number, number])[]): NestedRoll => ({
  ...{ roll: 'roll', cloth: 'heavy', clothName: 'warp-heavy cloth', width: 0.42, selvedge: 0.01, availableLength: 2 },
  ...{ usedLength: 1, density: 0.02 / 0.42, waste: 0.4 },
  placements: at.map(([piece, x, y]) => ({ piece, x, y, rotation: 0 })),
})

describe('a nudge by hand', () => {
  test('to a free place goes all the way, and the roll follows', () => {
    const nudge = nudger({ pieces, stock: [stock()], gap })
    const { value } = done(
      nudge(
        laid([
          ['a', 0, 0.01],
          ['b', 0.9, 0.2],
        ]),
        { piece: 'b', x: 0.2, y: 0.05 },
      ),
    )
    expect(value.reached).toBe(true)
    expect(value.placement.x).toBeCloseTo(0.2, 6)
    expect(value.roll.usedLength).toBeCloseTo(0.3, 6)
    expect(value.roll.density).toBeCloseTo(0.02 / (0.42 * 0.3), 5)
  })
  test('into another piece stops at the gap', () => {
    const nudge = nudger({ pieces, stock: [stock()], gap })
    const { value } = done(
      nudge(
        laid([
          ['a', 0, 0.01],
          ['b', 0.9, 0.01],
        ]),
        { piece: 'b', x: 0, y: 0.01 },
      ),
    )
    expect(value.reached).toBe(false)
    expect(value.placement.x).toBeGreaterThanOrEqual(0.103)
    expect(value.placement.x).toBeLessThan(0.10302)
  })
  test('askew against another piece slides along it', () => {
    const nudge = nudger({ pieces, stock: [stock()], gap })
    const { value } = done(
      nudge(
        laid([
          ['a', 0, 0.01],
          ['b', 0.9, 0.01],
        ]),
        { piece: 'b', x: 0.05, y: 0.08 },
      ),
    )
    expect(value.placement.x).toBeLessThan(0.10302)
    expect(value.placement.y).toBeCloseTo(0.08, 4)
  })
  test('over the selvedge, the end of the roll or a defect stops there', () => {
    const flaw: Point[] = [
      [0.5, 0],
      [0.6, 0],
      [0.6, 0.42],
      [0.5, 0.42],
    ]
    const start = laid([
      ['a', 0, 0.01],
      ['b', 0.9, 0.2],
    ])
    const free = nudger({ pieces, stock: [stock()], gap })
    expect(done(free(start, { piece: 'b', x: 0.9, y: -1 })).value.placement.y).toBeCloseTo(0.01, 5)
    expect(done(free(start, { piece: 'b', x: 5, y: 0.2 })).value.placement.x).toBeCloseTo(1.9, 5)
    const barred = nudger({ pieces, stock: [stock([flaw])], gap })
    const x = done(barred(start, { piece: 'b', x: 0.2, y: 0.2 })).value.placement.x
    expect(x).toBeGreaterThanOrEqual(0.6)
    expect(x).toBeLessThan(0.6016)
  })
  test('with a turn: half on cloth that is not balanced, no quarter', () => {
    const nudge = nudger({ pieces, stock: [stock()], gap })
    const start = laid([
      ['a', 0, 0.01],
      ['b', 0.9, 0.2],
    ])
    const half = done(nudge(start, { piece: 'b', x: 0.6, y: 0.3, quarters: 2 })).value
    expect([half.isTurned, half.placement.rotation]).toEqual([true, Math.PI])
    expect(done(nudge(start, { piece: 'b', x: 0.6, y: 0.2, quarters: 1 })).value.isTurned).toBe(false)
  })
  test('of a piece that is not there, or lies on another, is refused by name', () => {
    const nudge = nudger({ pieces, stock: [stock()], gap })
    const start = laid([
      ['a', 0, 0.01],
      ['b', 0.05, 0.01],
    ])
    for (const piece of ['b', 'x']) {
      const nudged = nudge(start, { piece, x: 0, y: 0 })
      expect(nudged).toMatchObject({ ok: false, issues: [{ code: 'nest/nudge-refused', value: piece }] })
    }
  })

  test('of any piece of any nest, anywhere: the nest stays legal and the piece comes no further from the target', () => {
    const spot = fc.tuple(
      fc.double({ min: -0.1, max: 1, noNaN: true }),
      fc.double({ min: -0.1, max: 0.5, noNaN: true }),
    )
    let moves = 0
    fc.assert(
      fc.property(
        randomPieces(balanced),
        fc.array(fc.tuple(fc.nat(), spot, fc.nat({ max: 3 })), { minLength: 6, maxLength: 6 }),
        (pieces, nudges) => {
          const rolls = [{ id: 'roll', cloth: balanced, width: 0.5, length: 9, selvedge: 0.01 }]
          const nest = nestPieces({ pieces, rolls, gap, effort: 0.1 })
          if (!nest.ok) throw new Error('no nest')
          const nudge = nudger({ pieces, stock: rolls, gap })
          let roll = nest.value.rolls[0]
          for (const [n, [x, y], quarters] of nudges) {
            const { id, outline } = pieces[n % pieces.length]
            const before = roll.placements.find(({ piece }) => piece === id)!
            const { value } = done(nudge(roll, { piece: id, x, y, quarters }))
            roll = value.roll
            verifyNest(pieces, [roll], gap)
            if (quarters === 0) {
              const left = (at: { x: number; y: number }): number => Math.hypot(at.x - x, at.y - y)
              expect(left(value.placement)).toBeLessThanOrEqual(left(before) + 3e-6)
              if (left(value.placement) < left(before) - 1e-4) moves++
            }
            const P = placedOutline(outline, value.placement)
            for (const other of roll.placements) {
              if (other.piece === id) continue
              const Q = placedOutline(pieces.find((piece) => piece.id === other.piece)!.outline, other)
              expect(areaPaths(intersect([clip(P)], [clip(Q)], FillRule.NonZero))).toBe(0)
            }
          }
        },
      ),
      { numRuns: 25 },
    )
    expect(moves).toBeGreaterThan(0) // some of the random nudges did move a piece
  })
})

const clip = (outline: readonly Point[]) =>
  outline.map(([x, y]) => ({ x: Math.round(x * 1e8), y: Math.round(y * 1e8) }))

function done<T>(checked: { ok: true; value: T } | { ok: false; issues: unknown }): { value: T } {
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues))
  return checked
}
