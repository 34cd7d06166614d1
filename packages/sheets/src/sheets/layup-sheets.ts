/** Lay-up sheets: one page a bay and can, made to be filled in with a gloved hand. */

import type { MixBatch, PieceShape, PlyCover } from '@finwright/core/assess/assessment.ts'
import type { Can } from '@finwright/core/assess/design.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { fill, group, line, type Primitive, path, pen, rectangle, stroke, text, type XY } from '../drawing/drawing.ts'
import { type Block, beside, heightOf, paged, picture, stacked } from '../layout/block.ts'
import { fields, holdPoint, writingBox } from '../layout/controls.ts'
import { leader } from '../layout/dimension.ts'
import type { Figures } from '../layout/figures.ts'
import { unitIn, wordsIn } from '../layout/in-units.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table, tick, write } from '../layout/table.ts'
import { paragraph } from '../layout/words.ts'
import { reliefName } from '../pattern/relief-marks.ts'
import type { SheetInput } from '../sheet.ts'
import { bayFrame, boundsOf, warpTurn } from './bay-frame.ts'
import { stepsOf } from './bay-strip.ts'
import { cautions } from './cautions.data.ts'
import { filmWords } from './film-words.ts'
import { finNumbering } from './sketches.ts'
import { warpWords } from './warp-words.ts'
import { weave } from './weave.ts'

export function layupSheets(input: SheetInput): Leaf[] {
  const { design, assessment } = input
  if (assessment.pattern.shapes.length === 0) return []
  return design.cans.flatMap((can) =>
    Array.from({ length: design.fins.count }, (_, i) => laidBay(can, i + 1, input)).flat(),
  )
}

function laidBay(can: Can, bay: number, input: SheetInput): Leaf[] {
  const area = content(input.paper)
  const { width } = area
  const { shapes } = input.assessment.pattern
  const last = (['peel', 'film'] as const).flatMap((role) =>
    shapes.some((shape) => shape.role === role) ? [role === 'peel' ? 'peel ply' : 'film'] : [],
  )
  const top = topRow(can, bay, input, width)
  const ready = holdPoint(
    'before the first batch is mixed',
    preparation.map((words) => wordsIn(words, input.figures)),
    width,
  )
  const counted = holdPoint(
    last.length === 0 ? 'before it is left to cure' : `before the ${last[0]}`,
    [
      `Plies on the part: ____ of ${shapes.filter(({ role }) => !comesOff(role)).length}. No label left in the bag.`,
      'Fillets and edges seen from a hand’s breadth: no bubble, no bridge, no dry white spot.',
    ],
    width,
  )
  const end = fields(
    [
      { label: `${last.join(' and ') || 'last ply'} down, time` },
      { label: 'last resin poured, time' },
      { label: 'cure until (maker’s data sheet)', share: 1.2 },
      { label: 'initials', share: 0.7 },
    ],
    width,
    8.6,
    3,
  )
  const relief = [...reliefNote(can, bay, input, width), ...filmNote(input, width)]
  const fixed = [top, ready, counted, end, ...relief]
  const rowsOf = (rowHeight: number) => plyTable(can, bay, input, width, rowHeight)
  // rows of many plies or of long names give way first, then the box, before anything goes to a page of its own
  const heights = [12, 11, 10, 9, 8, leastRow]
  const roomUnder = (rows: readonly Block[]) => area.height - heightOf([...fixed, ...rows]) - boxGap
  const rows = heights.map(rowsOf).find((blocks) => roomUnder(blocks) >= 15) ?? rowsOf(leastRow)
  const left = roomUnder(rows)
  const blocks = [
    top,
    ready,
    ...rows,
    ...relief,
    counted,
    end,
    writingBox(
      'deviations: what, where on the bay map, what was done',
      width,
      Math.max(leastBox, Math.min(34, left)),
      2,
      boxGap,
    ),
  ]
  return paged(blocks, area).map((items) => ({
    title: 'Lay-up',
    subject: `can ${can.letter} (${can.purpose}) · bay ${bay}`,
    items,
  }))
}

/** mm. */
const leastBox = 7
const leastRow = 7.2
const boxGap = 2.6

/** Where cloth may bunch, named as on its pattern; a mirrored bay has it across the centre line. */
function reliefNote(can: Can, bay: number, { assessment, figures }: SheetInput, width: number): Block[] {
  const { shapes, pieces, relief } = assessment.pattern
  const rows = shapes.flatMap(({ ply, angle_deg, role }) => {
    if (role === 'film') return []
    const piece = pieces.find(({ id }) => id === `${can.letter}-${bay}-${ply}`)
    const side = piece !== undefined && piece.angle_deg !== angle_deg ? -1 : 1
    return relief
      .filter((one) => one.ply === ply)
      .map((one, i) => {
        const { kind, from_m, to_m, opening_m } = one
        const deep = figures.length(Math.hypot(to_m[0] - from_m[0], to_m[1] - from_m[1]))
        const place = `${figures.length(from_m[0])} aft, ${figures.length(side * from_m[1])} across`
        const opens = kind === 'trim' ? '' : `, opens or laps by about ${figures.length(opening_m)}`
        return `${ply} ${reliefName(one, i)}: ${place}, ${deep} inside the net line${opens}`
      })
  })
  if (rows.length === 0) return []
  return [
    paragraph(
      `Work the cloth outward first. Cut only where it still wrinkles, from the edge inward, on the pattern’s broken line: ${rows.join('; ')}. Write what was cut under deviations.`,
      width,
      { size: 2.8, gap: 2 },
    ),
  ]
}

/** Laying it is part of the lay-up, and it is the one sheet that does not follow the surface. */
function filmNote({ assessment: { pattern } }: SheetInput, width: number): Block[] {
  const films = pattern.shapes.filter(({ role }) => role === 'film')
  if (films.length === 0) return []
  const words = films.map(({ ply }) => {
    const slits = pattern.relief.some((one) => one.ply === ply) ? ': slit it there' : ''
    return `${ply} ${filmWords(pattern, ply)}${slits}.`
  })
  const how = 'Last of all, on wet cloth, no resin.'
  return [paragraph([...words, how].join(' '), width, { size: 2.8, gap: 2 })]
}

const preparation = [
  'Wiped, abraded, wiped until clean. Bond clock runs. Surface 3 °C above the dew point.',
  'Every piece of this bay in the bag, labels as listed below, first ply on top.',
  `Scale checked. Gloves, brush, roller, scissors at hand. ${cautions.turning}`,
]

function topRow(can: Can, bay: number, input: SheetInput, width: number): Block {
  const { assessment, design, figures } = input
  const map = 62
  const round = 40
  const rest = width - map - round - 8
  const batches = assessment.resin.batches.length
  const next = bay === design.fins.count ? 1 : bay + 1
  return beside([
    { x: 0, block: smallMap(input, map, 55) },
    {
      x: map + 4,
      block: stacked([
        picture(round, finNumbering([0, 0], round, design.fins.count, bay)),
        paragraph('from the tail, looking forward', round, { size: 2.7, ink: 'dark', gap: 0 }),
      ]),
    },
    {
      x: map + round + 8,
      block: stacked([
        bigName(`${can.letter}-${bay}`, `fin ${bay} to fin ${next}`),
        fields([{ label: 'date' }, { label: 'laid by' }], rest, 10, 2),
        fields(
          [
            { label: 'shop', unit: unitIn('°C / %', figures) },
            { label: 'surface', unit: unitIn('°C', figures) },
          ],
          rest,
          10,
          0,
        ),
        fields([{ label: 'dew point', unit: unitIn('°C', figures) }, { label: 'abraded at' }], rest, 10, 0),
        fields([{ label: `first mix at (${batches === 1 ? '1 batch' : `${batches} batches`} planned)` }], rest, 10, 0),
      ]),
    },
  ])
}

const bigName = (name: string, under: string): Block => ({
  height: 14,
  gap: 0,
  draw: ([x, y]) => [
    text([x, y + 10], name, { size: 14, face: 'title' }),
    text([x + 32, y + 10], under, { size: 3.8, face: 'letter' }),
  ],
})

/** Beside the map for the names of the plies, mm. */
const labelRoom = 13

/** Net outlines nested on one another with the centre line, nose up. */
function smallMap({ assessment }: SheetInput, width: number, height: number): Block {
  const shapes = assessment.pattern.shapes.filter(({ role }) => !comesOff(role))
  const bounds = boundsOf(shapes.flatMap(({ netOutline_m }) => netOutline_m))
  const scale = Math.min(
    (width - labelRoom) / ((bounds.maxY - bounds.minY) * 1e3),
    height / ((bounds.maxX - bounds.minX) * 1e3),
  )
  const frame = bayFrame(scale, [(width - labelRoom) / 2, -bounds.minX * 1e3 * scale])
  const steps = stepsOf(shapes)
  const items: Primitive[] = [
    ...[...shapes]
      .reverse()
      .map((shape) =>
        path(shape.netOutline_m.map(frame.at), true, { fill: fill('ink', 0.4 / shapes.length), layer: 'fill' }),
      ),
    ...steps.map(({ outline }) => path(outline.map(frame.at), true, { stroke: stroke(pen.thin), layer: 'net' })),
    line(frame.at([bounds.minX, 0]), frame.at([bounds.maxX, 0]), stroke(pen.thin, 'ink', [4, 1, 1, 1]), 'fold'),
    ...steps.flatMap(({ outline, plies }, i) => {
      const own = boundsOf(outline)
      const inset = 4e-3
      const across = own.minY > 0 || own.maxY < 0 ? (own.minY + own.maxY) / 2 : 0
      const edge = frame.at([own.maxX - inset, across])
      const at: XY = [frame.at([0, bounds.maxY])[0] + 1, frame.at([bounds.maxX, 0])[1] - 4 * (steps.length - 1 - i)]
      return leader(at, [edge[0] + 3, edge[1]], plies.map(({ ply }) => ply).join(' '), 2.4)
    }),
  ]
  return picture(height, items)
}

const plyColumns: readonly Column[] = [
  { head: '', share: 1.3 },
  { head: 'ply', share: 1.2, face: 'title', size: 5.4 },
  { head: 'cloth', share: 3, size: 3.2 },
  { head: 'warp', share: 1.5, size: 4.4, align: 'end' },
  { head: 'reaches past the ply below: fore, aft edge · tip · body', share: 4.2, size: 3 },
  { head: 'batch', share: 1, align: 'middle', size: 4.4 },
  { head: 'start, min', share: 1.3, align: 'end', size: 4.4 },
  { head: 'down', share: 1, align: 'middle' },
  { head: 'time', share: 1.7 },
  { head: 'tips over, mm', share: 2 },
]

function plyTable(
  can: Can,
  bay: number,
  { assessment, design, figures }: SheetInput,
  width: number,
  rowHeight: number,
): Block[] {
  const { shapes, covers, pieces } = assessment.pattern
  const rows = shapes.map((shape): Cell[] => {
    const piece = pieces.find(({ id }) => id === `${can.letter}-${bay}-${shape.ply}`)
    const planned = design.plies.find(({ id }) => id === shape.ply)?.angle ?? 0
    const degrees = piece?.angle_deg ?? (planned * 180) / Math.PI
    const start = assessment.resin.perPly.find(({ ply }) => ply === shape.ply)?.start_min
    return [
      glyph(shape.role === 'film' ? null : degrees),
      shape.ply,
      comesOff(shape.role) ? `${shape.clothName}, comes off` : shape.clothName,
      warpWords(shape.role, degrees, figures),
      covered(covers.filter(({ ply }) => ply === shape.ply).at(-1), shape, { bay, of: design.fins.count, figures }),
      batchOf(shape.ply, assessment.resin.batches),
      start === undefined ? '' : `${Math.round(start)}`,
      tick,
      write,
      { kind: 'write', unit: 'L / R' },
    ]
  })
  const small = rowHeight > 8 ? 1 : 0.84
  const columns = plyColumns.map((column) => ({
    ...column,
    head: wordsIn(column.head, figures),
    ...(column.size === undefined ? {} : { size: small * column.size }),
  }))
  return table(columns, rows, width, { size: small * 4.2, rowHeight, gap: 2, rules: 'grid' })
}

/** The cloth as it lies, nose up; a film without a weave. */
const glyph = (degrees: number | null): Cell => ({
  kind: 'draw',
  height: leastRow,
  draw: (x, y, width, height) => {
    const side = Math.min(8.6, width - 1, height - 1.6)
    const left = x + (width - side) / 2
    const top = y + (height - side) / 2
    const square: XY[] = [
      [0, 0],
      [side, 0],
      [side, side],
      [0, side],
    ]
    const lines =
      degrees === null
        ? []
        : weave([square], {
            turn: warpTurn((degrees * Math.PI) / 180),
            spacing: 1.2,
            origin: [side / 2, side / 2],
          })
    return [
      group(lines, { move: [left, top] }),
      rectangle({ x: left, y: top, width: side, height: side }, { stroke: stroke(pen.fine) }),
    ]
  },
})

function covered(
  cover: PlyCover | undefined,
  { role, cover: covers, sequence }: PieceShape,
  { bay, of, figures }: { readonly bay: number; readonly of: number; readonly figures: Figures },
): string {
  if (covers !== 'bay') return `patch on fin ${covers === 'next' ? (bay % of) + 1 : bay} alone, by its ticks`
  if (cover === undefined)
    return comesOff(role) ? 'covers all' : sequence === 1 ? 'first on the core' : 'on what lies there'
  const bare = (value: number): string =>
    figures.length(value, figures.units === 'us' ? 2.54e-4 : 1e-3).replace(/ (mm|in)$/, '')
  const { leading_m, trailing_m, tip_m, bodyForward_m, bodyAft_m } = cover
  return `${cover.covers}: ${bare(leading_m)}, ${bare(trailing_m)} · ${bare(tip_m)} · ${bare(bodyForward_m)}, ${bare(bodyAft_m)}`
}

function batchOf(ply: string, batches: readonly MixBatch[]): string {
  const index = batches.findIndex(({ plies }) => plies.includes(ply))
  return index < 0 ? '' : `${index + 1}`
}
