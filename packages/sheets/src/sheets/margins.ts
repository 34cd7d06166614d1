/** Flight and margins: what it will see and whether it holds, in words, as pictures, then as numbers with their names. */
import type { Assessment, BoundaryPoint } from '@finwright/core/assess/assessment.ts'
import { answersIn } from '../answers.ts'
import { type Block, beside, paged, picture } from '../layout/block.ts'
import { chart } from '../layout/chart.ts'
import { type Figures, none, percent, plain, ratio } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table } from '../layout/table.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'

export type MarginInput = Pick<SheetInput, 'assessment' | 'figures' | 'paper'>

export function marginSheets(input: MarginInput): Leaf[] {
  const area = content(input.paper)
  const { width } = area
  const blocks: Block[] = [
    paragraph(holdAnswer(input), width, { size: 4.4, face: 'strong' }),
    ...plots(input, width),
    ...flightNumbers(input, width),
    ...flutterNumbers(input, width),
    ...boundaryTable(input, width),
    ...strengthNumbers(input, width),
    ...structureNumbers(input, width),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Flight and margins', subject: input.assessment.name, items }))
}

function plots({ assessment, figures }: MarginInput, width: number): Block[] {
  const { history, at, maximumMach, maximumDynamicPressure_Pa } = assessment.flight
  if (history === null) return []
  const half = (width - 6) / 2
  const end = lastShown(history.time_s, history.mach)
  const time = history.time_s.slice(0, end)
  const us = figures.units === 'us'
  const pressure = history.dynamicPressure_Pa.slice(0, end).map((q) => (us ? q / pascalPerPsi : q / 1e3))
  const shared = { y: 0, width: half, height: 47, xLabel: 'seconds after ignition' }
  const marks = (x: number | undefined, y: number | null, label: string) =>
    x === undefined || y === null ? [] : [{ x, y, label }]
  const mach = chart({
    ...shared,
    x: 0,
    title: 'Mach number',
    yLabel: '',
    series: [{ x: time, y: history.mach.slice(0, end), label: 'Mach' }],
    marks: marks(at?.maximumMach_s, maximumMach, `Mach ${ratio(maximumMach)}`),
  })
  const q = chart({
    ...shared,
    x: 0,
    title: 'Dynamic pressure',
    yLabel: us ? 'psi' : 'kPa',
    series: [{ x: time, y: pressure, label: 'q' }],
    marks: marks(at?.maximumDynamicPressure_s, Math.max(...pressure), figures.pressure(maximumDynamicPressure_Pa)),
  })
  return [
    beside(
      [
        { x: 0, block: picture(47, mach) },
        { x: half + 6, block: picture(47, q) },
      ],
      5,
    ),
  ]
}

/** International pound and inch, exact by definition: 4.4482216152605 N / (0.0254 m)². */
const pascalPerPsi = 4.4482216152605 / 0.0254 ** 2

/** The plot ends where Mach has fallen to a tenth of its most, or at the end. */
function lastShown(time: readonly number[], mach: readonly number[]): number {
  const most = Math.max(...mach)
  const peak = mach.indexOf(most)
  const after = mach.findIndex((value, i) => i > peak && value < most / 10)
  return after < 0 ? time.length : after + 1
}

/** What the summary answers to `Will it hold?`: the same words on every sheet. */
export function holdAnswer({ assessment, figures }: Pick<SheetInput, 'assessment' | 'figures'>): string {
  return answersIn(assessment, figures.units).find(({ question }) => question === 'Will it hold?')?.answer ?? ''
}

const columns: readonly Column[] = [
  { head: '', share: 3.4, ink: 'dark' },
  { head: '', share: 1.5 },
  { head: '', share: 5.6, ink: 'dark' },
]

/** Name, figure, remark; the rows whose figure exists or whose absence matters. */
function rows(title: string, items: readonly Cell[][], width: number): Block[] {
  if (items.length === 0) return []
  return [heading(title, width, 4), ...table(columns, items, width, { size: 3.1, headless: true })]
}

function flightNumbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { flight } = assessment
  const { recovery, at } = flight
  const items: Cell[][] = [
    ['greatest Mach', ratio(flight.maximumMach), at === null ? '' : `at ${plain(at.maximumMach_s, 1)} s`],
    [
      'greatest dynamic pressure',
      figures.pressure(flight.maximumDynamicPressure_Pa),
      at === null ? '' : `at ${plain(at.maximumDynamicPressure_s, 1)} s`,
    ],
    ...(flight.maximumAltitude_m === null
      ? []
      : [['greatest altitude', figures.distance(flight.maximumAltitude_m), 'above mean sea level']]),
  ]
  if (recovery !== null) {
    items.push([
      'recovery temperature at the fins',
      figures.temperature(recovery.temperature_K),
      `the resin softens at ${figures.temperature(recovery.glassTransition_K)}; ${plain(recovery.secondsAbove, 1)} s above it`,
    ])
  }
  items.push(...heatRows(flight.heat, figures))
  return rows('What it will see', items, width)
}

/** The hottest place of the flat, and what its heat leaves of the resin. */
function heatRows(heat: Assessment['flight']['heat'], figures: Figures): Cell[][] {
  if (heat === null || heat.stations.length === 0) return []
  const hottest = heat.stations.reduce((most, station) => (station.surface_K > most.surface_K ? station : most))
  const middle = heat.stations.find(({ place }) => place.startsWith('50 %')) ?? hottest
  const [now, other] = heat.resinStiffness
  return [
    [
      'skin at half the chord',
      figures.temperature(middle.surface_K),
      `${figures.temperature(middle.interface_K)} where it meets the core; hottest: ${hottest.place}, ${figures.temperature(hottest.surface_K)}`,
    ],
    [
      'resin stiffness at that pressure',
      percent(now?.factor),
      `of the cold one, if turbulent${other === undefined ? '' : `; ${other.state} ${percent(other.factor)}`}`,
    ],
  ]
}

function flutterNumbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { margin, screening } = assessment.flutter
  const items: Cell[][] = [
    [
      'flutter margin, speed ratio',
      ratio(margin.speedRatio),
      margin.speedRatio === null ? 'not determined; see the warnings' : margin.verdict,
    ],
  ]
  if (screening !== null) {
    items.push(
      [
        'screening number, speed ratio',
        ratio(screening.speedRatio),
        `a first look, never a verdict; ${screening.source}`,
      ],
      [
        'the same by the published line',
        ratio((screening.speedRatio * screening.printedLine.speed_m_s) / screening.speed_m_s),
        `${figures.speed(screening.printedLine.speed_m_s)}; the number above stands for ${figures.speed(screening.speed_m_s)}${
          screening.at === null
            ? ''
            : `; both at Mach ${ratio(screening.at.mach)}, ${figures.distance(screening.at.altitude_m)}`
        }`,
      ],
    )
  }
  return rows('Flutter', items, width)
}

const mostRows = 14

/** Neighbours that no method answers stand in one row. */
function boundaryTable({ assessment, figures }: MarginInput, width: number): Block[] {
  const { boundary } = assessment.flutter
  if (boundary.length === 0) return []
  const runs: BoundaryPoint[][] = []
  for (const point of boundary) {
    const run = runs.at(-1)
    if (run !== undefined && point.speed_m_s === null && run[0].speed_m_s === null && run[0].method === point.method)
      run.push(point)
    else runs.push([point])
  }
  const every = Math.max(1, Math.ceil(runs.length / mostRows))
  const shown = runs.filter((_, i) => i % every === 0 || i === runs.length - 1)
  const range = (values: readonly number[], decimals: number): string => {
    const [first, last] = [plain(values[0], decimals), plain(values[values.length - 1], decimals)]
    return first === last ? first : `${first}–${last}`
  }
  const cells = shown.map((run): Cell[] => {
    const [{ speed_m_s, dynamicPressure_Pa, frequency_Hz, method }] = run
    return [
      range(
        run.map(({ mach }) => mach),
        2,
      ),
      range(
        run.map(({ density_kg_m3 }) => density_kg_m3),
        3,
      ),
      figures.speed(speed_m_s),
      figures.pressure(dynamicPressure_Pa),
      frequency_Hz === null ? none : `${plain(frequency_Hz, 0)} Hz`,
      method,
    ]
  })
  const heads: Column[] = [
    { head: 'Mach', share: 1.3, align: 'end' },
    { head: 'air, kg/m³', share: 1.6, align: 'end' },
    { head: 'flutter speed', share: 1.5, align: 'end' },
    { head: 'dynamic pressure', share: 1.6, align: 'end' },
    { head: 'frequency', share: 1.3, align: 'end' },
    { head: 'method', share: 3 },
  ]
  return table(heads, cells, width, { size: 3.1, gap: 4 })
}

function strengthNumbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { strength, bond } = assessment
  const items: Cell[][] = []
  if (strength.failureIndex !== null) {
    const where =
      strength.position_m === null
        ? ''
        : `, ${figures.length(strength.position_m[0])} aft, ${figures.length(strength.position_m[1])} out`
    items.push([
      'failure index of the weakest ply',
      ratio(strength.failureIndex),
      `${strength.ply ?? ''}${where}; ${strength.criterion ?? ''}; 1 is failure`,
    ])
  }
  if (strength.secondOpinion !== null) {
    items.push(['second opinion', ratio(strength.secondOpinion.failureIndex), strength.secondOpinion.criterion])
  }
  if (strength.load !== null) {
    const { load } = strength
    items.push([
      'load on one fin',
      figures.force(load.force_N),
      `${figures.angle(load.angleOfAttack_deg)} angle of attack, ${load.basis}`,
    ])
  }
  if (bond.margin !== null) items.push(['root joint, margin', ratio(bond.margin), 'strength over load'])
  return rows('Strength', items, width)
}

function structureNumbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { structure, fin, roll, kind } = assessment
  const study = kind === 'study'
  const items: Cell[][] = [
    [study ? 'mass and area' : 'fin, both skins, fillets apart', figures.grams(fin.mass_kg), figures.area(fin.area_m2)],
    [
      'thickness at root and tip',
      figures.length(fin.thickness_m.root, 1e-5),
      figures.length(fin.thickness_m.tip, 1e-5),
    ],
    ...structure.modes
      .slice(0, 4)
      .map(({ frequency_Hz, kind: mode }, i): Cell[] => [
        `mode ${i + 1}`,
        `${plain(frequency_Hz, 0)} Hz`,
        study ? mode : `${mode}, root clamped, no air`,
      ]),
  ]
  if (structure.tipLoad !== null) {
    const { force_N, deflection_m, rootMoment_Nm } = structure.tipLoad
    items.push([
      'deflection under a tip load',
      figures.length(deflection_m),
      `${figures.force(force_N)} at the tip; root moment ${figures.moment(rootMoment_Nm)}`,
    ])
  }
  if (roll.tolerance.cant_deg !== null)
    items.push(['cant allowed', figures.angle(roll.tolerance.cant_deg, 2), 'mean over the fins'])
  return rows(study ? 'The plate' : 'The fin', items, width)
}
