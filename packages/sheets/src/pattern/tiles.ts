/**
 * A true-scale picture on sheets of printer paper.
 *
 * Tiles overlap by 10 mm. A page's frame is its tile; the upper or left page is cut along its frame where it joins and laid
 * over its neighbour, so that the diamonds, printed on both, fall on one another. Nothing lies in the outer 10 mm of the
 * paper, where many printers cannot print.
 */
import {
  type Box,
  group,
  type Page,
  type Primitive,
  pen,
  rectangle,
  stroke,
  text,
  type XY,
} from '../drawing/drawing.ts'
import { extent, overlaps } from '../drawing/extent.ts'
import { shortened, textWidth } from '../drawing/lettering.ts'
import { fingerprint } from '../layout/fingerprint.ts'
import { clear, type Identity, type Paper } from '../layout/paper.ts'
import { checkSquare } from './check-square.ts'
import { type Grid, strip, type Tile, tileSize } from './grid.ts'
import { joinMarks } from './joins.ts'
import type { Picture } from './picture.ts'
import { squarePlaces } from './square-place.ts'

export interface TileContext {
  readonly paper: Paper
  readonly identity: Identity
  /** `corrected for this printer: …`, or empty. */
  readonly correction: string
  /** Sheets before this picture's, and in the whole document. */
  readonly before: number
  readonly total: number
}

export function tilePages(picture: Picture, grid: Grid, context: TileContext): Page[] {
  const squares = picture.squares ?? squarePlaces(grid, picture.lines, picture.words)
  return grid.tiles.map((tile, i) =>
    tilePage(picture, grid, tile, squares[i], { ...context, before: context.before + i }),
  )
}

function tilePage(picture: Picture, grid: Grid, tile: Tile, square: XY, context: TileContext): Page {
  const { paper } = context
  const frame: Box = { x: clear, y: clear + strip, ...tileSize(paper) }
  const move: XY = [frame.x - tile.box.x, frame.y - tile.box.y]
  const near = picture.items.filter((item) => meets(item, tile.box))
  const items: Primitive[] = [
    group(near, { move, clip: frame }),
    ...checkSquare([square[0] + move[0], square[1] + move[1]], '100 mm check square, not a cut line'),
    ...joinMarks(picture, grid, tile, move),
    rectangle(frame, { layer: 'frame', stroke: stroke(pen.hair, 'mid') }),
  ]
  const title = `${picture.name}, row ${tile.row} column ${tile.column}`
  return {
    width: paper.width,
    height: paper.height,
    title,
    items: [...items, ...tileStrip(picture, grid, tile, context, fingerprint([title, items]))],
  }
}

function tileStrip(picture: Picture, grid: Grid, tile: Tile, context: TileContext, hash: string): Primitive[] {
  const { paper, identity, correction, before, total } = context
  const left = clear
  const right = paper.width - clear
  const large = { size: 5.6, face: 'title' } as const
  const small = { size: 4.3, face: 'letter' } as const
  const place = grid.tiles.length === 1 ? 'one sheet' : `row ${tile.row} · column ${tile.column}`
  const sheet = `sheet ${before + 1} of ${total}`
  const name = shortened(`${picture.name} · ${place}`, right - left - textWidth(sheet, small) - 6, large)
  const revision = `rev ${identity.revision.hash} · ${identity.revision.date} · page ${hash}`
  const about = [picture.use, correction].filter((words) => words !== '').join(' · ')
  return [
    text([left, clear + 4.6], name, large),
    text([right, clear + 4.6], sheet, { ...small, anchor: 'end' }),
    text([left, clear + 10.6], shortened(about, right - left - textWidth(revision, small) - 5, small), small),
    text([right, clear + 10.6], revision, { ...small, anchor: 'end' }),
  ]
}

function meets(item: Primitive, box: Box): boolean {
  const own = extent([item])
  return own !== null && overlaps(own, box, 1)
}
