/**
 * All pieces on the cloth in stock, and what has to be bought.
 *
 * Stock that is too short is a warning with a line to buy; a piece wider than every roll of its cloth is an error, as
 * it cannot be cut in one. For a cloth that is not in stock a usual width is assumed and said.
 */
import { type Checked, type Issue, invariant } from '../issue.ts'
import { noFitTable } from './no-fit.ts'
import type { ClothPurchase, NestCloth, NestedRoll, NestPiece, PiecePlacement, StockRoll } from './piece.ts'
import { type Cut, distribute, fitsAcross, type Length } from './rolls.ts'
import { gridPerMetre, type Shape, shapesOf } from './shape.ts'
import { isBalanced, leastWidth, placedOutline, rotationFor, turned } from './turn.ts'
import { verifyNest } from './verify.ts'

/** Between two cut edges: room for a rotary cutter; common practice, no source. */
export const usualGap = 3e-3

/** Common practice, no source. */
const usualWidths = [0.97, 1.27, 1.52]
const usualPeelPlyWidths = [1.0, 1.52]
const usualSelvedge = 0.01

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

export function nestPieces({ pieces, rolls, gap, effort = 1 }: NestInput): Checked<NestResult> {
  const cloths = [...new Map(pieces.map(({ cloth }) => [cloth.id, cloth])).values()]
  const issues: Issue[] = []
  const warnings: Issue[] = []
  const nested: NestedRoll[] = []
  const buy: ClothPurchase[] = []
  for (const cloth of cloths) {
    const own = pieces.filter((piece) => piece.cloth.id === cloth.id)
    const shapes = shapesOf(own, isBalanced(cloth), gap)
    const stock = rolls.filter((roll) => roll.cloth.id === cloth.id)
    const spare = spareLength(cloth, shapes, stock)
    const narrow = tooNarrow(cloth, shapes, stock, spare)
    issues.push(...narrow)
    if (narrow.length > 0) continue
    const noFit = noFitTable(shapes.map(({ parts }) => parts))
    const cuts = distribute({ shapes, noFit, rolls: stock, spare, effort: comparisonsPerPiece * effort })
    const cut = nestedRolls(cloth, shapes, cuts)
    nested.push(...cut)
    const missing = cut.filter(({ availableLength }) => availableLength === null)
    buy.push(...missing.map((roll) => purchase(roll, stock)))
    warnings.push(...missing.map((roll) => shortage(roll, stock)))
  }
  if (issues.length > 0) return { ok: false, issues }
  verifyNest(pieces, nested, gap)
  return { ok: true, value: { rolls: nested, buy }, warnings }
}

/** Cloth to be bought: as wide as the widest in stock, else the narrowest usual width that takes every piece. */
function spareLength(cloth: NestCloth, shapes: readonly Shape[], stock: readonly StockRoll[]): Length {
  const id = `${cloth.id} to buy`
  if (stock.length > 0) {
    const { width, selvedge } = stock.reduce((widest, roll) => (usable(roll) > usable(widest) ? roll : widest))
    return { id, width, selvedge, length: Infinity }
  }
  const widths = cloth.weave === 'peel ply' ? usualPeelPlyWidths : usualWidths
  const lengths = widths.map((width) => ({ id, width, selvedge: usualSelvedge, length: Infinity }))
  return lengths.find((length) => shapes.every((shape) => fitsAcross(shape, length))) ?? lengths[lengths.length - 1]
}

const usable = ({ width, selvedge }: Pick<Length, 'width' | 'selvedge'>): number => width - 2 * selvedge

function tooNarrow(cloth: NestCloth, shapes: readonly Shape[], stock: readonly StockRoll[], spare: Length): Issue[] {
  const balanced = isBalanced(cloth)
  const widths: readonly Length[] = stock.length > 0 ? stock : [spare]
  const turns = balanced ? 'at any quarter turn' : 'with its warp along the roll'
  const widest = usable(spare)
  return shapes
    .filter((shape) => !widths.some((roll) => fitsAcross(shape, roll)))
    .map(({ pieces }) => {
      const least = leastWidth(pieces[0].outline, pieces[0].angle, balanced)
      const others = pieces.length > 1 ? ` (and ${pieces.length - 1} more like it)` : ''
      return {
        code: 'nest/cloth-too-narrow',
        path: 'stock.rolls',
        value: spare.width,
        message:
          `Cloth narrower than the piece: ${pieces[0].id}${others} needs ${mmUp(least)} mm across ${turns}; ` +
          `the widest ${stock.length > 0 ? 'roll' : 'usual width'} of ${cloth.name} is ${mm(spare.width)} mm, ` +
          `${mm(widest)} mm between its selvedges.`,
        hint:
          `Stock ${cloth.name} at least ${mmUp(least + 2 * spare.selvedge)} mm wide, choose another cloth for this ply, ` +
          `or shorten the ply's overhang or overrun.`,
      }
    })
}

function nestedRolls(cloth: NestCloth, shapes: readonly Shape[], cuts: readonly Cut[]): NestedRoll[] {
  const next = shapes.map(() => 0)
  return cuts.map(({ from, layout }) => {
    const spots = [...layout.spots].sort((a, b) => a.x - b.x || a.y - b.y)
    let length = 0
    let area = 0
    const placements = spots.map(({ variant, x, y }): PiecePlacement => {
      const shape = shapes[variant >> 2]
      const index = next[variant >> 2]++
      const piece = shape.pieces[index]
      invariant(piece !== undefined, 'no more spots than pieces')
      const [u, v] = turned(shape.origins[index], ((variant % 4) * Math.PI) / 2)
      const rotation = rotationFor(piece.angle, variant % 4)
      const placement = { piece: piece.id, x: x / gridPerMetre - u, y: y / gridPerMetre - v + from.selvedge, rotation }
      length = Math.max(length, ...placedOutline(piece.outline, placement).map(([right]) => right))
      area += shape.area
      return placement
    })
    const used = from.width * length
    return {
      roll: from.id,
      cloth: cloth.id,
      clothName: cloth.name,
      width: from.width,
      selvedge: from.selvedge,
      availableLength: from.length === Infinity ? null : from.length,
      usedLength: length,
      density: area / used,
      waste: used - area,
      placements,
    }
  })
}

function purchase(
  { cloth, clothName, width, usedLength, placements }: NestedRoll,
  stock: readonly StockRoll[],
): ClothPurchase {
  const count = `${placements.length} ${placements.length === 1 ? 'piece' : 'pieces'}`
  const reason =
    stock.length > 0
      ? `the stock is too short for ${count} (${ids(placements)})`
      : `none in stock for ${count}; a usual width of ${mm(width)} mm is assumed`
  return { cloth, clothName, width, length: usedLength, reason }
}

function shortage({ clothName, width, usedLength, placements }: NestedRoll, stock: readonly StockRoll[]): Issue {
  const need = `${usedLength.toFixed(2)} m at ${mm(width)} mm wide`
  const held = stock.map((roll) => `${roll.length.toFixed(2)} m of ${mm(roll.width)} mm`).join(' and ')
  return {
    code: stock.length > 0 ? 'nest/stock-short' : 'nest/not-in-stock',
    path: 'stock.rolls',
    value: usedLength,
    message:
      stock.length > 0
        ? `${clothName} is short by ${need}: ${held} in stock leaves no place for ${ids(placements)}.`
        : `${clothName} is not in stock: ${need} is needed; that width is an assumption.`,
    hint: `Buy ${need}, of the same style and areal weight, before the first piece is cut.`,
  }
}

function ids(placements: readonly PiecePlacement[]): string {
  const names = placements.map(({ piece }) => piece).sort()
  return names.length <= 6 ? names.join(', ') : `${names.slice(0, 5).join(', ')} and ${names.length - 5} more`
}

const mm = (length: number): string => (length * 1e3).toFixed(0)

/** Rounded up: a need is never told smaller than it is. */
const mmUp = (length: number): string => Math.ceil(length * 1e3 - 1e-6).toFixed(0)
