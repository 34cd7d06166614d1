/**
 * Better cuts of one cloth, from those of `rolls.ts`: what lies on the last roll (or is to be bought) is fitted into the
 * rolls before it, piece by piece, the largest first; then every roll's layout is shortened, the last roll's first. Fitting
 * may take up stock before it saves any; `search-nest.ts` takes over only what is better.
 */
import { type Crowd, type CrowdProblem, crowdOf, type PairTable, spotsOf } from './crowd.ts'
import { type Random, seededRandom } from './random.ts'
import { clamp, rangeOf } from './relocate.ts'
import { type Cut, fitsAcross, usableSize } from './rolls.ts'
import { type Patience, separate } from './separate.ts'
import type { Shape } from './shape.ts'
import { extent, shrink, until } from './shrink.ts'
import type { Spot, Variant } from './strip.ts'

/** Share of the budget for fitting pieces into earlier rolls, at most. */
const fittingShare = 0.4
const fittingPatience: Patience = { rounds: 60, strikes: 2 }
/** Times a piece of a shape is tried on a roll. */
const fittingTries = 3

export interface ClothProblem {
  readonly shapes: readonly Shape[]
  readonly pairs: PairTable
  readonly cuts: readonly Cut[]
  /** Share of the budget spent, at most 1. */
  readonly spent: () => number
  readonly seed: number
}

/** Yields after every round: changed cuts when there are, else null. */
export function* improve({ shapes, pairs, cuts, spent, seed }: ClothProblem): Generator<readonly Cut[] | null, void> {
  const random = seededRandom(seed)
  const variants: readonly (Variant | null)[] = shapes.flatMap((shape) => shape.variants)
  const state = cuts.map((cut) => ({ ...cut }))
  const problemOf = ({ from }: Cut): CrowdProblem => ({ shapes, variants, pairs, width: usableSize(from).width })
  for (const better of fitEarlier(state, { shapes, problemOf, spent, random })) {
    yield better ? [...state] : null
  }
  const left = spent()
  let share = 0
  const pieces = state.reduce((sum, { layout }) => sum + layout.spots.length, 0)
  for (let c = state.length - 1; c >= 0; c--) {
    const { from, layout } = state[c]
    const starting = left + share * (1 - left)
    share += layout.spots.length / pieces
    const ending = left + share * (1 - left)
    const own = (): number => (ending > starting ? (spent() - starting) / (ending - starting) : 1)
    const crowd = crowdOf(problemOf(state[c]), layout.spots, from.defects ?? [], layout.used)
    for (const better of shrink(crowd, { spent: own, random })) {
      if (better) state[c] = { from, layout: { ...layout, spots: spotsOf(crowd), used: extent(crowd) } }
      yield better ? [...state] : null
    }
  }
}

interface Fitting {
  readonly shapes: readonly Shape[]
  readonly problemOf: (cut: Cut) => CrowdProblem
  readonly spent: () => number
  readonly random: Random
}

/** Moves pieces from the last cut to those before it, while they fit; an emptied cut is dropped. Changes `state`. */
function* fitEarlier(state: Cut[], fitting: Fitting): Generator<boolean, void> {
  const { shapes, spent } = fitting
  while (state.length > 1 && spent() < fittingShare) {
    const last = state[state.length - 1]
    const byArea = [...new Set(last.layout.spots.map(({ variant }) => variant >> 2))]
    byArea.sort((a, b) => shapes[b].area - shapes[a].area || a - b)
    let moved = false
    for (let c = 0; c < state.length - 1 && !moved; c++) {
      for (const shape of byArea) {
        if (!fitsAcross(shapes[shape], state[c].from) || spent() >= fittingShare) continue
        if (!hasRoom(state[c], shapes, shape)) continue
        moved = yield* fitOne(state, c, shape, fitting)
        if (moved) break
      }
    }
    if (!moved) return
    if (state[state.length - 1].layout.spots.length === 0) state.pop()
    yield true
  }
}

/** Whether there is area enough for one more. */
function hasRoom({ from, layout }: Cut, shapes: readonly Shape[], shape: number): boolean {
  const area = layout.spots.reduce((sum, { variant }) => sum + shapes[variant >> 2].area, shapes[shape].area)
  return area < from.length * (from.width - 2 * from.selvedge)
}

function* fitOne(state: Cut[], c: number, shape: number, fitting: Fitting): Generator<boolean, boolean> {
  const { problemOf, spent, random, shapes } = fitting
  const { from, layout } = state[c]
  const last = state[state.length - 1]
  const taken = last.layout.spots.findLastIndex(({ variant }) => variant >> 2 === shape)
  const piece = last.layout.spots[taken]
  const { length } = usableSize(from)
  for (let n = 0; n < fittingTries && spent() < fittingShare; n++) {
    const spots = [...layout.spots, piece]
    const crowd = crowdOf(problemOf(state[c]), spots, from.defects ?? [], length)
    drop(crowd, spots.length - 1, shapes[shape], random)
    const isApart = yield* until(separate(crowd, fittingPatience, random), () => spent() >= fittingShare)
    if (!isApart) continue
    state[c] = { from, layout: { ...layout, spots: spotsOf(crowd), used: extent(crowd) } }
    const rest = last.layout.spots.filter((_, s) => s !== taken)
    state[state.length - 1] = { from: last.from, layout: { ...last.layout, spots: rest, used: reach(rest, crowd) } }
    return true
  }
  return false
}

const reach = (spots: readonly Spot[], { problem }: Crowd): number =>
  spots.reduce((most, { x, variant }) => Math.max(most, x + problem.variants[variant]!.maxX), 0)

/** Puts piece i anywhere on the strip. */
function drop(crowd: Crowd, i: number, { turns, variants }: Shape, random: Random): void {
  const variant = crowd.at[i] - (crowd.at[i] % 4)
  const { width } = crowd.problem
  const fitting = turns.filter((turn) => {
    const { minX, maxX, minY, maxY } = variants[turn]!
    return maxY - minY <= width && maxX - minX <= crowd.length
  })
  crowd.at[i] = variant + (fitting[Math.floor(random() * fitting.length)] ?? turns[0])
  const { loX, hiX, loY, hiY } = rangeOf(crowd, crowd.at[i])
  crowd.X[i] = clamp(Math.round(loX + random() * (hiX - loX)), loX, hiX)
  crowd.Y[i] = clamp(Math.round(loY + random() * (hiY - loY)), loY, hiY)
}
