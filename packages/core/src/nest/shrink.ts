/**
 * The shortest strip that all pieces of a crowd still fit.
 *
 * From a layout without overlap the strip is shortened, its part right of a random cut moved to the left, and the pieces
 * are parted again (`separate.ts`); when that succeeds the layout is the new best, and on. While exploring, a failure is
 * followed by another attempt from one of the layouts that failed, those of little loss the likelier, with two large
 * pieces swapped, and the next shortening is smaller. At the end ever smaller shortenings of the best are tried (Gardeyn &
 * Wauters (2025), see `relocate.ts`; recalled. The shrinking strip itself: Umetani et al. (2009), see `field.ts`).
 */
import type { Crowd } from './crowd.ts'
import type { Random } from './random.ts'
import { clamp, fitsStrip, rangeOf } from './relocate.ts'
import { type Patience, restore, type Snapshot, separate, snapshot } from './separate.ts'

/** Share of the budget for exploring. Chosen by trial, like the numbers below. */
const exploring = 0.75

const exploringPatience: Patience = { rounds: 120, strikes: 2 }
const finishingPatience: Patience = { rounds: 100, strikes: 2 }

/** Shortening as a share of the length: at first, after every failure by a factor, at the least. */
const firstCut = 0.01
const cutFactor = 0.7
const leastCut = 0.002

/** Shortening while finishing, from the first to the last. */
const finishingCuts = [5e-4, 1e-5] as const

/** Layouts that failed are drawn by the cube of a uniform number, from the least loss on. */
const poolPower = 3

export interface Shrinking {
  /** Share of the budget spent so far. */
  readonly spent: () => number
  readonly random: Random
}

/** Yields after every round, true when a shorter layout was just found. Leaves the crowd at the best. */
export function* shrink(crowd: Crowd, { spent, random }: Shrinking): Generator<boolean, void> {
  let best = snapshot(crowd, 0)
  let length = crowd.length
  let cut: number = firstCut
  let failed: Snapshot[] = []
  const shortest = longestPiece(crowd)
  const isOver = (share: number): boolean => spent() >= share || length <= shortest
  const adopt = (): void => {
    best = snapshot(crowd, 0)
    length = extent(crowd)
    failed = []
  }
  try {
    while (!isOver(exploring)) {
      shorten(crowd, Math.max(shortest, Math.floor(length * (1 - cut))), length, random)
      let isApart = yield* until(separate(crowd, exploringPatience, random), () => isOver(exploring))
      while (!isApart && !isOver(exploring)) {
        cut = Math.max(leastCut, cut * cutFactor)
        failed.push(snapshot(crowd, crowd.loss))
        failed.sort((a, b) => a.loss - b.loss)
        restore(crowd, failed[Math.floor(failed.length * random() ** poolPower)])
        swapTwo(crowd, random)
        isApart = yield* until(separate(crowd, exploringPatience, random), () => isOver(exploring))
      }
      if (isApart) adopt()
      else restore(crowd, best)
      if (isApart) yield true
    }
    while (!isOver(1)) {
      const progress = (spent() - exploring) / (1 - exploring)
      restore(crowd, best)
      const share = finishingCuts[0] * (finishingCuts[1] / finishingCuts[0]) ** progress
      shorten(crowd, Math.max(shortest, Math.floor(length * (1 - share))), length, random)
      if (yield* until(separate(crowd, finishingPatience, random), () => spent() >= 1)) {
        adopt()
        yield true
      }
    }
  } finally {
    crowd.length = length
    restore(crowd, best)
  }
}

/** Runs until it ends or is stopped; false when stopped. */
export function* until(steps: Generator<void, boolean>, isOver: () => boolean): Generator<boolean, boolean> {
  for (;;) {
    const { done, value } = steps.next()
    if (done) return value
    if (isOver()) return false
    yield false
  }
}

/** Right end of the rightmost piece. */
export function extent({ X, at, free, problem }: Crowd): number {
  let length = 0
  for (let i = 0; i < free; i++) length = Math.max(length, X[i] + problem.variants[at[i]]!.maxX)
  return length
}

/** No strip is shorter than the longest piece, turned so that it is as short as the strip's width allows. */
function longestPiece({ problem, at, free }: Crowd): number {
  let longest = 0
  for (let i = 0; i < free; i++) {
    const first = at[i] - (at[i] % 4)
    const variants = problem.shapes[first >> 2].turns.map((turn) => problem.variants[first + turn]!)
    const fitting = variants.filter(({ minY, maxY }) => maxY - minY <= problem.width)
    longest = Math.max(longest, Math.min(...fitting.map(({ minX, maxX }) => maxX - minX)))
  }
  return longest
}

/** Makes the strip shorter: what lies right of a random cut moves left, what is too long for it is turned. */
function shorten(crowd: Crowd, length: number, before: number, random: Random): void {
  const { X, Y, at, free, problem } = crowd
  crowd.length = length
  const split = random() * before
  for (let i = 0; i < free; i++) {
    const { minX, maxX } = problem.variants[at[i]]!
    const moved = X[i] + (minX + maxX) / 2 > split ? X[i] - (before - length) : X[i]
    if (!fitsStrip(crowd, at[i])) {
      const first = at[i] - (at[i] % 4)
      at[i] = first + problem.shapes[first >> 2].turns.find((turn) => fitsStrip(crowd, first + turn))!
    }
    const { loX, hiX, loY, hiY } = rangeOf(crowd, at[i])
    X[i] = clamp(Math.round(moved), loX, hiX)
    Y[i] = clamp(Y[i], loY, hiY)
  }
}

const swapTries = 20

/** Swaps the places of two pieces of different shapes out of the larger half. */
export function swapTwo(crowd: Crowd, random: Random): void {
  const { X, Y, at, free, problem } = crowd
  const area = (i: number): number => problem.shapes[at[i] >> 2].area
  const bySize = Array.from({ length: free }, (_, i) => i).sort((i, j) => area(j) - area(i) || i - j)
  const large = Math.max(Math.min(4, free), Math.ceil(0.6 * free))
  for (let n = 0; n < swapTries; n++) {
    const i = bySize[Math.floor(random() * large)]
    const j = bySize[Math.floor(random() * large)]
    if (at[i] >> 2 === at[j] >> 2) continue
    const [a, b] = [rangeOf(crowd, at[i]), rangeOf(crowd, at[j])]
    const [xi, yi] = [X[i], Y[i]]
    X[i] = clamp(X[j], a.loX, a.hiX)
    Y[i] = clamp(Y[j], a.loY, a.hiY)
    X[j] = clamp(xi, b.loX, b.hiX)
    Y[j] = clamp(yi, b.loY, b.hiY)
    return
  }
}
