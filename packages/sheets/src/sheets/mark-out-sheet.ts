/**
 * What stands in place of the tube wrap where a straight strip of paper would mark the tube wrongly: a body that narrows or widens
 * under the root, canted fins, a fillet whose radius changes.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { paged } from '../layout/block.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table, tick } from '../layout/table.ts'
import { bullets, heading, paragraph } from '../layout/words.ts'
import { bodyEnds } from '../pattern/tube-wrap.ts'
import type { SheetInput } from '../sheet.ts'

/** True where the wrap is a rectangle with straight lines. */
export function isStraight({ pattern: { section } }: Assessment): boolean {
  return (
    section === null ||
    (section.cant_deg === 0 &&
      section.aftTubeRadius_m === section.tubeRadius_m &&
      section.aftFilletRadius_m === section.filletRadius_m)
  )
}

export function markOutSheet({ assessment, figures, paper }: SheetInput): Leaf[] {
  const { section, shapes } = assessment.pattern
  if (section === null) return []
  const area = content(paper)
  const why = [
    ...(section.cant_deg === 0 ? [] : [`the fins are canted by ${figures.angle(section.cant_deg, 2)}`]),
    ...(section.aftTubeRadius_m === section.tubeRadius_m
      ? []
      : [
          `the body is ${figures.length(2 * section.tubeRadius_m)} across at the root's forward end and ${figures.length(2 * section.aftTubeRadius_m)} at its aft end`,
        ]),
    ...(section.aftFilletRadius_m === section.filletRadius_m
      ? []
      : [
          `the fillet is ${figures.length(section.filletRadius_m)} in radius at the forward end and ${figures.length(section.aftFilletRadius_m)} at the aft end`,
        ]),
  ]
  const columns: Column[] = [
    { head: 'what ends there', share: 2, face: 'title' },
    { head: 'aft of the root’s forward end', share: 2, align: 'end' },
    { head: 'marked', share: 1, align: 'middle' },
  ]
  const ends = [
    { label: 'root, forward end', x: 0 },
    { label: 'root, aft end', x: section.rootLength_m },
    ...bodyEnds(shapes).map(({ label, x }) => ({ label: `end of ${label}`, x })),
  ].sort((a, b) => a.x - b.x)
  const rows = ends.map(({ label, x }): Cell[] => [label, figures.length(x), tick])
  const blocks = [
    paragraph(
      `No wrap is printed: ${why.join('; ')}. A straight strip of paper would mark the tube wrongly.`,
      area.width,
      {
        size: 4,
      },
    ),
    heading('Mark out by measuring', area.width),
    ...bullets(
      [
        `Divide the body's own circumference by ${section.finCount} at the root's forward end and again at its aft end; join the marks with a straight edge held along the body.`,
        ...(section.cant_deg === 0
          ? []
          : [
              'Cant turns a fin about the middle of its root: set it with the jig, not with these lines, and measure each fin twice with the tube rolled half a turn between.',
            ]),
        'The bay’s centre line is half way between two fins. Lay each piece with its centre line and its ticks on it.',
        'Measure the ends below along the body, on every bay’s centre line.',
      ],
      area.width,
      { size: 3.6 },
    ),
    ...table(columns, rows, area.width, { size: 3.4, rowHeight: 7 }),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Mark out', subject: 'in place of a tube wrap', items }))
}
