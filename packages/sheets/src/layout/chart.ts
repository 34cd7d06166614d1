/**
 * A line chart: quiet axes, round ticks, one ink. Curves are told apart by weight and dashes and by their names, which stand
 * along them; nothing depends on a colour or on a key. Words keep clear of curves and of one another where there is room.
 */
import {
  type Box,
  circle,
  fill,
  group,
  line,
  type Primitive,
  path,
  pen,
  stroke,
  text,
  type XY,
} from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import { runsOf } from './chart-places.ts'
import { chartWords } from './chart-words.ts'
import { plain } from './figures.ts'

export interface Series {
  readonly x: readonly number[]
  /** A gap where it is null. */
  readonly y: readonly (number | null)[]
  /** Stands along the curve; none where empty. */
  readonly label: string
  readonly dash?: readonly number[]
  readonly width?: number
  /** A letter or figure in a small circle on the curve. */
  readonly tag?: string
}

export interface ChartMark {
  readonly x: number
  readonly y: number
  readonly label: string
  /** `up`: an arrow, for what lies higher than is known; `none`: the words alone. */
  readonly sign?: 'dot' | 'ring' | 'up' | 'none'
}

/** A stretch of the x axis, hatched. */
export interface ChartBand {
  readonly from: number
  readonly to: number
  readonly label: string
}

/** A straight line across the chart. */
export interface ChartLevel {
  readonly y: number
  readonly label: string
  readonly dash?: readonly number[]
  readonly width?: number
}

/** A stretch of the y axis at one x, between two arrow heads. */
export interface ChartSpan {
  readonly x: number
  readonly from: number
  readonly to: number
  readonly label: string
}

export interface ChartInput extends Box {
  readonly title: string
  readonly xLabel: string
  readonly yLabel: string
  readonly series: readonly Series[]
  /** Between two curves, tinted. */
  readonly areas?: readonly {
    readonly x: readonly number[]
    readonly low: readonly number[]
    readonly high: readonly number[]
  }[]
  readonly bands?: readonly ChartBand[]
  readonly levels?: readonly ChartLevel[]
  /** Lines from top to bottom, named above the chart, at the height of its title. */
  readonly uprights?: readonly { readonly x: number; readonly label: string; readonly dash?: readonly number[] }[]
  readonly spans?: readonly ChartSpan[]
  readonly marks?: readonly ChartMark[]
  /** Ends of the axes; from 0 to a little more than the greatest value where left out. */
  readonly xRange?: readonly [number, number]
  readonly yRange?: readonly [number, number]
  readonly ticks?: { readonly x?: number; readonly y?: number }
  /** Names stand at the right of the curves' ends, in this much room, and not along them. */
  readonly namesAtEnds?: number
  /** Without figures along the x axis: another chart below has them. */
  readonly bareX?: boolean
}

export interface Plot {
  readonly box: Box
  readonly at: (x: number, y: number) => XY
  readonly inside: (x: number, y: number) => boolean
}

/** Ticks 1, 2 or 5 times a power of ten apart, about `count` of them. */
export function ticksTo(end: number, count: number): number[] {
  const step = tickStep(end, count)
  const ticks: number[] = []
  for (let i = 0; i * step <= end * (1 + 1e-9); i++) ticks.push(i * step)
  return ticks
}

function tickStep(length: number, count: number): number {
  const raw = length / count
  const decade = 10 ** Math.floor(Math.log10(raw))
  return [1, 2, 5, 10].map((n) => n * decade).find((n) => n >= raw * (1 - 1e-9))!
}

function ticksWithin([from, to]: readonly [number, number], count: number): { values: number[]; step: number } {
  const step = tickStep(to - from, count)
  const first = Math.ceil(from / step - 1e-9)
  const last = Math.floor(to / step + 1e-9)
  return { values: Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step), step }
}

const tickText = (value: number, step: number): string =>
  plain(value, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)))

/** Room that the axes' figures and the title take at each side, mm. */
const margins = { left: 12, right: 2, top: 7, bottom: 9 }

export function plotOf(
  input: ChartInput,
): Plot & { readonly xRange: readonly [number, number]; readonly yRange: readonly [number, number] } {
  const { x, y, width, height, series, marks = [], levels = [], spans = [] } = input
  const values = [
    ...series.flatMap((one) => one.y.filter((value) => value !== null)),
    ...marks.map((mark) => mark.y),
    ...levels.map((level) => level.y),
    ...spans.map(({ to }) => to),
  ]
  const xRange = input.xRange ?? ([0, most(series.flatMap((one) => one.x))] as const)
  const yRange = input.yRange ?? ([0, 1.08 * most(values)] as const)
  const bottom = input.bareX === true ? 2 : margins.bottom
  const top = input.title === '' && input.yLabel === '' ? 2 : margins.top
  const box: Box = {
    x: x + margins.left,
    y: y + top,
    width: width - margins.left - (input.namesAtEnds ?? margins.right),
    height: height - top - bottom,
  }
  const at = (px: number, py: number): XY => [
    box.x + ((px - xRange[0]) / (xRange[1] - xRange[0])) * box.width,
    box.y + box.height - ((py - yRange[0]) / (yRange[1] - yRange[0])) * box.height,
  ]
  const inside = (px: number, py: number): boolean =>
    px >= xRange[0] && px <= xRange[1] && py >= yRange[0] && py <= yRange[1]
  return { box, at, inside, xRange, yRange }
}

const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), 1e-9)

export function chart(input: ChartInput): Primitive[] {
  const plot = plotOf(input)
  const { box, at } = plot
  const { series, areas = [], bands = [], levels = [], uprights = [] } = input
  const areaPaths = areas.map(({ x: X, low, high }) =>
    path([...X.map((value, i) => at(value, low[i])), ...X.map((value, i) => at(value, high[i])).reverse()], true, {
      fill: fill('ink', 0.08),
      layer: 'fill',
    }),
  )
  const curves = series.flatMap((one) =>
    runsOf(one).map((run) =>
      run.length === 1
        ? circle(at(...run[0]), 0.8, { fill: fill('ink'), layer: 'mark' })
        : path(
            run.map(([px, py]) => at(px, py)),
            false,
            { stroke: strokeOf(one.width ?? pen.net, one.dash), layer: 'mark' },
          ),
    ),
  )
  const straight = [
    ...levels.map(({ y: level, dash, width }) =>
      line([box.x, at(0, level)[1]], [box.x + box.width, at(0, level)[1]], strokeOf(width ?? pen.fine, dash), 'mark'),
    ),
    ...uprights.map(({ x: place, dash }) =>
      line([at(place, 0)[0], box.y], [at(place, 0)[0], box.y + box.height], strokeOf(pen.fine, dash), 'mark'),
    ),
  ]
  return [
    ...bands.map(({ from, to }) => bandHatch(box, at(from, 0)[0], at(to, 0)[0])),
    group(areaPaths, { clip: box }),
    ...axes(input, plot),
    group([...straight, ...curves], { clip: box }),
    ...chartWords(input, plot),
  ]
}

const strokeOf = (width: number, dash: readonly number[] | undefined) =>
  dash === undefined ? stroke(width) : stroke(width, 'ink', dash)

function bandHatch(box: Box, from: number, to: number): Primitive {
  const [left, right] = [Math.max(box.x, from), Math.min(box.x + box.width, to)]
  const corners: XY[] = [
    [left, box.y],
    [right, box.y],
    [right, box.y + box.height],
    [left, box.y + box.height],
  ]
  return {
    kind: 'lines',
    layer: 'weave',
    pairs: right > left ? hatched([corners], { angle: -Math.PI / 4, spacing: 1.8 }) : [],
    stroke: { ink: 'light', width: pen.hair },
  }
}

const small = { size: 2.5, face: 'letter', ink: 'dark' } as const

function axes(input: ChartInput, { box, at, xRange, yRange }: ReturnType<typeof plotOf>): Primitive[] {
  const { x, y, title, xLabel, yLabel, ticks = {}, bareX } = input
  const [left, right, bottom] = [box.x, box.x + box.width, box.y + box.height]
  const across = ticksWithin(xRange, ticks.x ?? 6)
  const up = ticksWithin(yRange, ticks.y ?? 4)
  return [
    text([x, y + 3.4], title, { size: 3.3, face: 'title' }),
    text([right, y + 3.4], yLabel, { ...small, anchor: 'end' }),
    ...up.values.flatMap((value) => {
      const [, level] = at(xRange[0], value)
      return [
        line([left, level], [right, level], stroke(pen.hair, value === 0 ? 'ink' : 'pale')),
        text([left - 1.4, level + 0.9], tickText(value, up.step), { ...small, anchor: 'end' }),
      ]
    }),
    line([left, bottom], [right, bottom], stroke(pen.hair)),
    ...across.values.flatMap((value) => {
      const [place] = at(value, yRange[0])
      const mark = line([place, bottom], [place, bottom + 1.1], stroke(pen.hair))
      if (bareX === true) return [mark]
      return [mark, text([place, bottom + 4], tickText(value, across.step), { ...small, anchor: 'middle' })]
    }),
    ...(bareX === true ? [] : [text([right, bottom + 7.6], xLabel, { ...small, anchor: 'end' })]),
  ]
}
