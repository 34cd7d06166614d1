/**
 * What nesting is measured against on the demo: every piece replaced by a rectangle, the rectangles packed in rows.
 *
 * Rows run across the roll; the tallest rectangle opens a row, each goes into the first row that has room. Laid all along or
 * all across the roll, whichever is shorter.
 */

import type { NestPiece } from '@finwright/core/nest/piece.ts'
import { turned } from '@finwright/core/nest/turn.ts'

export interface Box {
  readonly long: number
  readonly short: number
}

/**
 * The rectangle around a piece along its own axes (`own`: least cloth, though a bias ply so laid would be off the
 * warp), or along the roll once its warp lies right.
 */
export function boxOf({ outline, angle }: NestPiece, own: boolean): Box {
  const sides = [0, 1].map((axis) => {
    const along = outline.map((point) => (own ? point : turned(point, angle - Math.PI / 2))[axis])
    return Math.max(...along) - Math.min(...along)
  })
  return { long: Math.max(...sides), short: Math.min(...sides) }
}

/** Length of roll the rows take. */
export function rowsLength(boxes: readonly Box[], width: number, gap: number): number {
  return Math.min(packed(boxes, 'short', width, gap), packed(boxes, 'long', width, gap))
}

function packed(boxes: readonly Box[], along: 'short' | 'long', width: number, gap: number): number {
  const across = along === 'short' ? 'long' : 'short'
  const rows: { length: number; used: number }[] = []
  for (const box of [...boxes].sort((a, b) => b[along] - a[along])) {
    if (box[across] > width) return Infinity
    const row = rows.find(({ used }) => used + gap + box[across] <= width)
    if (row === undefined) rows.push({ length: box[along], used: box[across] })
    else row.used += gap + box[across]
  }
  return rows.reduce((sum, { length }) => sum + length, 0) + gap * (rows.length - 1)
}
