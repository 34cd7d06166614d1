/**
 * The paper that marks out the tube: wrapped round it, its two edges meet, and every line lies where it belongs. In every
 * bay the centre line and the fillet feet carry the ticks that the plies carry: tick falls on tick.
 *
 * Paper of thickness t bends about its middle, so its length is π (OD + t) and an angle a round the axis is a (OD + t) / 2
 * of its length. Fins stand at equal angles; the seam is in the middle of the last bay. Seen from outside, forward up,
 * fins count from left to right.
 */

import type { PieceShape, Point, SectionFigures } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { fill, line, type Primitive, path, pen, rectangle, stroke, text, type XY } from '../drawing/drawing.ts'
import { wordBoxes } from '../drawing/extent.ts'
import { arrow } from '../layout/dimension.ts'
import { type Figures, plain } from '../layout/figures.ts'
import type { Segment } from '../layout/placing.ts'
import { type CheckLine, checkLine } from './check-line.ts'
import type { Picture } from './picture.ts'
import { smallest } from './piece-picture.ts'

/** End of a ply on the body. */
export interface BodyEnd {
  readonly label: string
  /** Aft of the root's forward end, m. */
  readonly x: number
}

export interface WrapInput {
  readonly section: SectionFigures
  readonly paperThickness: number
  readonly ends: readonly BodyEnd[]
  readonly figures: Figures
}

/** Ends of the plies on the body, those at one place under one label; peel ply ends where the last cloth does. */
export function bodyEnds(shapes: readonly PieceShape[]): BodyEnd[] {
  const ends: { label: string; x: number }[] = []
  for (const { ply, role, netOutline_m } of shapes) {
    if (comesOff(role)) continue
    for (const x of endsOnCentre(netOutline_m)) {
      const twin = ends.find((end) => Math.abs(end.x - x) < samePlace)
      if (twin === undefined) ends.push({ label: ply, x })
      else twin.label += ` ${ply}`
    }
  }
  return ends
}

/** Where the outline crosses the bay's centre line first and last. */
function endsOnCentre(outline: readonly Point[]): number[] {
  const X = outline.flatMap(([x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]
    return y0 <= 0 !== y1 <= 0 ? [x0 + (y0 / (y0 - y1)) * (x1 - x0)] : []
  })
  return X.length < 2 ? [] : [Math.min(...X), Math.max(...X)]
}

/** Ends closer than this are drawn as one line, m. */
const samePlace = 2e-4

/** Beyond the meeting edge: read how far the two edges miss. */
const tab = 18
const margin = 32

export const wrapLength = ({ tubeRadius_m }: SectionFigures, paperThickness: number): number =>
  Math.PI * (2 * tubeRadius_m + paperThickness)

export function tubeWrap(input: WrapInput): Picture {
  const { section, ends } = input
  const length = wrapLength(section, input.paperThickness) * 1e3
  const X = [0, section.rootLength_m, ...ends.map(({ x }) => x)].map((x) => x * 1e3)
  const top = Math.min(...X) - margin
  const bottom = Math.max(...X) + margin
  const perRadian = length / (2 * Math.PI)
  const fins = Array.from({ length: section.finCount }, (_, i) => ((i + 0.5) * length) / section.finCount)
  const foot = ((section.filletFoot_deg * Math.PI) / 180) * perRadian
  const face = Math.asin(section.coreThickness_m / 2 / section.tubeRadius_m) * perRadian
  const items: Primitive[] = [
    rectangle({ x: 0, y: top, width: length, height: bottom - top }, { layer: 'cut', stroke: stroke(pen.bold) }),
    ...gapScale(length, top, bottom),
    ...fins.flatMap((x, i) => finLines({ x, top, bottom, foot, face, number: i + 1 }, section)),
    ...rootLines(section, length),
    ...endLines(ends, length),
  ]
  const half = length / section.finCount / 2
  const bays = fins.slice(0, -1).map((x) => x + half)
  items.push(
    ...bays.flatMap((x, i) => [centreLine(x, top, bottom), ...bayWords([x, labelRow(section)], `bay ${i + 1}`)]),
    ...[0, ...bays].flatMap((x) => endLabels(ends, x)),
    ...landing({ lines: [0, ...bays, length, ...fins.flatMap((x) => [x - foot, x + foot])], length }, section, ends),
  )
  const check = checkLine([
    [0, top],
    [length, top],
    [length, bottom],
    [0, bottom],
  ])
  items.push(...check.items, checkWords(check))
  const upright = [0, length, ...bays, ...fins.flatMap((x) => [x, x - foot, x + foot, x - face, x + face])]
  const level = [...X, labelRow(section) - 12, labelRow(section), section.rootLength_m * 750]
  const outline: XY[] = [
    [0, top],
    [length + tab, top],
    [length + tab, bottom],
    [0, bottom],
  ]
  const lines: Segment[] = [
    ...upright.map(
      (x): Segment => [
        [x, top],
        [x, bottom],
      ],
    ),
    ...check.lines,
    ...level.map(
      (y): Segment => [
        [0, y],
        [length, y],
      ],
    ),
  ]
  return {
    name: 'Tube wrap',
    key: 'tube-wrap',
    use: `for a tube of ${input.figures.length(2 * section.tubeRadius_m)} outer diameter`,
    items,
    box: { x: -3, y: top - 3, width: length + tab + 6, height: bottom - top + 6 },
    outline,
    upright,
    level,
    lines,
    words: wordBoxes(items),
    squares: null,
  }
}

/** Fins and bays are named in the forward half, clear of the notes. */
const labelRow = ({ rootLength_m }: SectionFigures): number => rootLength_m * 420

interface FinPlace {
  readonly x: number
  readonly top: number
  readonly bottom: number
  readonly foot: number
  readonly face: number
  readonly number: number
}

function finLines({ x, top, bottom, foot, face, number }: FinPlace, section: SectionFigures): Primitive[] {
  const root = section.rootLength_m * 1e3
  const style = { size: 7, face: 'title', anchor: 'middle' } as const
  const datum: Primitive[] =
    number === 1
      ? [
          path(
            [
              [x, top + 1],
              [x - 3.5, top + 8],
              [x + 3.5, top + 8],
            ],
            true,
            { layer: 'mark', fill: fill('ink') },
          ),
          text([x + 7.2, top + 28], 'datum: fin 1', { size: smallest, face: 'title', turn: -Math.PI / 2 }),
        ]
      : []
  return [
    line([x, top], [x, bottom], stroke(pen.fine, 'ink', [9, 1.5, 1.5, 1.5]), 'fold'),
    rectangle({ x: x - face, y: 0, width: 2 * face, height: root }, { layer: 'mark', stroke: stroke(pen.net) }),
    ...[-1, 1].map((side) =>
      line([x + side * foot, top], [x + side * foot, bottom], stroke(pen.fine, 'ink', [3, 1.5]), 'fold'),
    ),
    ...datum,
    text([x + face + 3, labelRow(section)], `${number}`, { ...style, anchor: 'start' }),
    text([x - face - 1.4, root * 0.75], `fin ${number}`, {
      size: smallest,
      face: 'letter',
      turn: -Math.PI / 2,
      anchor: 'middle',
    }),
    text([x + foot - 1.2, root * 0.75], 'fillet foot: tape here', {
      size: smallest,
      face: 'letter',
      turn: -Math.PI / 2,
      anchor: 'middle',
    }),
  ]
}

function rootLines(section: SectionFigures, length: number): Primitive[] {
  return [0, section.rootLength_m * 1e3].map((y) =>
    line([0, y], [length, y], stroke(pen.fine, 'ink', [6, 1.5, 1, 1.5]), 'fold'),
  )
}

/** Where plies end on the body, in every bay. */
function endLines(ends: readonly BodyEnd[], length: number): Primitive[] {
  return ends.map(({ x }) => line([0, x * 1e3], [length, x * 1e3], stroke(pen.thin, 'dark', [0.8, 1.2]), 'mark'))
}

/** The plies that end there, named beside a bay's centre line; the last bay's is the seam. */
function endLabels(ends: readonly BodyEnd[], centre: number): Primitive[] {
  return ends.map(({ x, label }) => text([centre + 1.6, x * 1e3 - 0.9], label, { size: smallest, face: 'letter' }))
}

const centreLine = (x: number, top: number, bottom: number): Primitive =>
  line([x, top], [x, bottom], stroke(pen.thin, 'ink', [9, 1.5, 1.5, 1.5]), 'fold')

/** Along the slanted line, clear of the names of the bays. */
function checkWords({ segment: [a, b], label }: CheckLine): Primitive {
  const share = 0.64
  const turn = Math.atan2(b[1] - a[1], b[0] - a[0])
  const at: XY = [
    a[0] + (b[0] - a[0]) * share + 1.2 * Math.sin(turn),
    a[1] + (b[1] - a[1]) * share - 1.2 * Math.cos(turn),
  ]
  return text(at, label, { size: smallest, face: 'letter', anchor: 'middle', turn, layer: 'check', ink: 'dark' })
}

/** As long as the plies' own. */
const tick = 5

/** Ticks that the plies carry too: crosses at the root's ends, strokes from each ply's end inward. */
function landing(
  { lines, length }: { readonly lines: readonly number[]; readonly length: number },
  { rootLength_m }: SectionFigures,
  ends: readonly BodyEnd[],
): Primitive[] {
  const full = stroke(pen.bold)
  const root = rootLength_m * 1e3
  return lines.flatMap((x) => [
    ...[0, root].flatMap((y) => [
      line([Math.max(0, x - tick), y], [Math.min(length, x + tick), y], full, 'mark'),
      line([x, y - tick], [x, y + tick], full, 'mark'),
    ]),
    ...ends.map((end) => {
      const y = end.x * 1e3
      return line([x, y], [x, y + (y < root / 2 ? tick : -tick)], full, 'mark')
    }),
  ])
}

function bayWords([x, y]: XY, words: string): Primitive[] {
  return [
    text([x, y], words, { size: 7, face: 'title', anchor: 'middle' }),
    ...arrow([x, y - 10], [x, y - 26], { width: pen.bold, head: 6 }),
    text([x, y - 28], 'forward', { size: smallest, face: 'letter', anchor: 'middle' }),
  ]
}

/** Millimetres either side of the line that the other edge must meet. */
function gapScale(length: number, top: number, bottom: number): Primitive[] {
  const items: Primitive[] = []
  const tall = bottom - top
  for (const y of [top + 12, top + 0.3 * tall, top + 0.7 * tall, bottom - 12]) {
    for (let half = -4; half <= 4; half++) {
      const x = length + half * 0.5
      const long = half % 2 === 0 ? 3.4 : 2
      if (half !== 0) items.push(line([x, y - long / 2], [x, y + long / 2], stroke(pen.hair), 'mark'))
    }
    items.push(text([length + 3.4, y - 3.2], '½ mm', { size: 4.3, face: 'letter' }))
  }
  items.push(
    rectangle(
      { x: length, y: top, width: tab, height: bottom - top },
      { layer: 'mark', stroke: stroke(pen.hair, 'dark', [2, 1]) },
    ),
    text([length + 13, top + 0.165 * (bottom - top)], 'tab: goes under the other edge', {
      size: smallest,
      face: 'letter',
      turn: -Math.PI / 2,
      anchor: 'middle',
    }),
  )
  return items
}

/** What to check on the tube, for the page before the tiles. */
export function wrapNotes({ section, paperThickness, figures }: Omit<WrapInput, 'ends'>): string[] {
  const length = wrapLength(section, paperThickness)
  return [
    `The wrap is ${figures.length(length)} round. Wrap it tight and square to the axis: its edges meet within ½ mm, or measure the tube again.`,
    `1 mm round the tube is ${plain(360 / (length * 1e3), 2)}° of clocking.`,
    'Transfer fin lines, root ends, fillet feet and every bold tick to the tube; each ply carries the same ticks.',
  ]
}
