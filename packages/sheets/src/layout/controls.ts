/** What a builder fills in: fields, tick lines, hold points; and the cautions beside them. */
import { fill, line, type Primitive, path, pen, rectangle, stroke, text } from '../drawing/drawing.ts'
import { shortened, textWidth, wrapped } from '../drawing/lettering.ts'
import { type Block, boxed, stacked } from './block.ts'
import { paragraph } from './words.ts'

export interface Field {
  readonly label: string
  readonly share?: number
  /** Printed already. */
  readonly value?: string
  readonly unit?: string
}

/** Boxes in a row, each with its label inside at the top. */
export function fields(items: readonly Field[], width: number, height = 11, gap = 2.4): Block {
  const total = items.reduce((sum, { share = 1 }) => sum + share, 0)
  return {
    height,
    gap,
    draw: ([x, y]) => {
      const drawn: Primitive[] = []
      let left = x
      for (const { label, share = 1, value = '', unit = '' } of items) {
        const own = (width * share) / total
        const small = { size: 2.7, ink: 'dark' } as const
        drawn.push(
          rectangle({ x: left, y, width: own, height }, { stroke: stroke(pen.thin) }),
          text([left + 1.3, y + 3.1], shortened(label, own - 2.6, { ...small, face: 'text' }), small),
          text([left + own - 1.4, y + height - 1.6], unit, { size: 2.9, ink: 'dark', anchor: 'end' }),
        )
        if (value !== '') {
          const size = Math.min(4.4, (4.4 * (own - 4)) / textWidth(value, { size: 4.4, face: 'title' }))
          drawn.push(text([left + 1.6, y + height - 1.9], value, { size, face: 'title' }))
        }
        left += own
      }
      return drawn
    },
  }
}

/** Lines to tick, a square before each. */
export function tickLines(items: readonly string[], width: number, size = 3.7): Block {
  const side = size * 1.05
  return stacked(
    items.map((item) => {
      const body = paragraph(item, width - side - 2.4, { size })
      return {
        height: Math.max(body.height, side + 0.6),
        gap: 1.3,
        draw: ([x, y]) => [
          rectangle({ x, y: y + 0.5, width: side, height: side }, { stroke: stroke(pen.fine) }),
          ...body.draw([x + side + 2.4, y]),
        ],
      } satisfies Block
    }),
  )
}

/** A point that may not be passed unsigned: heavy frame, the word HOLD, lines to tick, initials and time. */
export function holdPoint(title: string, items: readonly string[], width: number, gap = 3): Block {
  const signWidth = 34
  const inner = width - 6
  const flag = textWidth('HOLD', { size: 4.6, face: 'title', tracking: 0.1 }) + 5
  const head: Block = {
    height: 6.4,
    gap: 0,
    draw: ([x, y]) => [
      rectangle({ x: x - 3, y: y - 3, width: flag, height: 7.6 }, { fill: fill('ink'), layer: 'fill' }),
      text([x - 0.4, y + 2.4], 'HOLD', { size: 4.6, face: 'title', ink: 'paper', tracking: 0.1 }),
      text([x + flag - 1, y + 2.4], title, { size: 4.4, face: 'title' }),
    ],
  }
  const list = tickLines(items, inner - signWidth - 4, 3.5)
  const body: Block = {
    height: Math.max(list.height, 13),
    gap: 1,
    draw: ([x, y]) => [
      ...list.draw([x, y]),
      ...fields([{ label: 'initials' }], signWidth, 9).draw([x + inner - signWidth, y - 4]),
      ...fields([{ label: 'time' }], signWidth, 9).draw([x + inner - signWidth, y + 5]),
    ],
  }
  return boxed(stacked([head, body]), { width, padding: 3, stroke: stroke(pen.heavy), gap: gap + 1 })
}

/** One caution at the step it belongs to, with the sign of a triangle. */
export function caution(words: string, width: number, gap = 2.6): Block {
  const size = 3.1
  const lines = wrapped(words, width - 14, { size, face: 'italic' })
  const height = Math.max(9, lines.length * size * 1.28 + 3.4)
  return {
    height,
    gap,
    draw: ([x, y]) => {
      const middle = y + height / 2
      const top = middle - (lines.length * size * 1.28) / 2
      return [
        rectangle({ x, y, width, height }, { stroke: stroke(pen.hair, 'dark', [2, 1]) }),
        path(
          [
            [x + 5.5, middle - 3.3],
            [x + 9.1, middle + 2.9],
            [x + 1.9, middle + 2.9],
          ],
          true,
          { stroke: stroke(pen.net), layer: 'mark' },
        ),
        text([x + 5.5, middle + 2.1], '!', { size: 4.6, face: 'strong', anchor: 'middle' }),
        ...lines.map((words, i) => text([x + 12, top + (i + 0.76) * size * 1.28], words, { size, face: 'italic' })),
      ]
    },
  }
}

/** An empty frame to write in. */
export function writingBox(label: string, width: number, height: number, rules = 0, gap = 3): Block {
  return {
    height,
    gap,
    draw: ([x, y]) => [
      rectangle({ x, y, width, height }, { stroke: stroke(pen.fine) }),
      text([x + 1.6, y + 3.6], label, { size: 2.9, ink: 'dark' }),
      ...Array.from({ length: rules }, (_, i) => {
        const at = y + ((i + 1) * height) / (rules + 1) + 2
        return line([x + 1.6, at], [x + width - 1.6, at], stroke(pen.hair, 'light'))
      }),
    ],
  }
}

/** A stamp: words in a heavy turned frame, for what must not be misread. */
export function stamp(words: string, under: string, width: number): Block {
  return {
    height: 19,
    gap: 3,
    draw: ([x, y]) => [
      rectangle({ x, y, width, height: 19 }, { stroke: stroke(pen.heavy) }),
      rectangle({ x: x + 1.2, y: y + 1.2, width: width - 2.4, height: 16.6 }, { stroke: stroke(pen.thin) }),
      text([x + width / 2, y + 10.2], words, { size: 9, face: 'title', anchor: 'middle', tracking: 0.08 }),
      text([x + width / 2, y + 15.4], under, { size: 3.6, face: 'letter', anchor: 'middle' }),
    ],
  }
}
