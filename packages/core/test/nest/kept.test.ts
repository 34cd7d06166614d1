import { describe, expect, test } from 'vitest'
import { type KeptPlacement, keptNest, placementsOf } from '../../src/nest/kept.ts'
import { type NestInput, nestPieces } from '../../src/nest/nest.ts'
import type { NestCloth, NestPiece, StockRoll } from '../../src/nest/piece.ts'
import { searchNest } from '../../src/nest/search-nest.ts'
import { balanced, bayOutline, demoBay, unbalanced } from './random-pieces.ts'

const film: NestCloth = { id: 'film', name: 'film', weave: 'film', warpShare: { value: 0.5 } }
const outline = bayOutline(demoBay, { over: 0.01, run: 0.015 })
const pieces = [balanced, unbalanced, film].flatMap((cloth) =>
  [0, 1, 2, 3].map((i): NestPiece => ({ id: `${cloth.id}-${i}`, cloth, outline, angle: (i * Math.PI) / 4 })),
)
const roll = (cloth: NestCloth, length: number): StockRoll => {
  return { id: `${cloth.id} roll`, cloth, width: 0.965, length, selvedge: 0.01 }
}
// of the film nothing is in stock: it is kept on cloth to be bought
const input: NestInput = { pieces, rolls: [roll(balanced, 3), roll(unbalanced, 3)], gap: 0.003 }

/** As a plan writes it: micrometres and millionths of a degree. */
const written = (placements: readonly KeptPlacement[]): KeptPlacement[] =>
  placements.map(({ piece, roll, x, y, rotation }) => ({
    ...{ piece, roll, x: Number((x * 1e3).toFixed(3)) / 1e3, y: Number((y * 1e3).toFixed(3)) / 1e3 },
    rotation: (Number(((rotation * 180) / Math.PI).toFixed(6)) * Math.PI) / 180,
  }))

function found() {
  const nest = searchNest(input, { budget: 60_000 })
  if (!nest.ok) throw new Error(JSON.stringify(nest.issues))
  return nest.value
}

describe('a nest that the plan keeps', () => {
  const nest = found()
  const placements = written(placementsOf(nest.rolls))

  test('is the nest again, to what writing costs, with what is to be bought', () => {
    const kept = keptNest(input, placements)
    if (kept.kind !== 'kept') throw new Error(kept.why)
    expect(kept.value.rolls.map(({ roll }) => roll).sort()).toEqual(nest.rolls.map(({ roll }) => roll).sort())
    for (const { roll, usedLength, density, waste } of kept.value.rolls) {
      const own = nest.rolls.find((one) => one.roll === roll)!
      expect(usedLength).toBeCloseTo(own.usedLength, 5)
      expect(density).toBeCloseTo(own.density, 5)
      expect(waste).toBeCloseTo(own.waste, 5)
    }
    expect(kept.value.buy).toHaveLength(1)
    expect(kept.value.buy[0]!.cloth).toBe('film')
    expect(kept.warnings.map(({ code }) => code)).toEqual(['nest/not-in-stock'])
  })

  const moved = (at: number, by: Partial<KeptPlacement>): KeptPlacement[] =>
    placements.map((one, i) => (i === at ? { ...one, ...by } : one))

  test.each([
    ['a piece is missing', placements.slice(1), 'all 12 pieces'],
    ['a piece is stated twice', [...placements, placements[0]!], 'nested once'],
    ['a piece is unknown', [...placements, { ...placements[0]!, piece: 'Z' }], 'no piece Z'],
    ['a roll is gone', moved(0, { roll: 'gone' }), "no roll 'gone'"],
    ['two overlap', moved(1, { x: placements[0]!.x, y: placements[0]!.y, rotation: placements[0]!.rotation }), ''],
    ['one is off the roll', moved(0, { x: placements[0]!.x - 0.01 }), ''],
    ['one is askew', moved(0, { rotation: placements[0]!.rotation + 0.001 }), 'warp'],
  ])('is not used when %s', (_, broken, why) => {
    const kept = keptNest(input, broken)
    expect(kept.kind).toBe('broken')
    if (kept.kind === 'broken') expect(kept.why).toContain(why)
  })
})

test.each([
  [0.103, 'kept'],
  [0.102999, 'kept'],
  [0.10299, 'broken'],
])('two squares of 100 mm, the second %d m along: %s at a gap of 3 mm', (x, kind) => {
  const square = [
    [0, 0],
    [0.1, 0],
    [0.1, 0.1],
    [0, 0.1],
  ] as const
  const two = ['a', 'b'].map((id): NestPiece => ({ id, cloth: balanced, outline: square, angle: Math.PI / 2 }))
  const laid = two.map(({ id }, i) => ({ piece: id, roll: 'plain roll', x: i * x, y: 0.01, rotation: 0 }))
  expect(keptNest({ pieces: two, rolls: [roll(balanced, 1)], gap: 0.003 }, laid).kind).toBe(kind)
})

test('the plain filling is kept as well as a search', () => {
  const nest = nestPieces(input)
  if (!nest.ok) throw new Error('no nest')
  expect(keptNest(input, written(placementsOf(nest.value.rolls))).kind).toBe('kept')
})
