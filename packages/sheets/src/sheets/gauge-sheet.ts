/** One page of gauges at true scale, with a check square. */
import type { Primitive } from '../drawing/drawing.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { paragraph } from '../layout/words.ts'
import { checkSquare } from '../pattern/check-square.ts'
import { bevelGauge, bevelsOf, filletGauge } from '../pattern/gauges.ts'
import type { SheetInput } from '../sheet.ts'

/** Radii closer than this are one gauge, m. */
const sameRadius = 1e-4

export function gaugeSheet({ assessment, design, figures, paper }: SheetInput, correction: string): Leaf[] {
  const { fillet } = assessment.bond
  const area = content(paper)
  const items: Primitive[] = []
  let y = area.y + 9
  const add = (gauge: { readonly items: readonly Primitive[]; readonly height: number }): void => {
    items.push(...gauge.items)
    y += gauge.height + 3
  }
  const ends = assessment.pattern.bay?.ends ?? []
  const tapers = ends.length === 2 && Math.abs(ends[0].filletRadius_m - ends[1].filletRadius_m) > sameRadius
  const names = [', forward end of the root', ', aft end of the root']
  if (fillet !== null && !tapers) add(filletGauge(fillet, [area.x, y], figures))
  if (fillet !== null && tapers)
    ends.forEach(({ filletRadius_m, filletArc_deg }, i) => {
      add(filletGauge({ radius_m: filletRadius_m, openAngle_deg: filletArc_deg }, [area.x, y], figures, names[i]))
    })
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
