/** Names and marks of a chart: along their curves, beside their points, each where it crosses least. */
import { type Box, circle, fill, line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth, wrapped } from '../drawing/lettering.ts'
import type { ChartInput, ChartMark, ChartSpan, Plot, Series } from './chart.ts'
import { arrow } from './dimension.ts'
import { bestPlace, type Segment, spread, turnedBox } from './placing.ts'

const lettering = { size: 2.7, face: 'letter' } as const
const height = 2.6
const leading = 3.4

/** What words keep clear of, and the words placed so far. */
interface Sheet {
  readonly plot: Plot
  readonly lines: readonly Segment[]
  readonly boxes: XY[][]
  /** Hatched stretches of the page's x: words in them get a ground of paper. */
  readonly hatched: readonly (readonly [number, number])[]
}

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

/** The stretches of a curve between its gaps. */
export function runsOf({ x, y }: Pick<Series, 'x' | 'y'>): (readonly [number, number])[][] {
  const runs: (readonly [number, number])[][] = []
  let run: (readonly [number, number])[] = []
  x.forEach((value, i) => {
    const own = y[i]
    if (own !== null && own !== undefined) run.push([value, own])
    else if (run.length > 0) {
      runs.push(run)
      run = []
    }
  })
  return run.length > 0 ? [...runs, run] : runs
}

/** Enough of a curve's points to keep words away from it: none nearer than a millimetre to the one before. */
function thinned(points: readonly XY[]): XY[] {
  const kept = [points[0]]
  for (const point of points.slice(1)) {
    const [x, y] = kept[kept.length - 1]
    if (Math.hypot(point[0] - x, point[1] - y) > 1) kept.push(point)
  }
  return [...kept, points[points.length - 1]]
}

/** The stretches of a curve inside the axes, on the page. */
function visible(series: Series, { at, inside }: Plot): XY[][] {
  const found: XY[][] = []
  for (const run of runsOf(series)) {
    let part: XY[] = []
    for (const [x, y] of run) {
      if (inside(x, y)) part.push(at(x, y))
      else if (part.length > 0) {
        found.push(part)
        part = []
      }
    }
    if (part.length > 0) found.push(part)
  }
  return found
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

/** Steps along a curve at which a name is tried, mm. */
const step = 2

/** Costs of a place along a curve: under it rather than over it, and for every radian of slope. */
const underCost = 0.5
const slopeCost = 4
/** Of a place near the curve's ends, where another curve may start: times the distance from its middle, 0 to 1. */
const endCost = 1.5

function along(parts: readonly (readonly XY[])[], label: string, sheet: Sheet): Primitive[] {
  if (label === '' || parts.length === 0) return []
  const width = textWidth(label, lettering)
  const longest = parts.map(walk).reduce((most, one) => (one.length > most.length ? one : most))
  if (longest.length < width + 1) return besidePoint(longest.at(longest.length / 2), label, sheet)
  const candidates = parts.flatMap((points) => {
    const walked = walk(points)
    const { length } = walked
    if (length < width) return []
    const count = Math.floor((length - width) / step)
    return Array.from({ length: count + 1 }, (_, i) => {
      const from = walked.at(i * step)
      const to = walked.at(Math.min(length, i * step + width))
      return { from, to, off: count === 0 ? 0 : Math.abs((2 * i) / count - 1) }
    }).flatMap(({ from, to, off }) => {
      const reach = Math.hypot(to[0] - from[0], to[1] - from[1])
      if (reach < 0.9 * width) return []
      const slope = Math.atan2(to[1] - from[1], to[0] - from[0])
      const turn = Math.abs(slope) <= Math.PI / 2 ? slope : slope + Math.PI
      const middle: XY = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
      return [1, -1].map((side) => {
        const lift = side * (height / 2 + 1.1)
        const centre: XY = [middle[0] + Math.sin(turn) * lift, middle[1] - Math.cos(turn) * lift]
        return {
          centre,
          turn,
          box: turnedBox(centre, width + 1, height + 0.6, turn),
          cost:
            (side < 0 ? underCost : 0) +
            slopeCost * Math.abs(turn) +
            endCost * off +
            outside(centre, width, turn, sheet),
        }
      })
    })
  })
  const best = bestPlace(candidates, { inside: null, ...sheet })
  return best === null ? [] : word(label, best.place, sheet)
}

function word(label: string, { centre, turn }: { centre: XY; turn: number }, sheet: Sheet): Primitive[] {
  const box = turnedBox(centre, textWidth(label, lettering) + 1, height + 0.6, turn)
  sheet.boxes.push(box)
  const X = box.map(([x]) => x)
  const onHatch = sheet.hatched.some(([from, to]) => Math.max(...X) > from && Math.min(...X) < to)
  const ground = onHatch ? [path(box, true, { fill: fill('paper', 0.85), layer: 'fill' })] : []
  const base: XY = [centre[0] - Math.sin(turn) * 0.95, centre[1] + Math.cos(turn) * 0.95]
  return [...ground, text(base, label, { ...lettering, anchor: 'middle', turn })]
}

function outside(centre: XY, width: number, turn: number, { plot: { box } }: Sheet): number {
  const corners = turnedBox(centre, width, height, turn)
  return corners.every(([x, y]) => within(box, x, y)) ? 0 : 400
}

const within = (box: Box, x: number, y: number): boolean =>
  x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height

/** A point at a distance along a polyline. */
function walk(points: readonly XY[]) {
  const ends = [0]
  points.slice(1).forEach((point, i) => {
    ends.push(ends[i] + Math.hypot(point[0] - points[i][0], point[1] - points[i][1]))
  })
  const length = ends[ends.length - 1]
  const at = (distance: number): XY => {
    if (points.length === 1 || distance >= length) return points[points.length - 1]
    const i = Math.max(
      1,
      ends.findIndex((end) => end >= distance),
    )
    const share =
      ends[i] === ends[i - 1] ? 0 : Math.min(1, Math.max(0, (distance - ends[i - 1]) / (ends[i] - ends[i - 1])))
    const [a, b] = [points[i - 1], points[i]]
    return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]
  }
  return { length, at }
}

/** Ways from a point to its words: direction and distance, mm. */
const around = [2.6, 5, 9, 14, 20].flatMap((distance, ring) =>
  [-0.6, -2.5, 0.6, 2.5, 0, Math.PI, -1.2, -1.9, 1.2, 1.9].map((angle) => ({ angle, distance, cost: ring * 2 })),
)

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

function besidePoint(point: XY, label: string, sheet: Sheet): Primitive[] {
  const width = textWidth(label, lettering)
  const candidates = around.flatMap(({ angle, distance, cost }) => {
    const [dx, dy] = [distance * Math.cos(angle), distance * Math.sin(angle)]
    const steep = Math.abs(dx) < 0.4 * distance
    const asides = steep ? [0, -0.45 * width, 0.45 * width] : [Math.sign(dx) * (width / 2 + 0.6)]
    return asides.map((aside) => {
      const centre: XY = [point[0] + dx + aside, point[1] + dy]
      return {
        centre,
        turn: 0,
        end: [point[0] + dx, point[1] + dy - Math.sign(dy) * (steep ? height / 2 + 0.4 : 0)] as XY,
        far: distance > 3,
        box: turnedBox(centre, width + 1, height + 0.8, 0),
        cost: cost + outside(centre, width, 0, sheet),
      }
    })
  })
  const best = bestPlace(candidates, { inside: null, ...sheet })
  if (best === null) return []
  const lead = best.place.far ? [line(point, best.place.end, stroke(pen.hair, 'dark'))] : []
  return [...lead, ...word(label, best.place, sheet)]
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
