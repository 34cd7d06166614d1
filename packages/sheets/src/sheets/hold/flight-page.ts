/** What it will see: the flight as two plots, the heat it brings, the numbers. */
import { answersIn } from '../../answers.ts'
import { type Block, beside, picture, roomAmong } from '../../layout/block.ts'
import { type ChartInput, chart } from '../../layout/chart.ts'
import { plain, ratio } from '../../layout/figures.ts'
import { type Cell, type Column, table } from '../../layout/table.ts'
import { heading, paragraph } from '../../layout/words.ts'
import type { Area, MarginInput } from '../margins.ts'
import { numberRows } from './numbers.ts'
import { whyBlock } from './why.ts'
import { flightWhy } from './whys.ts'

export function flightBlocks(input: MarginInput, { width, height }: Area): Block[] {
  const { assessment, figures } = input
  const answer = answersIn(assessment, figures.units).find(({ question }) => question === 'What will it see?')?.answer
  const { history, heat } = assessment.flight
  if (answer === undefined || (history === null && heat === null)) return []
  const first = paragraph(answer, width, { size: 4.4, face: 'strong' })
  const rest = [
    ...flightNumbers(input, width),
    ...heatTable(input, width),
    ...whyBlock(flightWhy(assessment), assessment.sources, width),
  ]
  const tall = roomAmong([first, ...rest], height, { least: 36, most: 70, gap: 9 })
  return [first, ...plots(input, width, tall), ...rest]
}

function plots(input: MarginInput, width: number, height: number): Block[] {
  const half = (width - 6) / 2
  const charts = flightCharts(input, { width: half, height })
  if (charts === null) return []
  const [mach, pressure] = [charts.mach, charts.dynamicPressure].map((one) => picture(height, chart(one)))
  return [
    beside(
      [
        { x: 0, block: mach },
        { x: half + 6, block: pressure },
      ],
      5,
    ),
  ]
}

export interface FlightCharts {
  readonly mach: ChartInput
  readonly dynamicPressure: ChartInput
  readonly altitude: ChartInput
}

/** Each of this size, to the end of what loads a fin; null without a history. */
export function flightCharts(
  { assessment, figures }: Pick<MarginInput, 'assessment' | 'figures'>,
  { width, height }: Area,
): FlightCharts | null {
  const { history, at, maximumMach, maximumDynamicPressure_Pa } = assessment.flight
  if (history === null) return null
  const end = lastShown(history.mach)
  const time = history.time_s.slice(0, end)
  const pressure = figures.axis('pressure')
  const distance = figures.axis('distance')
  const shared = { x: 0, y: 0, width, height, xLabel: 'seconds after ignition' }
  const marks = (x: number | undefined, y: number | null, label: string) =>
    x === undefined || y === null ? [] : [{ x, y, label }]
  const mach: ChartInput = {
    ...shared,
    title: 'Mach number',
    yLabel: '',
    series: [{ x: time, y: history.mach.slice(0, end), label: '' }],
    marks: marks(at?.maximumMach_s, maximumMach, `Mach ${ratio(maximumMach)}`),
  }
  const dynamicPressure: ChartInput = {
    ...shared,
    title: 'Dynamic pressure',
    yLabel: pressure.unit,
    series: [{ x: time, y: history.dynamicPressure_Pa.slice(0, end).map(pressure.of), label: '' }],
    marks: marks(
      at?.maximumDynamicPressure_s,
      maximumDynamicPressure_Pa === null ? null : pressure.of(maximumDynamicPressure_Pa),
      figures.pressure(maximumDynamicPressure_Pa),
    ),
  }
  const altitude: ChartInput = {
    ...shared,
    title: 'Altitude above sea level',
    yLabel: distance.unit,
    series: [{ x: time, y: history.altitude_m.slice(0, end).map(distance.of), label: '' }],
  }
  return { mach, dynamicPressure, altitude }
}

/** The plot ends where Mach has fallen to a tenth of its most, or at the end. */
export function lastShown(mach: readonly number[]): number {
  const most = Math.max(...mach)
  const peak = mach.indexOf(most)
  const after = mach.findIndex((value, i) => i > peak && value < most / 10)
  return after < 0 ? mach.length : after + 1
}

function flightNumbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { recovery, at, ...flight } = assessment.flight
  const when = (time: number | undefined): string => (time === undefined ? '' : `at ${plain(time, 1)} s`)
  const items: Cell[][] = [
    ['greatest Mach number', ratio(flight.maximumMach), when(at?.maximumMach_s)],
    [
      'greatest dynamic pressure',
      figures.pressure(flight.maximumDynamicPressure_Pa),
      when(at?.maximumDynamicPressure_s),
    ],
    ...(flight.maximumAltitude_m === null
      ? []
      : [['greatest altitude', figures.distance(flight.maximumAltitude_m), 'above mean sea level']]),
  ]
  if (recovery !== null) {
    items.push([
      'recovery temperature at the fins',
      figures.temperature(recovery.temperature_K),
      `of the air; the resin softens at ${figures.temperature(recovery.glassTransition_K)}; ${plain(recovery.secondsAbove, 1)} s above it`,
    ])
  }
  for (const { state, factor, glassTransition_K } of flight.heat?.resinStiffness ?? []) {
    items.push([
      `resin, ${state}`,
      `${plain(100 * factor, 0)} %`,
      `of its cold stiffness at the greatest pressure; softens at ${figures.temperature(glassTransition_K)}`,
    ])
  }
  return numberRows('Numbers', items, width)
}

const heads: readonly Column[] = [
  { head: 'where the skins get how warm', share: 3 },
  { head: 'surface', share: 1, align: 'end' },
  { head: 'where skin meets core', share: 1.5, align: 'end' },
  { head: 'middle', share: 1, align: 'end' },
  { head: 'above glass transition', share: 1.6, align: 'end' },
]

function heatTable({ assessment, figures }: MarginInput, width: number): Block[] {
  const stations = assessment.flight.heat?.stations ?? []
  if (stations.length === 0) return []
  const surfaces = stations.map(({ surface_K }) => surface_K)
  const hottest = surfaces.indexOf(Math.max(...surfaces))
  const rows = stations.map(({ place, surface_K, interface_K, middle_K, secondsAbove }): Cell[] => [
    place,
    figures.temperature(surface_K),
    figures.temperature(interface_K),
    figures.temperature(middle_K),
    secondsAbove > 0 ? `${plain(secondsAbove, 1)} s` : 'never',
  ])
  return [
    heading('Heat', width, 4),
    ...table(heads, rows, width, { size: 3.1, gap: 1, strong: (row) => row === hottest }),
  ]
}
