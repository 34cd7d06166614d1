/** A small line chart: quiet axes, round ticks, one ink; series told apart by their dashes and by words at their ends. */
import { circle, fill, line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'

export interface Series {
  readonly x: readonly number[]
  readonly y: readonly number[]
  readonly label: string
  readonly dash?: readonly number[]
  readonly width?: number
}

export interface ChartMark {
  readonly x: number
  readonly y: number
  readonly label: string
}

export interface ChartInput {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
  readonly title: string
  readonly xLabel: string
  readonly yLabel: string
  readonly series: readonly Series[]
  readonly marks?: readonly ChartMark[]
  /** Least upper end of the axis. */
  readonly yAtLeast?: number
}

/** Ticks 1, 2 or 5 times a power of ten apart, about `count` of them. */
export function ticksTo(end: number, count: number): number[] {
  const raw = end / count
  const decade = 10 ** Math.floor(Math.log10(raw))
  const step = [1, 2, 5, 10].map((n) => n * decade).find((n) => n >= raw * (1 - 1e-9))!
  const ticks: number[] = []
  for (let i = 0; i * step <= end * (1 + 1e-9); i++) ticks.push(i * step)
  return ticks
}

const tickText = (value: number, step: number): string =>
  value.toFixed(Math.max(0, -Math.floor(Math.log10(step) + 1e-9)))

export function chart(input: ChartInput): Primitive[] {
  const { x, y, width, height, series, marks = [] } = input
  const left = x + 11
  const right = x + width - 2
  const top = y + 7
  const bottom = y + height - 9
  const endX = Math.max(1e-9, ...series.flatMap((s) => s.x))
  const endY = 1.08 * Math.max(1e-9, input.yAtLeast ?? 0, ...series.flatMap((s) => s.y), ...marks.map((mark) => mark.y))
  const at = (px: number, py: number): XY => [
    left + (px / endX) * (right - left),
    bottom - (py / endY) * (bottom - top),
  ]
  const ticksX = ticksTo(endX, 6)
  const ticksY = ticksTo(endY, 4)
  const small = { size: 2.5, face: 'letter', ink: 'dark' } as const
  return [
    text([x, y + 3.4], input.title, { size: 3.3, face: 'title' }),
    ...ticksY.flatMap((value) => {
      const [, level] = at(0, value)
      return [
        line([left, level], [right, level], stroke(pen.hair, value === 0 ? 'ink' : 'pale')),
        text([left - 1.4, level + 0.9], tickText(value, ticksY[1] ?? 1), { ...small, anchor: 'end' }),
      ]
    }),
    ...ticksX.flatMap((value) => {
      const [place] = at(value, 0)
      return [
        line([place, bottom], [place, bottom + 1.1], stroke(pen.hair)),
        text([place, bottom + 4], tickText(value, ticksX[1] ?? 1), { ...small, anchor: 'middle' }),
      ]
    }),
    text([right, bottom + 7.6], input.xLabel, { ...small, anchor: 'end' }),
    text([right, y + 3.4], input.yLabel, { ...small, anchor: 'end' }),
    ...series.map(({ x: X, y: Y, dash, width: weight = pen.net }) =>
      path(
        X.map((value, i) => at(value, Y[i])),
        false,
        {
          stroke: dash === undefined ? stroke(weight) : stroke(weight, 'ink', dash),
          layer: 'mark',
        },
      ),
    ),
    ...marks.flatMap((mark) => markOn(mark, at(mark.x, mark.y), right)),
  ]
}

function markOn({ label }: ChartMark, [x, y]: XY, right: number): Primitive[] {
  const width = textWidth(label, { size: 2.7, face: 'letter' })
  const leftward = x + width + 3 > right
  return [
    circle([x, y], 0.9, { fill: fill('paper'), stroke: stroke(pen.fine), layer: 'mark' }),
    text([x + (leftward ? -2 : 2), y - 1], label, { size: 2.7, face: 'letter', anchor: leftward ? 'end' : 'start' }),
  ]
}
