import { describe, expect, test } from 'vitest'
import type { NestedRoll, NestPiece, PiecePlacement, StockRoll } from '../../src/nest/piece.ts'
import { verifyNest } from '../../src/nest/verify.ts'
import { balanced, unbalanced } from './random-pieces.ts'

const outline = [
  [0, 0],
  [0.1, 0],
  [0.1, 0.1],
  [0, 0.1],
] as const
const pieces: NestPiece[] = ['A', 'B'].map((id) => ({ id, cloth: unbalanced, angle: Math.PI / 2, outline }))
const at = (piece: string, x: number, y: number, rotation = 0): PiecePlacement => ({ piece, x, y, rotation })
const roll = (placements: readonly PiecePlacement[], change: Partial<NestedRoll> = {}): NestedRoll => ({
  ...{ roll: 'r', cloth: 'heavy', clothName: 'warp-heavy cloth', width: 0.3, selvedge: 0.01, availableLength: 1 },
  ...{ usedLength: 0.5, density: 0.5, waste: 0.1, placements },
  ...change,
})
const fault =
  (rolls: readonly NestedRoll[], of = pieces) =>
  () =>
    verifyNest(of, rolls, 0.003)

describe('the last look at a nest', () => {
  test('passes a good one', () => {
    expect(fault([roll([at('A', 0, 0.01), at('B', 0.103, 0.01)])])).not.toThrow()
    expect(fault([roll([at('A', 0, 0.01), at('B', 0.203, 0.11, Math.PI)])])).not.toThrow()
  })
  test.each([
    ['an overlap', [at('A', 0, 0.01), at('B', 0.099, 0.01)], 'do not overlap'],
    ['one piece inside another', [at('A', 0, 0.01), at('B', 0, 0.01)], 'do not overlap'],
    ['less than the gap', [at('A', 0, 0.01), at('B', 0.1029, 0.01)], 'lie 0.003 m apart'],
    ['a piece over the selvedge', [at('A', 0, 0.0099), at('B', 0.2, 0.01)], 'between the selvedges'],
    ['a piece over the end', [at('A', 0, 0.01), at('B', 0.45, 0.01)], 'in the used length'],
    ['a piece laid twice', [at('A', 0, 0.01), at('A', 0.2, 0.01)], 'is nested once'],
    ['a piece forgotten', [at('A', 0, 0.01)], 'all 2 pieces are nested'],
    ['a quarter turn of unbalanced cloth', [at('A', 0, 0.01), at('B', 0.3, 0.01, Math.PI / 2)], 'the warp of B'],
    ['a small skew', [at('A', 0, 0.01), at('B', 0.2, 0.02, 1e-6)], 'the warp of B'],
  ])('throws on %s', (_, placements, message) => {
    expect(fault([roll(placements)])).toThrow(message)
  })
  test('throws when a roll is used past its length', () => {
    const placements = [at('A', 0, 0.01), at('B', 0.2, 0.01)]
    expect(fault([roll(placements, { availableLength: 0.29 })])).toThrow('lies on the roll')
  })
  test('throws when a piece lies on a defect of its roll, and only then', () => {
    const placements = [at('A', 0, 0.01), at('B', 0.2, 0.01)]
    const stock = (x: number): StockRoll[] => [
      {
        ...{ id: 'r', cloth: unbalanced, width: 0.3, length: 1, selvedge: 0.01 },
        defects: [
          [
            [x, 0.05],
            [x + 0.02, 0.05],
            [x + 0.01, 0.07],
          ],
        ],
      },
    ]
    const check = (x: number) => () => verifyNest(pieces, [roll(placements)], 0.003, stock(x))
    expect(check(0.09)).toThrow('A and defect 1 do not overlap')
    expect(check(0.15)).not.toThrow()
  })
  test('allows a quarter turn of balanced cloth', () => {
    const own = pieces.map((piece) => ({ ...piece, cloth: balanced }))
    const placements = [at('A', 0, 0.01), at('B', 0.3, 0.01, Math.PI / 2)]
    expect(fault([roll(placements, { cloth: 'plain' })], own)).not.toThrow()
  })
})
