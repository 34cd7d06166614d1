import { describe, expect, test } from 'vitest'
import { nestPieces, usualGap } from '../../src/nest/nest.ts'
import type { NestCloth, NestPiece, Point, StockRoll } from '../../src/nest/piece.ts'
import { leastWidth, turned, warpDirection } from '../../src/nest/turn.ts'
import { balanced, bayOutline, demoBay, unbalanced } from './random-pieces.ts'

/** The five structural plies of the workshop's schedule; ±45 plies drawn without their bias allowance. */
const schedule = [
  { ply: 'P1', angle: 0, step: 0.06 },
  { ply: 'P2', angle: Math.PI / 4, step: 0.04 },
  { ply: 'P3', angle: 0, step: 0.02 },
  { ply: 'P4', angle: Math.PI / 4, over: 0.01 },
  { ply: 'P5', angle: 0, over: 0.01 },
]

const piecesOf = (cans: string, cloth: NestCloth): NestPiece[] =>
  schedule.flatMap(({ ply, angle, ...reach }) =>
    [...cans].flatMap((can) =>
      [1, 2, 3, 4].map((bay) => ({ id: `${can}-${bay}-${ply}`, cloth, angle, outline: bayOutline(demoBay, reach) })),
    ),
  )

const wide = (cloth: NestCloth, length: number): StockRoll => ({
  id: 'wide',
  cloth,
  width: 0.965,
  length,
  selvedge: 0.01,
})
const tape = (cloth: NestCloth, length = 6): StockRoll => ({ id: 'tape', cloth, width: 0.3, length, selvedge: 0.002 })

const nested = (pieces: readonly NestPiece[], rolls: readonly StockRoll[], effort = 1) => {
  const nest = nestPieces({ pieces, rolls, gap: usualGap, effort })
  if (!nest.ok) throw new Error(JSON.stringify(nest.issues))
  return { ...nest.value, warnings: nest.warnings }
}
const pliesOn = (rolls: ReturnType<typeof nested>['rolls'], roll: string): string[] => {
  const placements = rolls.find((nest) => nest.roll === roll)?.placements ?? []
  return [...new Set(placements.map(({ piece }) => piece.split('-')[2]))].sort()
}

describe('two widths of one cloth', () => {
  test('the narrow plies go on the tape, the others on the wide roll; nothing to buy for one can', () => {
    const { rolls, buy, warnings } = nested(piecesOf('A', balanced), [wide(balanced, 2.4), tape(balanced)])
    expect(pliesOn(rolls, 'tape')).toEqual(['P1', 'P3'])
    expect(pliesOn(rolls, 'wide')).toEqual(['P2', 'P4', 'P5'])
    expect(buy).toEqual([])
    expect(warnings).toEqual([])
    const used = rolls.find(({ roll }) => roll === 'wide')!.usedLength
    // By bounding boxes the wide roll needs 2.25 m for one can.
    expect(used).toBeLessThan(1.6)
  })

  test('two cans: less to buy than the 1.78 m that bounding boxes ask for', () => {
    const { rolls, buy, warnings } = nested(piecesOf('AB', balanced), [wide(balanced, 2.4), tape(balanced)])
    const bought = buy.reduce((sum, { length }) => sum + length, 0)
    expect(bought).toBeLessThan(0.6)
    expect(warnings.map(({ code }) => code)).toEqual(buy.length === 0 ? [] : ['nest/stock-short'])
    for (const { availableLength, usedLength } of rolls) expect(usedLength).toBeLessThanOrEqual(availableLength ?? 9)
  })

  test('the full plies are 8 mm too wide for the tape', () => {
    expect(leastWidth(bayOutline(demoBay, { over: 0.01 }), 0, true)).toBeCloseTo(0.3079, 9)
  })

  test('on cloth that is not balanced nothing is turned by a quarter, so P1 does not fit the tape', () => {
    const pieces = piecesOf('A', unbalanced)
    const { rolls } = nested(pieces, [wide(unbalanced, 9), tape(unbalanced)])
    expect(pliesOn(rolls, 'tape')).toEqual([])
    for (const { piece, rotation } of rolls.flatMap(({ placements }) => placements)) {
      const { angle } = pieces.find(({ id }) => id === piece)!
      expect(turned(warpDirection(angle), rotation)[1]).toBeCloseTo(0, 12)
    }
  })
})

describe('cloth to buy', () => {
  test('stock that is too short: a warning, a line to buy and the rest on cloth of the same width', () => {
    const { rolls, buy, warnings } = nested(piecesOf('A', balanced), [wide(balanced, 0.7)])
    const virtual = rolls.find(({ availableLength }) => availableLength === null)!
    expect(virtual).toMatchObject({ roll: 'plain to buy', cloth: 'plain', width: 0.965, selvedge: 0.01 })
    expect(buy).toEqual([expect.objectContaining({ cloth: 'plain', width: 0.965, length: virtual.usedLength })])
    expect(warnings).toMatchObject([{ code: 'nest/stock-short', path: 'stock.rolls', value: virtual.usedLength }])
    expect(warnings[0].message).toContain('0.70 m of 965 mm in stock')
    expect(rolls.reduce((sum, { placements }) => sum + placements.length, 0)).toBe(20)
  })

  test('the flight can is cut from stock before the backup', () => {
    const { rolls } = nested(piecesOf('AB', balanced), [wide(balanced, 2)])
    const virtual = rolls.find(({ availableLength }) => availableLength === null)!
    const stock = rolls.find(({ availableLength }) => availableLength !== null)!
    const later = (ids: readonly { piece: string }[], ply: string) =>
      ids.filter(({ piece }) => piece.endsWith(ply)).map(({ piece }) => piece)
    for (const { ply } of schedule) {
      const onStock = later(stock.placements, ply).sort()
      const bought = later(virtual.placements, ply).sort()
      if (onStock.length > 0 && bought.length > 0) expect(onStock[onStock.length - 1] < bought[0]).toBe(true)
    }
  })

  test('none in stock: a usual width, said to be an assumption', () => {
    const peel: NestCloth = { id: 'peel', name: 'peel ply', weave: 'peel ply', warpShare: { value: 0.5 } }
    const outline = bayOutline(demoBay, { over: 0.01 })
    const pieces = [1, 2, 3, 4].map((bay) => ({ id: `A-${bay}-R1`, cloth: peel, angle: 0, outline }))
    const { buy, warnings } = nested([...piecesOf('A', balanced), ...pieces], [wide(balanced, 3)])
    expect(buy).toMatchObject([{ cloth: 'peel', clothName: 'peel ply', width: 1 }])
    expect(buy[0].reason).toContain('a usual width of 1000 mm is assumed')
    expect(warnings).toMatchObject([{ code: 'nest/not-in-stock' }])
  })

  test('none in stock and wider than the first usual width: the next', () => {
    const outline: Point[] = [
      [0, 0],
      [1.1, 0],
      [1.1, 1.1],
      [0, 1.1],
    ]
    const { buy } = nested([{ id: 'A-1-P1', cloth: balanced, angle: 0, outline }], [])
    expect(buy).toMatchObject([{ width: 1.27 }])
  })
})

describe('cloth narrower than the piece', () => {
  test('is an error that names the piece, what it needs, what there is and what to do', () => {
    const nest = nestPieces({ pieces: piecesOf('A', balanced), rolls: [tape(balanced)], gap: usualGap })
    if (nest.ok) throw new Error('it nested')
    expect(nest.issues.map(({ code }) => code)).toEqual(new Array(3).fill('nest/cloth-too-narrow'))
    const p5 = nest.issues.find(({ message }) => message.includes('A-1-P5'))!
    expect(p5).toMatchObject({ path: 'stock.rolls', value: 0.3 })
    expect(p5.message).toContain('A-1-P5 (and 3 more like it) needs 308 mm across at any quarter turn')
    expect(p5.message).toContain('the widest roll of plain cloth is 300 mm, 296 mm between its selvedges')
    expect(p5.hint).toContain('at least 312 mm wide')
  })

  test('all cloths are told at once', () => {
    const narrow = [tape(balanced), tape(unbalanced)]
    const pieces = [...piecesOf('A', balanced), ...piecesOf('B', unbalanced)]
    const nest = nestPieces({ pieces, rolls: narrow, gap: usualGap })
    if (nest.ok) throw new Error('it nested')
    expect(new Set(nest.issues.map(({ message }) => message.slice(-60)))).not.toHaveLength(1)
    expect(nest.issues).toHaveLength(3 + 5)
  })
})

describe('quality', () => {
  test('beats rows of bounding boxes by more than a tenth on the demo', () => {
    const pieces = piecesOf('AB', balanced)
    const { rolls } = nested(pieces, [wide(balanced, 99)])
    const rows = boxRows(pieces, 0.945, usualGap)
    const area = pieces.reduce((sum, { outline }) => sum + polygonArea(outline), 0)
    const { usedLength, density, waste } = rolls[0]
    console.info(
      `demo, 40 pieces on 965 mm: ${usedLength.toFixed(3)} m (density ${density.toFixed(3)}); ` +
        `rows of bounding boxes ${rows.toFixed(3)} m (density ${(area / (0.965 * rows)).toFixed(3)})`,
    )
    expect(usedLength).toBeLessThan(0.9 * rows)
    expect(density).toBeCloseTo(area / (0.965 * usedLength), 9)
    expect(waste).toBeCloseTo(0.965 * usedLength - area, 9)
  })

  test('trapezoids lie head to tail', () => {
    // Two of them make a rectangle 0.3 × 0.2, so eight fill 1.2 m of a 0.2 m strip without waste, the gaps apart.
    const outline: Point[] = [
      [0, 0],
      [0.2, 0],
      [0.1, 0.2],
      [0, 0.2],
    ]
    const pieces = [...Array(8).keys()].map((i) => ({ id: `A-${i}`, cloth: unbalanced, angle: Math.PI / 2, outline }))
    const { rolls } = nested(pieces, [{ ...wide(unbalanced, 9), width: 0.221 }])
    // Eight gaps of 3 mm, the slanted ones longer along the roll by √(1 + 0.5²).
    expect(rolls[0].usedLength).toBeLessThan(1.2 + 8 * 0.0036)
    expect(new Set(rolls[0].placements.map(({ rotation }) => rotation.toFixed(6))).size).toBe(2)
  })

  test('more effort never takes more cloth, and the same input gives the same nest', () => {
    const pieces = piecesOf('A', balanced)
    const [some, again, more] = [1, 1, 3].map((effort) => nested(pieces, [wide(balanced, 9)], effort).rolls[0])
    expect(again).toEqual(some)
    expect(more.usedLength).toBeLessThanOrEqual(some.usedLength)
  })
})

const polygonArea = (P: readonly Point[]): number =>
  P.reduce((sum, [x, y], i) => sum + x * P[(i + 1) % P.length][1] - y * P[(i + 1) % P.length][0], 0) / 2

/** Length of a strip filled with bounding boxes in columns across it, tallest first, first column that has room. */
function boxRows(pieces: readonly NestPiece[], width: number, gap: number): number {
  const boxes = pieces.map(({ outline, angle }) => {
    const sides = [0, 1].map((axis) => {
      const along = outline.map((point) => turned(point, angle - Math.PI / 2)[axis])
      return Math.max(...along) - Math.min(...along)
    })
    return { short: Math.min(...sides), long: Math.max(...sides) }
  })
  const packed = (length: 'short' | 'long', across: 'short' | 'long'): number => {
    const columns: { length: number; used: number }[] = []
    for (const box of [...boxes].sort((a, b) => b[length] - a[length])) {
      const column = columns.find(({ used }) => used + gap + box[across] <= width)
      if (column === undefined) columns.push({ length: box[length], used: box[across] })
      else column.used += gap + box[across]
    }
    return columns.reduce((sum, column) => sum + column.length + gap, -gap)
  }
  return Math.min(packed('short', 'long'), packed('long', 'short'))
}
