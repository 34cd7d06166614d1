/**
 * The shapes of one cloth over the rolls of it.
 *
 * Narrow cloth is used first: a wide roll can give what a tape gives, a tape not what a wide roll gives (common
 * practice, no source). When that leaves something to buy, filling from the widest down is tried as well and taken if it
 * leaves less. What finds no place goes on the spare strip.
 */
import type { NoFitTable } from './no-fit.ts'
import { type Layout, shortestLayout } from './search.ts'
import { gridPerMetre, type Shape } from './shape.ts'
import type { Spot, Variant } from './strip.ts'

/** A length of cloth to cut from, m; `length` is Infinity for cloth that has to be bought. */
export interface Length {
  readonly id: string
  readonly width: number
  readonly selvedge: number
  readonly length: number
  /** Where its defects lie, on the grid. */
  readonly defects?: readonly Spot[]
}

export interface Cut {
  readonly from: Length
  readonly layout: Layout
}

export interface Distribution {
  readonly shapes: readonly Shape[]
  readonly noFit: NoFitTable
  readonly rolls: readonly Length[]
  /** Takes what the rolls cannot. */
  readonly spare: Length
  /** Edge comparisons a piece. */
  readonly effort: number
}

export function distribute(problem: Distribution): readonly Cut[] {
  const narrowFirst = [...problem.rolls].sort((a, b) => a.width - b.width || a.length - b.length)
  const wideFirst = [...problem.rolls].sort((a, b) => b.width - a.width || a.length - b.length)
  const first = cutInOrder({ ...problem, rolls: narrowFirst })
  const oneWidth = narrowFirst.every(({ width }) => width === narrowFirst[0].width)
  if (oneWidth || bought(first) === 0) return first
  const second = cutInOrder({ ...problem, rolls: wideFirst })
  return bought(second) < bought(first) ? second : first
}

/** Whether a shape can lie between the selvedges at one of its turns. */
export function fitsAcross(shape: Shape, roll: Pick<Length, 'width' | 'selvedge'>): boolean {
  const { width } = usableSize({ ...roll, length: Infinity })
  return shape.variants.some((variant) => variant !== null && variant.maxY - variant.minY <= width)
}

/** Of cloth, m. */
export const usedLength = ({ layout }: Cut): number => layout.used / gridPerMetre

/** Less to buy, or as much and less cloth used. On the way pieces may lie on stock for nothing yet. */
export function isBetter(cuts: readonly Cut[], than: readonly Cut[]): boolean {
  const [a, b] = [amounts(cuts), amounts(than)]
  return a.buyLength < b.buyLength || (a.buyLength === b.buyLength && a.usedArea < b.usedArea)
}

export function amounts(cuts: readonly Cut[]): { usedArea: number; buyLength: number } {
  let [usedArea, buyLength] = [0, 0]
  for (const cut of cuts) {
    usedArea += cut.from.width * usedLength(cut)
    if (cut.from.length === Infinity) buyLength += usedLength(cut)
  }
  return { usedArea, buyLength }
}

function cutInOrder({ shapes, noFit, rolls, spare, effort }: Distribution): Cut[] {
  const variants: (Variant | null)[] = shapes.flatMap((shape) => shape.variants)
  const rest = shapes.map((shape) => shape.pieces.length)
  const cuts: Cut[] = []
  for (const from of [...rolls, spare]) {
    const counts = shapes.map((shape, i) => (fitsAcross(shape, from) ? rest[i] : 0))
    const pieces = counts.reduce((sum, count) => sum + count, 0)
    if (pieces === 0) continue
    const packShapes = shapes.map(({ area, turns }, i) => ({ area, turns, count: counts[i] }))
    const layout = shortestLayout({
      shapes: packShapes,
      variants,
      noFit,
      size: usableSize(from),
      fixed: from.defects ?? [],
      effort: effort * pieces,
    })
    for (const { variant } of layout.spots) rest[variant >> 2]--
    if (layout.spots.length > 0) cuts.push({ from, layout })
  }
  return cuts
}

/** Grid units between the selvedges, rounded down. */
export const usableSize = ({ width, selvedge, length }: Pick<Length, 'width' | 'selvedge' | 'length'>) => ({
  width: Math.floor((width - 2 * selvedge) * gridPerMetre),
  length: Math.floor(length * gridPerMetre),
})

/** Length to buy, grid units. */
const bought = (cuts: readonly Cut[]): number =>
  cuts.reduce((sum, { from, layout }) => sum + (from.length === Infinity ? layout.used : 0), 0)
