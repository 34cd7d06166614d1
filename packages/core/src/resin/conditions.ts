/**
 * What in the shop, the cup and the plan stands against a lay-up: cold, heat, damp, dew, a coarse scale, a small cup, a
 * ply that outlasts the resin. Warnings, each with what to do; none of them is silently planned around.
 *
 * Limits: the resin's own minimum temperature; 20–27 °C and at most 70 % humidity (common practice, no source; amine
 * blush is worse cold and damp); surface at least 3 K above the dew point (a rule of protective coating, ISO 8502-4:2017;
 * recalled). The surface is taken to be as warm as the shop.
 */
import type { Issue } from '../issue.ts'
import { isExtrapolated, type WorkingTimeSheet, workingTime, workingTimeBand } from './arrhenius.ts'
import { type Batch, type BatchLimits, batchFor, isInTime, type SessionPlan, splitIntoBatches } from './batches.ts'
import { dewPoint } from './dew-point.ts'
import { coarsestScale, scaleError } from './mixing.ts'

const hotShop = 273.15 + 27
const comfortable = 273.15 + 22
const dampShop = 0.7
const dewMargin = 3

export interface ShopState {
  readonly shop: { readonly temperature: number; readonly humidity: number }
  readonly sheet: WorkingTimeSheet
  readonly minimumTemperature: number
}

export function shopWarnings({ shop, sheet, minimumTemperature }: ShopState): Issue[] {
  const { temperature, humidity } = shop
  const dew = dewPoint(temperature, humidity)
  const issues: Issue[] = []
  if (!(temperature >= minimumTemperature)) issues.push(tooCold(temperature, minimumTemperature, sheet))
  if (!(temperature <= hotShop)) issues.push(hot(temperature, sheet))
  if (!(temperature >= dew + dewMargin)) issues.push(nearDew(temperature, dew))
  if (!(humidity <= dampShop)) issues.push(damp(humidity, dew))
  if (isExtrapolated(sheet, temperature)) issues.push(extrapolated(temperature, sheet))
  return issues
}

function tooCold(temperature: number, minimum: number, sheet: WorkingTimeSheet): Issue {
  const time = workingTime(sheet, { temperature, mass: sheet.mass })
  return {
    code: 'resin/too-cold',
    path: 'shop.temperature',
    value: temperature,
    message:
      `The shop is at ${degC(temperature)}, below the resin's minimum of ${degC(minimum)}; the working time of ` +
      `${min(time)} looks long, but the resin is thick, cures short and blushes.`,
    hint:
      `Warm the part, the resin and the shop to ${degC(Math.max(minimum, comfortable))} before mixing and keep at least ` +
      `${degC(minimum)} until it has cured; a surface just above the dew point is not enough.`,
  }
}

function hot(temperature: number, sheet: WorkingTimeSheet): Issue {
  const time = workingTime(sheet, { temperature, mass: sheet.mass })
  const cool = workingTime(sheet, { temperature: comfortable, mass: sheet.mass })
  return {
    code: 'resin/hot',
    path: 'shop.temperature',
    value: temperature,
    message: `The shop is at ${degC(temperature)}; the working time falls to ${min(time)}.`,
    hint:
      `Start when it is cooler (${min(cool)} at ${degC(comfortable)}), spread the resin in a tray, and have the next ` +
      `batch ready to mix.`,
  }
}

function nearDew(temperature: number, dew: number): Issue {
  return {
    code: 'resin/near-dew-point',
    path: 'shop.humidity',
    value: temperature - dew,
    message:
      `The surface at ${degC(temperature)} is ${(temperature - dew).toFixed(1)} K above the dew point of ${degC(dew)}; at ` +
      `least ${dewMargin} K keeps it dry.`,
    hint: `Warm the part above ${degC(dew + dewMargin)} or dry the air.`,
  }
}

function damp(humidity: number, dew: number): Issue {
  return {
    code: 'resin/damp',
    path: 'shop.humidity',
    value: humidity,
    message:
      `The air is at ${(100 * humidity).toFixed(0)} % humidity (dew point ${degC(dew)}); above ` +
      `${(100 * dampShop).toFixed(0)} % amine hardeners blush.`,
    hint: 'Dry or warm the air; wash the cured surface with water and an abrasive pad before sanding or bonding.',
  }
}

function extrapolated(temperature: number, sheet: WorkingTimeSheet): Issue {
  const { low, high } = workingTimeBand(sheet, { temperature, mass: sheet.mass })
  return {
    code: 'resin/working-time-extrapolated',
    path: 'resin.workingTime_min',
    value: temperature,
    message:
      `The working time at ${degC(temperature)} is carried over from ${degC(sheet.temperature)}, more than 10 K away; ` +
      `between ${min(low)} and ${min(high)} over the activation energies of such resins.`,
    hint: `Take the working time at a temperature near ${degC(temperature)} from the data sheet, or time a cup.`,
  }
}

/** Batches above the mass that the data sheet's time is stated for. */
export function batchWarnings(batches: readonly Batch[], sheet: WorkingTimeSheet): Issue[] {
  const largest = Math.max(...batches.map(({ mass }) => mass))
  if (!(largest > sheet.mass)) return []
  return [
    {
      code: 'resin/above-sheet-mass',
      path: 'resin.batches',
      value: largest,
      message:
        `A batch of ${g(largest)} is more than the ${g(sheet.mass)} that the data sheet's working time is for; it is ` +
        `shortened in proportion, which is an assumption.`,
      hint: 'Spread the mix in a tray at once, and take the time for this mass from the data sheet if it gives one.',
    },
  ]
}

interface MixLimits {
  readonly hardenerPerResin: number
  readonly tolerance: number
  readonly scaleResolution: number
  readonly cupLimit: number
}

/** Why no batches keep all limits: each limit is lifted in turn. */
export function noBatchesIssue(plan: SessionPlan, mixing: MixLimits, limits: BatchLimits): Issue {
  const anyScale = splitIntoBatches(plan, { smallest: 0, largest: limits.largest })
  if (anyScale !== null) return coarseScale(anyScale, mixing, limits)
  const anyCup = splitIntoBatches(plan, { smallest: 0, largest: Infinity })
  return anyCup === null ? slowPly(plan) : smallCup(plan, anyCup, mixing)
}

function coarseScale(batches: readonly Batch[], mixing: MixLimits, { smallest, largest }: BatchLimits): Issue {
  const least = Math.min(...batches.map(({ mass }) => mass))
  const error = scaleError(least, mixing)
  const resolution = coarsestScale(least, mixing)
  const surplus =
    smallest <= largest
      ? ` or, where the working time allows, mix ${g(smallest)} and throw the surplus away`
      : `; the smallest batch of this scale is above the cup limit, so no batch is right for both`
  return {
    code: 'resin/scale-too-coarse',
    path: 'resin.batches',
    value: mixing.scaleResolution,
    message:
      `A scale that shows ${grams(mixing.scaleResolution)} cannot mix ${g(least)} within ±${pct(mixing.tolerance)}: it may ` +
      `be off by ${pct(error)}; its smallest batch is ${g(smallest)}, the cup limit ${g(largest)}.`,
    hint: `Use a scale that shows ${grams(10 ** Math.floor(Math.log10(resolution * 1e3)) / 1e3)} or finer${surplus}.`,
  }
}

function smallCup(plan: SessionPlan, batches: readonly Batch[], { cupLimit }: MixLimits): Issue {
  const single = plan.demand.map((_, i) => batchFor(plan, i, i + 1))
  const largest = Math.max(...single.map(({ mass }) => mass))
  const most = Math.max(...batches.map(({ mass }) => mass))
  const alone = largest > cupLimit
  return {
    code: 'resin/cup-limit',
    path: 'resin.batches',
    value: cupLimit,
    message: alone
      ? `One ply alone takes ${g(largest)}, more than the cup limit of ${g(cupLimit)}.`
      : `The plies that share a cup in time take ${g(most)}, more than the cup limit of ${g(cupLimit)}.`,
    hint:
      'A cup above its limit can boil and char: lay the ply from two cups mixed by a second person, or raise the limit ' +
      'only with resin spread in a tray as it is mixed.',
  }
}

function slowPly(plan: SessionPlan): Issue {
  const late = plan.demand.findIndex((_, i) => !isInTime(plan, batchFor(plan, i, i + 1)))
  const batch = batchFor(plan, Math.max(0, late), Math.max(0, late) + 1)
  const takes = plan.setUpTime + plan.timePerPly
  const cool = workingTime(plan.sheet, { temperature: comfortable, mass: batch.mass })
  return {
    code: 'resin/working-time-too-short',
    path: 'resin.batches',
    value: batch.workingTime,
    message:
      `Ply ${late + 1} of ${plan.demand.length} cannot be laid in time: with set-up it takes up to ${min(takes)}, and only ` +
      `${pct(plan.workingShare)} of a working time of ${min(batch.workingTime)} may be planned with.`,
    hint: `Work cooler (${min(cool)} at ${degC(comfortable)}), use a slower hardener, or shorten the set-up.`,
  }
}

const degC = (temperature: number): string => `${(temperature - 273.15).toFixed(1)} °C`
const min = (time: number): string => `${(time / 60).toFixed(0)} min`
const g = (mass: number): string => `${(1e3 * mass).toFixed(0)} g`
const grams = (mass: number): string => `${Number((1e3 * mass).toPrecision(2))} g`
const pct = (share: number): string => `${Number((100 * share).toPrecision(2))} %`
