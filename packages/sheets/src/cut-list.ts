/**
 * The cut list and the cloth that it takes, as CSV for a spreadsheet (RFC 4180: commas, quotes doubled, CRLF): one row a piece in
 * the order of cutting, and one row a cloth. SI sub-units written in each head, whatever the plan's system of units.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { massTolerance } from './sheets/cut-sheets.ts'
import { placedPieces, warpAcross } from './sheets/nest-picture.ts'

type Value = string | number

const csv = (rows: readonly (readonly Value[])[]): string =>
  `${rows.map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`

const cell = (value: Value): string => {
  const words = `${value}`
  return /[",\r\n]/.test(words) ? `"${words.replaceAll('"', '""')}"` : words
}

/** To so many decimals, as a number's own text. */
const fixed = (value: number, decimals: number): string => value.toFixed(decimals)

export function cutListCsv({ pattern, nest }: Assessment): string {
  const shapes = new Map(pattern.shapes.map((shape) => [shape.ply, shape]))
  const head = [
    ...['roll', 'number on the roll', 'piece', 'can', 'bay', 'ply', 'cloth', 'after cure', 'warp angle deg'],
    ...['width as cut mm', 'length as cut mm', 'area cm2', 'dry mass g', 'least g', 'most g', 'warp on the roll'],
  ]
  const rows = nest.rolls.flatMap((roll) =>
    placedPieces(roll, pattern.pieces).map((item, i): Value[] => {
      const { piece } = item
      const shape = shapes.get(piece.ply)
      const grams = piece.mass_kg * 1e3
      return [
        ...[roll.roll, i + 1, piece.id, piece.can, piece.bay, piece.ply, roll.clothName],
        ...[comesOff(piece.role) ? 'comes off' : 'stays', piece.role === 'film' ? '' : fixed(piece.angle_deg, 1)],
        fixed((shape?.cutWidth_m ?? 0) * 1e3, 1),
        fixed((shape?.cutLength_m ?? 0) * 1e3, 1),
        fixed(piece.area_m2 * 1e4, 1),
        ...[grams, grams * (1 - massTolerance), grams * (1 + massTolerance)].map((mass) => fixed(mass, 2)),
        piece.role === 'film' ? 'any way' : warpAcross(item) ? 'across' : 'along',
      ]
    }),
  )
  return csv([head, ...rows])
}

export interface ClothNeed {
  readonly clothName: string
  /** Peel ply and film, pulled off after cure. */
  readonly comesOff: boolean
  readonly width_m: number
  readonly arealMass_kg_m2: number | null
  /** Along the rolls, as nested. */
  readonly length_m: number
  /** Of these, what is not in stock. */
  readonly buy_m: number
  readonly pieces: number
}

/** By cloth and width of roll, in the order of the nest. */
export function clothNeeds({ nest }: Assessment, design: CanDesign): ClothNeed[] {
  const needs = new Map<string, ClothNeed>()
  for (const roll of nest.rolls) {
    if (roll.placements.length === 0) continue
    const key = `${roll.cloth} ${roll.width_m}`
    const known = needs.get(key)
    const ply = design.plies.find(({ cloth }) => cloth.id === roll.cloth)
    const bought = roll.availableLength_m === null ? roll.usedLength_m : 0
    needs.set(key, {
      clothName: roll.clothName,
      comesOff: ply !== undefined && comesOff(ply.role),
      width_m: roll.width_m,
      arealMass_kg_m2: ply?.cloth.arealMass.value ?? null,
      length_m: (known?.length_m ?? 0) + roll.usedLength_m,
      buy_m: (known?.buy_m ?? 0) + bought,
      pieces: (known?.pieces ?? 0) + roll.placements.length,
    })
  }
  return [...needs.values()]
}

/** Cloth is sold by the tenth of a metre or the quarter of a yard: rounded up to the next, m. */
export const soldLength = (length: number, units: 'metric' | 'us'): number => {
  const step = units === 'us' ? 0.9144 / 4 : 0.1
  return Math.ceil(length / step - 1e-9) * step
}

export function clothCsv(assessment: Assessment, design: CanDesign): string {
  const head = [
    ...['cloth', 'after cure', 'areal mass g/m2', 'roll width mm', 'pieces', 'length needed m', 'length needed yd'],
    ...['sold by the tenth metre m', 'sold by the quarter yard yd', 'not in stock m'],
  ]
  const rows = clothNeeds(assessment, design).map((need): Value[] => [
    need.clothName,
    need.comesOff ? 'comes off' : 'stays',
    need.arealMass_kg_m2 === null ? '' : fixed(need.arealMass_kg_m2 * 1e3, 0),
    fixed(need.width_m * 1e3, 0),
    need.pieces,
    fixed(need.length_m, 3),
    fixed(need.length_m / 0.9144, 3),
    fixed(soldLength(need.length_m, 'metric'), 1),
    fixed(soldLength(need.length_m, 'us') / 0.9144, 2),
    fixed(need.buy_m, 3),
  ])
  return csv([head, ...rows])
}
