/** Damping and frequency against speed where the margin is least, and what moves the margin. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { pen } from '../../drawing/drawing.ts'
import { type Block, picture, roomAmong } from '../../layout/block.ts'
import { type ChartInput, chart, type Series } from '../../layout/chart.ts'
import { ratio } from '../../layout/figures.ts'
import { heading, paragraph } from '../../layout/words.ts'
import type { Area, MarginInput } from '../margins.ts'
import { type ChartSource, governingAt } from './boundary-page.ts'
import { ratioRows } from './numbers.ts'
import { whyBlock } from './why.ts'
import { curvesWhy } from './whys.ts'

type Curves = NonNullable<Assessment['flutter']['curves']>

export function curvesBlocks(input: MarginInput, { width, height }: Area): Block[] {
  const { assessment } = input
  const { curves, beside, drivers } = assessment.flutter
  if (curves === null && beside.length === 0 && drivers.length === 0) return []
  const first = paragraph(curvesLine(input), width, { size: 4.4, face: 'strong' })
  const rest = [
    ...besideRows(assessment, width),
    ...driverRows(assessment, width),
    ...whyBlock(curvesWhy(assessment), assessment.sources, width),
  ]
  const room = roomAmong([first, ...rest], height, { least: 62, most: 130, gap: 5 })
  const charts = curveCharts(input, { width, height: room })
  const plots = charts === null ? [] : [picture(room, [...chart(charts.frequency), ...chart(charts.damping)], 4)]
  return [first, ...plots, ...rest]
}

export function curvesLine({ assessment, figures }: ChartSource): string {
  const { curves, margin, drivers } = assessment.flutter
  const strongest = drivers[0]
  const moved =
    strongest === undefined
      ? ''
      : ` What moves it most: ${strongest.input}; ${strongest.change} makes the ratio ${ratio(strongest.speedRatio)}.`
  if (curves === null) return `Where the margin is least no curves could be followed.${moved}`
  const what = margin.mode === null ? 'a mode' : `the ${margin.mode.name}`
  const speed = readSpeed(assessment, curves)
  const at = speed === null ? '' : ` at ${figures.speed(speed)}`
  const air = `by ${curves.method}, in the air of Mach ${ratio(curves.mach)} (${figures.airDensity(curves.density_kg_m3)})`
  return margin.kind === 'divergence'
    ? `The fin turns over, without swinging, ${air}.${moved}`
    : margin.kind === 'end of search'
      ? `No mode loses its damping up to the speed searched, ${air}.${moved}`
      : `Before any factor, ${what} loses its damping${at}, ${air}.${moved}`
}

/** The lowest roots, and of the higher ones those that grow: the others hardly move. */
function shown(curves: Curves): Curves {
  const { roots } = curves
  return { ...curves, roots: roots.filter((root, i) => i < mostRoots || growing(root)) }
}

const mostRoots = 6

const growing = ({ damping }: Curves['roots'][number]): boolean => damping.some((value) => value !== null && value > 0)

/** The reading's own speed, where the boundary has one of the same method next to this Mach number. */
function readSpeed({ flutter }: Assessment, { mach, method }: Curves): number | null {
  const near = governingAt(flutter.boundary, mach)
  if (near === null || Math.abs(near.mach - mach) > 0.005 || near.method !== method) return null
  return near.speed_m_s
}

/** Right of the axes, mm. */
const nameRoom = 41

/** Weight and dash of each root: the one that grows heaviest. */
const dashes: readonly (readonly number[] | undefined)[] = [
  undefined,
  [3, 1],
  [1, 0.8],
  [3.4, 0.9, 0.7, 0.9],
  [5, 1],
  [0.5, 0.9],
  [2, 0.7, 0.5, 0.7, 0.5, 0.7],
  [1.8, 1.6],
]

export interface CurveCharts {
  readonly frequency: ChartInput
  readonly damping: ChartInput
}

/** One above the other in an area of this size; null where no curves could be followed. */
export function curveCharts({ assessment, figures }: ChartSource, { width, height }: Area): CurveCharts | null {
  if (assessment.flutter.curves === null) return null
  const curves = shown(assessment.flutter.curves)
  const frequencyHeight = 0.47 * height
  const dampingHeight = height - frequencyHeight
  const { unit, of } = figures.axis('speed')
  const { margin } = assessment.flutter
  const speed = curves.speed_m_s.map(of)
  const grows = curves.roots.map(growing)
  const series = (values: (root: Curves['roots'][number]) => readonly (number | null)[], named: boolean): Series[] =>
    curves.roots.map((root, i) => ({
      x: speed,
      y: values(root),
      label: named ? `${i + 1}  ${root.mode}` : '',
      ...(named ? {} : { tag: `${i + 1}` }),
      width: grows[i] ? pen.heavy : pen.fine,
      ...(dashes[i % dashes.length] === undefined || grows[i] ? {} : { dash: dashes[i % dashes.length]! }),
    }))
  const top = Math.max(...curves.roots.flatMap(({ frequency_Hz }) => frequency_Hz.filter((f) => f !== null)))
  const shared = {
    x: 0,
    width,
    namesAtEnds: nameRoom,
    xRange: [0, speed[speed.length - 1]] as const,
    ticks: { x: 8, y: 5 },
  }
  const uprights = uprightsOf(assessment, curves, of)
  const frequency: ChartInput = {
    ...shared,
    y: 0,
    height: frequencyHeight,
    title: 'Frequency',
    xLabel: '',
    yLabel: 'Hz',
    bareX: true,
    yRange: [0, 1.06 * top],
    series: series((root) => root.frequency_Hz, true),
    uprights,
  }
  const low = lowestShown(curves)
  const known = readSpeed(assessment, curves)
  const read = known === null ? '' : `, ${figures.speed(known)}`
  const damping: ChartInput = {
    ...shared,
    y: frequencyHeight,
    height: dampingHeight,
    title: 'Damping: above zero a mode grows',
    xLabel: `speed, ${unit}`,
    yLabel: '2 Re s / |s|',
    yRange: [low, -0.55 * low],
    series: series((root) => root.damping, false),
    levels: [{ y: 0, label: '', width: pen.fine }],
    uprights: uprights.map(({ x, dash }) => ({ x, dash, label: '' })),
    marks: crossings(curves, of).map((x) => ({
      x,
      y: 0,
      label: `${margin.kind === 'flutter' ? 'flutter' : 'starts to grow'}${read}`,
      sign: 'dot' as const,
    })),
  }
  return { frequency, damping }
}

/** Deep enough for the root that grows; those that the air damps more leave the picture. */
function lowestShown({ roots }: Curves): number {
  const unstable = roots.filter(growing)
  const values = (unstable.length > 0 ? unstable : roots).flatMap(({ damping }) =>
    damping.filter((value) => value !== null),
  )
  return Math.min(-0.1, 1.6 * Math.min(...values))
}

/** Where a drawn damping curve first crosses zero upward, on the axis. */
function crossings({ speed_m_s, roots }: Curves, of: (value: number) => number): number[] {
  return roots.flatMap(({ damping }) => {
    for (let i = 1; i < damping.length; i++) {
      const [a, b] = [damping[i - 1], damping[i]]
      if (a !== null && b !== null && a <= 0 && b > 0)
        return [of(speed_m_s[i - 1] + (a / (a - b)) * (speed_m_s[i] - speed_m_s[i - 1]))]
    }
    return []
  })
}

/** The envelope's speed beside the flight's, at the least ratio. */
function uprightsOf({ flutter, flight }: Assessment, { speed_m_s }: Curves, of: (value: number) => number) {
  const { at, speedRatio } = flutter.margin
  const { history } = flight
  if (at === null || history === null || speedRatio === null) return []
  const i = history.time_s.findIndex((time) => time >= at.time_s - 1e-9)
  const flown = history.speed_m_s[i]
  if (flown === undefined) return []
  const lines = [
    { x: of(flown), label: 'you fly here', dash: [0.7, 0.8] },
    { x: of(flown * speedRatio), label: 'envelope', dash: [2.4, 1] },
  ]
  return lines.filter(({ x }) => x < of(speed_m_s[speed_m_s.length - 1]))
}

function besideRows({ flutter }: Assessment, width: number): Block[] {
  const { beside, margin } = flutter
  if (beside.length === 0) return []
  return [
    heading('The same margin under other assumptions', width, 4),
    ...ratioRows(
      [{ head: 'if', share: 5.2, ink: 'dark' }],
      beside.map(({ assumption, speedRatio }) => ({ words: [assumption], value: speedRatio })),
      { base: margin.speedRatio, required: margin.requiredRatio },
      width,
    ),
  ]
}

function driverRows({ flutter }: Assessment, width: number): Block[] {
  const { drivers, margin } = flutter
  if (drivers.length === 0) return []
  return [
    heading('What moves it most', width, 4),
    ...ratioRows(
      [
        { head: 'input', share: 2.9, ink: 'dark' },
        { head: 'changed by', share: 2.3 },
      ],
      drivers.map(({ input, change, speedRatio }) => ({ words: [input, change], value: speedRatio })),
      { base: margin.speedRatio, required: margin.requiredRatio },
      width,
    ),
  ]
}
