/**
 * The joins of the tiles: diamonds printed on both pages of an overlap, and the edge that is trimmed. The places are chosen
 * on the picture, clear of its words, so that both pages agree on them.
 */
import { line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'
import { bestPlace, turnedBox } from '../layout/placing.ts'
import { type Grid, overlap, type Tile } from './grid.ts'
import type { Picture } from './picture.ts'

/** An overlap between a tile and the one to its right or below it. */
interface Join {
  readonly first: Tile
  readonly second: Tile
  readonly side: 'right' | 'below'
}

/** Everything of the joins that this tile prints, moved to its page. */
export function joinMarks(picture: Picture, grid: Grid, tile: Tile, move: XY): Primitive[] {
  return joinsOf(grid).flatMap((join, index) => {
    if (join.first !== tile && join.second !== tile) return []
    const onPage = ([x, y]: XY): XY => [x + move[0], y + move[1]]
    const diamonds = placesOf(picture, join).flatMap((place, k) =>
      diamond(onPage(place), `${lettered(index)}${k + 1}`, { side: join.side, first: join.first === tile }),
    )
    return join.first === tile ? [...diamonds, ...trimEdge(picture, join, move)] : diamonds
  })
}

export function joinsOf({ tiles }: Grid): Join[] {
  const at = (row: number, column: number) => tiles.find((tile) => tile.row === row && tile.column === column)
  return tiles.flatMap((first) => {
    const right = at(first.row, first.column + 1)
    const below = at(first.row + 1, first.column)
    return [
      ...(right === undefined ? [] : [{ first, second: right, side: 'right' as const }]),
      ...(below === undefined ? [] : [{ first, second: below, side: 'below' as const }]),
    ]
  })
}

/** The run of the overlap's middle, kept away from the corners where four tiles meet. */
function runOf({ first, side }: Join): { readonly from: XY; readonly to: XY } {
  const { x, y, width, height } = first.box
  const inset = 2 * overlap
  if (side === 'right') {
    const middle = x + width - overlap / 2
    return { from: [middle, y + inset], to: [middle, y + height - inset] }
  }
  const middle = y + height - overlap / 2
  return { from: [x + inset, middle], to: [x + width - inset, middle] }
}

/** One diamond in each half of the overlap, where it crosses the least. */
function placesOf({ lines, words }: Pick<Picture, 'lines' | 'words'>, join: Join): XY[] {
  const { from, to } = runOf(join)
  const half = (start: number, liked: number): XY => {
    const candidates = Array.from({ length: 16 }, (_, i) => {
      const share = start + (i / 15) * 0.42
      const at: XY = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]
      return { at, box: turnedBox(at, 24, 14, 0), cost: 4 * Math.abs(share - liked) }
    })
    return bestPlace(candidates, { inside: null, lines, boxes: words })!.place.at
  }
  return [half(0, 0.1), half(0.58, 0.9)]
}

const diamondHalf = 3.6

/** Named on the inner side of each page, clear of the overlap's far edge. */
function diamond([x, y]: XY, name: string, of: { readonly side: Join['side']; readonly first: boolean }): Primitive[] {
  const leftward = of.side === 'right' && of.first
  const at: XY = [
    x + (leftward ? -1 : 1) * (diamondHalf + 0.3),
    of.side === 'below' && of.first ? y - diamondHalf + 1 : y + diamondHalf + 2,
  ]
  const corners: XY[] = [
    [x, y - diamondHalf],
    [x + diamondHalf, y],
    [x, y + diamondHalf],
    [x - diamondHalf, y],
  ]
  return [
    path(corners, true, { layer: 'mark', stroke: stroke(pen.fine) }),
    line([x - diamondHalf, y], [x + diamondHalf, y], stroke(pen.hair), 'mark'),
    line([x, y - diamondHalf], [x, y + diamondHalf], stroke(pen.hair), 'mark'),
    text(at, name, { size: 4.3, face: 'letter', layer: 'mark', anchor: leftward ? 'end' : 'start' }),
  ]
}

/** The edge that is cut and laid over the next page: bold dashes, and a word where there is room for it. */
function trimEdge({ lines, words }: Picture, join: Join, move: XY): Primitive[] {
  const { x, y, width, height } = join.first.box
  const label = join.side === 'right' ? 'trim, lay over next column' : 'trim, lay over next row'
  const long = textWidth(label, { size: 4.3, face: 'letter' })
  const turn = join.side === 'right' ? -Math.PI / 2 : 0
  const [from, to]: [XY, XY] =
    join.side === 'right'
      ? [
          [x + width, y],
          [x + width, y + height],
        ]
      : [
          [x, y + height],
          [x + width, y + height],
        ]
  const diamonds = placesOf({ lines, words }, join).map(([cx, cy]) => turnedBox([cx, cy], 24, 14, 0))
  const room = 0.5 - (long / 2 + 2) / Math.hypot(to[0] - from[0], to[1] - from[1])
  const shares = Array.from({ length: 41 }, (_, i) => 0.5 + ((i % 2 === 0 ? i : -i - 1) / 41) * room)
  const candidates = shares.map((share, k) => {
    const at: XY = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]
    const middle: XY = join.side === 'right' ? [at[0] - 2.6, at[1]] : [at[0], at[1] - 2.6]
    return { at, box: turnedBox(middle, long + 2, 4.4, turn), cost: 0.2 * k }
  })
  const { at } = bestPlace(candidates, { inside: null, lines, boxes: [...words, ...diamonds] })!.place
  const place: XY =
    join.side === 'right' ? [at[0] - 1.2 + move[0], at[1] + move[1]] : [at[0] + move[0], at[1] - 1.2 + move[1]]
  return [
    line(
      [from[0] + move[0], from[1] + move[1]],
      [to[0] + move[0], to[1] + move[1]],
      stroke(pen.fine, 'ink', [5, 1.5]),
      'mark',
    ),
    text(place, label, { size: 4.3, face: 'letter', layer: 'mark', ink: 'dark', anchor: 'middle', turn }),
  ]
}

/** A … Z, AA, AB … */
const lettered = (n: number): string =>
  (n >= 26 ? lettered(Math.floor(n / 26) - 1) : '') + String.fromCharCode(65 + (n % 26))
