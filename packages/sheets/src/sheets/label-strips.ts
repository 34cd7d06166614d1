/** Labels to cut out and stick on the pieces: one a piece, in the order of lay-up. */

import type { PatternPiece } from '@finwright/core/assess/assessment.ts'
import { type Primitive, pen, rectangle, stroke, text, type XY } from '../drawing/drawing.ts'
import { shortened } from '../drawing/lettering.ts'
import { type Block, paged } from '../layout/block.ts'
import { arrow } from '../layout/dimension.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { warpWords } from './warp-words.ts'

const columns = 3
const height = 15.5

export function labelStrips({ assessment, design, figures, paper }: SheetInput): Leaf[] {
  const { pieces } = assessment.pattern
  if (pieces.length === 0) return []
  const area = content(paper)
  const order = new Map(design.plies.map(({ id }, i) => [id, i]))
  const sorted = [...pieces].sort(
    (a, b) => a.can.localeCompare(b.can) || a.bay - b.bay || (order.get(a.ply) ?? 0) - (order.get(b.ply) ?? 0),
  )
  const names = new Map(
    assessment.pattern.shapes.map(({ ply, clothName, sequence, of }) => [ply, { clothName, sequence, of }]),
  )
  const cell = area.width / columns
  const rows: Block[] = []
  for (let i = 0; i < sorted.length; i += columns) {
    const row = sorted.slice(i, i + columns)
    rows.push({
      height,
      gap: 0,
      draw: ([x, y]) =>
        row.flatMap((piece, k) => {
          const name = names.get(piece.ply)
          const under = name === undefined ? '' : `${name.sequence} of ${name.of} · ${name.clothName}`
          return label(piece, warpWords(piece.role, piece.angle_deg, figures), under, [x + k * cell, y], cell)
        }),
    })
  }
  const blocks = [
    paragraph(
      `${sorted.length} labels. Stick each outside the net line, the arrow forward, before the piece leaves the table.`,
      area.width,
      { size: 4 },
    ),
    ...rows.map((row, i) => (i === 0 ? { ...row, gap: 4 } : row)),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Labels', subject: 'one for each piece', items }))
}

function label(piece: PatternPiece, angle: string, under: string, [x, y]: XY, width: number): Primitive[] {
  const top = y + height / 2
  return [
    rectangle({ x, y, width, height }, { stroke: stroke(pen.hair, 'dark', [2, 1]) }),
    text([x + 2.4, top + 0.6], piece.id, { size: 6.4, face: 'title' }),
    text([x + width - 15, top + 0.6], angle, { size: 5, face: 'letter', anchor: 'end' }),
    text([x + 2.4, top + 5.4], shortened(under, width - 17, { size: 2.9, face: 'text' }), { size: 2.9, ink: 'dark' }),
    ...arrow([x + width - 13, top + 1.2], [x + width - 3, top + 1.2], { width: pen.bold, head: 3.4 }),
    text([x + width - 8, top - 1.6], 'FWD', { size: 3, face: 'title', anchor: 'middle' }),
    text([x + width - 3, top + 5.4], 'this side up', { size: 2.4, ink: 'dark', anchor: 'end' }),
  ]
}
