/**
 * The instants of a flight that stress a fin most, found without solving all of them: see worst-case.ts for the ranking.
 */
import type { LoadState } from './load-states.ts'
import type { TestBench } from './test-bench.ts'
import { type Diverged, type Tried, triedAt } from './trial.ts'

export interface Search {
  readonly worst: Tried | null
  readonly moment: Tried | null
  readonly diverged: Diverged | null
}

/** Instants solved at most beyond the first of each range, and the gain in index for which one more is solved. */
const mostRefinements = 4
const leastGain = 1.002
/** A range whose first instant ranks this far below the first of all is not solved: its index over moment would have to be twice. */
const leastShare = 0.5

export function searched(states: readonly LoadState[], bench: TestBench): Search {
  const rank = states.map(({ mach, dynamicPressure, angle }) =>
    angle > 0 && dynamicPressure > 0 ? dynamicPressure * angle * bench.air.momentSlope(mach) : 0,
  )
  const top = Math.max(0, ...rank)
  if (!(top > 0)) return { worst: null, moment: null, diverged: null }
  const solved = new Map<number, Tried>()
  const firsts = [0, 1, 2].map((range) => firstOf(rank, (i) => bench.air.rangeOf(states[i].mach) === range))
  let queue = firsts.filter((i) => i >= 0 && rank[i] >= leastShare * top)
  for (let round = 0; queue.length > 0; round++) {
    for (const i of queue) {
      const tried = triedAt(bench, states[i], i)
      if ('divergence' in tried) return { worst: null, moment: null, diverged: tried }
      solved.set(i, tried)
    }
    queue = round < mostRefinements ? next(states, rank, solved) : []
  }
  const all = [...solved.values()]
  return {
    worst: greatest(all, ({ spot }) => spot.index),
    moment: greatest(all, (tried) => tried.rootMoment),
    diverged: null,
  }
}

const greatest = (all: readonly Tried[], value: (tried: Tried) => number): Tried =>
  all.reduce((most, tried) => (value(tried) > value(most) ? tried : most))

function firstOf(rank: readonly number[], counts: (i: number) => boolean): number {
  let best = -1
  for (let i = 0; i < rank.length; i++) if (rank[i] > 0 && counts(i) && (best < 0 || rank[i] > rank[best])) best = i
  return best
}

/** The instants that by the ratios found so far would exceed the greatest index, or the greatest moment, and are not solved yet. */
function next(states: readonly LoadState[], rank: readonly number[], solved: ReadonlyMap<number, Tried>): number[] {
  const known = [...solved.values()].sort((p, q) => p.state.mach - q.state.mach)
  const wanted = ([({ spot }) => spot.index, (tried) => tried.rootMoment] as ((tried: Tried) => number)[]).map(
    (value) => {
      const machs = known.map(({ state }) => state.mach)
      const ratios = known.map((tried) => value(tried) / rank[tried.at])
      const expected = rank.map((share, i) => share * between(machs, ratios, states[i].mach))
      const best = firstOf(expected, () => true)
      const most = Math.max(...known.map(value))
      return solved.has(best) || expected[best] < leastGain * most ? -1 : best
    },
  )
  return [...new Set(wanted.filter((i) => i >= 0))]
}

function between(x: readonly number[], y: readonly number[], at: number): number {
  if (at <= x[0]) return y[0]
  for (let i = 1; i < x.length; i++) {
    if (at <= x[i]) return y[i - 1] + ((at - x[i - 1]) / (x[i] - x[i - 1])) * (y[i] - y[i - 1])
  }
  return y[y.length - 1]
}
