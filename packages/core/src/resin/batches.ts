/**
 * One lay-up session in batches: which plies from which cup, when it is mixed, and the time it has to spare.
 *
 * Plies go down one after another, the i-th (from 0) between s_i = setUp + i τ and s_i + τ. The first cup is mixed at 0, as
 * the set-up (pouring out, priming) already uses it; a later one `mixingLead` before its first ply. A cup must be used up
 * within the planned share of its working time, hold no more than the cup limit and no less than the scale can mix.
 *
 * The fewest cups are taken, since each costs its loss; of all ways to share the plies among them the one whose least
 * spare time is greatest (dynamic programming over the last ply of each cup).
 */
import { type CupState, type WorkingTimeSheet, workingTime } from './arrhenius.ts'

/** From taking the cup to the first ply: at least two minutes of stirring, then pouring out. Common practice, no source. */
const mixingLead = 180

/** Relative: sums of masses may miss a limit by their last bits. */
const roundOff = 1e-9

export interface SessionPlan {
  /** Mixed resin of each ply, in order of laying. */
  readonly demand: readonly number[]
  /** In the first cup besides. */
  readonly primer: number
  /** Left in every cup. */
  readonly cupLoss: number
  readonly setUpTime: number
  readonly timePerPly: number
  readonly sheet: WorkingTimeSheet
  readonly temperature: number
  /** Share of the working time that may be planned with. */
  readonly workingShare: number
}

export interface BatchLimits {
  readonly smallest: number
  readonly largest: number
}

export interface Batch {
  /** First ply and the one after the last. */
  readonly from: number
  readonly to: number
  readonly mass: number
  readonly workingTime: number
  /** From the start of the session, s. */
  readonly mixedAt: number
  readonly useBefore: number
  /** Working time left when the last ply is down. */
  readonly spare: number
}

export const plyStart = ({ setUpTime, timePerPly }: SessionPlan, i: number): number => setUpTime + i * timePerPly

/** The cup for the plies `from` up to, not including, `to`. */
export function batchFor(plan: SessionPlan, from: number, to: number): Batch {
  const { demand, primer, cupLoss, sheet, temperature } = plan
  const cloth = demand.slice(from, to).reduce((sum, mass) => sum + mass, 0)
  const mass = cloth + cupLoss + (from === 0 ? primer : 0)
  const cup: CupState = { temperature, mass }
  const time = workingTime(sheet, cup)
  const mixedAt = from === 0 ? 0 : Math.max(0, plyStart(plan, from) - mixingLead)
  const useBefore = mixedAt + time
  return { from, to, mass, workingTime: time, mixedAt, useBefore, spare: useBefore - plyStart(plan, to) }
}

/** The fewest batches that keep all limits, or null when no number of them does. */
export function splitIntoBatches(plan: SessionPlan, limits: BatchLimits): readonly Batch[] | null {
  const n = plan.demand.length
  if (n === 0) return []
  const allowed = (batch: Batch): boolean => isInTime(plan, batch) && isInCup(batch, limits)
  for (let count = 1; count <= n; count++) {
    const batches = bestSplit(plan, count, allowed)
    if (batches !== null) return batches
  }
  return null
}

/** Whether a batch is used up within the planned share of its working time. */
export function isInTime(plan: SessionPlan, { mixedAt, to, workingTime: time }: Batch): boolean {
  return plyStart(plan, to) - mixedAt <= plan.workingShare * time * (1 + roundOff)
}

function isInCup({ mass }: Batch, { smallest, largest }: BatchLimits): boolean {
  return mass >= smallest * (1 - roundOff) && mass <= largest * (1 + roundOff)
}

/** Of the splits into `count` batches, the one with the greatest least spare time. */
function bestSplit(plan: SessionPlan, count: number, allowed: (batch: Batch) => boolean): readonly Batch[] | null {
  const n = plan.demand.length
  /** Best way to lay the plies before `to`, by `to`. */
  let best: (readonly Batch[] | null)[] = [[]]
  for (let k = 1; k <= count; k++) {
    const next: (readonly Batch[] | null)[] = new Array(n + 1).fill(null)
    for (let to = k; to <= n; to++) {
      for (let from = k - 1; from < to; from++) {
        const before = best[from] ?? null
        const batch = before === null ? null : batchFor(plan, from, to)
        if (before === null || batch === null || !allowed(batch)) continue
        const candidate = [...before, batch]
        const known = next[to]
        if (known === null || leastSpare(candidate) > leastSpare(known)) next[to] = candidate
      }
    }
    best = next
  }
  return best[n] ?? null
}

const leastSpare = (batches: readonly Batch[]): number => Math.min(...batches.map(({ spare }) => spare))
