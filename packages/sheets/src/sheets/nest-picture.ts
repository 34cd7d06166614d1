/** A roll with its pieces in true proportion: the cut end on top, the warp down the page, pieces left white. */
import type { PatternPiece, Point } from '@finwright/core/assess/assessment.ts'
import type { NestOffcut, NestRoll } from '@finwright/core/assess/nest-section.ts'
import {
  type Box,
  fill,
  line,
  type Primitive,
  path,
  pen,
  rectangle,
  stroke,
  text,
  type XY,
} from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import { textWidth } from '../drawing/lettering.ts'
import { type Block, picture } from '../layout/block.ts'
import { arrow, dimension } from '../layout/dimension.ts'
import type { Figures } from '../layout/figures.ts'

export interface PlacedPiece {
  readonly piece: PatternPiece
  /** In the roll's axes: x along its length, y across it, m. */
  readonly outline: readonly Point[]
  /** From the piece's own axes, counter-clockwise, deg. */
  readonly rotation_deg: number
}

/** In the order of cutting: from the cut end down the roll, then across it. */
export function placedPieces(roll: NestRoll, pieces: readonly PatternPiece[]): PlacedPiece[] {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]))
  const placed = roll.placements.flatMap(({ piece: id, x_m, y_m, rotation_deg }) => {
    const piece = byId.get(id)
    if (piece === undefined) return []
    const outline = piece.outline_m.map((point) => turnedBy(point, rotation_deg, [x_m, y_m]))
    return [{ piece, outline, rotation_deg }]
  })
  const start = ({ outline }: PlacedPiece, axis: 0 | 1): number => Math.min(...outline.map((point) => point[axis]))
  return placed.sort((a, b) => start(a, 0) - start(b, 0) || start(a, 1) - start(b, 1))
}

function turnedBy([x, y]: Point, degrees: number, [dx, dy]: Point): Point {
  const angle = (degrees * Math.PI) / 180
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  return [dx + c * x - s * y, dy + s * x + c * y]
}

/** Warp of the piece against the warp of the roll, deg, 0 or 90 for the turns a nest may make. */
export function warpAcross({ piece, rotation_deg }: PlacedPiece): boolean {
  // the warp at angle a points a quarter turn less a counter-clockwise from X
  const off = ((90 - piece.angle_deg + rotation_deg) * Math.PI) / 180
  return Math.abs(Math.sin(off)) > 0.5
}

export interface NestView {
  readonly roll: NestRoll
  readonly placed: readonly PlacedPiece[]
  readonly figures: Figures
  /** Upper left corner of the space, with the dimensions' own. */
  readonly at: XY
  readonly width: number
  readonly height: number
}

const gutter = 9
const below = 14

/** Page mm over mm of cloth, for a space of this size. */
export const nestScale = (
  roll: NestRoll,
  { width, height }: { readonly width: number; readonly height: number },
): number => Math.min((width - gutter) / (roll.width_m * 1e3), (height - gutter - below) / (roll.usedLength_m * 1e3))

/** Width that the picture takes of its space. */
export const nestWidth = (roll: NestRoll, space: { readonly width: number; readonly height: number }): number =>
  gutter + roll.width_m * 1e3 * nestScale(roll, space)

export const nestHeight = (roll: NestRoll, space: { readonly width: number; readonly height: number }): number =>
  gutter + roll.usedLength_m * 1e3 * nestScale(roll, space) + below

export function nestPicture({ roll, placed, figures, at, width, height }: NestView): Primitive[] {
  const scale = nestScale(roll, { width, height })
  const origin: XY = [at[0] + gutter, at[1] + gutter]
  const page = ([x, y]: Point): XY => [origin[0] + y * 1e3 * scale, origin[1] + x * 1e3 * scale]
  const used = roll.usedLength_m
  const cloth: XY[] = [page([0, 0]), page([0, roll.width_m]), page([used, roll.width_m]), page([used, 0])]
  const outlines = placed.map(({ outline }) => outline.map(page))
  const waste = [cloth, ...outlines]
  return [
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched(waste, { angle: Math.PI / 2, spacing: 1.3, origin }),
      stroke: { ink: 'light', width: pen.hair },
    },
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched(waste, { angle: 0, spacing: 1.3, origin }),
      stroke: { ink: 'pale', width: 0.09 },
    },
    line(cloth[0], cloth[1], stroke(pen.bold)),
    line(cloth[3], cloth[2], stroke(pen.fine, 'ink', [3, 1.2])),
    ...[0, roll.width_m].map((y) => line(page([0, y]), tail(page([used, y])), stroke(pen.net))),
    ...[roll.selvedge_m, roll.width_m - roll.selvedge_m].map((y) =>
      line(page([0, y]), tail(page([used, y])), stroke(pen.hair, 'dark', [1, 1])),
    ),
    ...roll.offcuts.flatMap((offcut, n) => offcutOn(offcut, `${offcutMark}${n + 1}`, page, used)),
    ...placed.flatMap((item, i) => pieceOn(item, outlines[i], i + 1)),
    ...roll.defects_m.flatMap((outline) => flawOn(outline, page, used)),
    ...dimension(cloth[0], cloth[1], figures.length(roll.width_m, 1e-3), { offset: 5, from: 1, size: 2.8 }),
    ...dimension(cloth[3], cloth[0], `${figures.length(used, 1e-3)} used`, { offset: 5, from: 1, size: 2.8 }),
    ...warpArrow(page([used, roll.width_m / 2]), placed[0]?.piece.role === 'film' ? '' : 'warp · '),
  ]
}

/** Before the number of an off-cut, so that it is not taken for a piece. */
export const offcutMark = 'R'

const offcutLine = { layer: 'mark', stroke: stroke(pen.fine, 'dark', [2, 1]) } as const

type Page = (point: Point) => XY

/** An off-cut of the used length; the tail is said by the dimensions. */
function offcutOn({ x_m, y_m, length_m, width_m }: NestOffcut, mark: string, page: Page, used: number): Primitive[] {
  if (x_m >= used) return []
  const [from, to] = [page([x_m, y_m]), page([x_m + length_m, y_m + width_m])]
  const middle: XY = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
  return [
    path(corners({ x: from[0], y: from[1], width: to[0] - from[0], height: to[1] - from[1] }), true, offcutLine),
    rectangle({ x: middle[0] - 2.6, y: middle[1] - 2, width: 5.2, height: 4 }, { fill: fill('paper') }),
    text([middle[0], middle[1] + 1], mark, { size: 2.8, face: 'letter', anchor: 'middle' }),
  ]
}

/** A flaw, hatched dark, as far as it lies on what is drawn. */
function flawOn(outline: readonly Point[], page: Page, used: number): Primitive[] {
  if (outline.every(([x]) => x >= used)) return []
  const drawn = outline.map(([x, y]) => page([Math.min(x, used), y]))
  return flaw(drawn, page([0, 0]))
}

function flaw(drawn: readonly XY[], origin: XY): Primitive[] {
  return [
    path(drawn, true, { layer: 'mark', stroke: stroke(pen.fine, 'dark'), fill: fill('paper') }),
    {
      kind: 'lines',
      layer: 'mark',
      pairs: hatched([drawn], { angle: Math.PI / 4, spacing: 0.7, origin }),
      stroke: { ink: 'dark', width: pen.hair },
    },
  ]
}

const corners = ({ x, y, width, height }: Box): XY[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
]

/** The rest of the roll, hinted. */
const tail = ([x, y]: XY): XY => [x, y + 9]

function warpArrow([x, y]: XY, warp: string): Primitive[] {
  return [
    ...arrow([x - 1, y + 6], [x - 1, y + 12], { width: pen.net, head: 2.2 }),
    ...arrow([x - 1, y + 8], [x - 1, y + 2], { width: pen.net, head: 2.2 }),
    text([x + 1.6, y + 8.4], `${warp}rest of the roll`, { size: 2.8, face: 'letter' }),
  ]
}

function pieceOn({ piece, rotation_deg }: PlacedPiece, drawn: readonly XY[], number: number): Primitive[] {
  const middle = centre(drawn)
  const reach = Math.sqrt(area(drawn))
  const size = Math.max(1.7, Math.min(3.2, (3 * reach * 0.62) / textWidth(piece.id, { size: 3, face: 'title' })))
  const forward = turnedBy([-1, 0], rotation_deg, [0, 0])
  const ahead: XY = [forward[1], forward[0]]
  const long = Math.max(1.6, Math.min(2.6, reach * 0.14))
  const mid: XY = [middle[0], middle[1] - 2.2]
  return [
    path(drawn, true, { layer: 'cut', stroke: stroke(pen.fine), fill: fill('paper') }),
    ...arrow(
      [mid[0] - ahead[0] * long, mid[1] - ahead[1] * long],
      [mid[0] + ahead[0] * long, mid[1] + ahead[1] * long],
      {
        width: pen.thin,
        head: Math.min(1.8, long * 0.8),
      },
    ),
    text([middle[0], middle[1] + 0.35 * size + 1.8], piece.id, { size, face: 'title', anchor: 'middle' }),
    text([middle[0], middle[1] + 0.35 * size + 1.6 + size * 1.1], `${number}`, {
      size: size * 0.9,
      face: 'letter',
      ink: 'dark',
      anchor: 'middle',
    }),
  ]
}

function centre(points: readonly XY[]): XY {
  let twice = 0
  let x = 0
  let y = 0
  points.forEach(([x0, y0], i) => {
    const [x1, y1] = points[(i + 1) % points.length]
    const cross = x0 * y1 - x1 * y0
    twice += cross
    x += (x0 + x1) * cross
    y += (y0 + y1) * cross
  })
  return [x / (3 * twice), y / (3 * twice)]
}

function area(points: readonly XY[]): number {
  let twice = 0
  points.forEach(([x0, y0], i) => {
    const [x1, y1] = points[(i + 1) % points.length]
    twice += x0 * y1 - x1 * y0
  })
  return Math.abs(twice) / 2
}

/** A key to the small signs of the picture. */
export function nestKey({ offcuts, defects_m, usedLength_m }: NestRoll): Block {
  const flawed = defects_m.some((outline) => outline.some(([x]) => x < usedLength_m))
  const kept = offcuts.some(({ x_m }) => x_m < usedLength_m)
  const box = (y: number): Box => ({ x: 1, y: y - 2.6, width: 2, height: 3 })
  const signs: readonly (readonly [boolean, string, (y: number) => Primitive[]])[] = [
    [true, 'forward on the piece', (y) => arrow([2, y + 1], [2, y - 4], { width: pen.thin, head: 1.6 })],
    [true, 'selvedge, unusable', (y) => [rectangle(box(y), { stroke: stroke(pen.hair, 'dark', [1, 1]) })]],
    [flawed, 'flaw, nothing lies on it', (y) => flaw(corners(box(y)), [0, 0])],
    [kept, 'off-cut, back to stock', (y) => [path(corners(box(y)), true, offcutLine)]],
  ]
  const shown = signs.filter(([isShown]) => isShown)
  const items = shown.flatMap(([, words, sign], n) => {
    const y = 5 + 5.5 * n
    return [...sign(y), text([4.4, y], words, { size: 2.8 })]
  })
  return picture(3 + 5.5 * shown.length, items)
}
