/** The boundary in figures, Mach number by Mach number, for whoever wants to redo it; as dynamic pressure too. */
import type { BoundaryPoint } from '@finwright/core/assess/assessment.ts'
import { pen } from '../../drawing/drawing.ts'
import { type Block, picture, roomAmong } from '../../layout/block.ts'
import { chart } from '../../layout/chart.ts'
import { type Figures, hertz, none, plain, ratio } from '../../layout/figures.ts'
import { type Cell, type Column, table } from '../../layout/table.ts'
import { paragraph } from '../../layout/words.ts'
import type { Area, MarginInput } from '../margins.ts'
import { dashes } from './boundary-page.ts'
import { numberRows } from './numbers.ts'
import { sourceLines } from './why.ts'

export function figuresBlocks(input: MarginInput, area: Area): Block[] {
  const { boundary, screening } = input.assessment.flutter
  const { width } = area
  if (boundary.length === 0 && screening === null) return []
  const first = paragraph(
    'Mach number by Mach number, in the air that the flight has there: the envelope, which the verdict uses, and what a linear method gives by itself.',
    width,
    { size: 4.4, face: 'strong' },
  )
  const rest = [
    ...boundaryTable(input, width),
    ...divergenceRows(input, width),
    ...screeningRows(input, width),
    ...sourceLines(['flutter'], input.assessment.sources, width),
  ]
  const height = roomAmong([first, ...rest], area.height, { least: 50, most: 80, gap: 6 })
  return [first, ...pressurePlot(input, { width, height }), ...rest]
}

/** The raw boundary as dynamic pressure, above what the flight meets. */
function pressurePlot({ assessment, figures }: MarginInput, { width, height }: Area): Block[] {
  const { history } = assessment.flight
  const points = assessment.flutter.boundary
  const methods = [
    ...new Set(points.flatMap(({ dynamicPressure_Pa, method }) => (dynamicPressure_Pa === null ? [] : [method]))),
  ]
  if (points.length < 2 || methods.length === 0) return []
  const { unit, of } = figures.axis('pressure')
  const raw = methods.map((method, i) => ({
    x: points.map(({ mach }) => mach),
    y: points.map((point) =>
      point.method === method && point.dynamicPressure_Pa !== null ? of(point.dynamicPressure_Pa) : null,
    ),
    label: `raw, ${method}`,
    width: pen.fine,
    dash: dashes[i % dashes.length],
  }))
  const flight =
    history === null
      ? []
      : [
          {
            x: history.mach,
            y: history.dynamicPressure_Pa.map(of),
            label: 'the flight, up and down',
            width: pen.net,
          },
        ]
  const items = chart({
    x: 0,
    y: 0,
    width,
    height,
    title: 'The linear boundary as dynamic pressure, before any factor',
    xLabel: 'Mach number',
    yLabel: unit,
    ticks: { x: 9, y: 5 },
    series: [...raw, ...flight],
  })
  return [picture(height, items, 5)]
}

function boundaryTable({ assessment, figures }: MarginInput, width: number): Block[] {
  const { boundary } = assessment.flutter
  if (boundary.length === 0) return []
  const air = figures.axis('air density')
  const heads: readonly Column[] = [
    { head: 'Mach', share: 10, align: 'end' },
    { head: `air, ${air.unit}`, share: 13, align: 'end' },
    { head: 'envelope', share: 17, align: 'end', face: 'strong' },
    { head: 'by', share: 15 },
    { head: 'factor', share: 11, align: 'end' },
    { head: 'on the speed of', share: 33 },
    { head: 'raw speed', share: 16, align: 'end' },
    { head: 'raw dynamic pressure', share: 18, align: 'end' },
    { head: 'raw, Hz', share: 9, align: 'end' },
    { head: 'raw method', share: 42 },
  ]
  const rows = runsOf(boundary).map((run): Cell[] => {
    const [{ density_kg_m3, speed_m_s, dynamicPressure_Pa, frequency_Hz, method, envelope }] = run
    const [low, high] = [ratio(run[0].mach), ratio(run[run.length - 1].mach)]
    return [
      low === high ? low : `${low}–${high}`,
      plain(air.of(density_kg_m3), figures.units === 'us' ? 4 : 3),
      ...envelopeCells(envelope, method, figures),
      figures.speed(speed_m_s),
      figures.pressure(dynamicPressure_Pa),
      hertz(frequency_Hz).replace(' Hz', ''),
      method,
    ]
  })
  return table(heads, rows, width, { size: 2.6, gap: 5 })
}

function envelopeCells(envelope: BoundaryPoint['envelope'], raw: string, figures: Figures): Cell[] {
  if (envelope === null) return [none, 'not determined', none, '']
  const { speed_m_s, kind, factor, method } = envelope
  const what = kind === 'end of search' ? 'none found' : kind
  return [figures.speed(speed_m_s), what, ratio(factor), method === raw ? 'raw method' : method]
}

/** Neighbours that nothing answers stand in one row. */
function runsOf(boundary: readonly BoundaryPoint[]): BoundaryPoint[][] {
  const silent = ({ envelope, speed_m_s }: BoundaryPoint): boolean => envelope === null && speed_m_s === null
  const runs: BoundaryPoint[][] = []
  for (const point of boundary) {
    const run = runs.at(-1)
    if (run !== undefined && silent(point) && silent(run[0]) && run[0].method === point.method) run.push(point)
    else runs.push([point])
  }
  return runs
}

function divergenceRows({ assessment, figures }: MarginInput, width: number): Block[] {
  const { divergence } = assessment.flutter
  if (divergence.length === 0) return []
  const raw = least(divergence, ({ speed_m_s }) => speed_m_s)
  const own = least(divergence, ({ envelope }) => (envelope?.kind === 'divergence' ? envelope.speed_m_s : null))
  const rows: Cell[][] = []
  if (raw === null) rows.push(['least speed, raw', none, 'none found up to the end of the search at any Mach number'])
  else rows.push(['least speed, raw', figures.speed(raw.speed_m_s), `at Mach ${ratio(raw.mach)}, ${raw.method}`])
  if (own?.envelope != null) {
    const { speed_m_s, method, factor } = own.envelope
    const by = `at Mach ${ratio(own.mach)}, factor ${ratio(factor)} on the speed of ${method}`
    rows.push(['least speed, envelope', figures.speed(speed_m_s), by])
  }
  return numberRows('Divergence: the fin turns over without swinging', rows, width)
}

function least(points: readonly BoundaryPoint[], of: (point: BoundaryPoint) => number | null): BoundaryPoint | null {
  const known = points.filter((point) => of(point) !== null)
  return known.reduce<BoundaryPoint | null>((a, b) => (a === null || of(b)! < of(a)! ? b : a), null)
}

function screeningRows({ assessment, figures }: MarginInput, width: number): Block[] {
  const { screening } = assessment.flutter
  if (screening === null) return []
  const { at, printedLine, speedRatio, speed_m_s, source } = screening
  const where = at === null ? '' : `, at Mach ${ratio(at.mach)}, ${figures.distance(at.altitude_m)}`
  return numberRows(
    'Screening: a first look, never a verdict',
    [
      ['screening number, speed ratio', ratio(speedRatio), `${figures.speed(speed_m_s)}${where}; ${source}`],
      [
        'by the published line',
        figures.speed(printedLine.speed_m_s),
        'the same modulus, read with the printed constant',
      ],
    ],
    width,
  )
}
