/**
 * One bay, which is one lay-up session: dry cloth, mixed resin, batches and when each is mixed.
 *
 *   mix = Σ cloth that stays × resin per cloth + peel ply uptake × its area + primer × largest net area + cup loss × cups
 *
 * A film takes up none and is in no batch; laying it takes its time. Cloth is as cut, areal mass times cut area. Resin per cloth of 1 is half resin by mass (FAA AC 43.13-1B, chapter 3,
 * section 1, hand lay-up repair of glass laminate; read). The losses are common practice, no source: peel ply 60–100 g/m²,
 * primer 50–80 g/m², cup and brush 6–10 g a batch; a practice panel measures one's own.
 */
import type { Issue } from '../issue.ts'
import { doublingRuleTime, type WorkingTimeSheet, workingTime, workingTimeBand } from './arrhenius.ts'
import { type Batch, batchFor, plyStart, type SessionPlan, splitIntoBatches } from './batches.ts'
import { batchWarnings, noBatchesIssue, shopWarnings } from './conditions.ts'
import { mixedMass, runningTotals, smallestBatch, totalWindow } from './mixing.ts'

export type PlyRole = 'structural' | 'surface' | 'peel' | 'film'

/** One ply of the bay, in order of laying. */
export interface BayPly {
  readonly id: string
  readonly role: PlyRole
  /** Of the piece as cut, and inside its net line. */
  readonly area: number
  readonly netArea: number
  /** Dry, kg/m². */
  readonly arealMass: number
}

export interface SessionInput {
  readonly plies: readonly BayPly[]
  readonly resinPerCloth: number
  readonly losses: { readonly peelPly: number; readonly primer: number; readonly cup: number }
  readonly mixing: {
    readonly hardenerPerResin: number
    readonly tolerance: number
    readonly scaleResolution: number
    readonly cupLimit: number
    readonly workingShare: number
  }
  readonly shop: {
    readonly temperature: number
    readonly humidity: number
    readonly setUpTime: number
    readonly timePerPly: number
  }
  readonly resin: {
    readonly workingTime: { readonly value: number }
    readonly workingTemperature: { readonly value: number }
    readonly workingMass: { readonly value: number }
    readonly activationEnergy: { readonly value: number }
    readonly minimumTemperature: { readonly value: number }
  }
}

export interface MixedBatch {
  readonly mix: number
  readonly resin: number
  readonly hardener: number
  readonly plies: readonly string[]
  /** Times from the start of the session, when the first batch is mixed. */
  readonly startsAt: number
  readonly useBefore: number
  /** Working time left when the last ply of the batch is down. */
  readonly spare: number
  readonly workingTime: number
  readonly runningTotals: readonly [number, number]
  readonly window: readonly [number, number]
}

export interface PlyMix {
  readonly ply: string
  /** Dry, as cut; a peel ply's and a film's too, though they do not stay. */
  readonly cloth: number
  readonly mix: number
  readonly start: number
}

export interface BaySession {
  /** Dry cloth that stays, as cut. */
  readonly cloth: number
  readonly mix: number
  readonly resin: number
  readonly hardener: number
  /** Empty when no way to share the plies keeps every limit; a warning says which. */
  readonly batches: readonly MixedBatch[]
  readonly perPly: readonly PlyMix[]
  /** Over the whole session. */
  readonly losses: { readonly peelPly: number; readonly primer: number; readonly cup: number }
  /** At the shop's temperature, of the data sheet's mass or less. */
  readonly workingTime: {
    readonly nominal: number
    /** Over the activation energies of the literature. */
    readonly low: number
    readonly high: number
    /** By the rule of thumb, for comparison. */
    readonly doublingRule: number
  }
  readonly smallestBatch: number
  readonly end: number
}

export function baySession(input: SessionInput): { readonly value: BaySession; readonly warnings: readonly Issue[] } {
  const { plies, mixing, shop, resin } = input
  const sheet: WorkingTimeSheet = {
    time: resin.workingTime.value,
    temperature: resin.workingTemperature.value,
    mass: resin.workingMass.value,
    activationEnergy: resin.activationEnergy.value,
  }
  const wet = plies.filter(({ role }) => role !== 'film')
  const plan = sessionPlan({ ...input, plies: wet }, sheet)
  const limits = { smallest: smallestBatch(mixing), largest: mixing.cupLimit }
  const split = splitIntoBatches(plan, limits)
  // Without a legal split the need is still one cup's loss at least.
  const cups = split ?? [batchFor(plan, 0, wet.length)]
  const total = mixedMass(
    cups.reduce((sum, { mass }) => sum + mass, 0),
    mixing.hardenerPerResin,
  )
  const value: BaySession = {
    cloth: stayingCloth(plies),
    mix: total.mass,
    resin: total.resin,
    hardener: total.hardener,
    batches: (split ?? []).map((batch) => mixedBatch(batch, { ...input, plies: wet })),
    perPly: plies.map((ply, i) => plyMix(ply, plan, { at: wet.indexOf(ply), place: i })),
    losses: { peelPly: peelUptake(input), primer: plan.primer, cup: plan.cupLoss * cups.length },
    workingTime: workingTimes(sheet, shop.temperature),
    smallestBatch: limits.smallest,
    end: plyStart(plan, plies.length),
  }
  const warnings = [
    ...shopWarnings({ shop, sheet, minimumTemperature: resin.minimumTemperature.value }),
    ...(split === null ? [noBatchesIssue(plan, mixing, limits)] : batchWarnings(split, sheet)),
  ]
  return { value, warnings }
}

function sessionPlan(
  { plies, resinPerCloth, losses, mixing, shop }: SessionInput,
  sheet: WorkingTimeSheet,
): SessionPlan {
  const largestNet = Math.max(0, ...plies.filter(stays).map(({ netArea }) => netArea))
  return {
    demand: plies.map((ply) => (stays(ply) ? ply.arealMass * ply.area * resinPerCloth : losses.peelPly * ply.area)),
    primer: losses.primer * largestNet,
    cupLoss: losses.cup,
    setUpTime: shop.setUpTime,
    timePerPly: shop.timePerPly,
    sheet,
    temperature: shop.temperature,
    workingShare: mixing.workingShare,
  }
}

const stays = ({ role }: BayPly): boolean => role === 'structural' || role === 'surface'

const stayingCloth = (plies: readonly BayPly[]): number =>
  plies.filter(stays).reduce((sum, { arealMass, area }) => sum + arealMass * area, 0)

const peelUptake = ({ plies, losses }: SessionInput): number =>
  plies.filter(({ role }) => role === 'peel').reduce((sum, { area }) => sum + losses.peelPly * area, 0)

/** `at` among the plies that take up resin, -1 for a film; `place` in the order of laying. */
function plyMix(
  { id, arealMass, area }: BayPly,
  plan: SessionPlan,
  { at, place }: { readonly at: number; readonly place: number },
): PlyMix {
  return { ply: id, cloth: arealMass * area, mix: at < 0 ? 0 : plan.demand[at]!, start: plyStart(plan, place) }
}

function mixedBatch({ from, to, mass, ...times }: Batch, { plies, mixing }: SessionInput): MixedBatch {
  const mixed = mixedMass(mass, mixing.hardenerPerResin)
  return {
    mix: mass,
    resin: mixed.resin,
    hardener: mixed.hardener,
    plies: plies.slice(from, to).map(({ id }) => id),
    startsAt: times.mixedAt,
    useBefore: times.useBefore,
    spare: times.spare,
    workingTime: times.workingTime,
    runningTotals: runningTotals(mixed),
    window: totalWindow(mixed, mixing.tolerance),
  }
}

function workingTimes(sheet: WorkingTimeSheet, temperature: number): BaySession['workingTime'] {
  const cup = { temperature, mass: sheet.mass }
  return {
    nominal: workingTime(sheet, cup),
    ...workingTimeBand(sheet, cup),
    doublingRule: doublingRuleTime(sheet, temperature),
  }
}
