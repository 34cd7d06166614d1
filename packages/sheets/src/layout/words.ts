/** Headings, paragraphs and lists as blocks. */
import { type Face, type Ink, line, pen, stroke, text } from '../drawing/drawing.ts'
import { faceFor, wrapped } from '../drawing/lettering.ts'
import type { Block } from './block.ts'

export interface WordStyle {
  readonly size?: number
  readonly face?: Face
  readonly ink?: Ink
  readonly gap?: number
  readonly leading?: number
  readonly keep?: boolean
}

/** Text wrapped to the width. */
export function paragraph(words: string, width: number, style: WordStyle = {}): Block {
  const size = style.size ?? 3.5
  const face = faceFor(words, style.face ?? 'text')
  const leading = (style.leading ?? 1.32) * size
  const lines = wrapped(words, width, { size, face })
  return {
    height: lines.length * leading,
    gap: style.gap ?? 1.6,
    keep: style.keep ?? false,
    draw: ([x, y]) =>
      lines.map((words, i) =>
        text([x, y + i * leading + 0.78 * size + (leading - size) / 2], words, { size, face, ink: style.ink ?? 'ink' }),
      ),
  }
}

/** A section's heading over a hairline. */
export function heading(words: string, width: number, gap = 6): Block {
  return {
    height: 6.4,
    gap,
    keep: true,
    draw: ([x, y]) => [
      text([x, y + 3.9], words.toUpperCase(), { size: 4, face: 'title', tracking: 0.05 }),
      line([x, y + 5.4], [x + width, y + 5.4], stroke(pen.thin)),
    ],
  }
}

/** Lines that each start with a dash. */
export function bullets(items: readonly string[], width: number, style: WordStyle = {}): Block[] {
  const size = style.size ?? 3.5
  const indent = 1.1 * size
  return items.map((item) => {
    const body = paragraph(item, width - indent, style)
    return {
      ...body,
      draw: ([x, y]) => [
        text([x, y + 0.78 * size + 0.16 * size], '–', { size, ink: style.ink ?? 'ink' }),
        ...body.draw([x + indent, y]),
      ],
    }
  })
}
