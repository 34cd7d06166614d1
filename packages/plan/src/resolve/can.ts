/** A plan of a fin can becomes the design that the computation works on. */
import type { CanDesign, Wind } from '@finwright/core/assess/design.ts'
import type { CanPlan } from '../schema/can.ts'
import { siValue } from '../schema/judge.ts'
import { resolveFins, resolveTube } from './fins.ts'
import { resolveFlight } from './flight.ts'
import { type Loose, listOf, type ReadAttachment, type Report } from './loose.ts'
import { materialsOf } from './materials.ts'
import { resolveLayup, resolvePlies } from './plies.ts'
import { resolveMixing, resolveResin, resolveShop, resolveStock } from './resin.ts'

export function resolveCan(plan: Loose<CanPlan>, attachment: ReadAttachment, report: Report): Loose<CanDesign> {
  const find = materialsOf(plan.materials, report)
  const resin = resolveResin(plan.resin, plan.materials, find, report)
  const { paperThickness } = plan.printing ?? {}
  const { loads } = plan
  return {
    kind: 'can',
    name: plan.name,
    note: plan.note,
    tube: resolveTube(plan.tube, find),
    fins: resolveFins(plan.fins, find),
    plies: resolvePlies(plan.plies, find),
    layup: resolveLayup(plan.layup),
    resin,
    mixing: resolveMixing(plan, resin, report),
    shop: resolveShop(plan.shop),
    stock: resolveStock(plan.stock, find),
    cans: listOf(plan.cans)?.map((can) => ({ letter: can?.letter, purpose: can?.purpose })),
    flight: resolveFlight(plan.flight, { attachment, report }),
    loads: {
      angleOfAttack: loads?.angleOfAttack === undefined ? null : siValue('loads.angleOfAttack', loads.angleOfAttack),
      wind: resolveWind(loads?.wind),
      tipLoad: siValue('loads.tipLoad', loads?.tipLoad),
      structuralDamping: siValue('loads.structuralDamping', loads?.structuralDamping),
      speedRatio: siValue('loads.speedRatio', loads?.speedRatio),
    },
    printing: {
      measured: resolveSquare(plan.printing, 'checkSquare'),
      roll: resolveSquare(plan.printing, 'rollSquare'),
      cutter: resolveSquare(plan.printing, 'cutterSquare'),
      paperThickness: siValue('printing.paperThickness', paperThickness),
      sections: resolveSections(plan.printing, report),
    },
  }
}

function resolveSquare(
  printing: Loose<CanPlan>['printing'],
  key: 'checkSquare' | 'rollSquare' | 'cutterSquare',
): Loose<NonNullable<CanDesign['printing']['measured']>> | null {
  const square = printing?.[key]
  if (square === undefined) return null
  return {
    across: siValue(`printing.${key}.across`, square.across),
    along: siValue(`printing.${key}.along`, square.along),
  }
}

/** Shorter than this, a line has no direction. 1 mm. */
const shortestSection = 1e-3

function resolveSections(
  printing: Loose<CanPlan>['printing'],
  report: Report,
): Loose<CanDesign['printing']['sections']> | undefined {
  return listOf(printing?.sections)?.map((section, i) => {
    const from = [
      siValue('printing.sections[].from[0]', section?.from?.[0]),
      siValue('printing.sections[].from[1]', section?.from?.[1]),
    ] as const
    const to = [
      siValue('printing.sections[].to[0]', section?.to?.[0]),
      siValue('printing.sections[].to[1]', section?.to?.[1]),
    ] as const
    const length = Math.hypot(to[0]! - from[0]!, to[1]! - from[1]!)
    if (length < shortestSection)
      report({
        code: 'plan/section-short',
        path: `printing.sections[${i}].to`,
        value: section?.to,
        message: `Section ${i + 1} begins and ends at one place; its two ends must be at least 1 mm apart.`,
        hint: 'Give two places: aft of the root’s forward end, and across from the centre line towards the next fin.',
      })
    return { from, to }
  })
}

function resolveWind(wind: NonNullable<Loose<CanPlan>['loads']>['wind']): Loose<Wind> | null {
  if (wind === undefined) return null
  return {
    steady: siValue('loads.wind.steady', wind.steady),
    gust: siValue('loads.wind.gust', wind.gust),
    railLength: siValue('loads.wind.railLength', wind.railLength),
  }
}
