/** Rows of name, figure and remark, and rows of ratios on a common scale. */
import { circle, fill, line, type Primitive, pen, stroke } from '../../drawing/drawing.ts'
import type { Block } from '../../layout/block.ts'
import { ratio } from '../../layout/figures.ts'
import { type Cell, type Column, table } from '../../layout/table.ts'
import { heading } from '../../layout/words.ts'

const columns: readonly Column[] = [
  { head: '', share: 3.4, ink: 'dark' },
  { head: '', share: 1.7 },
  { head: '', share: 5.4, ink: 'dark' },
]

export function numberRows(title: string, items: readonly Cell[][], width: number): Block[] {
  if (items.length === 0) return []
  return [heading(title, width, 4), ...table(columns, items, width, { size: 3.1, headless: true })]
}

export interface RatioRow {
  readonly words: readonly string[]
  readonly value: number | null
}

export interface RatioScale {
  /** The answer that stands for itself. */
  readonly base: number | null
  readonly required: number
}

/** Each ratio as a figure and as a dot beside those of its kind, with lines where the answer and the required ratio are. */
export function ratioRows(
  heads: readonly Column[],
  rows: readonly RatioRow[],
  { base, required }: RatioScale,
  width: number,
): Block[] {
  const values = [...rows.map(({ value }) => value), base, required].filter((value) => value !== null)
  const [least, most] = [Math.min(...values), Math.max(...values)]
  const room = 0.08 * (most - least) + 1e-9
  const dot = (value: number | null): Cell => ({
    kind: 'draw',
    height: 4.6,
    draw: (x, y, own, height) => {
      const place = (v: number): number => x + 1.5 + ((v - least + room) / (most - least + 2 * room)) * (own - 3)
      const upright = (v: number, dash?: readonly number[]): Primitive =>
        line(
          [place(v), y],
          [place(v), y + height],
          dash === undefined ? stroke(pen.thin) : stroke(pen.fine, 'ink', dash),
        )
      const middle = y + height / 2
      return [
        line([x + 1.5, middle], [x + own - 1.5, middle], stroke(pen.hair, 'light')),
        upright(required, [1.2, 0.8]),
        ...(base === null ? [] : [upright(base)]),
        ...(value === null
          ? []
          : [
              ...(base === null ? [] : [line([place(base), middle], [place(value), middle], stroke(pen.net))]),
              circle([place(value), middle], 0.95, { fill: fill('ink'), layer: 'mark' }),
            ]),
      ]
    },
  })
  const cells = rows.map(({ words, value }): Cell[] => [
    ...words,
    dot(value),
    value === null ? 'not determined' : ratio(value),
  ])
  const all: Column[] = [
    ...heads,
    { head: 'dashes: asked for; line: as it stands', share: 3.2, align: 'middle' },
    { head: 'speed ratio', share: 1.7, align: 'end' },
  ]
  return table(all, cells, width, { size: 3.1, gap: 1 })
}
