/**
 * The true-scale drawing of one ply shape: cut and net outlines, every line that helps to lay it, and what it is, in
 * letters at least 3 mm high. Bay axes become the page's: Y to the right, X down, so the nose points up.
 */
import type { Mark, PieceShape, Point } from '@finwright/core/assess/assessment.ts'
import { type Primitive, path, pen, type Stroke, stroke, type Text, text, type XY } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'
import { arrow } from '../layout/dimension.ts'
import { bestPlace, edgesOf, type Segment, simplified, stretchesOf, turnedBox } from '../layout/placing.ts'
import { checkLine } from './check-line.ts'
import { squareStrips } from './check-square.ts'
import type { Picture, PictureFrame, TilePlan } from './picture.ts'
import { type Relief, reliefLabel, reliefMark } from './relief-marks.ts'

/** Capitals of 3 mm in the engineering lettering. */
export const smallest = 4.3

export interface PieceWords {
  readonly title: string
  /** Lines under the title, most important first; the last ones are left out where there is no room. */
  readonly lines: readonly string[]
  readonly use: string
  /** What the mark of a ply that is stretched says. */
  readonly pullBack: string
  /** To be written on the cloth outside the net line. */
  readonly cloth: string
}

export const toPage = ([x, y]: Point): XY => [y * 1e3, x * 1e3]

/** `relief` is this ply's alone. `planFor` says how it will lie on tiles: words keep clear of joins and check squares. */
export function piecePicture(
  shape: PieceShape,
  words: PieceWords,
  relief: readonly Relief[],
  planFor: (frame: PictureFrame, lines: readonly Segment[]) => TilePlan | null,
): Picture {
  const cut = shape.outline_m.map(toPage)
  const net = shape.netOutline_m.map(toPage)
  const frame = { box: boxOf(cut, 1), outline: simplified(cut, 0.05), ...longLines(shape.marks) }
  const { x, y, width, height } = frame.box
  const state: State = {
    sheet: turnedBox([x + width / 2, y + height / 2], width, height, 0),
    items: [],
    lines: [...edgesOf(simplified(cut)), ...edgesOf(simplified(net))],
    seams: [],
    words: [],
  }
  state.items.push(path(cut, true, { layer: 'cut', stroke: stroke(pen.bold) }))
  state.items.push(path(net, true, { layer: 'net', stroke: stroke(pen.net) }))
  const marks = shape.marks
    .filter(({ points_m }) => points_m.length > 1)
    .map((mark) => (mark.kind === 'pull-back' ? { ...mark, label: words.pullBack } : mark))
  for (const mark of marks) drawMark(state, mark)
  const reliefs = relief.map((one, i) => {
    const why = shape.role === 'film' ? 'film does not shear' : 'only if it wrinkles'
    return reliefMark(one, i, { from: toPage(one.from_m), to: toPage(one.to_m), cut, why })
  })
  for (const { items, lines } of reliefs) {
    state.items.push(...items)
    state.lines.push(...lines)
  }
  const diagonal = checkLine(cut)
  state.items.push(...diagonal.items)
  state.lines.push(...diagonal.lines)
  const plan = planFor(frame, state.lines)
  state.seams.push(...(plan?.seams ?? []))
  state.words.push(...(plan?.squares ?? []).flatMap(squareStrips))
  for (const mark of reliefs) {
    const { sheet: inside, lines, seams, words: boxes } = state
    const label = reliefLabel(mark, smallest, { inside, lines: [...seams, ...lines], boxes })
    if (label === null) continue
    state.items.push(...label.items)
    state.words.push(label.box)
  }
  nameLabel(state, net, words)
  for (const mark of distinct(marks)) markLabel(state, mark, net)
  if (Math.abs(shape.area_m2 - shape.netArea_m2) < sameArea * shape.area_m2) {
    edgeLabel(state, net, 'cut here: this is the net edge', net)
  } else {
    edgeLabel(state, cut, 'cut here', net)
    edgeLabel(state, net, 'net edge: the part ends here', net)
  }
  lengthLabel(state, diagonal.segment, diagonal.label, net)
  return {
    name: words.title,
    key: shape.ply,
    use: words.use,
    items: state.items,
    ...frame,
    lines: state.lines,
    words: state.words,
    squares: plan?.squares ?? null,
  }
}

/** Fold lines and the centre line are upright on the page, root ends level. */
function longLines(marks: readonly Mark[]): { readonly upright: number[]; readonly level: number[] } {
  const stretches = marks.flatMap(({ points_m }) => stretchesOf(points_m.map(toPage)))
  const long = stretches.filter(([a, b]) => Math.hypot(b[0] - a[0], b[1] - a[1]) > 30)
  return {
    upright: long.filter(([a, b]) => Math.abs(a[0] - b[0]) < 1).map(([a]) => a[0]),
    level: long.filter(([a, b]) => Math.abs(a[1] - b[1]) < 1).map(([a]) => a[1]),
  }
}

/** Cut and net outlines whose areas differ by less, relative, are one line. */
const sameArea = 1e-3

interface State {
  /** The picture's box: no word outside it. */
  readonly sheet: readonly XY[]
  readonly items: Primitive[]
  readonly lines: Segment[]
  readonly seams: Segment[]
  readonly words: (readonly XY[])[]
}

const markStroke: { readonly [kind in Mark['kind']]: Stroke } = {
  centre: stroke(pen.fine, 'ink', [9, 1.5, 1.5, 1.5]),
  fillet: stroke(pen.fine, 'ink', [3, 1.5]),
  root: stroke(pen.fine, 'ink', [6, 1.5, 1, 1.5]),
  step: stroke(pen.thin, 'ink', [0.8, 1.2]),
  'pull-back': stroke(pen.net, 'ink', [6, 2.5]),
  warp: stroke(pen.bold),
  forward: stroke(pen.bold),
  bevel: stroke(pen.thin, 'ink', [12, 2]),
  tick: stroke(pen.bold),
}

function drawMark({ items, lines }: State, { kind, points_m }: Mark): void {
  const points = points_m.map(toPage)
  const layer = kind === 'fillet' || kind === 'centre' || kind === 'root' ? 'fold' : 'mark'
  if (kind === 'warp') items.push(...doubleArrow(points[0], points[points.length - 1]))
  else if (kind === 'forward') {
    items.push(...arrow(points[0], points[points.length - 1], { width: pen.bold, head: 7 }))
  } else items.push(path(points, false, { layer, stroke: markStroke[kind] }))
  lines.push(...stretchesOf(points))
}

/** The warp has no sense, so both ends have a head. */
function doubleArrow(a: XY, b: XY): Primitive[] {
  const middle: XY = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  return [...arrow(middle, a, { width: pen.bold, head: 5 }), ...arrow(middle, b, { width: pen.bold, head: 5 })]
}

/** One of each label is enough. */
function distinct(marks: readonly Mark[]): Mark[] {
  const seen = new Set<string>()
  return marks.filter(({ label }) => {
    if (label === '' || seen.has(label)) return false
    seen.add(label)
    return true
  })
}

interface Spot {
  readonly at: XY
  readonly turn: number
  readonly box: readonly XY[]
  readonly cost: number
}

/** Beside a line, along it, on whichever stretch and side costs least. */
function alongLine(words: string, size: number, stretches: readonly Segment[]): Spot[] {
  const width = textWidth(words, { size, face: 'letter' })
  return stretches.flatMap(([a, b]) => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    if (length < width * 0.6) return []
    const raw = Math.atan2(b[1] - a[1], b[0] - a[0])
    const turn = raw > Math.PI / 2 - 1e-6 ? raw - Math.PI : raw <= -Math.PI / 2 - 1e-6 ? raw + Math.PI : raw
    const up: XY = [Math.sin(turn), -Math.cos(turn)]
    return [0.5, 0.42, 0.58, 0.35, 0.65, 0.27, 0.73, 0.2, 0.8, 0.12, 0.88].flatMap((share, k) =>
      [1.2, -(0.7 * size + 1.2)].map((lift, side): Spot => {
        const at: XY = [a[0] + (b[0] - a[0]) * share + up[0] * lift, a[1] + (b[1] - a[1]) * share + up[1] * lift]
        const middle: XY = [at[0] + up[0] * 0.3 * size, at[1] + up[1] * 0.3 * size]
        return { at, turn, box: turnedBox(middle, width + 2, size * 1.05, turn), cost: 0.6 * k + 2 * side }
      }),
    )
  })
}

function markLabel(state: State, { label, points_m, kind }: Mark, net: readonly XY[]): void {
  const stretches = stretchesOf(points_m.map(toPage))
  const own = new Set(stretches.map((stretch) => JSON.stringify(stretch)))
  const lines = [...state.seams, ...state.lines.filter((stretch) => !own.has(JSON.stringify(stretch)))]
  const place = bestPlace(alongLine(label, smallest, stretches), {
    inside: kind === 'warp' || kind === 'forward' || kind === 'pull-back' ? state.sheet : net,
    lines,
    boxes: state.words,
  })
  if (place !== null) put(state, label, place.place)
}

function edgeLabel(state: State, outline: readonly XY[], words: string, net: readonly XY[]): void {
  const place = bestPlace(alongLine(words, smallest, edgesOf(outline)), {
    inside: outline === net ? net : state.sheet,
    lines: [...state.seams, ...state.lines],
    boxes: state.words,
  })
  if (place !== null) put(state, words, place.place)
}

function lengthLabel(state: State, segment: Segment, words: string, net: readonly XY[]): void {
  const lines = [...state.seams, ...state.lines.filter((stretch) => stretch !== segment)]
  const place = bestPlace(alongLine(words, smallest, [segment]), { inside: net, lines, boxes: state.words })
  if (place !== null) put(state, words, place.place)
}

function put({ items, words }: State, label: string, { at, turn, box }: Spot): void {
  items.push(text(at, label, { size: smallest, face: 'letter', anchor: 'middle', turn }))
  words.push(box)
}

/** The piece's name and facts, where they cross the fewest lines; smaller, then turned, where they do not fit. */
function nameLabel(state: State, net: readonly XY[], { title, lines, cloth }: PieceWords): void {
  const box = boxOf(net, 0)
  const trials = [
    { size: 13, rows: lines },
    { size: 10, rows: lines },
    { size: 10, rows: lines.slice(0, 3) },
    { size: 8, rows: lines.slice(0, 2) },
    { size: 6, rows: lines.slice(0, 1) },
    { size: smallest, rows: [] },
  ]
  let chosen: { label: Label; spot: Spot; cost: number } | null = null
  for (const { size, rows } of trials) {
    const label = labelOf(title, size, [...rows, `write on the cloth: ${cloth}`])
    const found = bestPlace(gridOf(box, label), {
      inside: net,
      lines: [...state.seams, ...state.lines],
      boxes: state.words,
    })
    if (found === null) continue
    if (chosen === null || found.cost < chosen.cost - 4) chosen = { label, spot: found.place, cost: found.cost }
    if (chosen.cost < 9) break
  }
  if (chosen === null) return
  state.items.push(...labelItems(chosen.label, chosen.spot))
  state.words.push(chosen.spot.box)
}

interface Label {
  readonly title: string
  readonly size: number
  readonly rows: readonly string[]
  readonly width: number
  readonly height: number
}

const rowSize = 4.6
const leading = 6.2

function labelOf(title: string, size: number, rows: readonly string[]): Label {
  const widths = rows.map((row) => textWidth(row, { size: rowSize, face: 'letter' }))
  return {
    title,
    size,
    rows,
    width: Math.max(textWidth(title, { size, face: 'title' }), ...widths),
    height: 0.72 * size + rows.length * leading + 1.5,
  }
}

/** Upright first; a quarter turn costs a little. */
function gridOf(box: { x: number; y: number; width: number; height: number }, { width, height }: Label): Spot[] {
  const spots: Spot[] = []
  const step = 6
  const middle: XY = [box.x + box.width / 2, box.y + box.height / 2]
  for (const turn of [0, -Math.PI / 2]) {
    for (let x = box.x; x <= box.x + box.width; x += step) {
      for (let y = box.y; y <= box.y + box.height; y += step) {
        const away = Math.hypot(x - middle[0], y - middle[1])
        const cost = 0.02 * away + (turn === 0 ? 0 : 3)
        spots.push({ at: [x, y], turn, box: turnedBox([x, y], width + 4, height + 4, turn), cost })
      }
    }
  }
  return spots
}

function labelItems({ title, size, rows, width, height }: Label, { at, turn }: Spot): Text[] {
  const c = Math.cos(turn)
  const s = Math.sin(turn)
  const place = (x: number, y: number): XY => [at[0] + c * x - s * y, at[1] + s * x + c * y]
  const left = -width / 2
  const top = -height / 2
  return [
    text(place(left, top + 0.7 * size), title, { size, face: 'title', turn }),
    ...rows.map((row, i) =>
      text(place(left, top + 0.72 * size + 1.5 + (i + 0.85) * leading), row, { size: rowSize, face: 'letter', turn }),
    ),
  ]
}

function boxOf(points: readonly XY[], margin: number) {
  const X = points.map(([x]) => x)
  const Y = points.map(([, y]) => y)
  const x = Math.min(...X) - margin
  const y = Math.min(...Y) - margin
  return { x, y, width: Math.max(...X) + margin - x, height: Math.max(...Y) + margin - y }
}
