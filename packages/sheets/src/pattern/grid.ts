/** How a true-scale picture is divided over sheets of printer paper. */
import type { Box, XY } from '../drawing/drawing.ts'
import { clear, type Paper } from '../layout/paper.ts'
import { bestPlace, contains, edgesOf, type Segment } from '../layout/placing.ts'
import type { PictureFrame } from './picture.ts'

export const overlap = 10
/** Height of the page's own words above the tile. */
export const strip = 13

export interface Tile {
  readonly row: number
  readonly column: number
  /** Of the picture's plane. */
  readonly box: Box
}

export interface Grid {
  readonly rows: number
  readonly columns: number
  /** Those that hold a part of the outline. */
  readonly tiles: readonly Tile[]
}

export const tileSize = ({ width, height }: Paper) => ({ width: width - 2 * clear, height: height - 2 * clear - strip })

/** As few tiles as cover the picture, about centred on it, shifted so that joins keep off its long lines. */
export function gridOf({ box, outline, upright, level }: PictureFrame, paper: Paper): Grid {
  const tile = tileSize(paper)
  const count = (length: number, size: number): number =>
    Math.max(1, Math.ceil((length - overlap) / (size - overlap) - 1e-9))
  const columns = count(box.width, tile.width)
  const rows = count(box.height, tile.height)
  const left = startOf({ from: box.x, length: box.width, size: tile.width, count: columns, lines: upright })
  const top = startOf({ from: box.y, length: box.height, size: tile.height, count: rows, lines: level })
  const tiles: Tile[] = []
  for (let row = 1; row <= rows; row++) {
    for (let column = 1; column <= columns; column++) {
      const x = left + (column - 1) * (tile.width - overlap)
      const y = top + (row - 1) * (tile.height - overlap)
      const place: Tile = { row, column, box: { x, y, ...tile } }
      if (touches(outline, place.box)) tiles.push(place)
    }
  }
  return { rows, columns, tiles }
}

interface Row {
  readonly from: number
  readonly length: number
  readonly size: number
  readonly count: number
  readonly lines: readonly number[]
}

/** A join this far from a line disturbs nobody, mm. */
const enough = 12

/** Where the first tile starts: the shift nearest to centred of those that keep the joins farthest from the lines. */
function startOf({ from, length, size, count, lines }: Row): number {
  const step = size - overlap
  const slack = count * step + overlap - length
  const centred = from - slack / 2
  if (count === 1) return centred
  const shifts = Array.from({ length: 41 }, (_, i) => ((i % 2 === 0 ? i : -i - 1) / 40) * (slack / 2))
  const room = (shift: number): number => {
    const joins = Array.from({ length: count - 1 }, (_, i) => centred + shift + (i + 1) * step + overlap / 2)
    const distances = joins.flatMap((join) => lines.map((at) => Math.abs(at - join) - overlap / 2))
    return Math.min(enough, ...distances)
  }
  const best = shifts.reduce((chosen, shift) => (room(shift) > room(chosen) + 1e-9 ? shift : chosen))
  return centred + best
}

/** Middles and edges of the overlaps. */
export function seamsOf({ tiles }: Grid): Segment[] {
  return tiles.flatMap(({ box }) => {
    const right = box.x + box.width
    const bottom = box.y + box.height
    const inner = [0, overlap / 2, overlap]
    return [
      ...inner.map(
        (d): Segment => [
          [right - d, box.y],
          [right - d, bottom],
        ],
      ),
      ...inner.map(
        (d): Segment => [
          [box.x, bottom - d],
          [right, bottom - d],
        ],
      ),
    ]
  })
}

/** True when the outline's inside and the box have a point in common. */
function touches(outline: readonly XY[], { x, y, width, height }: Box): boolean {
  const corners: XY[] = [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ]
  if (outline.length === 0 || corners.some((corner) => contains(outline, corner))) return true
  const own = bestPlace([{ box: corners }], { inside: null, lines: edgesOf(outline), boxes: [] })
  return own !== null && own.cost > 0
}
