/**
 * The paper that marks out the body: wrapped round it, its two edges meet, and every line lies where it belongs. In every
 * bay the centre line and the fillet feet carry the ticks that the plies carry: tick falls on tick.
 *
 * Paper of thickness t bends about its middle: on a straight tube it is π (OD + t) long; round a body that narrows it is the sector
 * of a ring (wrap-frame.ts). Canted fins slant on it. Fins stand at equal angles; the seam is in the middle of the last bay.
 * Seen from outside, forward up, fins count from left to right.
 */
import type { TubeFigures } from '@finwright/core/assess/assessment.ts'
import { fill, line, type Primitive, path, pen, type Stroke, stroke, text, type XY } from '../drawing/drawing.ts'
import { wordBoxes } from '../drawing/extent.ts'
import { arrow } from '../layout/dimension.ts'
import { type Figures, plain } from '../layout/figures.ts'
import type { Segment } from '../layout/placing.ts'
import { type CheckLine, checkLine } from './check-line.ts'
import type { Picture } from './picture.ts'
import { smallest } from './piece-picture.ts'
import { placeAt, places, type WrapFrame, type WrapPlace, wrapFrame } from './wrap-frame.ts'

export interface WrapInput {
  readonly tube: TubeFigures
  readonly paperThickness: number
  readonly figures: Figures
}

/** Ends closer than this are drawn as one line, m. */
const samePlace = 2e-4
/** A line that leans by less than this from end to end is one that no join should fall on, mm. */
const nearlyUpright = 3
/** Beyond the meeting edge: read how far the two edges miss. */
const tab = 18

const aftRadius = ({ radius_m, root_m, narrowing_deg }: TubeFigures): number =>
  radius_m - (root_m.aft - root_m.forward) * Math.sin((narrowing_deg * Math.PI) / 180)

const isConical = ({ narrowing_deg }: TubeFigures): boolean => narrowing_deg !== 0

const datumMark = stroke(pen.fine, 'ink', [9, 1.5, 1.5, 1.5])
const footMark = stroke(pen.fine, 'ink', [3, 1.5])
const rootMark = stroke(pen.fine, 'ink', [6, 1.5, 1, 1.5])
const endMark = stroke(pen.thin, 'dark', [0.8, 1.2])
const runOutMark = stroke(pen.fine, 'ink', [1.6, 1])

interface Sheet {
  readonly tube: TubeFigures
  readonly frame: WrapFrame
  readonly items: Primitive[]
  /** Lines that words and joins keep off. */
  readonly lines: Segment[]
}

export function tubeWrap({ tube, paperThickness, figures }: WrapInput): Picture {
  const frame = wrapFrame(tube, paperThickness)
  const sheet: Sheet = { tube, frame, items: [], lines: [] }
  const { forward, aft } = frame
  const edge = [...frame.circle(forward, 0, 2 * Math.PI), ...frame.circle(aft, 2 * Math.PI, 0)]
  const tabEdge = [
    frame.beside([forward, 2 * Math.PI], tab, 0),
    frame.beside([aft, 2 * Math.PI], tab, 0),
    frame.at([aft, 2 * Math.PI]),
    frame.at([forward, 2 * Math.PI]),
  ]
  sheet.items.push(path(edge, true, { layer: 'cut', stroke: stroke(pen.bold) }))
  sheet.lines.push(...along(edge))
  meetingTab(sheet, tabEdge)
  frame.fins.forEach((angle, i) => {
    finLines(sheet, angle, i + 1)
  })
  roundLines(sheet)
  frame.centres.forEach((angle, i) => {
    centreLine(sheet, angle, i)
    for (const { points } of tube.stops) drawn(sheet, places(points, angle), endMark, 'mark')
  })
  patchEnds(sheet)
  landing(sheet)
  const check = checkLine(inner(frame))
  sheet.items.push(...check.items, checkWords(check))
  const outline = [...edge.slice(0, edge.length / 2), ...tabEdge.slice(0, 2), ...edge.slice(edge.length / 2)]
  const X = outline.map(([x]) => x)
  const Y = outline.map(([, y]) => y)
  const [left, top] = [Math.min(...X) - 3, Math.min(...Y) - 3]
  const long = sheet.lines.filter(([a, b]) => Math.hypot(b[0] - a[0], b[1] - a[1]) > 30)
  const row = frame.at(labelPlace(sheet, 0))[1]
  return {
    name: 'Tube wrap',
    key: 'tube-wrap',
    use: isConical(tube)
      ? `for a body of ${figures.length(2 * tube.radius_m)} to ${figures.length(2 * aftRadius(tube))} outer diameter`
      : `for a tube of ${figures.length(2 * tube.radius_m)} outer diameter`,
    items: sheet.items,
    box: { x: left, y: top, width: Math.max(...X) + 3 - left, height: Math.max(...Y) + 3 - top },
    outline,
    upright: long.filter(([a, b]) => Math.abs(a[0] - b[0]) < nearlyUpright).map(([a, b]) => (a[0] + b[0]) / 2),
    level: [
      ...long.filter(([a, b]) => Math.abs(a[1] - b[1]) < 1).map(([a]) => a[1]),
      ...(isConical(tube) ? [] : [row - 12, row, tube.root_m.aft * 750]),
    ],
    lines: [...sheet.lines, ...check.lines],
    words: wordBoxes(sheet.items),
    squares: null,
  }
}

const along = (points: readonly XY[]): Segment[] => points.slice(1).map((p, i): Segment => [points[i], p])

function drawn(sheet: Sheet, line: readonly WrapPlace[], style: Stroke, layer: 'mark' | 'fold', closed = false): void {
  if (line.length < 2) return
  const points = line.map(sheet.frame.at)
  // a line that is straight on the paper needs its ends alone
  const straight = line.every(([, angle]) => Math.abs(angle - line[0][1]) < 1e-12)
  const kept = straight ? [points[0], points[points.length - 1]] : points
  sheet.items.push(path(kept, closed, { layer, stroke: style }))
  sheet.lines.push(...along(kept))
}

function roundLine({ frame, items, lines }: Sheet, station: number, style: Stroke, layer: 'mark' | 'fold'): void {
  const points = frame.circle(station, 0, 2 * Math.PI)
  items.push(path(points, false, { layer, stroke: style }))
  lines.push(...along(points))
}

/** Fins and bays are named in the forward half, clear of the notes. */
const labelPlace = ({ tube }: Sheet, angle: number): WrapPlace => [tube.root_m.aft * 0.42, angle]
const noteStation = ({ tube: { root_m, canEnds_m } }: Sheet): number =>
  Math.min(0.75 * root_m.aft, (canEnds_m.aft ?? root_m.aft) - 0.3 * root_m.aft)

function finLines(sheet: Sheet, angle: number, number: number): void {
  const { tube, frame, items } = sheet
  const { fin, root_m, runOut_m } = tube
  const [middle, next, previous] = [fin.middle, fin.nextFace, fin.previousFace].map((line) => places(line, angle))
  const feet = [fin.previousFoot, fin.nextFoot].map((line) => places(line, angle))
  const slant = Math.abs(middle[0][1] - middle[middle.length - 1][1]) > 1e-12
  // The fin's own line, taken on straight to the paper's edges where the fin stands along the axis.
  drawn(
    sheet,
    slant
      ? middle
      : [
          [frame.forward, angle],
          [frame.aft, angle],
        ],
    datumMark,
    'fold',
  )
  if (slant)
    items.push(line(frame.at([frame.forward, angle]), frame.at([root_m.forward, angle]), stroke(pen.hair), 'fold'))
  const straightFaces = slant ? [...next, ...[...previous].reverse()] : corners(next, previous)
  items.push(path(straightFaces.map(frame.at), true, { layer: 'mark', stroke: stroke(pen.net) }))
  for (const foot of feet) drawn(sheet, foot, footMark, 'fold')
  const runs = [
    [runOut_m.forward, root_m.forward - runOut_m.forward],
    [runOut_m.aft, root_m.aft + runOut_m.aft],
  ]
  for (const [length, station] of runs)
    if (length > 0 && station > frame.forward && station < frame.aft && onCan(tube, station)) {
      const [from, to] = feet.map((foot) => placeAt(foot, station)[1])
      items.push(path(frame.circle(station, from, to), false, { layer: 'mark', stroke: runOutMark }))
    }
  if (number === 1) datum(sheet, angle)
  const name = labelPlace(sheet, placeAt(next, 0.42 * root_m.aft)[1])
  items.push(
    text(frame.beside(name, 3, 0), `${number}`, { size: 7, face: 'title', anchor: 'start', turn: frame.turn(angle) }),
  )
  const station = noteStation(sheet)
  const small = { size: smallest, face: 'letter', anchor: 'middle' } as const
  const beside = (line: readonly WrapPlace[], off: number): { at: XY; turn: number } => {
    const [a, b] = [placeAt(line, station - 0.01), placeAt(line, station + 0.01)].map(frame.at)
    return { at: frame.beside(placeAt(line, station), off, 0), turn: Math.atan2(a[1] - b[1], a[0] - b[0]) }
  }
  const named = [
    { words: `fin ${number}`, ...beside(previous, -1.4) },
    { words: 'fillet foot: tape here', ...beside(feet[1], -1.2) },
  ]
  for (const { words, at, turn } of named) items.push(text(at, words, { ...small, turn }))
}

const corners = (next: readonly WrapPlace[], previous: readonly WrapPlace[]): WrapPlace[] => [
  next[0],
  next[next.length - 1],
  previous[previous.length - 1],
  previous[0],
]

const onCan = ({ canEnds_m }: TubeFigures, station: number): boolean =>
  station >= (canEnds_m.forward ?? -Infinity) - 1e-9 && station <= (canEnds_m.aft ?? Infinity) + 1e-9

function datum({ frame, items }: Sheet, angle: number): void {
  const top: WrapPlace = [frame.forward, angle]
  const arrowHead = [frame.beside(top, 0, 1), frame.beside(top, -3.5, 8), frame.beside(top, 3.5, 8)]
  const turn = frame.turn(angle) - Math.PI / 2
  items.push(
    path(arrowHead, true, { layer: 'mark', fill: fill('ink') }),
    text(frame.beside(top, 7.2, 28), 'datum: fin 1', { size: smallest, face: 'title', turn }),
  )
}

/** The root's ends, the can's, and where whole plies end. */
function roundLines(sheet: Sheet): void {
  const { tube, frame, items } = sheet
  for (const station of [tube.root_m.forward, tube.root_m.aft])
    if (onCan(tube, station)) roundLine(sheet, station, rootMark, 'fold')
  for (const [station, words] of [
    [tube.canEnds_m.forward, 'forward'],
    [tube.canEnds_m.aft, 'aft'],
  ] as const) {
    if (station === null || station < frame.forward || station > frame.aft) continue
    roundLine(sheet, station, stroke(pen.net), 'mark')
    const centre = frame.centres[1]
    const at = frame.beside([station, centre], 1.6, words === 'aft' ? 4.6 : -1.2)
    const style = { size: smallest, face: 'letter', turn: frame.turn(centre) } as const
    items.push(text(at, `the can’s ${words} end`, style))
  }
  for (const { at } of wholeEnds(tube)) roundLine(sheet, at, endMark, 'mark')
}

/** Ends of whole plies, those at one place under one label; peel ply ends where the last cloth does. */
export function wholeEnds({ ends }: TubeFigures): { readonly label: string; readonly at: number }[] {
  const found: { label: string; at: number }[] = []
  for (const { ply, face, at_m } of ends) {
    if (face !== null) continue
    const twin = found.find((end) => Math.abs(end.at - at_m) < samePlace)
    if (twin === undefined) found.push({ label: ply, at: at_m })
    else twin.label += ` ${ply}`
  }
  return found
}

/** A patch ends between its stop on the body and the fillet's foot. */
function patchEnds({ tube, frame, items }: Sheet): void {
  const centres = frame.centres.slice(0, -1)
  for (const { ply, face, at_m } of tube.ends) {
    if (face === null) continue
    const stop = tube.stops.find((one) => one.ply === ply)
    // The bay's next side is the fin that follows: its previous foot.
    const [foot, fin] = face === 'next' ? [tube.fin.previousFoot, 0.5] : [tube.fin.nextFoot, -0.5]
    const bay = (2 * Math.PI) / tube.finCount
    for (const centre of centres) {
      const about = wrapped(centre + fin * bay)
      const to = placeAt(places(foot, about), at_m)[1]
      const from = stop === undefined ? about - fin * bay : placeAt(places(stop.points, about - fin * bay), at_m)[1]
      items.push(path(frame.circle(at_m, from, to), false, { layer: 'mark', stroke: endMark }))
      const turn = frame.turn((from + to) / 2)
      items.push(text(frame.beside([at_m, (from + to) / 2], 0, -0.9), ply, { ...small, anchor: 'middle', turn }))
    }
  }
}

const small = { size: smallest, face: 'letter' } as const
const wrapped = (angle: number): number => (angle < 0 ? angle + 2 * Math.PI : angle)

/** The last bay's is the meeting edge: drawn as the cut. */
function centreLine(sheet: Sheet, angle: number, number: number): void {
  const { frame, items, tube } = sheet
  const last = number === tube.finCount
  if (number > 0 && !last) {
    const dashes = stroke(pen.thin, 'ink', [9, 1.5, 1.5, 1.5])
    drawn(
      sheet,
      [
        [frame.forward, angle],
        [frame.aft, angle],
      ],
      dashes,
      'fold',
    )
    const place = labelPlace(sheet, angle)
    const turn = frame.turn(angle)
    items.push(
      text(frame.at(place), `bay ${number}`, { size: 7, face: 'title', anchor: 'middle', turn }),
      ...arrow(frame.beside(place, 0, -10), frame.beside(place, 0, -26), { width: pen.bold, head: 6 }),
      text(frame.beside(place, 0, -28), 'forward', { ...small, anchor: 'middle', turn }),
    )
  }
  if (last) return
  for (const { label, at } of wholeEnds(tube))
    items.push(text(frame.beside([at, angle], 1.6, -0.9), label, { ...small, turn: frame.turn(angle) }))
}

/** Ticks that the plies carry too; those that reach over an edge end on it and go on at the other. */
function landing({ tube, frame, items }: Sheet): void {
  const full = stroke(pen.bold)
  const most = 2 * Math.PI
  for (const centre of frame.centres)
    for (const tick of tube.ticks) {
      const [p, q] = places(tick, centre)
      if (Math.max(p[1], q[1]) < -1e-9 || Math.min(p[1], q[1]) > most + 1e-9) continue
      const held = ([station, angle]: WrapPlace): XY => frame.at([station, Math.min(most, Math.max(0, angle))])
      items.push(line(held(p), held(q), full, 'mark'))
    }
}

/** Millimetres either side of the line that the other edge must meet, and the tab under it. */
function meetingTab({ frame, items }: Sheet, edge: readonly XY[]): void {
  const tall = frame.aft - frame.forward
  const turn = frame.turn(2 * Math.PI)
  const end = (station: number): WrapPlace => [station, 2 * Math.PI]
  for (const station of [
    frame.forward + 0.012,
    frame.forward + 0.3 * tall,
    frame.forward + 0.7 * tall,
    frame.aft - 0.012,
  ]) {
    for (let half = -4; half <= 4; half++) {
      const long = half % 2 === 0 ? 1.7 : 1
      const [a, b] = [-long, long].map((aft) => frame.beside(end(station), half * 0.5, aft))
      if (half !== 0) items.push(line(a, b, stroke(pen.hair), 'mark'))
    }
    items.push(text(frame.beside(end(station), 3.4, -3.2), '½ mm', { ...small, turn }))
  }
  items.push(path(edge, true, { layer: 'mark', stroke: stroke(pen.hair, 'dark', [2, 1]) }))
  const at = frame.beside(end(frame.forward + 0.165 * tall), 13, 0)
  items.push(text(at, 'tab: goes under the other edge', { ...small, turn: turn - Math.PI / 2, anchor: 'middle' }))
}

/** The largest upright rectangle on the paper whose corners the check line runs between. */
function inner(frame: WrapFrame): XY[] {
  const [first, last, middle] = [0, 2 * Math.PI, Math.PI]
  const corner = (station: number, angle: number): XY => frame.at([station, angle])
  const ends = [
    corner(frame.forward, first),
    corner(frame.aft, first),
    corner(frame.forward, last),
    corner(frame.aft, last),
  ]
  const [p, q, r, s] = ends
  const [left, right] = [Math.max(p[0], q[0]), Math.min(r[0], s[0])]
  const top = Math.max(p[1], r[1], corner(frame.forward, middle)[1])
  const bottom = Math.min(q[1], s[1], corner(frame.aft, middle)[1])
  return bottom - top > 40
    ? [
        [left, top],
        [right, bottom],
      ]
    : ends
}

/** Along the slanted line, clear of the names of the bays. */
function checkWords({ segment: [a, b], label }: CheckLine): Primitive {
  const share = 0.64
  const turn = Math.atan2(b[1] - a[1], b[0] - a[0])
  const at: XY = [
    a[0] + (b[0] - a[0]) * share + 1.2 * Math.sin(turn),
    a[1] + (b[1] - a[1]) * share - 1.2 * Math.cos(turn),
  ]
  return text(at, label, { ...small, anchor: 'middle', turn, layer: 'check', ink: 'dark' })
}

/** What to check on the tube, for the page before the tiles. */
export function wrapNotes({ tube, paperThickness, figures }: WrapInput, cantDeg: number): string[] {
  const { round } = wrapFrame(tube, paperThickness)
  const { forward, aft } = tube.root_m
  const [first, last] = [round(forward) / 1e3, round(aft) / 1e3]
  return [
    ...(isConical(tube)
      ? conicalNotes(tube, figures, [first, last])
      : [
          `The wrap is ${figures.length(first)} round. Wrap it tight and square to the axis: its edges meet within ½ mm, or measure the tube again.`,
        ]),
    ...(cantDeg === 0
      ? []
      : [
          `Fins are canted by ${plain(Math.abs(cantDeg), 2)}° about the middle of the root: aft ends lean ${cantDeg > 0 ? 'left' : 'right'}. The long box is where the core meets the body; the jig sets the fin all the same.`,
        ]),
    `1 mm round ${isConical(tube) ? 'at the root’s forward end' : 'the tube'} is ${plain(360 / (first * 1e3), 2)}° of clocking.`,
    'Transfer fin lines, root ends, fillet feet and every bold tick to the tube; each ply carries the same ticks. Short bars across a fin’s line: the fillet runs out to there.',
    ...(tube.canEnds_m.aft !== null && tube.canEnds_m.aft < aft
      ? ['The root runs on past the can’s aft end: nothing is marked beyond that line.']
      : []),
  ]
}

function conicalNotes(tube: TubeFigures, figures: Figures, [first, last]: readonly [number, number]): string[] {
  const sine = Math.sin((tube.narrowing_deg * Math.PI) / 180)
  const ahead = Math.max(0, ...tube.ends.map(({ at_m }) => tube.root_m.forward - at_m))
  const off = (2 * Math.PI * ahead * Math.abs(sine)) / tube.finCount
  return [
    `Round the body the wrap is ${figures.length(first)} at the root’s forward end, ${figures.length(last)} at its aft end. It fits in one place: set the root’s ends first; then its edges meet within ½ mm, or measure both diameters again. 1 mm along moves its edges by ${plain(2 * Math.PI * Math.abs(sine), 1)} mm.`,
    ...(ahead > 0.001
      ? [
          `Drawn, like the plies, as if the slope went on ahead of the root. On a straight tube there slit the paper along the bays’ centre lines to the root’s end and lay it flat; ${figures.length(ahead)} ahead a ply is ${figures.length(off)} too ${sine > 0 ? 'wide' : 'narrow'} for its bay.`,
        ]
      : []),
  ]
}
