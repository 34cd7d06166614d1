/**
 * The long search for a nest: from the layout `nestPieces` makes to better ones, until a budget is spent, it is good
 * enough or it is stopped.
 *
 * The budget is counted in depths of pairs asked for, a measure of work that is the same everywhere: same input, seed and
 * budget, same nest. Time is the caller's: give a `pace`, take steps from `nestSteps` for as long as there is time, or
 * end `searchNest` by `shouldStop`. The cloths take turns, so that all have had their share whenever it ends.
 */
import type { Checked } from '../issue.ts'
import { type PairTable, pairTable } from './crowd.ts'
import { stockLengths } from './defects.ts'
import { improve } from './improve.ts'
import { type ClothNest, finishedNest, type NestInput, type NestResult, startNest } from './nest.ts'
import { noFitTable } from './no-fit.ts'
import { amounts, type Cut, isBetter } from './rolls.ts'
import { fineSimplify, shapesOf } from './shape.ts'
import { isBalanced } from './turn.ts'

export interface NestSearch {
  /** Depths of pairs asked for, over all cloths; about two to seven million a second. */
  readonly budget: number
  /** 1 by default. */
  readonly seed?: number
  /**
   * Share of the caller's time that is spent. The search hurries as it grows and ends at 1, or when the budget is spent; the
   * nest then depends on the machine. Left out, the budget alone paces it.
   */
  readonly pace?: () => number
  /** Stops once the pieces' area over that of all cloth used (width times used length) is as much. */
  readonly goodEnough?: number
}

export interface NestProgress {
  /** Share of the budget spent. */
  readonly spent: number
  /** Whether the nest became better since the step before. */
  readonly better: boolean
  /** Cloth used, m² of width times length, and of that to be bought, m. */
  readonly usedArea: number
  readonly buyLength: number
  /** Area of the pieces over `usedArea`. */
  readonly density: number
  /** The best nest so far, checked. */
  readonly nest: () => NestResult
}

/** How a caller follows a search and ends it; ended early, it gives the best nest so far. */
export interface NestWatch {
  /** Told the start and every better nest. */
  readonly onProgress?: (progress: NestProgress) => void
  /** Told the start and every round, some milliseconds apart. */
  readonly onRound?: (progress: NestProgress) => void
  /** Asked after every round. */
  readonly shouldStop?: () => boolean
  /** Looked at after every round; an `AbortSignal` is one. */
  readonly signal?: { readonly aborted: boolean }
}

/** All in one go. */
export function searchNest(input: NestInput, search: NestSearch, watch: NestWatch = {}): Checked<NestResult> {
  const steps = nestSteps(input, search)
  for (let stop = false; ; ) {
    const step = steps.next(stop)
    if (step.done) return step.value
    stop = told(step.value, watch)
  }
}

/** Rounds between two pauses. */
const roundsInTurn = 16

/**
 * The same nest, a few milliseconds at a time: between them `pause` lets the caller's thread do something else, such as to
 * hear that the search is to stop. In a worker, `() => new Promise((go) => setTimeout(go))`.
 */
export async function searchNestInTurns(
  input: NestInput,
  search: NestSearch,
  watch: NestWatch & { readonly pause: () => Promise<unknown> },
): Promise<Checked<NestResult>> {
  const steps = nestSteps(input, search)
  let stop = false
  for (let round = 0; ; round++) {
    const step = steps.next(stop)
    if (step.done) return step.value
    stop = told(step.value, watch)
    if (round % roundsInTurn > 0) continue
    await watch.pause()
    stop ||= watch.signal?.aborted ?? false
  }
}

/** Tells the caller how it stands; whether he wants it to end. */
function told(progress: NestProgress, { onProgress, onRound, shouldStop, signal }: NestWatch): boolean {
  onRound?.(progress)
  if (progress.better) onProgress?.(progress)
  return signal?.aborted === true || shouldStop?.() === true
}

/** The start, then a round of the search a step, some milliseconds; sent true it ends with the best so far. */
export function* nestSteps(
  input: NestInput,
  search: NestSearch,
): Generator<NestProgress, Checked<NestResult>, boolean | undefined> {
  const start = startNest(input)
  if (!start.ok) return start
  const nests = [...start.value]
  const searches = nests.flatMap((nest, n) => (nest.pieces.length < 2 ? [] : [clothSearch(nest, n, input, search)]))
  const done = (): number => searches.reduce((sum, { pairs }) => sum + pairs.work, 0)
  const shareSpent = (): number => Math.min(1, Math.max(done() / search.budget, search.pace?.() ?? 0))
  let stop = (yield progressOf({ input, nests: [...nests], spent: 0, better: true })) === true
  while (!stop && searches.length > 0) {
    const next = searches.reduce((least, other) => (other.perPiece() < least.perPiece() ? other : least))
    const { done: isDone, value: cuts } = next.rounds.next()
    if (isDone) {
      searches.splice(searches.indexOf(next), 1)
      continue
    }
    const better = cuts !== null && isBetter(cuts, nests[next.n].cuts)
    if (better) nests[next.n] = { ...nests[next.n], cuts }
    const progress = progressOf({ input, nests: [...nests], spent: shareSpent(), better })
    stop = (yield progress) === true || progress.density >= (search.goodEnough ?? 1)
  }
  return finishedNest(input, nests)
}

interface ClothSearch {
  readonly n: number
  readonly pairs: PairTable
  readonly rounds: Generator<readonly Cut[] | null, void>
  /** Depths asked for a piece: the search least far takes the next round, so that all keep step. */
  readonly perPiece: () => number
}

/** The search of one cloth, with outlines hardly simplified: their shapes have the origins of the start's, so its cuts hold. */
function clothSearch(nest: ClothNest, n: number, { pieces, gap }: NestInput, search: NestSearch): ClothSearch {
  const { cloth, stock, cuts } = nest
  const shapes = shapesOf(nest.pieces, isBalanced(cloth), gap, fineSimplify)
  const { parts } = stockLengths(stock, shapes)
  const pairs = pairTable(noFitTable(parts), parts)
  const perPiece = (): number => pairs.work / nest.pieces.length
  const allowed = search.budget / pieces.length
  const spent = (): number => Math.min(1, Math.max(perPiece() / allowed, search.pace?.() ?? 0))
  return { n, pairs, perPiece, rounds: improve({ shapes, pairs, cuts, spent, seed: (search.seed ?? 1) + n }) }
}

interface State {
  readonly input: NestInput
  readonly nests: readonly ClothNest[]
  readonly spent: number
  readonly better: boolean
}

function progressOf({ input, nests, spent, better }: State): NestProgress {
  let usedArea = 0
  let buyLength = 0
  let area = 0
  for (const { shapes, cuts } of nests) {
    const own = amounts(cuts)
    usedArea += own.usedArea
    buyLength += own.buyLength
    for (const { area: each, pieces } of shapes) area += each * pieces.length
  }
  const nest = (): NestResult => finishedNest(input, nests).value
  return { spent, better, usedArea, buyLength, density: area / usedArea, nest }
}
