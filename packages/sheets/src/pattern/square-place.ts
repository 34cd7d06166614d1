/** Where a tile's check square goes: across as few lines as may be, and no words. */
import type { Box, XY } from '../drawing/drawing.ts'
import { bestPlace, type Segment } from '../layout/placing.ts'
import { squareStrips } from './check-square.ts'
import { type Grid, overlap } from './grid.ts'

/** Kept clear inside a tile's edges: joins, their diamonds and words. */
const inset = overlap + 2

/** Upper left corners in the picture's plane, one a tile. */
export const squarePlaces = ({ tiles }: Grid, lines: readonly Segment[], words: readonly (readonly XY[])[]): XY[] =>
  tiles.map(({ box }) => squarePlace(box, lines, words))

function squarePlace(box: Box, lines: readonly Segment[], boxes: readonly (readonly XY[])[]): XY {
  let best: { at: XY; cost: number } | null = null
  for (let x = box.x + inset; x + 104 <= box.x + box.width - overlap; x += 6) {
    for (let y = box.y + inset + 2; y + 102 <= box.y + box.height - overlap; y += 6) {
      const cost = squareStrips([x, y]).reduce(
        (sum, strip, i) =>
          sum + (i === 3 ? 2 : 1) * (bestPlace([{ box: strip }], { inside: null, lines, boxes })?.cost ?? 0),
        0,
      )
      if (best === null || cost < best.cost) best = { at: [x, y], cost }
    }
  }
  return best?.at ?? [box.x + inset, box.y + inset + 2]
}
