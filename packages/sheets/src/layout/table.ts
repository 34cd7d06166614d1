/** Tables: a head that is drawn again on the next page, rows that are never broken, cells to tick and to write in. */
import { type Face, fill, type Ink, line, type Primitive, pen, rectangle, stroke, text } from '../drawing/drawing.ts'
import { faceFor, wrapped } from '../drawing/lettering.ts'
import type { Block } from './block.ts'

/** What stands in a cell: words, a square to tick, a place to write in, or a small drawing. */
export type Cell =
  | string
  | { readonly kind: 'tick' }
  | { readonly kind: 'write'; readonly unit?: string }
  | {
      readonly kind: 'draw'
      readonly height: number
      readonly draw: (x: number, y: number, width: number, height: number) => readonly Primitive[]
    }

export interface Column {
  readonly head: string
  /** Share of the table's width, against the sum of all shares. */
  readonly share: number
  readonly align?: 'start' | 'middle' | 'end'
  readonly face?: Face
  readonly ink?: Ink
  readonly size?: number
}

export interface TableStyle {
  readonly size?: number
  readonly rowHeight?: number
  readonly gap?: number
  /** Row numbers that are set in a tint. */
  readonly strong?: (row: number) => boolean
  readonly rules?: 'rows' | 'grid'
  /** Rows alone. */
  readonly headless?: boolean
}

export const tick: Cell = { kind: 'tick' }
export const write: Cell = { kind: 'write' }

/** Head and rows as blocks; the head stays with the first row. */
export function table(
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  width: number,
  style: TableStyle = {},
): Block[] {
  const total = columns.reduce((sum, { share }) => sum + share, 0)
  const widths = columns.map(({ share }) => (width * share) / total)
  if (style.headless === true) return rows.map((row, i) => rowBlock(row, columns, widths, style, i))
  const head = headBlock(columns, widths, style)
  return [head, ...rows.map((row, i): Block => ({ ...rowBlock(row, columns, widths, style, i), head }))]
}

const inset = 1.2

function headBlock(columns: readonly Column[], widths: readonly number[], style: TableStyle): Block {
  const size = Math.min(2.8, 0.85 * (style.size ?? 3.2))
  const lines = columns.map(({ head }, i) => wrapped(head, widths[i] - 2 * inset, { size, face: 'strong' }))
  const most = Math.max(...lines.map((cell) => cell.length))
  const height = most * size * 1.2 + 1.8
  return {
    height,
    gap: style.gap ?? 3,
    keep: true,
    draw: ([x, y]) => {
      const items: Primitive[] = []
      let left = x
      columns.forEach(({ align = 'start' }, i) => {
        lines[i].forEach((words, k) => {
          const base = y + height - 1.6 - (lines[i].length - 1 - k) * size * 1.2
          const at = anchored(left, widths[i], align)
          items.push(text([at, base], words, { size, face: 'strong', ink: 'dark', anchor: align }))
        })
        left += widths[i]
      })
      items.push(line([x, y + height], [left, y + height], stroke(pen.fine)))
      return items
    },
  }
}

function rowBlock(
  row: readonly Cell[],
  columns: readonly Column[],
  widths: readonly number[],
  style: TableStyle,
  index: number,
): Block {
  const size = style.size ?? 3.2
  const cells = row.map((cell, i) => settled(cell, columns[i], widths[i], size))
  const height = Math.max(style.rowHeight ?? 0, ...cells.map((cell) => cell.height))
  const width = widths.reduce((sum, value) => sum + value, 0)
  return {
    height,
    gap: 0,
    draw: ([x, y]) => {
      const items: Primitive[] = []
      if (style.strong?.(index)) {
        items.push(rectangle({ x, y, width, height }, { fill: fill('pale', 0.45), layer: 'fill' }))
      }
      let left = x
      cells.forEach((cell, i) => {
        items.push(...cell.draw(left, y, widths[i], height))
        if (style.rules === 'grid' && i > 0) items.push(line([left, y], [left, y + height], stroke(pen.hair, 'light')))
        left += widths[i]
      })
      items.push(line([x, y + height], [left, y + height], stroke(pen.hair, 'light')))
      return items
    },
  }
}

interface SettledCell {
  readonly height: number
  readonly draw: (x: number, y: number, width: number, height: number) => readonly Primitive[]
}

function settled(cell: Cell, column: Column, width: number, rowSize: number): SettledCell {
  if (typeof cell === 'string') return wordCell(cell, column, width, rowSize)
  if (cell.kind === 'draw') return cell
  if (cell.kind === 'tick') {
    const side = Math.min(1.35 * rowSize, width - 2)
    return {
      height: side + 1.6,
      draw: (x, y, width, height) => [
        rectangle(
          { x: x + (width - side) / 2, y: y + (height - side) / 2, width: side, height: side },
          { stroke: stroke(pen.fine) },
        ),
      ],
    }
  }
  const { unit = '' } = cell
  return {
    height: 1.9 * rowSize,
    draw: (x, y, width, height) => [
      line([x + inset, y + height - 1.1], [x + width - inset, y + height - 1.1], stroke(pen.hair, 'mid')),
      text([x + width - inset, y + height - 1.7], unit, { size: 0.8 * rowSize, ink: 'mid', anchor: 'end' }),
    ],
  }
}

function wordCell(words: string, column: Column, width: number, rowSize: number): SettledCell {
  const size = column.size ?? rowSize
  const face = faceFor(words, column.face ?? 'text')
  const lines = wrapped(words, width - 2 * inset, { size, face })
  const leading = 1.25 * size
  const { align = 'start', ink = 'ink' } = column
  return {
    height: lines.length * leading + 0.5 * size,
    draw: (x, y, width, height) =>
      lines.map((line, k) => {
        const top = y + (height - lines.length * leading) / 2
        return text([anchored(x, width, align), top + k * leading + 0.9 * size], line, {
          size,
          face,
          ink,
          anchor: align,
        })
      }),
  }
}

function anchored(x: number, width: number, align: 'start' | 'middle' | 'end'): number {
  if (align === 'start') return x + inset
  return align === 'end' ? x + width - inset : x + width / 2
}
