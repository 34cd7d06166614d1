/**
 * Proposed relief on a piece: where the weave must turn further than it can, a broken line from the cut edge to the innermost
 * point, closed there by a short bar, with what to do beside it. Never a line to cut along beforehand: cloth that lies flat
 * stays whole, so nothing here is on the layer that is cut.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { line, type Primitive, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'
import { bestPlace, edgesOf, type Segment, turnedBox } from '../layout/placing.ts'

export type Relief = Assessment['pattern']['relief'][number]

/** `slit 1`, `stop short 2`: one row of numbers a ply, in the order of the assessment. */
export const reliefName = ({ kind }: Relief, index: number): string =>
  `${kind === 'trim' ? 'stop short' : 'slit'} ${index + 1}`

export interface ReliefMark {
  readonly items: readonly Primitive[]
  readonly lines: readonly Segment[]
  readonly label: string
  /** Where the words may point to: the middle of the line. */
  readonly middle: XY
}

const broken = stroke(pen.bold, 'ink', [2.4, 1.4])
const barLength = 4

/** `from` and `to` on the page, mm; the line is drawn out to the cut edge. */
export function reliefMark(
  relief: Relief,
  index: number,
  { from, to, cut, why }: { readonly from: XY; readonly to: XY; readonly cut: readonly XY[]; readonly why: string },
): ReliefMark {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1
  const out: XY = [(from[0] - to[0]) / length, (from[1] - to[1]) / length]
  const mouth = edgeBeyond(from, out, cut)
  const half: XY = [(-out[1] * barLength) / 2, (out[0] * barLength) / 2]
  const bar: Segment = [
    [to[0] - half[0], to[1] - half[1]],
    [to[0] + half[0], to[1] + half[1]],
  ]
  return {
    items: [line(mouth, to, broken, 'mark'), line(...bar, stroke(pen.bold), 'mark')],
    lines: [[mouth, to], bar],
    label: `${reliefName(relief, index)}: ${why}`,
    middle: [(mouth[0] + to[0]) / 2, (mouth[1] + to[1]) / 2],
  }
}

/** Along the ray, the first crossing of the outline; the start itself where it lies on the outline or outside. */
function edgeBeyond([x, y]: XY, [dx, dy]: XY, outline: readonly XY[]): XY {
  const ways = edgesOf(outline).flatMap(([[ax, ay], [bx, by]]) => {
    const [ex, ey] = [bx - ax, by - ay]
    const across = dx * ey - dy * ex
    if (Math.abs(across) < 1e-12) return []
    const way = ((ax - x) * ey - (ay - y) * ex) / across
    const share = ((ax - x) * dy - (ay - y) * dx) / across
    return way >= 0 && share >= 0 && share <= 1 ? [way] : []
  })
  const way = ways.length === 0 ? 0 : Math.min(...ways)
  return way > farthest ? [x, y] : [x + way * dx, y + way * dy]
}

/** No overhang is wider, mm; a ray that runs on further has missed the edge nearby. */
const farthest = 80

/** The words beside the mark, level, with a thin line to it where they stand off; null where there is no place. */
export function reliefLabel(
  { label, middle }: ReliefMark,
  size: number,
  around: {
    readonly inside: readonly XY[]
    readonly lines: readonly Segment[]
    readonly boxes: readonly (readonly XY[])[]
  },
): { readonly items: readonly Primitive[]; readonly box: readonly XY[] } | null {
  const width = textWidth(label, { size, face: 'letter' })
  const height = size * 1.05
  const spots = [5, 9, 14, 20, 28, 38].flatMap((away) =>
    Array.from({ length: 12 }, (_, k) => (k * Math.PI) / 6).map((turn) => {
      // the box's nearest point is `away` from the mark
      const centre: XY = [
        middle[0] + Math.cos(turn) * (away + width / 2),
        middle[1] + Math.sin(turn) * (away + height / 2),
      ]
      return { centre, box: turnedBox(centre, width + 2, height, 0), cost: 0.25 * away }
    }),
  )
  const place = bestPlace(spots, around)
  if (place === null) return null
  const { centre, box } = place.place
  const end: XY = [
    clamp(middle[0], centre[0] - width / 2 - 0.6, centre[0] + width / 2 + 0.6),
    clamp(middle[1], centre[1] - height / 2, centre[1] + height / 2),
  ]
  return {
    items: [
      text([centre[0], centre[1] + 0.3 * size], label, { size, face: 'letter', anchor: 'middle' }),
      line(end, middle, stroke(pen.hair), 'mark'),
    ],
    box,
  }
}

const clamp = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value))
