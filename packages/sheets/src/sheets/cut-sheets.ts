/** Cut sheets: one roll after another, its nest in true proportion, then every piece in the order of cutting. */

import type { PieceShape } from '@finwright/core/assess/assessment.ts'
import type { NestRoll } from '@finwright/core/assess/nest-section.ts'
import { type Block, beside, paged, picture, space, stacked } from '../layout/block.ts'
import { fields } from '../layout/controls.ts'
import { percent } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table, tick, write } from '../layout/table.ts'
import { bullets, heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import {
  nestHeight,
  nestKey,
  nestPicture,
  nestWidth,
  offcutMark,
  type PlacedPiece,
  placedPieces,
  warpAcross,
} from './nest-picture.ts'
import { warpWords } from './warp-words.ts'

/** Weighed dry, a piece within this of its nominal mass is the right cloth and the right size. Our default, no standard. */
export const massTolerance = 0.05

export function cutSheets(input: SheetInput): Leaf[] {
  const { nest } = input.assessment
  return nest.rolls.filter(({ placements }) => placements.length > 0).flatMap((roll) => rollSheets(roll, input))
}

function rollSheets(roll: NestRoll, input: SheetInput): Leaf[] {
  const { assessment, paper } = input
  const area = content(paper)
  const placed = placedPieces(roll, assessment.pattern.pieces)
  const blocks = [
    paragraph(firstLine(roll, placed, input), area.width, { size: 4 }),
    pictureAndFacts(roll, placed, input, area),
    ...beforeCutting(isFilm(placed), area.width),
    heading('Pieces, in the order of cutting', area.width),
    ...pieceTable(placed, input, area.width),
    ...backToStock(roll, input, { along: isFilm(placed) ? 'along the roll' : 'along the warp', width: area.width }),
  ]
  return paged(blocks, area).map((items) => ({
    title: 'Cut sheet',
    subject: `roll ${roll.roll} · ${roll.clothName}`,
    items,
  }))
}

function firstLine(roll: NestRoll, placed: readonly PlacedPiece[], { figures }: SheetInput): string {
  const count = `${placed.length} ${placed.length === 1 ? 'piece' : 'pieces'} on ${figures.length(roll.usedLength_m, 1e-3)} of roll ${roll.roll}`
  if (roll.availableLength_m === null) return `${count}: this cloth has to be bought.`
  const left = roll.availableLength_m - roll.usedLength_m
  return `${count}; ${figures.length(left, 1e-3)} of ${figures.length(roll.availableLength_m, 1e-3)} stay on it.`
}

const leastFacts = 56

function pictureAndFacts(
  roll: NestRoll,
  placed: readonly PlacedPiece[],
  input: SheetInput,
  area: { readonly width: number; readonly height: number },
): Block {
  const { figures } = input
  const space = { width: area.width - leastFacts - 10, height: area.height - 16 }
  const view = { roll, placed, figures, at: [0, 0] as const, ...space }
  const height = nestHeight(roll, space)
  const factsWidth = area.width - nestWidth(roll, view) - 10
  return beside(
    [
      { x: 0, block: picture(height, nestPicture(view)) },
      { x: area.width - factsWidth, block: facts(roll, placed, input, factsWidth) },
    ],
    3,
  )
}

function facts(roll: NestRoll, placed: readonly PlacedPiece[], input: SheetInput, width: number): Block {
  const { design, figures } = input
  const cloth = design.plies.find((ply) => ply.cloth.id === roll.cloth)?.cloth
  const used = placed.reduce((sum, { piece }) => sum + piece.area_m2, 0)
  const whole = roll.usedLength_m * roll.width_m
  const rows: readonly (readonly [string, string])[] = [
    ['cloth', roll.clothName],
    ['areal mass', figures.arealMass(cloth?.arealMass.value)],
    ['width', figures.length(roll.width_m, 1e-3)],
    ['selvedge, each edge', figures.length(roll.selvedge_m, 1e-3)],
    ['used length', figures.length(roll.usedLength_m, 1e-3)],
    [
      'left',
      roll.availableLength_m === null
        ? 'to be bought'
        : figures.length(roll.availableLength_m - roll.usedLength_m, 1e-3),
    ],
    ['pieces', figures.surface(used)],
    ['waste', `${percent(1 - used / whole)}, ${figures.surface(whole - used)}`],
  ]
  const columns: Column[] = [
    { head: '', share: 1, ink: 'dark' },
    { head: '', share: 1.2 },
  ]
  const square = cloth === undefined ? '' : `plan ${figures.grams(cloth.arealMass.value * 0.01, 2)}`
  return stacked([
    ...table(columns, rows, width, { size: 3, headless: true }),
    fields([{ label: 'width, measured' }], width, 10, 5),
    fields(
      [
        { label: 'lot', share: 1 },
        { label: 'opened', share: 1 },
      ],
      width,
      10,
      0,
    ),
    fields([{ label: `100 × 100 mm square weighs (${square})`, unit: 'g' }], width, 10, 0),
    paragraph(
      cloth?.weave === 'film'
        ? 'Film has no weave: pieces lie as takes least of it, at any turn. Weigh each piece.'
        : 'Square the weave to the bench: follow one strand across. Tape the line of a 45° cut and cut down the middle of the tape. Weigh each piece dry.',
      width,
      { size: 3.2, gap: 5 },
    ),
    { ...nestKey(roll), gap: 4 },
    ...plySummary(placed, input, width),
  ])
}

/** One line a ply: what the pile must hold when the roll is cut. */
function plySummary(placed: readonly PlacedPiece[], { assessment, figures }: SheetInput, width: number): Block[] {
  const rows = assessment.pattern.shapes.flatMap((shape): Cell[][] => {
    const own = placed.filter(({ piece }) => piece.ply === shape.ply)
    if (own.length === 0) return []
    return [[shape.ply, `${own.length}`, figures.grams(shape.mass_kg), figures.grams(own.length * shape.mass_kg)]]
  })
  const columns: Column[] = [
    { head: 'ply', share: 1, face: 'title' },
    { head: 'pieces', share: 1, align: 'end' },
    { head: 'dry, each', share: 1.3, align: 'end' },
    { head: 'dry, together', share: 1.5, align: 'end' },
  ]
  return table(columns, rows, width, { size: 3.1, gap: 6 })
}

const pieceColumns: readonly Column[] = [
  { head: 'no.', share: 0.9, align: 'end' },
  { head: 'piece', share: 1.7, face: 'title' },
  { head: 'angle', share: 1.2, align: 'end' },
  { head: 'width × length as cut', share: 3, align: 'end' },
  { head: 'area', share: 1.8, align: 'end' },
  { head: 'dry, plan', share: 1.5, align: 'end' },
  { head: 'allowed ±5 %', share: 2, align: 'end', ink: 'dark' },
  { head: 'dry, weighed', share: 2 },
  { head: 'warp on the roll', share: 1.6 },
  { head: 'cut', share: 0.9, align: 'middle' },
  { head: 'defects', share: 2.2 },
]

function pieceTable(placed: readonly PlacedPiece[], { assessment, figures }: SheetInput, width: number): Block[] {
  const shapes = new Map(assessment.pattern.shapes.map((shape) => [shape.ply, shape]))
  const rows = placed.map((item, i): Cell[] => {
    const { piece } = item
    const low = piece.mass_kg * (1 - massTolerance) * 1e3
    const high = piece.mass_kg * (1 + massTolerance) * 1e3
    return [
      `${i + 1}`,
      piece.id,
      warpWords(piece.role, piece.angle_deg, figures),
      sizeOf(shapes.get(piece.ply), figures),
      figures.area(piece.area_m2),
      figures.grams(piece.mass_kg),
      `${low.toFixed(1)}–${high.toFixed(1)}`,
      { kind: 'write', unit: 'g' },
      piece.role === 'film' ? 'any way' : warpAcross(item) ? 'across' : 'along',
      tick,
      write,
    ]
  })
  return table(pieceColumns, rows, width, { size: 3.1, rowHeight: 5.7 })
}

function sizeOf(shape: PieceShape | undefined, figures: SheetInput['figures']): string {
  if (shape === undefined) return ''
  return `${figures.length(shape.cutWidth_m).replace(/ (mm|in)$/, '')} × ${figures.length(shape.cutLength_m)}`
}

/** What goes back on the rack, by its corners on this roll. */
function backToStock(
  { offcuts }: NestRoll,
  { figures }: SheetInput,
  { along, width }: { readonly along: string; readonly width: number },
): Block[] {
  if (offcuts.length === 0) return []
  const columns: Column[] = [
    { head: 'no.', share: 0.6 },
    { head: 'back to stock as', share: 3.4, face: 'title' },
    { head: along, share: 1.6, align: 'end' },
    { head: 'across', share: 1.6, align: 'end' },
    { head: 'from the cut end', share: 1.8, align: 'end' },
    { head: 'from the left edge', share: 1.8, align: 'end' },
    { head: 'kept', share: 0.9, align: 'middle' },
  ]
  const rows = offcuts.map(({ roll, length_m, width_m, x_m, y_m }, n): Cell[] => [
    `${offcutMark}${n + 1}`,
    roll,
    figures.length(length_m, 1e-3),
    figures.length(width_m, 1e-3),
    figures.length(x_m, 1e-3),
    figures.length(y_m, 1e-3),
    tick,
  ])
  return [heading('Back to stock', width), ...table(columns, rows, width, { size: 3.1, rowHeight: 6.4 })]
}

const isFilm = (placed: readonly PlacedPiece[]): boolean => placed[0]?.piece.role === 'film'

const beforeCutting = (film: boolean, width: number): Block[] => [
  space(2),
  ...bullets(
    [
      film
        ? 'Try a scrap of each lot on this resin first: it must come off clean after cure.'
        : 'Keep a scrap of 200 × 200 mm of each lot for the witness panel.',
      'Pack each bay’s pieces in one bag, the first ply on top, nothing from another bay with it.',
      'The tolerance of mass is a default of this program, no standard: outside it, the cloth or the size is wrong.',
    ],
    width,
    { size: 3.2 },
  ),
]
