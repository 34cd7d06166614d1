/** One true-scale drawing a shape, for cutters, plotters and print shops: SVG and DXF from the same page. */
import type { Page, Primitive, XY } from '../drawing/drawing.ts'
import { text } from '../drawing/drawing.ts'
import { pageAsDxf } from '../drawing/dxf.ts'
import { pageAsSvg } from '../drawing/svg.ts'
import type { Identity } from '../layout/paper.ts'
import { checkSquare } from './check-square.ts'
import type { Picture } from './picture.ts'

const margin = 10

/** The piece alone on a page, a check square below it. */
export function shapePage(picture: Picture, { project, revision }: Identity): Page {
  const { box } = picture
  const move: XY = [margin - box.x, margin - box.y]
  const below = box.height + 2 * margin
  const words = [
    `${picture.name}: ${picture.use}`,
    project,
    `revision ${revision.hash} · ${revision.date}`,
    'CUT is the cloth, NET the finished edge; lengths in mm',
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

export const shapeFiles = (pictures: readonly Picture[], identity: Identity): { path: string; bytes: string }[] =>
  pictures.flatMap((picture) => {
    const page = shapePage(picture, identity)
    return [
      { path: `shapes/${picture.key}.svg`, bytes: pageAsSvg(page) },
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
