/** The flutter boundary against the flight's own path, and the margin at every instant. */
import type { Assessment, BoundaryPoint } from '@finwright/core/assess/assessment.ts'
import { frozenSupersonic, transonicStart } from '@finwright/core/flutter/envelope-factors.data.ts'
import { pen } from '../../drawing/drawing.ts'
import { type Block, picture, roomAmong } from '../../layout/block.ts'
import { type ChartBand, type ChartInput, type ChartMark, chart, type Series } from '../../layout/chart.ts'
import { percent, plain, ratio } from '../../layout/figures.ts'
import type { Cell } from '../../layout/table.ts'
import { paragraph } from '../../layout/words.ts'
import { holdAnswer } from '../hold-answer.ts'
import type { Area, MarginInput } from '../margins.ts'
import { numberRows } from './numbers.ts'
import { whyBlock } from './why.ts'
import { boundaryWhy } from './whys.ts'

export function boundaryBlocks(input: MarginInput, { width, height }: Area): Block[] {
  const { assessment } = input
  if (assessment.kind === 'study' && assessment.flutter.boundary.length === 0) return []
  const first = paragraph(holdAnswer(input), width, { size: 4.4, face: 'strong' })
  const rest = [...marginNumbers(input, width), ...whyBlock(boundaryWhy(assessment), assessment.sources, width)]
  const room = roomAmong([first, ...rest], height, { least: 96, most: 160, gap: 14 })
  const plots = [
    { input: boundaryChart(input, { width, height: 0.63 * room }), gap: 5 },
    { input: marginChart(input, { width, height: 0.37 * room }), gap: 4 },
  ].flatMap(({ input, gap }) => (input === null ? [] : [picture(input.height, chart(input), gap)]))
  return [first, ...plots, ...rest]
}

/** What a chart is drawn from, on paper and on screen. */
export type ChartSource = Pick<MarginInput, 'assessment' | 'figures'>

const transonicWords = 'experience, not theory'

/** Dashes of the linear methods, in the order in which they appear. */
export const dashes: readonly (readonly number[])[] = [
  [2.6, 1.1],
  [0.7, 0.8],
  [3.4, 0.9, 0.7, 0.9],
]

export function boundaryChart({ assessment, figures }: ChartSource, { width, height }: Area): ChartInput | null {
  const { flutter, flight } = assessment
  const { history } = flight
  const points = flutter.boundary
  const machs = [...points.map(({ mach }) => mach), ...(history?.mach ?? [])]
  if (machs.length < 2) return null
  const { unit, of } = figures.axis('speed')
  const required = flutter.margin.requiredRatio
  const highest = Math.max(
    ...points.flatMap(({ speed_m_s, envelope }) => [of(speed_m_s ?? 0), of(envelope?.speed_m_s ?? 0)]),
    ...(history?.speed_m_s.map((speed) => of(speed * required)) ?? []),
  )
  return {
    x: 0,
    y: 0,
    width,
    height,
    title: history === null ? 'Speed at which it goes' : 'Speed at which the fin goes, against the flight',
    xLabel: 'Mach number',
    yLabel: unit,
    xRange: [0, 1.03 * Math.max(...machs)],
    yRange: [0, 1.18 * highest],
    ticks: { x: 9, y: 8 },
    series: [
      ...linearSeries(points, of),
      ...(history === null ? [] : flightSeries(history, of)),
      ...(history === null ? [] : requiredSeries(history, required, of)),
      {
        x: points.map(({ mach }) => mach),
        y: points.map(({ envelope }) => (envelope === null ? null : of(envelope.speed_m_s))),
        label: 'envelope, what the verdict uses',
        width: pen.heavy,
      },
    ],
    areas: history === null ? [] : [requiredBand(history, required, of)],
    bands: machBands(points, Math.max(...machs)),
    marks: [...searchEnds(points, of), ...(history === null ? stateMarks(points, of) : [])],
    spans: leastSpan(assessment, of),
  }
}

type History = NonNullable<Assessment['flight']['history']>
type Convert = (value: number) => number

/** Neighbours by one method make one line. */
function linearSeries(points: readonly BoundaryPoint[], of: Convert): Series[] {
  const methods = [...new Set(points.filter(({ speed_m_s }) => speed_m_s !== null).map(({ method }) => method))]
  return methods.map((method, i) => ({
    x: points.map(({ mach }) => mach),
    y: points.map((point) => (point.method === method && point.speed_m_s !== null ? of(point.speed_m_s) : null)),
    label: `raw, ${method}`,
    width: pen.thin,
    dash: dashes[i % dashes.length],
  }))
}

/** Up to the highest Mach number, then down. */
function flightSeries({ mach, speed_m_s }: History, of: Convert): Series[] {
  return [{ x: mach, y: speed_m_s.map(of), label: 'the flight, up and down', width: pen.net }]
}

function climb({ mach, speed_m_s }: History): { mach: readonly number[]; speed: readonly number[] } {
  const end = mach.indexOf(Math.max(...mach)) + 1
  return { mach: mach.slice(0, end), speed: speed_m_s.slice(0, end) }
}

function requiredBand(history: History, required: number, of: Convert) {
  const { mach, speed } = climb(history)
  return { x: mach, low: speed.map(of), high: speed.map((value) => of(value * required)) }
}

function requiredSeries(history: History, required: number, of: Convert): Series[] {
  const { mach, speed } = climb(history)
  return [
    {
      x: mach,
      y: speed.map((value) => of(value * required)),
      label: `${ratio(required)} times the flight, asked for`,
      width: pen.thin,
      dash: [1.6, 0.8],
    },
  ]
}

/** Where the envelope rests on experience, and where nothing answers. */
function machBands(points: readonly BoundaryPoint[], highest: number): ChartBand[] {
  const answered = points.some(({ envelope }) => envelope !== null)
  const transonic = answered && highest > transonicStart
  const bands: ChartBand[] = transonic ? [{ from: transonicStart, to: frozenSupersonic, label: transonicWords }] : []
  let from: number | null = null
  points.forEach(({ mach, envelope }, i) => {
    if (envelope === null && from === null) from = i === 0 ? 0 : mach
    const ends = envelope !== null || i === points.length - 1
    if (from !== null && ends) {
      const to = envelope === null ? mach : points[i - 1].mach
      bands.push({ from, to: Math.max(to, from + 0.01), label: 'not determined' })
      from = null
    }
  })
  return bands
}

/** Where nothing was found up to the speed drawn. */
function searchEnds(points: readonly BoundaryPoint[], of: Convert): ChartMark[] {
  return points.flatMap(({ mach, envelope }, i) => {
    if (envelope === null || envelope.kind !== 'end of search') return []
    const first = points.findIndex((point) => point.envelope?.kind === 'end of search') === i
    return [{ x: mach, y: of(envelope.speed_m_s), label: first ? 'nothing found up to here' : '', sign: 'up' as const }]
  })
}

/** States that belong to no flight: what stands between them was not computed. */
function stateMarks(points: readonly BoundaryPoint[], of: Convert): ChartMark[] {
  return points.flatMap(({ mach, envelope }) =>
    envelope === null || envelope.kind === 'end of search'
      ? []
      : [{ x: mach, y: of(envelope.speed_m_s), label: '', sign: 'dot' as const }],
  )
}

/** From the flight's speed to the envelope's, at the instant of the least ratio. */
function leastSpan({ flutter, flight }: Assessment, of: Convert) {
  const { speedRatio, at } = flutter.margin
  if (speedRatio === null || at === null || flight.history === null) return []
  const speed = valueAt(flight.history.time_s, flight.history.speed_m_s, at.time_s)
  const label = `least: × ${ratio(speedRatio)} at Mach ${ratio(at.mach)}`
  return [{ x: at.mach, from: of(speed), to: of(speed * speedRatio), label }]
}

/** Between two samples, straight. */
function valueAt(time: readonly number[], values: readonly number[], at: number): number {
  const i = Math.max(
    1,
    time.findIndex((value) => value >= at),
  )
  const share = time[i] === time[i - 1] ? 0 : (at - time[i - 1]) / (time[i] - time[i - 1])
  return values[i - 1] + Math.min(1, Math.max(0, share)) * (values[i] - values[i - 1])
}

export function marginChart({ assessment }: ChartSource, { width, height }: Area): ChartInput | null {
  const { flutter, flight } = assessment
  const { history, margin } = flutter
  if (history === null || history.time_s.length < 2) return null
  const least = Math.min(...history.speedRatio)
  const top = Math.max(2 * margin.requiredRatio, 2 * least)
  const end = history.time_s[history.speedRatio.findLastIndex((value) => value < top)] ?? history.time_s.at(-1)!
  const { at, speedRatio } = margin
  return {
    x: 0,
    y: 0,
    width,
    height,
    title: 'Envelope over flight speed, at every instant',
    xLabel: 'seconds after ignition',
    yLabel: 'speed ratio',
    xRange: [0, 1.08 * end],
    yRange: [0, top],
    ticks: { x: 9, y: 5 },
    series: [{ x: history.time_s, y: history.speedRatio, label: '', width: pen.bold }],
    levels: [
      { y: margin.requiredRatio, label: `asked for: ${ratio(margin.requiredRatio)}`, dash: [2.4, 1] },
      { y: 1, label: '1.00: the envelope is reached', width: pen.hair },
    ],
    bands: flight.history === null ? [] : transonicTimes(flight.history),
    marks:
      at === null || speedRatio === null
        ? []
        : [{ x: at.time_s, y: speedRatio, label: `least ${ratio(speedRatio)}, ${plain(at.time_s, 1)} s` }],
  }
}

/** Stretches of time in which the Mach number is where the envelope rests on experience. */
function transonicTimes({ time_s, mach }: History): ChartBand[] {
  const within = mach.map((value) => value >= transonicStart && value <= frozenSupersonic)
  return within.flatMap((here, i) => {
    if (!here || within[i - 1] === true) return []
    const end = within.findIndex((later, k) => k > i && !later)
    return [{ from: time_s[i], to: time_s[end < 0 ? time_s.length - 1 : end], label: '' }]
  })
}

function marginNumbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { margin, screening, boundary } = assessment.flutter
  const { at, mode, kind, speedRatio } = margin
  const items: Cell[][] = [
    [
      'least speed ratio',
      speedRatio === null ? 'not determined' : ratio(speedRatio),
      `${margin.verdict}; ${ratio(margin.requiredRatio)} asked for, on top of the envelope’s own factor`,
    ],
  ]
  if (at !== null)
    items.push([
      'where',
      `Mach ${ratio(at.mach)}`,
      `${plain(at.time_s, 1)} s after ignition, ${figures.distance(at.altitude_m)} above sea level`,
    ])
  if (kind !== null && speedRatio !== null)
    items.push(['what goes', kind, mode === null ? '' : `mostly ${mode.name}, ${percent(mode.share)} of the motion`])
  const governing = at === null ? null : governingAt(boundary, at.mach)
  if (governing?.envelope != null) {
    const { method, factor } = governing.envelope
    items.push([
      'what it rests on',
      `factor ${ratio(factor)}`,
      `on the speed of ${method}; the boundary’s point at Mach ${ratio(governing.mach)}`,
    ])
  }
  if (screening !== null) {
    items.push([
      'screening number, no verdict',
      ratio(screening.speedRatio),
      'a correlation through experience; in figures on the last of these sheets',
    ])
  }
  return numberRows('Numbers', items, width)
}

/** The point of the boundary next to a Mach number. */
export function governingAt(boundary: readonly BoundaryPoint[], mach: number): BoundaryPoint | null {
  return boundary.reduce<BoundaryPoint | null>(
    (best, point) => (best === null || Math.abs(point.mach - mach) < Math.abs(best.mach - mach) ? point : best),
    null,
  )
}
