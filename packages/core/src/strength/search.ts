/**
 * The instants of a flight that stress a fin most, found without solving all of them: see worst-case.ts for the ranking.
 */
import { highestLatticeMach } from '../flutter/lattice-method.ts'
import { lowestSurfaceMach } from '../flutter/source-method.ts'
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
/** Upper ends of the bands of Mach number whose first instants are solved; none lies across an edge of the air's ranges. */
const bands = [0.7, highestLatticeMach, lowestSurfaceMach, 1.3, 1.6, 2, 3, Number.POSITIVE_INFINITY]
/** A band whose first instant ranks this far below the first of all is not solved: its index over moment would have to be 1.7 times. */
const leastShare = 0.6

export function searched(states: readonly LoadState[], bench: TestBench): Search {
  const rank = states.map(({ mach, dynamicPressure, angle }) =>
    angle > 0 && dynamicPressure > 0 ? dynamicPressure * angle * bench.air.momentSlope(mach) : 0,
  )
  const top = Math.max(0, ...rank)
  if (!(top > 0)) return { worst: null, moment: null, diverged: null }
  const solved = new Map<number, Tried>()
  const bandOf = states.map(({ mach }) =>
    bands.findIndex((end) => mach < end || (mach === end && end === highestLatticeMach)),
  )
  const firsts = bands.map((_, band) => firstOf(rank, (i) => bandOf[i] === band))
  let queue = firsts.filter((i) => i >= 0 && rank[i] >= leastShare * top)
  for (let round = 0; queue.length > 0; round++) {
    for (const i of queue) {
      const tried = triedAt(bench, states[i], i)
      if ('divergence' in tried) return { worst: null, moment: null, diverged: tried }
      solved.set(i, tried)
    }
    queue = round < mostRefinements ? next(states, rank, solved, bench.air.rangeOf) : []
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
function next(
  states: readonly LoadState[],
  rank: readonly number[],
  solved: ReadonlyMap<number, Tried>,
  rangeOf: (mach: number) => number,
): number[] {
  const known = [...solved.values()].sort((p, q) => p.state.mach - q.state.mach)
  const measures: readonly ((tried: Tried) => number)[] = [({ spot }) => spot.index, ({ rootMoment }) => rootMoment]
  const wanted = measures.map((value) => {
    const ratios = [0, 1, 2].map((range) => {
      const own = known.filter(({ state }) => rangeOf(state.mach) === range)
      return { machs: own.map(({ state }) => state.mach), ratios: own.map((tried) => value(tried) / rank[tried.at]) }
    })
    const expected = rank.map((share, i) => {
      const own = ratios[rangeOf(states[i].mach)]
      return own.machs.length === 0 ? 0 : share * between(own.machs, own.ratios, states[i].mach)
    })
    const best = firstOf(expected, () => true)
    const most = Math.max(...known.map(value))
    return solved.has(best) || expected[best] < leastGain * most ? -1 : best
  })
  return [...new Set(wanted.filter((i) => i >= 0))]
}

/** Straight between known points and on beyond the first and last, there no further than by `farthest` of the end's value. */
function between(x: readonly number[], y: readonly number[], at: number): number {
  const last = x.length - 1
  if (last === 0) return y[0]
  let i = 1
  while (i < last && x[i] < at) i++
  const value = x[i] === x[i - 1] ? y[i] : y[i - 1] + ((at - x[i - 1]) / (x[i] - x[i - 1])) * (y[i] - y[i - 1])
  if (at >= x[0] && at <= x[last]) return value
  const end = at < x[0] ? y[0] : y[last]
  return Math.min((1 + farthest) * end, Math.max((1 - farthest) * end, value))
}

const farthest = 0.2
