/** Appendix: where every number and method comes from, and every warning in full. */
import { type Block, paged } from '../layout/block.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table } from '../layout/table.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { toLookAt } from './cover.ts'
import { readable } from './readable.ts'

const columns: readonly Column[] = [
  { head: 'quantity', share: 2.4 },
  { head: 'value', share: 1.9, size: 3 },
  { head: 'source', share: 4.6 },
  { head: 'known how', share: 1.1, ink: 'dark' },
]

/** `read` in the source named, `recalled` from it and not re-read, `practice`, `estimate` or the plan's own. */
/** A field that the plan left out, with what stands in for it. */
export interface PlanDefault {
  readonly path: string
  readonly value: unknown
  readonly source: string
}

export type SourceInput = Pick<SheetInput, 'assessment' | 'paper' | 'figures'> & {
  readonly defaults: readonly PlanDefault[]
}

export function sourceSheets({ assessment, paper, figures, defaults }: SourceInput): Leaf[] {
  const area = content(paper)
  const { width } = area
  const sections = [...new Set(assessment.sources.map(({ section }) => section))]
  const blocks: Block[] = [
    paragraph(
      'Read: found in the source named. Recalled: from the source named, not opened again. Practice: common practice, no source. ' +
        'Estimate: computed by the method named. Plan: stated by the builder.',
      width,
      { size: 3.4, ink: 'dark' },
    ),
    ...sections.flatMap((section) => {
      const rows = assessment.sources
        .filter((note) => note.section === section)
        .map(({ quantity, value, source, confidence }): Cell[] => [
          quantity,
          readable(value, figures.units),
          source,
          confidence,
        ])
      return [heading(section, width), ...table(columns, rows, width, { size: 3 })]
    }),
    ...planDefaults(defaults, width),
    ...toLookAt(assessment.warnings, assessment.pattern.rules, width),
    heading('Defaults of this program, no standard', width),
    ...ownDefaults.map((words) => paragraph(`– ${words}`, width, { size: 3.4, gap: 0.8 })),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Sources', subject: 'numbers, methods, warnings', items }))
}

function planDefaults(defaults: readonly PlanDefault[], width: number): Block[] {
  if (defaults.length === 0) return []
  const heads: Column[] = [
    { head: 'field of the plan, left out', share: 3 },
    { head: 'stands at', share: 1.9 },
    { head: 'from', share: 5 },
  ]
  const rows = defaults.map(({ path, value, source }): Cell[] => [
    path,
    typeof value === 'string' ? value : JSON.stringify(value),
    source,
  ])
  return [heading('Defaults of the plan', width), ...table(heads, rows, width, { size: 3 })]
}

/** What the sheets themselves propose. */
const ownDefaults = [
  'Check square: both sides within 0.5 mm of 100 mm.',
  'Dry mass of a cut piece: within 5 % of its nominal mass.',
  'Tube wrap: the two edges meet within 0.5 mm.',
  'Fillet: radius within 1 mm of the tool’s, no void over 1 mm.',
  'Cores of one can: outlines within 0.25 mm of one another, masses within 1 %.',
  'Bond clock: amber 30 minutes after the last abrasion, red after 4 hours. Surface 3 °C above the dew point.',
  'Cant: 0.10° is good, 0.25° is usable without roll control. Read each fin twice, half a turn apart.',
  'Bubbles: none over 3 mm in the root band and along the edges, none over 6 mm elsewhere.',
  'Proof load: 1.2 times the limit load, both ways, never over 80 % of the load predicted to fail; residual under 2 %.',
]
