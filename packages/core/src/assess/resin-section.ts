/** Resin of one bay, which is one lay-up session, and whether the stock lasts for every can. */
import type { Patterns } from '../pattern/patterns.ts'
import { kit, kitWarnings } from '../resin/kit.ts'
import { baySession, type MixedBatch } from '../resin/session.ts'
import type { MixBatch, ResinSection } from './assessment.ts'
import type { CanDesign } from './design.ts'
import type { Section } from './flown.ts'

export function canResin(design: CanDesign, { shapes }: Patterns): Section<ResinSection> {
  const { layup, mixing, shop, resin, stock, fins, cans, plies } = design
  const session = baySession({
    plies: shapes.map(({ ply, role, area, netArea }) => ({
      ...{ id: ply, role, area, netArea },
      arealMass: plies.find(({ id }) => id === ply)!.cloth.arealMass.value,
    })),
    resinPerCloth: layup.resinPerCloth,
    losses: layup.losses,
    ...{ mixing, shop, resin },
  })
  const bay = session.value
  const { hardenerPerResin, stated } = mixing
  const wanted = { stock, hardenerPerResin, sessionMix: bay.mix, baysPerCan: fins.count, cans: cans.length }
  const held = kit(wanted)
  return {
    value: {
      cloth_kg: bay.cloth,
      resin_kg: bay.resin,
      hardener_kg: bay.hardener,
      batches: bay.batches.map(mixBatch),
      perPly: bay.perPly.map(({ ply, cloth, mix, start }) => ({
        ply,
        cloth_kg: cloth,
        mix_kg: mix,
        start_min: minutes(start),
      })),
      losses: { peelPly_kg: bay.losses.peelPly, primer_kg: bay.losses.primer, cup_kg: bay.losses.cup },
      workingTime_min: minutes(bay.workingTime.nominal),
      workingTimeBand_min: [minutes(bay.workingTime.low), minutes(bay.workingTime.high)],
      smallestBatch_kg: bay.smallestBatch,
      ratio: { hardenerPerResin, stated: stated.text, by: stated.by },
      kit: {
        sessions: held.sessions,
        needed_kg: held.needed,
        usable_kg: held.usable,
        short_kg: held.short,
        limitedBy: held.limitedBy,
        cansCovered: held.cansCovered,
        buy_kg: held.buy,
      },
    },
    warnings: [...session.warnings, ...kitWarnings(wanted, held)],
  }
}

function mixBatch({
  mix,
  resin,
  hardener,
  plies,
  spare,
  startsAt,
  useBefore,
  runningTotals,
  window,
}: MixedBatch): MixBatch {
  return {
    mix_kg: mix,
    resin_kg: resin,
    hardener_kg: hardener,
    plies,
    spare_min: minutes(spare),
    startsAt_min: minutes(startsAt),
    useBefore_min: minutes(useBefore),
    runningTotals_kg: runningTotals,
    window_kg: window,
  }
}

const minutes = (seconds: number): number => seconds / 60
