import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import fc from 'fast-check'
import { intersection } from 'polyclip-ts'
import { describe, expect, test } from 'vitest'
import { drawTogether } from '../../src/nest/laid.ts'
import { type NestResult, nestPieces } from '../../src/nest/nest.ts'
import type { NestCloth, NestPiece, Point, StockRoll } from '../../src/nest/piece.ts'
import { type NestProgress, nestSteps, searchNest, searchNestInTurns } from '../../src/nest/search-nest.ts'
import { shapesOf } from '../../src/nest/shape.ts'
import { placedOutline } from '../../src/nest/turn.ts'
import { balanced, bayOutline, demoBay, randomPieces, unbalanced } from './random-pieces.ts'

const gap = 0.003
const roll = (cloth: NestCloth, width: number, length: number, defects: readonly Point[][] = []): StockRoll => ({
  ...{ id: `roll ${width} × ${length}`, cloth, width, length, selvedge: 0.01, defects },
})

const searched = (pieces: readonly NestPiece[], rolls: readonly StockRoll[], budget: number, seed = 1): NestResult => {
  const nest = searchNest({ pieces, rolls, gap, effort: 0.3 }, { budget, seed })
  if (!nest.ok) throw new Error(JSON.stringify(nest.issues))
  return nest.value
}

const clip = (outline: readonly Point[]) =>
  outline.map(([x, y]) => ({ x: Math.round(x * 1e8), y: Math.round(y * 1e8) }))
const overlap = (P: readonly Point[], Q: readonly Point[]): number =>
  areaPaths(intersect([clip(P)], [clip(Q)], FillRule.NonZero))

function outlinesOn({ rolls }: NestResult, pieces: readonly NestPiece[], n: number): Point[][] {
  return rolls[n].placements.map((at) => placedOutline(pieces.find(({ id }) => id === at.piece)!.outline, at))
}

/** A frame with a window, cut open by a slit: a piece may lie in the window or in another's hollow, never across. */
const frame: Point[] = [
  [0, 0],
  [0.3, 0],
  [0.3, 0.14],
  [0.28, 0.14],
  [0.28, 0.02],
  [0.02, 0.02],
  [0.02, 0.28],
  [0.28, 0.28],
  [0.28, 0.16],
  [0.3, 0.16],
  [0.3, 0.3],
  [0, 0.3],
]

describe('the long search', () => {
  test('no overlap by an independent clipper, on random outlines and several rolls', () => {
    let pairs = 0
    fc.assert(
      fc.property(
        fc.boolean().chain((b) => randomPieces(b ? balanced : unbalanced)),
        fc.double({ min: 0.3, max: 0.8, noNaN: true }),
        fc.integer({ min: 1, max: 1000 }),
        (pieces, length, seed) => {
          const { cloth } = pieces[0]
          const nest = searched(pieces, [roll(cloth, 0.5, length), roll(cloth, 0.3, 0.4)], 60_000, seed)
          nest.rolls.forEach(({ width, selvedge, availableLength }, n) => {
            const outlines = outlinesOn(nest, pieces, n)
            for (const [x, y] of outlines.flat()) {
              expect(y).toBeGreaterThanOrEqual(selvedge - 1e-9)
              expect(y).toBeLessThanOrEqual(width - selvedge + 1e-9)
              expect(x).toBeLessThanOrEqual((availableLength ?? Infinity) + 1e-9)
            }
            outlines.forEach((P, i) => {
              for (const Q of outlines.slice(i + 1)) {
                pairs++
                expect(overlap(P, Q)).toBe(0)
              }
            })
          })
          expect(nest.rolls.flatMap(({ placements }) => placements)).toHaveLength(pieces.length)
        },
      ),
      { numRuns: 12 },
    )
    expect(pairs).toBeGreaterThan(60)
  })

  test('none by a second library either, one that has no part in making the nest', () => {
    const pieces = demoPieces('A')
    const nest = searched(pieces, [roll(balanced, 0.965, 9)], 600_000)
    const outlines = outlinesOn(nest, pieces, 0)
    const shared = (P: Point[], Q: Point[]): number => {
      const ring = (outline: Point[]) => [outline.map(([x, y]): [number, number] => [x, y])]
      return intersection(ring(P), ring(Q)).length
    }
    let pairs = 0
    outlines.forEach((P, i) => {
      for (const Q of outlines.slice(i + 1)) {
        pairs++
        expect(shared(P, Q)).toBe(0)
      }
    })
    expect(pairs).toBe(190)
    // It sees an overlap of a tenth of a millimetre more than the gap.
    const pushed = outlines.map((P) => P.map(([x, y]): Point => [x + gap + 1e-4, y]))
    expect(outlines.some((P, i) => pushed.some((Q, j) => i !== j && shared(P, Q) > 0))).toBe(true)
  })

  test('frames with a window: what lies inside lies in the hole, not on the frame', () => {
    const block: Point[] = [
      [0, 0],
      [0.2, 0],
      [0.2, 0.2],
      [0, 0.2],
    ]
    const pieces = [frame, frame, block, block].map((outline, i): NestPiece => {
      return { id: `${i}`, cloth: unbalanced, outline, angle: Math.PI / 2 }
    })
    const nest = searched(pieces, [roll(unbalanced, 0.33, 9)], 400_000)
    const outlines = outlinesOn(nest, pieces, 0)
    outlines.forEach((P, i) => {
      for (const Q of outlines.slice(i + 1)) expect(overlap(P, Q)).toBe(0)
    })
    // Blocks in the windows: two frames one after the other and nothing else.
    expect(nest.rolls[0].usedLength).toBeLessThan(0.61)
  })

  test('same seed and budget, same nest; another seed, another', () => {
    const pieces = demoPieces('A')
    const [a, b, c] = [1, 1, 2].map((seed) => searched(pieces, [roll(balanced, 0.965, 9)], 300_000, seed))
    expect(a).toEqual(b)
    expect(a).not.toEqual(c)
  })

  test('never worse than the start, every better one is shorter, and it stops when told', () => {
    const pieces = demoPieces('A')
    const input = { pieces, rolls: [roll(balanced, 0.965, 9)], gap }
    const start = nestPieces(input)
    if (!start.ok) throw new Error('no start')
    const steps: NestProgress[] = []
    const search = nestSteps(input, { budget: 600_000 })
    for (let step = search.next(); !step.done; step = search.next()) steps.push(step.value)
    expect(steps[0].spent).toBe(0)
    expect(steps[0].nest()).toEqual(start.value)
    const better = steps.filter((step) => step.better)
    expect(better.length).toBeGreaterThan(2)
    better.slice(1).forEach((step, i) => {
      expect(step.usedArea).toBeLessThan(better[i].usedArea)
    })
    const stopped = searchNest(input, { budget: Infinity, pace: () => 0 }, { shouldStop: () => true })
    expect(stopped).toEqual(start)
    const enough = (steps[0].density + steps[steps.length - 1].density) / 2
    let rounds = 0
    const good = searchNest(input, { budget: 600_000, goodEnough: enough }, { shouldStop: () => rounds++ < 0 })
    expect(good.ok && good.value.rolls[0].density).toBeGreaterThanOrEqual(enough)
    expect(rounds).toBeLessThan(steps.length)
  })

  test('a pace of the caller ends it as well', () => {
    let asked = 0
    const input = { pieces: demoPieces('A'), rolls: [roll(balanced, 0.965, 9)], gap }
    const nest = searchNest(input, { budget: Infinity, pace: () => asked++ / 500 })
    expect(nest.ok).toBe(true)
  })

  test('an abort signal ends it, all in one go or in turns, with the best so far', async () => {
    const input = { pieces: demoPieces('A'), rolls: [roll(balanced, 0.965, 9)], gap }
    const start = nestPieces(input)
    if (!start.ok) throw new Error('no start')
    const cancel = new AbortController()
    const seen: NestProgress[] = []
    const onProgress = (progress: NestProgress): void => {
      seen.push(progress)
      if (seen.length === 3) cancel.abort()
    }
    const never = { budget: Infinity, pace: () => 0 }
    const stopped = searchNest(input, never, { onProgress, signal: cancel.signal })
    expect(seen).toHaveLength(3)
    expect(stopped.ok && stopped.value).toEqual(seen[2].nest())
    // In turns the thread is free between rounds: what it does there can end the search.
    const later = new AbortController()
    let turns = 0
    const pause = async (): Promise<void> => {
      await new Promise((go) => setImmediate(go))
      if (++turns === 5) later.abort()
    }
    let rounds = 0
    const inTurns = await searchNestInTurns(input, never, { pause, signal: later.signal, onRound: () => rounds++ })
    expect(turns).toBe(5)
    expect(rounds).toBeLessThan(100)
    expect(inTurns.ok && inTurns.value.rolls[0].usedLength).toBeLessThanOrEqual(start.value.rolls[0].usedLength)
  })

  test('in turns or in one go: the same nest; the start is told first, before any search', async () => {
    const input = { pieces: demoPieces('A'), rolls: [roll(balanced, 0.965, 9)], gap }
    const spent: number[] = []
    const onRound = (progress: NestProgress): void => void spent.push(progress.spent)
    const inTurns = await searchNestInTurns(input, { budget: 200_000 }, { pause: async () => {}, onRound })
    expect(inTurns).toEqual(searchNest(input, { budget: 200_000 }))
    expect(spent[0]).toBe(0)
    expect(spent.length).toBeGreaterThan(50)
    expect([...spent].sort((a, b) => a - b)).toEqual(spent)
  })

  test('trapezoids end up head to tail', () => {
    // Two make a rectangle 0.3 × 0.2: ten fill 1.5 m of the strip, a millimetre apart.
    const outline: Point[] = [
      [0, 0],
      [0.2, 0],
      [0.1, 0.2],
      [0, 0.2],
    ]
    const pieces = [...Array(10).keys()].map((i): NestPiece => {
      return { id: `${i}`, cloth: unbalanced, outline, angle: Math.PI / 2 }
    })
    const nest = searched(pieces, [{ ...roll(unbalanced, 0.221, 9) }], 300_000)
    expect(nest.rolls[0].usedLength).toBeLessThan(1.5 + 10 * 0.0036)
  })
})

describe('several rolls', () => {
  test('what filling leaves to buy is fitted into the stock, if it can be', () => {
    const pieces = demoPieces('A')
    const long = nestPieces({ pieces, rolls: [roll(balanced, 0.965, 9)], gap })
    if (!long.ok) throw new Error('no start')
    const best = searched(pieces, [roll(balanced, 0.965, 9)], 2_000_000).rolls[0].usedLength
    const first = long.value.rolls[0].usedLength
    expect(best).toBeLessThan(first)
    // A roll shorter than filling takes, and longer than the search needs.
    const rolls = [roll(balanced, 0.965, 0.3 * first + 0.7 * best)]
    const filled = nestPieces({ pieces, rolls, gap })
    const nest = searched(pieces, rolls, 2_000_000)
    expect(filled.ok && filled.value.buy.length).toBe(1)
    expect(nest.buy).toEqual([])
  })
  test('never more to buy, nor as much to buy and more cloth used, at any step', () => {
    let better = 0
    fc.assert(
      fc.property(randomPieces(balanced), fc.double({ min: 0.2, max: 0.6, noNaN: true }), (pieces, length) => {
        const rolls = [roll(balanced, 0.5, length), roll(balanced, 0.3, 0.3)]
        let last = { buyLength: Infinity, usedArea: Infinity }
        searchNest(
          { pieces, rolls, gap, effort: 0.1 },
          { budget: 60_000 },
          {
            onProgress: ({ buyLength, usedArea }) => {
              better++
              expect(buyLength).toBeLessThanOrEqual(last.buyLength)
              if (buyLength === last.buyLength) expect(usedArea).toBeLessThan(last.usedArea)
              last = { buyLength, usedArea }
            },
          },
        )
      }),
      { numRuns: 15 },
    )
    expect(better).toBeGreaterThan(30)
  })
})

describe('defects', () => {
  const flaw: Point[] = [
    [0.2, 0.3],
    [0.35, 0.25],
    [0.4, 0.5],
    [0.25, 0.45],
  ]
  test.each([
    ['as drawn', flaw],
    ['the other way round', [...flaw].reverse()],
  ])('%s: no piece lies on them, filled or searched', (_, defect) => {
    const pieces = demoPieces('A')
    const rolls = [roll(balanced, 0.965, 3, [defect])]
    const filled = nestPieces({ pieces, rolls, gap })
    if (!filled.ok) throw new Error('no start')
    for (const nest of [filled.value, searched(pieces, rolls, 300_000)]) {
      for (const P of outlinesOn(nest, pieces, 0)) expect(Math.abs(overlap(P, flaw))).toBe(0)
    }
    const without = nestPieces({ pieces, rolls: [roll(balanced, 0.965, 3)], gap })
    if (!without.ok) throw new Error('no start')
    const hit = outlinesOn(without.value, pieces, 0).some((P) => overlap(P, flaw) > 0)
    expect(hit).toBe(true)
  })
  test('one without area is refused by name', () => {
    const defects: Point[][] = [
      [
        [0, 0],
        [1, 0],
      ],
    ]
    const nest = nestPieces({ pieces: demoPieces('A'), rolls: [roll(balanced, 0.965, 3, defects)], gap })
    expect(nest).toMatchObject({
      ok: false,
      issues: [{ code: 'nest/defect-outline', path: 'stock.rolls[0].defects[0]' }],
    })
  })
})

describe('pieces of a bay', () => {
  test('come off together, at no cost', () => {
    const pieces = demoPieces('AB')
    const spread = (group: boolean): { spread: number; used: number } => {
      const own = pieces.map((piece) => (group ? { ...piece, group: piece.id.slice(0, 3) } : piece))
      const nest = nestPieces({ pieces: own, rolls: [roll(balanced, 0.965, 9)], gap })
      if (!nest.ok) throw new Error('no nest')
      const at = nest.value.rolls[0].placements
      const middles = at.map((placement) => {
        const P = placedOutline(pieces.find(({ id }) => id === placement.piece)!.outline, placement)
        return { bay: placement.piece.slice(0, 3), x: mean(P.map(([x]) => x)), y: mean(P.map(([, y]) => y)) }
      })
      const bays = [...new Set(middles.map(({ bay }) => bay))].map((bay) => middles.filter((p) => p.bay === bay))
      const squares = bays.flatMap((group) => {
        const [x, y] = [mean(group.map((p) => p.x)), mean(group.map((p) => p.y))]
        return group.map((p) => (p.x - x) ** 2 + (p.y - y) ** 2)
      })
      return { spread: mean(squares), used: nest.value.rolls[0].usedLength }
    }
    const [apart, together] = [spread(false), spread(true)]
    expect(together.used).toBe(apart.used)
    expect(together.spread).toBeLessThan(apart.spread)
  })
  test('by hand: two plies of three bays, dealt out in the wrong order', () => {
    const square: Point[] = [
      [0, 0],
      [0.1, 0],
      [0.1, 0.1],
      [0, 0.1],
    ]
    const pieces = ['P1', 'P2'].flatMap((ply, p) =>
      ['A-1', 'A-2', 'A-3'].map((group): NestPiece => {
        const outline = square.map(([x, y]): Point => [x, y * (1 + p)])
        return { id: `${group}-${ply}`, group, cloth: unbalanced, outline, angle: Math.PI / 2 }
      }),
    )
    const shapes = shapesOf(pieces, false, gap)
    // The third bay's P2 lies beside the first bay's P1, and so on.
    const spots = [0, 1, 2].flatMap((x) =>
      [0, 4].map((variant) => ({ variant, x: x * 2e5, y: variant * 3e4, score: 0 })),
    )
    const indices = [0, 2, 1, 1, 2, 0]
    drawTogether(shapes, spots, indices)
    for (const n of [0, 2, 4]) expect(indices[n]).toBe(indices[n + 1])
    expect([...indices].sort()).toEqual([0, 0, 1, 1, 2, 2])
  })
})

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

function demoPieces(cans: string): NestPiece[] {
  const reaches = [
    { angle: 0, step: 0.06 },
    { angle: Math.PI / 4, step: 0.04 },
    { angle: 0, step: 0.02 },
    { angle: Math.PI / 4, over: 0.01 },
    { angle: 0, over: 0.01 },
  ]
  return reaches.flatMap(({ angle, ...reach }, p) =>
    [...cans].flatMap((can) =>
      [1, 2, 3, 4].map((bay): NestPiece => {
        return { id: `${can}-${bay}-P${p + 1}`, cloth: balanced, angle, outline: bayOutline(demoBay, reach) }
      }),
    ),
  )
}
