/** One page of gauges at true scale, with a check square. */
import type { Primitive } from '../drawing/drawing.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { paragraph } from '../layout/words.ts'
import { checkSquare } from '../pattern/check-square.ts'
import { bevelGauge, bevelsOf, filletGauge } from '../pattern/gauges.ts'
import type { SheetInput } from '../sheet.ts'

export function gaugeSheet({ assessment, design, figures, paper }: SheetInput, correction: string): Leaf[] {
  const { fillet } = assessment.bond
  const area = content(paper)
  const items: Primitive[] = []
  let y = area.y + 9
  const add = (gauge: { readonly items: readonly Primitive[]; readonly height: number }): void => {
    items.push(...gauge.items)
    y += gauge.height + 3
  }
  if (fillet !== null) add(filletGauge(fillet, [area.x, y], figures))
  for (const bevel of bevelsOf(design)) add(bevelGauge(bevel, design.fins.core.thickness, [area.x, y], figures))
  if (items.length === 0) return []
  const bottom = area.y + area.height - 103
  const room = y <= bottom
  const words = paragraph(
    `True scale: glue to card, cut on the line. Measure the square first: both sides 100 mm.${correction === '' ? '' : ` ${correction}.`}`,
    area.width,
    { size: 4 },
  )
  const first: Leaf = {
    title: 'Gauges',
    subject: 'fillet and bevels, true scale',
    items: [...words.draw([area.x, area.y]), ...items, ...(room ? checkSquare([area.x + 2, bottom]) : [])],
    ownSquare: room,
  }
  return [first]
}
