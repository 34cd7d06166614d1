/**
 * One true-scale drawing a shape, for cutters and plotters: SVG and DXF from the same page, in the layers CUT, MARK and TEXT
 * with letters of single strokes, and CHECK for the square. Corrected for the machine where its square was measured.
 */
import type { Page, Primitive, XY } from '../drawing/drawing.ts'
import { text } from '../drawing/drawing.ts'
import { pageAsDxf } from '../drawing/dxf.ts'
import { type PlotScale, plotted, plottedAsSvg } from '../drawing/plotting.ts'
import type { Identity } from '../layout/paper.ts'
import { checkSquare } from './check-square.ts'
import type { Picture } from './picture.ts'

const margin = 10

/** The piece alone on a page, a check square below it. */
export function shapePage(picture: Picture, { project, revision }: Identity, correction: string): Page {
  const { box } = picture
  const move: XY = [margin - box.x, margin - box.y]
  const below = box.height + 2 * margin
  const words = [
    `${picture.name}: ${picture.use}`,
    project,
    `revision ${revision.hash} · ${revision.date}`,
    'layers: CUT the cloth, MARK lines to draw, TEXT, CHECK the square',
    'the inner closed line is the net edge; lengths in mm',
    ...(correction === '' ? [] : [correction]),
  ]
  return {
    width: Math.max(box.width + 2 * margin, 260),
    height: below + 106 + margin,
    title: picture.name,
    items: [
      ...picture.items.map((item) => shifted(item, move)),
      ...checkSquare([margin, below]),
      ...words.map((row, i) => text([margin + 108, below + 8 + i * 7], row, { size: 4.3, face: 'letter' })),
    ],
  }
}

export interface ShapeInput {
  readonly pictures: readonly Picture[]
  readonly identity: Identity
  /** Of the cutter or plotter; null while its square was not measured. */
  readonly scale: PlotScale | null
  /** `corrected for this machine: …`, or empty. */
  readonly correction: string
}

export const shapeFiles = ({ pictures, identity, scale, correction }: ShapeInput): { path: string; bytes: string }[] =>
  pictures.flatMap((picture) => {
    const page = plotted(shapePage(picture, identity, correction), scale)
    return [
      { path: `shapes/${picture.key}.svg`, bytes: plottedAsSvg(page) },
      { path: `shapes/${picture.key}.dxf`, bytes: pageAsDxf(page) },
    ]
  })

function shifted(item: Primitive, [dx, dy]: XY): Primitive {
  const to = ([x, y]: XY): XY => [x + dx, y + dy]
  switch (item.kind) {
    case 'path':
      return {
        ...item,
        vertices: item.vertices.map(([x, y, bulge]) => (bulge === undefined ? to([x, y]) : [...to([x, y]), bulge])),
      }
    case 'lines':
      return { ...item, pairs: item.pairs.map(([a, b]) => [to(a), to(b)] as const) }
    case 'text':
      return { ...item, at: to(item.at) }
    case 'group':
      return { ...item, move: to(item.move) }
  }
}
