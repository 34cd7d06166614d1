/**
 * All pieces on the cloth in stock, and what has to be bought.
 *
 * Stock that is too short is a warning with a line to buy; a piece wider than every roll of its cloth is an error, as
 * it cannot be cut in one. For a cloth that is not in stock a usual width is assumed and said.
 */
import type { Checked, Issue } from '../issue.ts'
import { badDefects, stockLengths } from './defects.ts'
import { nestedRolls } from './laid.ts'
import { noFitTable } from './no-fit.ts'
import type { ClothPurchase, NestCloth, NestedRoll, NestPiece, StockRoll } from './piece.ts'
import { purchase, shortage, spareLength, tooNarrow } from './purchase.ts'
import { type Cut, distribute } from './rolls.ts'
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
    const shapes = shapesOf(own, isBalanced(cloth), gap)
    const stock = rolls.filter((roll) => roll.cloth.id === cloth.id)
    const spare = spareLength(cloth, shapes, stock)
    issues.push(...tooNarrow(cloth, shapes, stock, spare))
    if (issues.length > 0) continue
    const { lengths, parts } = stockLengths(stock, shapes)
    const noFit = noFitTable(parts)
    const cuts = distribute({ shapes, noFit, rolls: lengths, spare, effort: comparisonsPerPiece * effort })
    nests.push({ cloth, pieces: own, stock, shapes, cuts })
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: nests, warnings: [] }
}

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
    warnings.push(...missing.map((roll) => shortage(roll, stock)))
  }
  verifyNest(pieces, nested, gap, rolls)
  return { ok: true, value: { rolls: nested, buy }, warnings }
}
