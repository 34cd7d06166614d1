/**
 * Cloth that is missing: what has to be bought, and pieces that no roll takes.
 *
 * Stock that is too short is a warning with a line to buy; a piece wider than every roll of its cloth is an error, as
 * it cannot be cut in one. For a cloth that is not in stock a usual width is assumed and said.
 */
import type { Issue } from '../issue.ts'
import type { ClothPurchase, NestCloth, NestedRoll, PiecePlacement, StockRoll } from './piece.ts'
import { fitsAcross, type Length } from './rolls.ts'
import type { Shape } from './shape.ts'
import { isBalanced, leastWidth } from './turn.ts'

/** Common practice, no source. */
const usualWidths = [0.97, 1.27, 1.52]
const usualPeelPlyWidths = [1.0, 1.52]
const usualFilmWidths = [1.0, 2.0]
const usualSelvedge = 0.01

/** Cloth to be bought: as wide as the widest in stock, else the narrowest usual width that takes every piece. */
export function spareLength(cloth: NestCloth, shapes: readonly Shape[], stock: readonly StockRoll[]): Length {
  const id = `${cloth.id} to buy`
  if (stock.length > 0) {
    const { width, selvedge } = stock.reduce((widest, roll) => (usable(roll) > usable(widest) ? roll : widest))
    return { id, width, selvedge, length: Infinity }
  }
  const widths = usualWidthsOf(cloth)
  const lengths = widths.map((width) => ({ id, width, selvedge: usualSelvedge, length: Infinity }))
  return lengths.find((length) => shapes.every((shape) => fitsAcross(shape, length))) ?? lengths[lengths.length - 1]
}

const usualWidthsOf = ({ weave }: NestCloth): readonly number[] =>
  weave === 'peel ply' ? usualPeelPlyWidths : weave === 'film' ? usualFilmWidths : usualWidths

const usable = ({ width, selvedge }: Pick<Length, 'width' | 'selvedge'>): number => width - 2 * selvedge

export function tooNarrow(
  cloth: NestCloth,
  shapes: readonly Shape[],
  stock: readonly StockRoll[],
  spare: Length,
): Issue[] {
  const balanced = isBalanced(cloth)
  const widths: readonly Pick<Length, 'width' | 'selvedge'>[] = stock.length > 0 ? stock : [spare]
  const turns =
    cloth.weave === 'film' ? 'at any turn' : balanced ? 'at any quarter turn' : 'with its warp along the roll'
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

export function purchase(
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

export function shortage(
  { clothName, width, usedLength, placements }: NestedRoll,
  stock: readonly StockRoll[],
  { weave }: NestCloth,
): Issue {
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
    hint: `Buy ${need}, ${weave === 'film' ? 'any film that this resin does not stick to' : 'of the same style and areal weight'}, before the first piece is cut.`,
  }
}

function ids(placements: readonly PiecePlacement[]): string {
  const names = placements.map(({ piece }) => piece).sort()
  return names.length <= 6 ? names.join(', ') : `${names.slice(0, 5).join(', ')} and ${names.length - 5} more`
}

const mm = (length: number): string => (length * 1e3).toFixed(0)

/** Rounded up: a need is never told smaller than it is. */
const mmUp = (length: number): string => Math.ceil(length * 1e3 - 1e-6).toFixed(0)
