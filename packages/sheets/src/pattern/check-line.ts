/** A long slanted line of a round length across a pattern: measured after the tiles are joined, it finds a bad join. */
import { line, type Primitive, pen, stroke, type XY } from '../drawing/drawing.ts'
import type { Segment } from '../layout/placing.ts'

export interface CheckLine {
  readonly items: readonly Primitive[]
  readonly lines: readonly Segment[]
  readonly segment: Segment
  readonly label: string
}

/** Along a diagonal of the outline's box, the longest multiple of 50 mm (of 10 mm on a small piece) that fits in it. */
export function checkLine(outline: readonly XY[]): CheckLine {
  const X = outline.map(([x]) => x)
  const Y = outline.map(([, y]) => y)
  const [left, right] = [Math.min(...X), Math.max(...X)]
  const [top, bottom] = [Math.min(...Y), Math.max(...Y)]
  const diagonal = Math.hypot(right - left, bottom - top)
  const unit = diagonal > 150 ? 50 : 10
  const length = Math.max(unit, Math.floor((0.96 * diagonal) / unit) * unit)
  const along: XY = [(right - left) / diagonal, (top - bottom) / diagonal]
  const middle: XY = [(left + right) / 2, (top + bottom) / 2]
  const end = (sign: number): XY => [
    middle[0] + (sign * along[0] * length) / 2,
    middle[1] + (sign * along[1] * length) / 2,
  ]
  const [a, b] = [end(-1), end(1)]
  const thin = stroke(pen.hair, 'dark', [4, 2])
  const bar = (at: XY): Primitive =>
    line(
      [at[0] - along[1] * 2.5, at[1] + along[0] * 2.5],
      [at[0] + along[1] * 2.5, at[1] - along[0] * 2.5],
      stroke(pen.fine),
      'check',
    )
  const segment: Segment = [a, b]
  return {
    items: [line(a, b, thin, 'check'), bar(a), bar(b)],
    lines: [segment],
    segment,
    label: `check: this line is ${length} mm long`,
  }
}
