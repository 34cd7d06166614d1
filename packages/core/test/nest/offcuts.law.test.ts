import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { nestPieces } from '../../src/nest/nest.ts'
import { type Offcut, offcutStock, offcutsOf, usualOffcut } from '../../src/nest/offcuts.ts'
import type { NestedRoll, NestPiece, Point, StockRoll } from '../../src/nest/piece.ts'
import { placedOutline } from '../../src/nest/turn.ts'
import { randomPieces, unbalanced } from './random-pieces.ts'

const gap = 0.003
const corners = ({ x, y, length, width }: Offcut): Point[] => [
  [x, y],
  [x + length, y],
  [x + length, y + width],
  [x, y + width],
]
const clip = (outline: readonly Point[]) =>
  outline.map(([x, y]) => ({ x: Math.round(x * 1e8), y: Math.round(y * 1e8) }))
const overlap = (P: readonly Point[], Q: readonly Point[]): number =>
  areaPaths(intersect([clip(P)], [clip(Q)], FillRule.NonZero))

describe('off-cuts', () => {
  test('by hand: one piece in a corner of a roll', () => {
    const outline: Point[] = [
      [0, 0],
      [0.3, 0],
      [0.3, 0.2],
      [0, 0.2],
    ]
    const pieces: NestPiece[] = [{ id: 'a', cloth: unbalanced, outline, angle: Math.PI / 2 }]
    const roll: NestedRoll = {
      ...{ roll: 'r', cloth: 'heavy', clothName: 'heavy', width: 0.52, selvedge: 0.01, availableLength: 2 },
      ...{ usedLength: 0.3, density: 0.06 / (0.3 * 0.52), waste: 0.3 * 0.52 - 0.06 },
      placements: [{ piece: 'a', x: 0, y: 0.01, rotation: 0 }],
    }
    const [tail, beside, ...more] = offcutsOf(roll, pieces, gap)
    expect(tail).toEqual({ x: 0.303, y: 0, length: 2 - 0.303, width: 0.52, selvedge: 0.01, defects: [] })
    // 0.5 m between the selvedges, 0.2 m of piece, the gap: 0.297 m are left, to a square or two of the raster.
    expect(beside.length).toBeCloseTo(0.3, 9)
    expect(beside.width).toBeLessThanOrEqual(0.297)
    expect(beside.width).toBeGreaterThan(0.29)
    expect(more).toEqual([])
    const from: StockRoll = { id: 'r', cloth: unbalanced, width: 0.52, length: 2, selvedge: 0.01 }
    expect(offcutStock(from, [tail, beside])).toMatchObject([
      { id: 'r', width: 0.52, selvedge: 0.01 },
      { id: 'r off-cut 1', length: beside.length, selvedge: 0 },
    ])
  })

  test('lie on free cloth, apart from one another, and can be nested on', () => {
    let found = 0
    const defect: Point[] = [
      [0.1, 0.1],
      [0.3, 0.12],
      [0.2, 0.3],
    ]
    // Its own frame: the tail keeps what lies on it.
    const onTail = ({ x, defects }: Offcut): Point[][] => defects.map((own) => own.map(([u, v]): Point => [u + x, v]))
    fc.assert(
      fc.property(randomPieces(unbalanced), fc.double({ min: 0.6, max: 2, noNaN: true }), (pieces, length) => {
        const stock = { id: 'r', cloth: unbalanced, width: 0.6, length, selvedge: 0.01, defects: [defect] }
        const nest = nestPieces({ pieces, rolls: [stock], gap, effort: 0.1 })
        if (!nest.ok) throw new Error('no nest')
        const roll = nest.value.rolls.find(({ availableLength }) => availableLength !== null)
        if (roll === undefined) return
        const offcuts = offcutsOf(roll, pieces, gap, usualOffcut, [defect])
        const outlines = roll.placements.map((at) =>
          placedOutline(pieces.find(({ id }) => id === at.piece)!.outline, at),
        )
        offcuts.forEach((offcut, n) => {
          found++
          expect(Math.min(offcut.length, offcut.width)).toBeGreaterThanOrEqual(0.1 - 1e-9)
          expect(offcut.x + offcut.length).toBeLessThanOrEqual(length + 1e-9)
          const P = corners(offcut)
          for (const Q of outlines) expect(Math.abs(overlap(P, Q))).toBe(0)
          if (offcut.width < 0.6) expect(Math.abs(overlap(P, defect))).toBe(0)
          else {
            const flawed = Math.abs(overlap(P, defect))
            const said = onTail(offcut).reduce((sum, own) => sum + Math.abs(overlap(own, defect)), 0)
            expect(said).toBeGreaterThanOrEqual(flawed * (1 - 1e-6))
          }
          for (const other of offcuts.slice(n + 1)) expect(overlap(P, corners(other))).toBeLessThan(10)
        })
      }),
      { numRuns: 25 },
    )
    expect(found).toBeGreaterThan(25)
  })

  test('a flaw beyond the cut stays on the tail; of one that the cut runs through, the box beyond it', () => {
    const roll: NestedRoll = {
      ...{ roll: 'r', cloth: 'heavy', clothName: 'heavy', width: 0.52, selvedge: 0.01, availableLength: 2 },
      ...{ usedLength: 0.297, density: 0, waste: 0, placements: [] },
    }
    const triangle = (x: number): Point[] => [
      [x, 0.1],
      [x + 0.2, 0.2],
      [x, 0.3],
    ]
    const [tail] = offcutsOf(roll, [], gap, usualOffcut, [triangle(0.05), triangle(0.2), triangle(1.3)])
    const round = tail.defects.map((outline) => outline.map((at) => at.map((value) => Number(value.toFixed(9)))))
    expect(round).toEqual([
      [
        [0, 0.1],
        [0.1, 0.1],
        [0.1, 0.3],
        [0, 0.3],
      ],
      [
        [1, 0.1],
        [1.2, 0.2],
        [1, 0.3],
      ],
    ])
  })
})
