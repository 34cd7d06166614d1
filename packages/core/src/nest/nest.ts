/**
 * All pieces on the cloth in stock, and what has to be bought.
 *
 * Stock that is too short is a warning with a line to buy; a piece wider than every roll of its cloth is an error, as
 * it cannot be cut in one. For a cloth that is not in stock a usual width is assumed and said.
 */
import type { Checked, Issue } from '../issue.ts'
import { badDefects, stockLengths } from './defects.ts'
import { turnsWorthATry } from './free-turn.ts'
import { nestedRolls } from './laid.ts'
import { noFitTable } from './no-fit.ts'
import type { ClothPurchase, NestCloth, NestedRoll, NestPiece, StockRoll } from './piece.ts'
import { purchase, shortage, spareLength, tooNarrow } from './purchase.ts'
import { type Cut, distribute, isBetter } from './rolls.ts'
import { type Shape, shapesOf } from './shape.ts'
import { isBalanced } from './turn.ts'
import { verifyNest } from './verify.ts'

/** Between two cut edges: room for a rotary cutter; common practice, no source. */
export const usualGap = 3e-3

/** Edge comparisons a piece at effort 1: about five layouts of the demo's forty glass pieces. */
const comparisonsPerPiece = 30_000

export interface NestInput {
  readonly pieces: readonly NestPiece[]
  readonly rolls: readonly StockRoll[]
  /** Least distance between two cut edges, m. */
  readonly gap: number
  /** Multiplies the search; 1 is the default. */
  readonly effort?: number
}

export interface NestResult {
  readonly rolls: readonly NestedRoll[]
  readonly buy: readonly ClothPurchase[]
}

/** What lies on the rolls of one cloth, and what it was made from. */
export interface ClothNest {
  readonly cloth: NestCloth
  /** Film at the turn taken. */
  readonly pieces: readonly NestPiece[]
  readonly stock: readonly StockRoll[]
  readonly shapes: readonly Shape[]
  readonly cuts: readonly Cut[]
}

export function nestPieces(input: NestInput): Checked<NestResult> {
  const start = startNest(input)
  return start.ok ? finishedNest(input, start.value) : start
}

/** A nest by filling alone, cloth by cloth. */
export function startNest({ pieces, rolls, gap, effort = 1 }: NestInput): Checked<readonly ClothNest[]> {
  const cloths = [...new Map(pieces.map(({ cloth }) => [cloth.id, cloth])).values()]
  const issues: Issue[] = badDefects(rolls)
  const nests: ClothNest[] = []
  for (const cloth of cloths) {
    const own = pieces.filter((piece) => piece.cloth.id === cloth.id)
    const stock = rolls.filter((roll) => roll.cloth.id === cloth.id)
    const ways = turnsWorthATry(cloth, own).map((turned) => ({
      turned,
      shapes: shapesOf(turned, isBalanced(cloth), gap),
    }))
    const narrow = ways.map(({ shapes }) => tooNarrow(cloth, shapes, stock, spareLength(cloth, shapes, stock)))
    if (narrow.every(({ length }) => length > 0)) issues.push(...narrow.reduce(fewest))
    if (issues.length > 0) continue
    const filled = ways.flatMap(({ turned, shapes }, k): ClothNest[] => {
      if (narrow[k]!.length > 0) return []
      const spare = spareLength(cloth, shapes, stock)
      const { lengths, parts } = stockLengths(stock, shapes)
      const noFit = noFitTable(parts)
      const cuts = distribute({ shapes, noFit, rolls: lengths, spare, effort: comparisonsPerPiece * effort })
      return [{ cloth, pieces: turned, stock, shapes, cuts }]
    })
    nests.push(filled.reduce((best, other) => (isBetter(other.cuts, best.cuts) ? other : best)))
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: nests, warnings: [] }
}

const fewest = (a: Issue[], b: Issue[]): Issue[] => (b.length < a.length ? b : a)

/** Placements, what is to be bought and the warnings about it, after a last look. */
export function finishedNest(
  { pieces, rolls, gap }: NestInput,
  nests: readonly ClothNest[],
): Checked<NestResult> & { readonly ok: true } {
  const warnings: Issue[] = []
  const nested: NestedRoll[] = []
  const buy: ClothPurchase[] = []
  for (const { cloth, stock, shapes, cuts } of nests) {
    const cut = nestedRolls(cloth, shapes, cuts)
    nested.push(...cut)
    const missing = cut.filter(({ availableLength }) => availableLength === null)
    buy.push(...missing.map((roll) => purchase(roll, stock)))
    warnings.push(...missing.map((roll) => shortage(roll, stock, cloth)))
  }
  verifyNest(pieces, nested, gap, rolls)
  return { ok: true, value: { rolls: nested, buy }, warnings }
}
