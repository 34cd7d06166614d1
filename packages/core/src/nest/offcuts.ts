/**
 * What is left of a roll that is worth keeping: rectangles along the warp that go back to stock.
 *
 * Beyond the used length the whole width is left, selvedges and flaws included. Of the used length, squares of a fine raster between the
 * selvedges count as free when no piece, grown by the cutting gap, and no defect reaches into them; the largest rectangle
 * of free squares is taken off, again and again, until it is smaller than what is worth keeping (largest rectangle under
 * a histogram, row by row, with a stack; textbook). Rectangles lie wholly on free cloth: the raster only makes them smaller,
 * by up to a square a side.
 */
import type { NestedRoll, NestPiece, Point, StockRoll } from './piece.ts'
import { placedOutline } from './turn.ts'

export interface OffcutRules {
  /** Least length along the warp and least width worth keeping, m. */
  readonly leastLength: number
  readonly leastWidth: number
  /** Side of a square of the raster, m. */
  readonly raster?: number
}

/** Common practice, no source: less than a hand's breadth is not kept. */
export const usualOffcut: OffcutRules = { leastLength: 0.1, leastWidth: 0.1 }
const usualRaster = 2e-3

/** A rectangle on a roll: from (x, y), roll axes, `length` along it and `width` across. */
export interface Offcut {
  readonly x: number
  readonly y: number
  readonly length: number
  readonly width: number
  /** Of the new piece of cloth, at each long edge. */
  readonly selvedge: number
  /** Of the new piece of cloth, in its own axes; only a tail has any. */
  readonly defects: readonly (readonly Point[])[]
}

/** The tail beyond the used length first, then the largest first. */
export function offcutsOf(
  roll: NestedRoll,
  pieces: readonly NestPiece[],
  gap: number,
  { leastLength, leastWidth, raster = usualRaster }: OffcutRules = usualOffcut,
  defects: readonly (readonly Point[])[] = [],
): Offcut[] {
  const { width, selvedge, usedLength, availableLength, placements } = roll
  const offcuts: Offcut[] = []
  const x = usedLength + gap
  const tail = availableLength === null ? 0 : availableLength - x
  if (tail >= leastLength) {
    offcuts.push({ x, y: 0, length: tail, width, selvedge, defects: defectsBeyond(x, defects) })
  }
  const free = freeSquares({ length: usedLength, width: width - 2 * selvedge, raster })
  const byId = new Map(pieces.map((piece) => [piece.id, piece]))
  for (const placement of placements) {
    const outline = byId.get(placement.piece)?.outline ?? []
    block(free, shifted(placedOutline(outline, placement), selvedge), gap)
  }
  for (const outline of defects) block(free, shifted(outline, selvedge), 0)
  for (;;) {
    const best = largestFree(free, leastLength / raster, leastWidth / raster)
    if (best === null) return offcuts
    for (let j = best.j; j < best.j + best.rows; j++) {
      free.taken.fill(1, j * free.columns + best.i, j * free.columns + best.i + best.columns)
    }
    const at = { x: best.i * raster, y: best.j * raster + selvedge }
    offcuts.push({ ...at, length: best.columns * raster, width: best.rows * raster, selvedge: 0, defects: [] })
  }
}

/** The off-cuts as rolls of stock: a tail is the roll itself, the others are named after it and numbered. */
export function offcutStock(from: StockRoll, offcuts: readonly Offcut[]): StockRoll[] {
  const rest = offcuts.filter((offcut) => !isTail(offcut, from))
  return offcuts.map((offcut): StockRoll => {
    const { length, width, selvedge, defects } = offcut
    const id = isTail(offcut, from) ? from.id : `${from.id} off-cut ${rest.indexOf(offcut) + 1}`
    return { id, cloth: from.cloth, width, length, selvedge, defects }
  })
}

/** Nothing in the used length is as wide: that lies between the selvedges, or the roll has none and the tail is first. */
const isTail = (offcut: Offcut, { width, length }: StockRoll): boolean =>
  offcut.y === 0 && offcut.width === width && Math.abs(offcut.x + offcut.length - length) < 1e-9

/** Defects that reach beyond a cut at `x`, seen from the new end; of one that the cut runs through, the box beyond it. */
function defectsBeyond(x: number, defects: readonly (readonly Point[])[]): (readonly Point[])[] {
  return defects.flatMap((outline) => {
    const X = outline.map(([along]) => along)
    const Y = outline.map(([, across]) => across)
    const end = Math.max(...X) - x
    if (!(end > 0)) return []
    if (Math.min(...X) >= x) return [outline.map(([along, across]): Point => [along - x, across])]
    const [low, high] = [Math.min(...Y), Math.max(...Y)]
    const box: Point[] = [
      [0, low],
      [end, low],
      [end, high],
      [0, high],
    ]
    return [box]
  })
}

interface Squares {
  readonly columns: number
  readonly rows: number
  readonly raster: number
  /** 1 where no off-cut may lie, row by row across the roll. */
  readonly taken: Uint8Array
}

/** Whole squares only. */
function freeSquares({ length, width, raster }: { length: number; width: number; raster: number }): Squares {
  const columns = Math.max(0, Math.floor(length / raster + 1e-9))
  const rows = Math.max(0, Math.floor(width / raster + 1e-9))
  return { columns, rows, raster, taken: new Uint8Array(columns * rows) }
}

const shifted = (outline: readonly Point[], selvedge: number): Point[] => outline.map(([x, y]) => [x, y - selvedge])

/** Takes the squares that an outline, grown by `gap`, reaches into: those whose middle it holds or passes near by. */
function block(squares: Squares, outline: readonly Point[], gap: number): void {
  const { columns, rows, raster, taken } = squares
  const reach = gap + raster * Math.SQRT1_2 + 1e-9
  const Y = outline.map(([, y]) => y)
  const last = Math.min(rows - 1, Math.floor((Math.max(...Y) + reach) / raster))
  for (let j = Math.max(0, Math.floor((Math.min(...Y) - reach) / raster)); j <= last; j++) {
    const y = (j + 0.5) * raster
    for (const [from, to] of spansAt(outline, y, reach)) {
      const i0 = Math.max(0, Math.ceil(from / raster - 0.5))
      const i1 = Math.min(columns - 1, Math.floor(to / raster - 0.5))
      if (i1 >= i0) taken.fill(1, j * columns + i0, j * columns + i1 + 1)
    }
  }
}

/** Spans of a line across the outline: those inside it, and those within `reach` of an edge. */
function spansAt(outline: readonly Point[], y: number, reach: number): [number, number][] {
  const spans: [number, number][] = []
  const crossings: number[] = []
  outline.forEach(([ax, ay], e) => {
    const [bx, by] = outline[(e + 1) % outline.length]
    if (ay > y !== by > y) crossings.push(ax + ((y - ay) * (bx - ax)) / (by - ay))
    const near = spanNear(ax, ay, bx, by, y, reach)
    if (near !== null) spans.push(near)
  })
  crossings.sort((a, b) => a - b)
  for (let k = 0; k + 1 < crossings.length; k += 2) spans.push([crossings[k], crossings[k + 1]])
  return spans
}

/** Where a line of height y runs within a square of half side `reach` swept along an edge: no less than within `reach`. */
function spanNear(ax: number, ay: number, bx: number, by: number, y: number, reach: number): [number, number] | null {
  const lo = y - reach
  const hi = y + reach
  if (Math.max(ay, by) < lo || Math.min(ay, by) > hi) return null
  const at = (height: number): number => ax + ((height - ay) * (bx - ax)) / (by - ay)
  const flat = ay === by
  const from = ay < lo ? at(lo) : ay > hi ? at(hi) : ax
  const to = by < lo ? at(lo) : by > hi ? at(hi) : bx
  const [p, q] = flat ? [ax, bx] : [from, to]
  return [Math.min(p, q) - reach, Math.max(p, q) + reach]
}

interface Rectangle {
  readonly i: number
  readonly j: number
  readonly columns: number
  readonly rows: number
}

function largestFree({ columns, rows, taken }: Squares, leastColumns: number, leastRows: number): Rectangle | null {
  const height = new Int32Array(columns + 1)
  const stack = new Int32Array(columns + 1)
  let best: Rectangle | null = null
  let most = 0
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) height[i] = taken[j * columns + i] === 1 ? 0 : height[i] + 1
    let depth = 0
    for (let i = 0; i <= columns; i++) {
      while (depth > 0 && height[stack[depth - 1]] > height[i]) {
        const top = height[stack[--depth]]
        const from = depth > 0 ? stack[depth - 1] + 1 : 0
        if (top < leastRows - 1e-9 || i - from < leastColumns - 1e-9 || top * (i - from) <= most) continue
        most = top * (i - from)
        best = { i: from, j: j - top + 1, columns: i - from, rows: top }
      }
      stack[depth++] = i
    }
  }
  return best
}
