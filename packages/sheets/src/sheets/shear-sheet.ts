/**
 * The shear map: of the plies that stay the one that shears most, on its flat piece, its net darker where warp and weft turn further, with the cuts that
 * relieve it; and every ply that is woven or a film in a table.
 */

import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { circle, fill, line, type Primitive, path, pen, stroke, text } from '../drawing/drawing.ts'
import type { Block } from '../layout/block.ts'
import { paged } from '../layout/block.ts'
import { type Figures, none, plain } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table } from '../layout/table.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { bayFrame, boundsOf } from './bay-frame.ts'
import { placeName } from './film-words.ts'

type Shear = Assessment['pattern']['shear'][number]
type Shape = Assessment['pattern']['shapes'][number]

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
    picture(assessment, { worst, shape }, area.width),
    ...scale(area.width),
    heading('Shear of every ply', area.width),
    ...plies(assessment, figures, area.width),
    ...cuts(assessment, figures, area.width),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Shear', subject: 'one bay, unrolled', items }))
}

const degrees = (value: number): string => `${plain(value, 1)}°`

const tallest = 120

/** Ink of a square by its share of the limit: full at the limit and beyond, which is drawn in red. */
const opacityOf = (shear: number, limit: number): number => 0.1 + 0.6 * Math.min(1, Math.abs(shear) / limit)

function picture(
  { pattern: { shapes, relief } }: Assessment,
  { worst, shape }: { readonly worst: Shear; readonly shape: Shape },
  width: number,
): Block {
  const bounds = boundsOf(shape.netOutline_m)
  const [long, wide] = [(bounds.maxX - bounds.minX) * 1e3, (bounds.maxY - bounds.minY) * 1e3]
  const size = Math.min(tallest / long, width / wide)
  const height = long * size + 6
  return {
    height,
    gap: 3,
    draw: ([x, y]) => {
      const { at } = bayFrame(size, [
        x + width / 2 - ((bounds.maxY + bounds.minY) / 2) * 1e3 * size,
        y + 2 - bounds.minX * 1e3 * size,
      ])
      const turned = (shape.angle_deg * Math.PI) / 180
      const [c, s] = [(Math.cos(turned) * worst.cell_m) / 2, (Math.sin(turned) * worst.cell_m) / 2]
      const square = ([X, Y]: readonly [number, number]) =>
        [
          [X + s + c, Y + c - s],
          [X + s - c, Y + c + s],
          [X - s - c, Y - c + s],
          [X - s + c, Y - c - s],
        ].map(([u, v]) => at([u!, v!]))
      const items: Primitive[] = worst.field.map(({ at_m, shear_deg }) => {
        const past = Math.abs(shear_deg) > worst.limit_deg
        return path(square(at_m), true, {
          fill: fill(past ? 'danger' : 'ink', past ? 0.8 : opacityOf(shear_deg, worst.limit_deg)),
          layer: 'fill',
        })
      })
      items.push(path(shape.netOutline_m.map(at), true, { stroke: stroke(pen.net), layer: 'net' }))
      for (const { kind, points_m } of shapes.find(({ ply }) => ply === shape.ply)!.marks)
        if (kind === 'fillet' || kind === 'root' || kind === 'bevel')
          items.push(path(points_m.map(at), false, { stroke: stroke(pen.hair, 'ink', [2, 1.2]), layer: 'mark' }))
      items.push(circle(at(worst.at_m), 2, { stroke: stroke(pen.fine), layer: 'mark' }))
      for (const { ply, from_m, to_m } of relief)
        if (ply === worst.ply) items.push(line(at(from_m), at(to_m), stroke(pen.bold, 'danger'), 'mark'))
      return items
    },
  }
}

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

function plies({ pattern }: Assessment, figures: Figures, width: number): Block[] {
  const columns: Column[] = [
    { head: 'ply', share: 0.7, face: 'title' },
    { head: 'greatest shear', share: 1.3, align: 'end', face: 'strong' },
    { head: 'where', share: 2.2 },
    { head: 'its weave gives', share: 1.6, align: 'end' },
    { head: 'lands off the map by', share: 1.6, align: 'end' },
  ]
  const filmNames = new Set(pattern.shapes.filter(({ role }) => role === 'film').map(({ ply }) => ply))
  const rows = pattern.shear.map((one): Cell[] => [
    one.ply,
    degrees(one.greatest_deg),
    one.greatest_deg < 0.5 ? none : placeName[one.region],
    `${filmNames.has(one.ply) ? 'film: ' : ''}${plain(one.limit_deg, 0)}°${one.limitIsGuess ? ' (a guess)' : ''}`,
    one.mapError_m === 0 ? 'exact' : figures.length(one.mapError_m, 1e-5),
  ])
  return table(columns, rows, width, { size: 3, gap: 2 })
}

function cuts({ pattern }: Assessment, figures: Figures, width: number): Block[] {
  if (pattern.relief.length === 0) return []
  const columns: Column[] = [
    { head: 'ply', share: 0.7, face: 'title' },
    { head: 'do', share: 2.4 },
    { head: 'at the net line, aft', share: 1.6, align: 'end' },
    { head: 'across', share: 1.2, align: 'end' },
    { head: 'deep', share: 1, align: 'end' },
    { head: 'opens by about', share: 1.4, align: 'end' },
  ]
  const rows = pattern.relief.map(({ ply, kind, from_m, to_m, opening_m }): Cell[] => [
    ply,
    kind === 'trim' ? 'stop short of the net line' : 'slit, let the lips part or lap',
    figures.length(from_m[0]),
    figures.length(from_m[1]),
    figures.length(Math.hypot(to_m[0] - from_m[0], to_m[1] - from_m[1])),
    figures.length(opening_m),
  ])
  return [heading('Cuts that relieve it', width), ...table(columns, rows, width, { size: 3, gap: 2 })]
}
