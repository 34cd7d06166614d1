/**
 * Resin system, mixing, shop and stock of the plan, in SI.
 *
 * A ratio by volume becomes one by mass through both densities, w = v ρ_hardener / ρ_resin, and only when the plan states
 * both: a guessed density would make a volume ratio look like a mass ratio.
 */

import type { Mixing, Point, Shop, Stock } from '@finwright/core/assess/design.ts'
import type { ResinSystem } from '@finwright/core/material/material.ts'
import { massRatio } from '@finwright/core/resin/mixing.ts'
import type { CanPlan } from '../schema/can.ts'
import { siValue } from '../schema/judge.ts'
import { type Loose, listOf, type Report } from './loose.ts'
import { type Find, overridden } from './materials.ts'

type TypedResin = Loose<CanPlan['resin']> | undefined
type Overrides = Readonly<Record<string, object | undefined>> | undefined

const notOfTheSystem = new Set(['system', 'ratio', 'tolerance', 'postCure'])

export function resolveResin(
  resin: TypedResin,
  overrides: Overrides,
  find: Find,
  report: Report,
): ResinSystem | undefined {
  const system = find('resin', resin?.system, 'resin.system')
  if (system === undefined || resin === undefined) return undefined
  const sheet = Object.fromEntries(Object.entries(resin).filter(([key]) => !notOfTheSystem.has(key)))
  for (const key of Object.keys(sheet)) {
    if (!Object.hasOwn(overrides?.[system.id] ?? {}, key)) continue
    report({
      code: 'material/stated-twice',
      path: `resin.${key}`,
      value: sheet[key],
      message: `'${key}' of '${system.id}' is stated under 'resin' and again under 'materials'; it may be stated once.`,
      hint: `Remove resin.${key} or materials.${system.id}.${key}.`,
    })
  }
  return overridden('resin', system, sheet, 'resin', report)
}

export function resolveMixing(plan: Loose<CanPlan>, system: ResinSystem | undefined, report: Report): Loose<Mixing> {
  const { resin, shop } = plan
  const by = resin?.ratio?.by
  const value = resin?.ratio?.value
  return {
    hardenerPerResin: hardenerPerResin(resin, system, report),
    stated: by === undefined || value === undefined ? undefined : { by, text: `${value} by ${by}` },
    tolerance: siValue('resin.tolerance', resin?.tolerance),
    scaleResolution: siValue('shop.scaleResolution', shop?.scaleResolution),
    cupLimit: siValue('shop.cupLimit', shop?.cupLimit),
    workingShare: siValue('shop.workingShare', shop?.workingShare),
    postCure: resin?.postCure,
  }
}

function hardenerPerResin(resin: TypedResin, system: ResinSystem | undefined, report: Report): number | undefined {
  const resinPerHardener = siValue('resin.ratio.value', resin?.ratio?.value)
  const by = resin?.ratio?.by
  if (by === 'mass') return resinPerHardener === undefined ? undefined : 1 / resinPerHardener
  if (by !== 'volume' || system === undefined) return undefined
  const missing = (['resinDensity', 'hardenerDensity'] as const).filter((key) => system[key].confidence !== 'plan')
  for (const key of missing) {
    if (resin !== undefined && key in resin) continue
    report({
      code: 'resin/volume-needs-densities',
      path: `resin.${key}`,
      value: undefined,
      message: `The mix ratio ${resin?.ratio?.value} is by volume, and '${key}' is not stated; both densities must be, to weigh it out.`,
      hint: 'Add resinDensity and hardenerDensity from the data sheet, or state the ratio by mass if the data sheet gives one.',
    })
  }
  if (missing.length > 0 || resinPerHardener === undefined) return undefined
  return massRatio({
    hardenerPerResin: 1 / resinPerHardener,
    resinDensity: system.resinDensity.value,
    hardenerDensity: system.hardenerDensity.value,
  })
}

export function resolveShop(shop: Loose<NonNullable<CanPlan['shop']>> | undefined): Loose<Shop> {
  return {
    temperature: siValue('shop.temperature', shop?.temperature),
    humidity: siValue('shop.humidity', shop?.humidity),
    setUpTime: siValue('shop.setUp', shop?.setUp),
    timePerPly: siValue('shop.perPly', shop?.perPly),
  }
}

export function resolveStock(stock: Loose<NonNullable<CanPlan['stock']>> | undefined, find: Find): Loose<Stock> {
  return {
    rolls: listOf(stock?.rolls)?.map((roll, i) => ({
      id: roll?.id ?? `roll ${i + 1}`,
      cloth: find('cloth', roll?.cloth, `stock.rolls[${i}].cloth`),
      width: siValue('stock.rolls[].width', roll?.width),
      length: siValue('stock.rolls[].length', roll?.length),
      selvedge: siValue('stock.rolls[].selvedge', roll?.selvedge),
      defects: listOf(roll?.defects)?.map(resolveDefect),
    })),
    layout:
      stock?.layout === undefined
        ? null
        : listOf(stock.layout)?.map((laid) => ({
            piece: laid?.piece,
            roll: laid?.roll,
            x: siValue('stock.layout[].x', laid?.x),
            y: siValue('stock.layout[].y', laid?.y),
            rotation: siValue('stock.layout[].turn', laid?.turn),
          })),
    resin: siValue('stock.resin', stock?.resin),
    hardener: siValue('stock.hardener', stock?.hardener),
    usable: siValue('stock.usable', stock?.usable),
    reserve: siValue('stock.reserve', stock?.reserve),
  }
}

/** Two corners are those of a rectangle along the roll, opposite each other; more are an outline. */
function resolveDefect(corners: Loose<readonly (readonly [string, string])[]> | undefined): Loose<Point[]> | undefined {
  const points = listOf(corners)?.map(
    (corner) =>
      [
        siValue('stock.rolls[].defects[][][0]', corner?.[0]),
        siValue('stock.rolls[].defects[][][1]', corner?.[1]),
      ] as const,
  )
  if (points?.length !== 2) return points
  const [[x0, y0], [x1, y1]] = points as [(typeof points)[0], (typeof points)[0]]
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ]
}
