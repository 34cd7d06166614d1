/** The last block of a page: how its numbers were made and how far they carry, from fixed words and the sources. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { line, pen, stroke } from '../../drawing/drawing.ts'
import { type Block, beside, stacked } from '../../layout/block.ts'
import { bullets, heading, paragraph } from '../../layout/words.ts'

export interface Why {
  readonly how: readonly string[]
  readonly trust: readonly string[]
  /** Sections of the assessment whose methods are named. */
  readonly sections: readonly string[]
}

const gutter = 8

export function whyBlock({ how, trust, sections }: Why, sources: Assessment['sources'], width: number): Block[] {
  const half = (width - gutter) / 2
  const column = (title: string, items: readonly string[]): Block =>
    stacked([
      paragraph(title, half, { size: 3.1, face: 'strong' }),
      ...bullets(items, half, { size: 2.9, ink: 'dark', gap: 0.9, leading: 1.26 }),
    ])
  const told = [
    { title: 'How this was computed', items: how },
    { title: 'How far to trust it', items: trust },
  ].filter(({ items }) => items.length > 0)
  const columns = beside(
    told.map(({ title, items }, i) => ({ x: i * (half + gutter), block: column(title, items) })),
    1.6,
  )
  const divided: Block = {
    ...columns,
    draw: ([x, y]) => [
      line([x + half + gutter / 2, y + 0.6], [x + half + gutter / 2, y + columns.height], stroke(pen.hair, 'light')),
      ...columns.draw([x, y]),
    ],
  }
  const first = heading('Why', width, 4)
  return [stacked([first, divided, ...sourceLines(sections, sources, width)], first.gap)]
}

/** The methods behind these sections by name. */
export function sourceLines(sections: readonly string[], sources: Assessment['sources'], width: number): Block[] {
  const named = methodsNamed(sections, sources)
  return named === '' ? [] : [paragraph(named, width, { size: 2.7, ink: 'mid', gap: 2 })]
}

function methodsNamed(sections: readonly string[], sources: Assessment['sources']): string {
  const notes = sources.filter(({ section, value }) => sections.includes(section) && value === 'method')
  if (notes.length === 0) return ''
  const each = notes.map(({ quantity, source, confidence }) => `${quantity}: ${source} (${confidence})`)
  return `Sources. ${each.join('. ')}. More under Sources, the last sheets of this package.`
}
