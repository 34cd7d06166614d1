/** What the cans take and what the stock lacks: cloth by the linear metre or yard, resin and hardener by mass. */
import { clothNeeds, soldLength } from '../cut-list.ts'
import { type Block, paged } from '../layout/block.ts'
import { plain } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table, tick } from '../layout/table.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'

/** One page. */
export function buyList({ assessment, design, figures, paper }: SheetInput): Leaf[] {
  const area = content(paper)
  const { width } = area
  const needs = clothNeeds(assessment, design)
  if (needs.length === 0) return []
  const { buy } = assessment.nest
  const { kit } = assessment.resin
  const kitRows: Cell[][] =
    kit === null
      ? []
      : (['resin', 'hardener'] as const)
          .filter((what) => kit.buy_kg[what] > 0)
          .map((what) => [what, '', figures.grams(kit.buy_kg[what], 0), kitReason(what, kit, figures.grams), tick])
  const columns: Column[] = [
    { head: 'what', share: 2.2, face: 'strong' },
    { head: 'width', share: 1, align: 'end' },
    { head: 'at least', share: 1.1, align: 'end' },
    { head: 'why', share: 4 },
    { head: 'bought', share: 0.8, align: 'middle' },
  ]
  const cloth = buy.map(({ clothName, width_m, length_m, reason }): Cell[] => [
    clothName,
    figures.length(width_m, 1e-3),
    linear(length_m, figures),
    reason,
    tick,
  ])
  const short: Block[] =
    cloth.length + kitRows.length === 0
      ? [paragraph('The stock covers every can of this plan.', width, { size: 3.6 })]
      : [
          paragraph(
            'The stock does not cover every can of this plan. Same cloth, same resin system; note every lot. Peel ply without a release finish; a film that this resin does not stick to: try a scrap of each.',
            width,
            { size: 4 },
          ),
          ...table(columns, [...cloth, ...kitRows], width, { size: 3.4, rowHeight: 8 }),
        ]
  const blocks: Block[] = [
    heading('Cloth for every can', width, 0),
    ...table(
      [
        { head: 'cloth', share: 3, face: 'strong' },
        { head: 'roll width', share: 1.3, align: 'end' },
        { head: 'pieces', share: 1, align: 'end' },
        { head: 'length as nested', share: 1.6, align: 'end' },
        { head: figures.units === 'us' ? 'by the quarter yard' : 'by the tenth of a metre', share: 2, align: 'end' },
      ],
      needs.map((need): Cell[] => [
        need.comesOff ? `${need.clothName}, comes off` : need.clothName,
        figures.length(need.width_m, 1e-3),
        `${need.pieces}`,
        figures.length(need.length_m, 1e-3),
        linear(need.length_m, figures),
      ]),
      width,
      { size: 3.6, rowHeight: 7 },
    ),
    paragraph(
      'For the roll width of each line; another width nests otherwise. Practice panel and witness scraps come on top. The same lists for a spreadsheet: cut-list.csv and cloth.csv.',
      width,
      { size: 3.2, gap: 3 },
    ),
    heading('To buy', width),
    ...short,
  ]
  return paged(blocks, area).map((items) => ({ title: 'Cloth', subject: assessment.name, items }))
}

/** Linear metres or yards, rounded up to what is sold. */
function linear(length: number, { units }: SheetInput['figures']): string {
  const sold = soldLength(length, units)
  return units === 'us' ? `${plain(sold / 0.9144, 2)} yd` : `${plain(sold, 1)} m`
}

function kitReason(
  what: 'resin' | 'hardener',
  { needed_kg, usable_kg, limitedBy, cansCovered }: NonNullable<SheetInput['assessment']['resin']['kit']>,
  grams: (mass: number, decimals: number) => string,
): string {
  const limit = limitedBy === what ? ', and this is what runs out first' : ''
  const cans = cansCovered === 1 ? '1 can' : `${cansCovered} cans`
  return `${grams(needed_kg, 0)} of mix are needed, ${grams(usable_kg, 0)} can be had${limit}; the stock covers ${cans}. Never stretch the ratio.`
}
