/** What the page on mixing shows of the assessment. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { type Figures, none, plain } from '@finwright/sheets/layout/figures.ts'
import type { NumberRow } from '../../parts/Numbers.tsx'

export function batchCards({ resin }: Assessment, figures: Figures) {
  return resin.batches.map(
    ({ mix_kg, runningTotals_kg, window_kg, plies, startsAt_min, useBefore_min, spare_min }, i) => ({
      title: `Batch ${i + 1}: ${figures.grams(mix_kg)}`,
      resin: figures.grams(runningTotals_kg[0]),
      total: figures.grams(runningTotals_kg[1]),
      window: `anything from ${figures.grams(window_kg[0])} to ${figures.grams(window_kg[1])} keeps the ratio`,
      plies: `for ${plies.join(', ')}`,
      times: `mix at minute ${plain(startsAt_min, 0)}, gone by minute ${plain(useBefore_min, 0)}; ${plain(spare_min, 0)} min to spare`,
    }),
  )
}

export function mixRows({ resin }: Assessment, figures: Figures): readonly NumberRow[] {
  const {
    cloth_kg,
    resin_kg,
    hardener_kg,
    workingTime_min,
    workingTimeBand_min,
    smallestBatch_kg,
    ratio,
    kit,
    losses,
  } = resin
  const mix = resin_kg === null || hardener_kg === null ? null : resin_kg + hardener_kg
  const rows: NumberRow[] = [
    {
      label: 'Mix for one bay',
      value: figures.grams(mix),
      note: `on ${figures.grams(cloth_kg)} of cloth that stays`,
      why: 'resin.mix',
    },
    {
      label: 'Ratio by mass',
      value: ratio === null ? none : `100 : ${plain(100 * ratio.hardenerPerResin, 1)}`,
      note:
        ratio === null ? '' : ratio.by === 'mass' ? 'as stated' : `converted from ${ratio.stated} with both densities`,
      why: 'resin.ratio',
    },
    {
      label: 'Working time in this shop',
      value: workingTime_min === null ? none : `${plain(workingTime_min, 0)} min`,
      note:
        workingTimeBand_min === null
          ? ''
          : `${plain(workingTimeBand_min[0], 0)} to ${plain(workingTimeBand_min[1], 0)} by published activation energies`,
      why: 'resin.workingTime',
    },
    {
      label: 'Smallest batch this scale can mix',
      value: figures.grams(smallestBatch_kg),
      note: 'so that its last digit keeps the ratio in tolerance',
      why: 'resin.smallest',
    },
  ]
  if (losses !== null)
    rows.push({
      label: 'Ends up elsewhere',
      value: figures.grams(losses.peelPly_kg + losses.primer_kg + losses.cup_kg),
      note: `peel ply ${figures.grams(losses.peelPly_kg)}, primer ${figures.grams(losses.primer_kg)}, cups ${figures.grams(losses.cup_kg)}`,
    })
  if (kit !== null)
    rows.push({
      label: `All ${kit.sessions} sessions and the reserve`,
      value: figures.grams(kit.needed_kg, 0),
      note:
        kit.short_kg > 0
          ? `short by ${figures.grams(kit.short_kg, 0)}: buy ${figures.grams(kit.buy_kg.resin, 0)} of resin and ${figures.grams(kit.buy_kg.hardener, 0)} of hardener of the same system; covers ${kit.cansCovered} cans`
          : `the stock gives ${figures.grams(kit.usable_kg, 0)}, limited by the ${kit.limitedBy}`,
      why: 'resin.kit',
    })
  return rows
}

export const plyRows = ({ resin }: Assessment, figures: Figures): readonly (readonly string[])[] =>
  resin.perPly.map(({ ply, cloth_kg, mix_kg, start_min }) => [
    ...[ply, plain(start_min, 0), figures.grams(cloth_kg), figures.grams(mix_kg)],
  ])
