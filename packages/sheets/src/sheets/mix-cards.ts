/** Mix cards: one a session, a frame a batch, everything by mass. */

import type { MixBatch } from '@finwright/core/assess/assessment.ts'
import type { Can } from '@finwright/core/assess/design.ts'
import { correctionTable } from '@finwright/core/resin/correction.ts'
import { line, type Primitive, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'
import { type Block, beside, boxed, paged, stacked } from '../layout/block.ts'
import { caution, fields, stamp } from '../layout/controls.ts'
import { type Figures, percent } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Column, table } from '../layout/table.ts'
import { paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { cautions } from './cautions.data.ts'
import { toLookAt } from './cover.ts'

export function mixCards(input: SheetInput): Leaf[] {
  const { design, assessment } = input
  if (assessment.resin.batches.length === 0) return noBatch(input)
  return design.cans.flatMap((can) =>
    Array.from({ length: design.fins.count }, (_, i) => session(can, i + 1, input)).flat(),
  )
}

/** A plan whose batches cannot be weighed or used in time gets the reason in place of a card. */
function noBatch({ assessment, paper }: SheetInput): Leaf[] {
  if (assessment.resin.cloth_kg === null) return []
  const area = content(paper)
  const reasons = assessment.warnings.filter(({ path, code }) => path.startsWith('resin') || code.startsWith('resin'))
  const blocks = [
    paragraph('No mix card: this plan’s resin cannot be split into batches.', area.width, {
      size: 4.4,
      face: 'strong',
    }),
    ...toLookAt(reasons, [], area.width),
    caution(cautions.mixing, area.width, 6),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Mix card', subject: assessment.name, items }))
}

function session(can: Can, bay: number, input: SheetInput): Leaf[] {
  const area = content(input.paper)
  const { batches } = input.assessment.resin
  const blocks = [
    topRow(input, area.width),
    ...batches.map((batch, i) => batchFrame(batch, i + 1, batches.length, input, area.width)),
    totals(input, area.width),
    caution(cautions.mixing, area.width),
    caution(cautions.resin, area.width),
  ]
  return paged(blocks, area).map((items) => ({
    title: 'Mix card',
    subject: `can ${can.letter} (${can.purpose}) · bay ${bay}`,
    items,
  }))
}

function topRow({ assessment, design }: SheetInput, width: number): Block {
  const { ratio } = assessment.resin
  const stampWidth = 74
  const rest = width - stampWidth - 5
  const words = ratio === null ? '' : ratioWords(ratio)
  return stacked([
    beside([
      {
        x: 0,
        block: stacked([
          stamp('BY MASS', 'weighed, never by volume', stampWidth),
          paragraph(words, stampWidth, { size: 3.5, gap: 1.4 }),
          caution(cautions.spill, stampWidth, 1.4),
        ]),
      },
      {
        x: stampWidth + 5,
        block: stacked([
          fields([{ label: 'system', value: design.resin.name }], rest, 11, 0),
          fields([{ label: 'resin, product and lot', share: 1.6 }, { label: 'expires' }], rest, 11, 0),
          fields([{ label: 'hardener, product and lot', share: 1.6 }, { label: 'expires' }], rest, 11, 0),
          fields(
            [{ label: 'scale' }, { label: 'check weight reads', unit: 'g' }, { label: 'cloth, weighed', unit: 'g' }],
            rest,
            11,
            0,
          ),
        ]),
      },
    ]),
  ])
}

function ratioWords({ hardenerPerResin, stated, by }: NonNullable<SheetInput['assessment']['resin']['ratio']>): string {
  const mass = `100 g of resin take ${(100 * hardenerPerResin).toFixed(1)} g of hardener.`
  return by === 'mass'
    ? mass
    : `${mass} Stated as ${stated} by volume and converted with both densities: do not weigh ${stated}.`
}

function batchFrame(batch: MixBatch, number: number, count: number, input: SheetInput, width: number): Block {
  const { figures, assessment } = input
  const inner = width - 6
  const { hardenerPerResin } = assessment.resin.ratio ?? { hardenerPerResin: batch.hardener_kg / batch.resin_kg }
  return boxed(
    stacked([
      batchHead(batch, number, count, inner),
      bigNumbers(batch, figures, inner),
      fields(
        [
          { label: 'poured: resin', unit: 'g' },
          { label: 'total after hardener', unit: 'g', share: 1.1 },
          { label: 'stirred 2 min, sides and bottom; at', share: 1.5 },
          { label: 'use before', unit: 'clock' },
          { label: 'initials', share: 0.8 },
        ],
        inner,
        10,
        2,
      ),
      ...overpours(batch, hardenerPerResin, input, inner),
    ]),
    { width, padding: 3, stroke: stroke(pen.bold), gap: 3 },
  )
}

function batchHead(
  { plies, startsAt_min, useBefore_min }: MixBatch,
  number: number,
  count: number,
  width: number,
): Block {
  const title = `BATCH ${number} OF ${count}`
  const times = `mix at minute ${Math.round(startsAt_min)} · use before minute ${Math.round(useBefore_min)}`
  const names = plies.join('  ')
  const left = textWidth(title, { size: 5.2, face: 'title', tracking: 0.05 }) + 6
  const room = width - left - textWidth(times, { size: 3.8, face: 'letter' }) - 5
  const size = Math.min(5.2, (5.2 * room) / textWidth(names, { size: 5.2, face: 'letter' }))
  return {
    height: 8,
    gap: 0,
    draw: ([x, y]) => [
      text([x, y + 5.4], title, { size: 5.2, face: 'title', tracking: 0.05 }),
      text([x + left, y + 5.4], names, { size, face: 'letter' }),
      text([x + width, y + 5.4], times, { size: 3.8, face: 'letter', anchor: 'end' }),
      line([x, y + 7.6], [x + width, y + 7.6], stroke(pen.thin)),
    ],
  }
}

/** What the scale must show, in the order of pouring. */
function bigNumbers(
  { resin_kg, hardener_kg, runningTotals_kg, window_kg }: MixBatch,
  figures: Figures,
  width: number,
): Block {
  const cells: readonly (readonly [string, string, string])[] = [
    ['resin', figures.grams(resin_kg), 'cup tared: the scale shows this'],
    ['+ hardener', figures.grams(hardener_kg), 'do not tare in between'],
    [
      '= total on the scale',
      figures.grams(runningTotals_kg[1]),
      `from ${grams(window_kg[0])} to ${figures.grams(window_kg[1])}`,
    ],
  ]
  const shares = [1, 1, 1.25]
  const total = shares.reduce((a, b) => a + b, 0)
  return {
    height: 16.6,
    gap: 0.6,
    draw: ([x, y]) => {
      let left = x
      return cells.flatMap(([label, value, under], i): Primitive[] => {
        const at: XY = [left, y]
        left += (width * shares[i]) / total
        return [
          text([at[0], y + 4], label, { size: 3.2, ink: 'dark' }),
          text([at[0], y + 12], value, { size: 9, face: 'title' }),
          text([at[0], y + 16.2], under, { size: 3.1, ink: 'dark' }),
        ]
      })
    },
  }
}

/** The scale's reading after too much hardener, and the reading that restores the ratio: by the core's own table. */
function overpours(batch: MixBatch, ratio: number, { design }: SheetInput, width: number): Block[] {
  const { tolerance, cupLimit } = design.mixing
  const rows = correctionTable(
    { mass: batch.mix_kg, resin: batch.resin_kg, hardener: batch.hardener_kg },
    { hardenerPerResin: ratio, tolerance, cupLimit },
  )
  const columns: Column[] = [
    { head: '', share: 3.4, ink: 'dark' },
    ...rows.map((): Column => ({ head: '', share: 1, align: 'end' })),
  ]
  const over = rows.some(({ overCupLimit }) => overCupLimit)
  const words =
    `Within ${percent(tolerance)} of the hardener: leave it. Stirred for a minute or more: bin it, new cup.` +
    (over ? ' * is more than one cup may hold: split it.' : '')
  return [
    ...table(
      columns,
      [
        ['too much hardener: the scale shows, g', ...rows.map(({ reads }) => grams(reads))],
        [
          'add resin until it shows, g',
          ...rows.map(({ total, overCupLimit }) => `${grams(total)}${overCupLimit ? '*' : ''}`),
        ],
      ],
      width,
      { size: 3.1, headless: true },
    ),
    paragraph(words, width, { size: 3, ink: 'dark', gap: 0.8 }),
  ]
}

const grams = (mass: number): string => (mass * 1e3).toFixed(1)

function totals({ assessment, figures, design }: SheetInput, width: number): Block {
  const { batches, losses, cloth_kg, workingTime_min, workingTimeBand_min, smallestBatch_kg } = assessment.resin
  const mixed = batches.reduce((sum, { mix_kg }) => sum + mix_kg, 0)
  const losing =
    losses === null
      ? ''
      : ` Peel ply ${figures.grams(losses.peelPly_kg)}, primer ${figures.grams(losses.primer_kg)}, cup and brush ${figures.grams(losses.cup_kg)}.`
  const band =
    workingTimeBand_min === null ? '' : ` (${workingTimeBand_min.map((value) => Math.round(value)).join('–')})`
  const working =
    workingTime_min === null
      ? ''
      : ` Working time here ${Math.round(workingTime_min)} min${band}, of which the plan uses ${percent(design.mixing.workingShare)}.`
  const smallest =
    smallestBatch_kg === null ? '' : ` Smallest batch this scale can weigh: ${figures.grams(smallestBatch_kg)}.`
  return stacked(
    [
      paragraph(
        `Mixed in all ${figures.grams(mixed)} for ${figures.grams(cloth_kg)} of dry cloth.${losing}${working}${smallest}`,
        width,
        { size: 3.5 },
      ),
      fields(
        [
          { label: 'mixed in all', unit: 'g' },
          { label: 'left in the cups', unit: 'g' },
          { label: 'witness cup' },
          { label: 'hard after', unit: 'h' },
        ],
        width,
        11,
        2.4,
      ),
    ],
    4,
  )
}
