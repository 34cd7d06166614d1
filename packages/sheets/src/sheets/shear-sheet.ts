/**
 * The shear map: of the plies that stay the one that shears most, on its flat piece, its net darker where warp and weft turn further, with the cuts that
 * relieve it; and every ply that is woven or a film in a table.
 */

import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { fill, type Primitive, path, pen, stroke, text } from '../drawing/drawing.ts'
import type { Block } from '../layout/block.ts'
import { paged, picture } from '../layout/block.ts'
import { type Figures, none, plain } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Column, table } from '../layout/table.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { placeName } from './film-words.ts'
import { opacityOf, shearPicture } from './shear-picture.ts'

type Shear = Assessment['pattern']['shear'][number]
type Shape = Assessment['pattern']['shapes'][number]

function shearBlock(
  { pattern }: Assessment,
  { worst, shape }: { readonly worst: Shear; readonly shape: Shape },
  width: number,
): Block {
  const { height, items } = shearPicture({ pattern, shear: worst, shape }, width, tallest)
  return picture(height, items)
}

/** None where every ply unrolls or nothing is woven. */
export function shearSheets(input: SheetInput): Leaf[] {
  const { assessment, paper, figures } = input
  const { shear, shapes } = assessment.pattern
  const stays = shear.filter(({ ply }) => shapes.some((shape) => shape.ply === ply && !comesOff(shape.role)))
  const worst = stays.reduce<Shear | null>((a, b) => (a !== null && a.greatest_deg >= b.greatest_deg ? a : b), null)
  const shape = shapes.find(({ ply }) => ply === worst?.ply)
  if (worst === null || shape === undefined || worst.field.length === 0) return []
  const area = content(paper)
  const blocks = [
    paragraph(
      `Where the surface does not unroll, cloth follows it by turning warp against weft. ${worst.ply} turns most, by ${degrees(worst.greatest_deg)} ${placeName[worst.region]}, marked by a ring. Laid from the middle of the body outward; squares under half a degree are left white. The shape of the fillet’s run-out is assumed.`,
      area.width,
      { size: 3.1 },
    ),
    { ...shearBlock(assessment, { worst, shape }, area.width), gap: 3 },
    ...scale(area.width),
    heading('Shear of every ply', area.width),
    ...plies(assessment, figures, area.width),
    ...cuts(assessment, figures, area.width),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Shear', subject: 'one bay, unrolled', items }))
}

const degrees = (value: number): string => `${plain(value, 1)}°`

const tallest = 120

function scale(width: number): Block[] {
  const steps = [0.25, 0.5, 0.75, 1]
  const box = 9
  const pitch = 33
  return [
    {
      height: 7,
      gap: 2,
      draw: ([x, y]) => {
        const from = x + width / 2 - ((steps.length + 1) * pitch) / 2
        const key = (k: number, paint: ReturnType<typeof fill>, words: string): Primitive[] => [
          path(
            [
              [from + k * pitch, y],
              [from + k * pitch + box, y],
              [from + k * pitch + box, y + 4],
              [from + k * pitch, y + 4],
            ],
            true,
            { fill: paint, stroke: stroke(pen.hair), layer: 'frame' },
          ),
          text([from + k * pitch + box + 1.5, y + 3.1], words, { size: 2.8 }),
        ]
        return [
          ...steps.flatMap((share, k) =>
            key(k, fill('ink', opacityOf(share, 1)), `${plain(100 * share, 0)} % of limit`),
          ),
          ...key(steps.length, fill('danger', 0.8), 'past it'),
        ]
      },
    },
  ]
}

export function shearRows({ pattern }: Assessment, figures: Figures): readonly (readonly string[])[] {
  const films = new Set(pattern.shapes.filter(({ role }) => role === 'film').map(({ ply }) => ply))
  return pattern.shear.map((one) => [
    one.ply,
    degrees(one.greatest_deg),
    one.greatest_deg < 0.5 ? none : placeName[one.region],
    `${films.has(one.ply) ? 'film: ' : ''}${plain(one.limit_deg, 0)}°${one.limitIsGuess ? ' (a guess)' : ''}`,
    one.mapError_m === 0 ? 'exact' : figures.length(one.mapError_m, 1e-5),
  ])
}

function plies(assessment: Assessment, figures: Figures, width: number): Block[] {
  const columns: Column[] = [
    { head: 'ply', share: 0.7, face: 'title' },
    { head: 'greatest shear', share: 1.3, align: 'end', face: 'strong' },
    { head: 'where', share: 2.2 },
    { head: 'its weave gives', share: 1.6, align: 'end' },
    { head: 'lands off the map by', share: 1.6, align: 'end' },
  ]
  const rows = shearRows(assessment, figures)
  return table(columns, rows, width, { size: 3, gap: 2 })
}

export function reliefRows({ pattern }: Assessment, figures: Figures): readonly (readonly string[])[] {
  return pattern.relief.map(({ ply, kind, from_m, to_m, opening_m }) => [
    ply,
    kind === 'trim' ? 'stop short of the net line' : 'slit, let the lips part or lap',
    figures.length(from_m[0]),
    figures.length(from_m[1]),
    figures.length(Math.hypot(to_m[0] - from_m[0], to_m[1] - from_m[1])),
    figures.length(opening_m),
  ])
}

function cuts(assessment: Assessment, figures: Figures, width: number): Block[] {
  if (assessment.pattern.relief.length === 0) return []
  const columns: Column[] = [
    { head: 'ply', share: 0.7, face: 'title' },
    { head: 'do', share: 2.4 },
    { head: 'at the net line, aft', share: 1.6, align: 'end' },
    { head: 'across', share: 1.2, align: 'end' },
    { head: 'deep', share: 1, align: 'end' },
    { head: 'opens by about', share: 1.4, align: 'end' },
  ]
  const rows = reliefRows(assessment, figures)
  return [heading('Cuts that relieve it', width), ...table(columns, rows, width, { size: 3, gap: 2 })]
}
