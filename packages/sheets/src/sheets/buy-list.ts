/** What the stock lacks: cloth by the roll's width and length, resin and hardener by mass. */
import { type Block, paged } from '../layout/block.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table, tick } from '../layout/table.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'

/** One page, or none where nothing is short. */
export function buyList({ assessment, figures, paper }: SheetInput): Leaf[] {
  const area = content(paper)
  const { width } = area
  const { buy } = assessment.nest
  const { kit } = assessment.resin
  const kitRows: Cell[][] =
    kit === null
      ? []
      : (['resin', 'hardener'] as const)
          .filter((what) => kit.buy_kg[what] > 0)
          .map((what) => [what, '', figures.grams(kit.buy_kg[what], 0), kitReason(what, kit, figures.grams), tick])
  if (buy.length === 0 && kitRows.length === 0) return []
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
    figures.length(length_m, 1e-3),
    reason,
    tick,
  ])
  const blocks: Block[] = [
    paragraph(
      'The stock does not cover every can of this plan. Same cloth, same resin system; note every lot.',
      width,
      { size: 4 },
    ),
    heading('To buy', width),
    ...table(columns, [...cloth, ...kitRows], width, { size: 3.4, rowHeight: 8 }),
  ]
  return paged(blocks, area).map((items) => ({ title: 'To buy', subject: assessment.name, items }))
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
