/** Names and marks of a chart: along their curves, beside their points, each where it crosses least. */
import { circle, fill, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth, wrapped } from '../drawing/lettering.ts'
import type { ChartInput, ChartMark, ChartSpan, Plot, Series } from './chart.ts'
import {
  along,
  besidePoint,
  height,
  leading,
  lettering,
  outside,
  type Sheet,
  step,
  visible,
  walk,
  word,
} from './chart-places.ts'
import { arrow } from './dimension.ts'
import { bestPlace, type Segment, spread, turnedBox } from './placing.ts'

export function chartWords(input: ChartInput, plot: Plot): Primitive[] {
  const { series, marks = [], levels = [], uprights = [], spans = [], bands = [] } = input
  const { box, at } = plot
  const level = (y: number): Segment => [at(0, y), [box.x + box.width, at(0, y)[1]]]
  const upright = (x: number): Segment => [
    [at(x, 0)[0], box.y],
    [at(x, 0)[0], box.y + box.height],
  ]
  const lines = [
    ...series.flatMap((one) => visible(one, plot).flatMap((points) => stretches(thinned(points)))),
    ...levels.map(({ y }): Segment => [[box.x, level(y)[0][1]], level(y)[1]]),
    ...uprights.map(({ x }) => upright(x)),
    ...spans.map(({ x, from, to }): Segment => [at(x, from), at(x, to)]),
  ]
  const hatched = bands.map(({ from, to }) => [at(from, 0)[0], at(to, 0)[0]] as const)
  const sheet: Sheet = { plot, lines, hatched, boxes: marks.map(({ x, y }) => turnedBox(at(x, y), 2.2, 2.2, 0)) }
  return [
    ...spans.flatMap((span) => spanOn(span, sheet)),
    ...marks.flatMap((mark) => markOn(mark, sheet)),
    ...series.flatMap((one) => tagOn(one, sheet)),
    ...levels.flatMap(({ y, label }) => along([stretch(level(y), box.x)], label, sheet)),
    ...uprightNames(uprights, sheet),
    ...bands.flatMap(({ from, to, label }) => bandName(at(from, 0)[0], at(to, 0)[0], label, sheet)),
    ...(input.namesAtEnds === undefined
      ? series.flatMap((one) => along(visible(one, plot), one.label, sheet))
      : endNames(series, plot)),
  ]
}

const stretch = ([a, b]: Segment, left: number): XY[] => [[left, a[1]], b]

const stretches = (points: readonly XY[]): Segment[] => points.slice(1).map((point, i) => [points[i], point] as const)

/** Enough of a curve's points to keep words away from it: none nearer than a millimetre to the one before. */
function thinned(points: readonly XY[]): XY[] {
  const kept = [points[0]]
  for (const point of points.slice(1)) {
    const [x, y] = kept[kept.length - 1]
    if (Math.hypot(point[0] - x, point[1] - y) > 1) kept.push(point)
  }
  return [...kept, points[points.length - 1]]
}

/** Right of the axes, pushed apart where curves end close together, with a line from each end. */
function endNames(series: readonly Series[], plot: Plot): Primitive[] {
  const named = series.flatMap((one) => {
    const end = visible(one, plot).at(-1)?.at(-1)
    return one.label === '' || end === undefined ? [] : [{ label: one.label, end }]
  })
  const right = plot.box.x + plot.box.width
  const places = spread(
    named.map(({ end }) => end[1]),
    leading,
  )
  return named.flatMap(({ label, end }, i) => [
    path([end, [right + 0.6, end[1]], [right + 3, places[i]], [right + 4, places[i]]], false, {
      stroke: stroke(pen.hair, 'mid'),
      layer: 'mark',
    }),
    text([right + 4.8, places[i] + 0.95], label, lettering),
  ])
}

/** Above the chart, over their lines where there is room. */
function uprightNames(uprights: NonNullable<ChartInput['uprights']>, { plot }: Sheet): Primitive[] {
  const named = uprights.filter(({ label }) => label !== '')
  if (named.length === 0) return []
  const widest = Math.max(...named.map(({ label }) => textWidth(label, lettering)))
  const y = plot.box.y - 1.4
  const places = spread(
    named.map(({ x }) => plot.at(x, 0)[0]),
    widest + 3,
  )
  return named.map(({ label }, i) => text([places[i], y], label, { ...lettering, anchor: 'middle' }))
}

function markOn({ x, y, label, sign = 'ring' }: ChartMark, sheet: Sheet): Primitive[] {
  const point = sheet.plot.at(x, y)
  const drawn = signs[sign](point)
  return label === '' ? drawn : [...drawn, ...besidePoint(point, label, sheet)]
}

const disc = (point: XY, ground: 'ink' | 'paper'): Primitive[] => [
  circle(point, 0.9, { fill: fill(ground), stroke: stroke(pen.fine), layer: 'mark' }),
]

const signs: { readonly [sign in NonNullable<ChartMark['sign']>]: (point: XY) => Primitive[] } = {
  dot: (point) => disc(point, 'ink'),
  ring: (point) => disc(point, 'paper'),
  up: ([x, y]) => arrow([x, y], [x, y - 3.4], { width: pen.fine, head: 1.6 }),
  none: () => [],
}

/** Between two arrow heads, the words beside it. */
function spanOn({ x, from, to, label }: ChartSpan, sheet: Sheet): Primitive[] {
  const [a, b] = [sheet.plot.at(x, from), sheet.plot.at(x, to)]
  const middle: XY = [a[0], (a[1] + b[1]) / 2]
  const style = { width: pen.fine, head: 2 }
  return [...arrow(middle, a, style), ...arrow(middle, b, style), ...besidePoint(middle, label, sheet)]
}

/** Words of a hatched band: in lines that fit its width, else upright. */
function bandName(from: number, to: number, label: string, sheet: Sheet): Primitive[] {
  if (label === '') return []
  const { box } = sheet.plot
  const [left, right] = [Math.max(box.x, from), Math.min(box.x + box.width, to)]
  const lines = evenly(label, right - left - 2)
  const widest = Math.max(...lines.map((words) => textWidth(words, lettering)))
  const level = lines.length <= 3 && widest <= right - left - 2 && lines.join(' ') === label
  const [shown, turn] = level ? [lines, 0] : [[label], -Math.PI / 2]
  const [across, down] = level ? [widest, shown.length * leading] : [height, textWidth(label, lettering)]
  const candidates = Array.from({ length: 24 }, (_, i) => {
    const y = box.y + 1.5 + down / 2 + (i / 23) * Math.max(0, box.height - 3 - down)
    const centre: XY = [(left + right) / 2, y]
    return { centre, box: turnedBox(centre, across + 1, down + 0.6, 0), cost: 0.1 * i }
  })
  const best = bestPlace(candidates, { inside: null, ...sheet })
  if (best === null) return []
  const [x, y] = best.place.centre
  return shown.flatMap((words, i) =>
    word(words, { centre: [x, y + (i - (shown.length - 1) / 2) * leading], turn }, sheet),
  )
}

/** In as few lines as fit the width, none much longer than another. */
function evenly(words: string, width: number): string[] {
  const lines = wrapped(words, width, lettering)
  for (let narrower = width - 1; narrower > width / 2; narrower--) {
    const tried = wrapped(words, narrower, lettering)
    if (tried.length > lines.length || tried.join(' ') !== words) return wrapped(words, narrower + 1, lettering)
  }
  return lines
}

const tagRadius = 1.75

function tagOn(series: Series, sheet: Sheet): Primitive[] {
  const { tag } = series
  if (tag === undefined) return []
  const candidates = visible(series, sheet.plot).flatMap((points) => {
    const walked = walk(points)
    const count = Math.floor(walked.length / step)
    return Array.from({ length: count }, (_, i) => {
      const centre = walked.at((i + 0.5) * step)
      return {
        centre,
        box: turnedBox(centre, 2 * tagRadius + 0.6, 2 * tagRadius + 0.6, 0),
        cost: outside(centre, 2 * tagRadius, 0, sheet) + 2 * Math.abs(i / Math.max(1, count) - 0.5),
      }
    })
  })
  const best = bestPlace(candidates, { inside: null, ...sheet })
  if (best === null) return []
  const { centre } = best.place
  sheet.boxes.push(turnedBox(centre, 2 * tagRadius + 0.6, 2 * tagRadius + 0.6, 0))
  return [
    circle(centre, tagRadius, { fill: fill('paper'), stroke: stroke(pen.thin), layer: 'mark' }),
    text([centre[0], centre[1] + 0.9], tag, { size: 2.5, face: 'title', anchor: 'middle' }),
  ]
}
