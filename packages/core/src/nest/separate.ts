/**
 * Parting the pieces of a crowd: overlapping pieces are relocated one by one, in random order, to where their weighted
 * loss is least; the weights of pairs that still overlap are raised, those of others lowered, so that no pair stays
 * stuck (guided local search; Umetani et al. (2009), see `field.ts`; the rule for the weights is Gardeyn & Wauters' (2025), recalled).
 */
import { type Crowd, pairDepth } from './crowd.ts'
import type { Random } from './random.ts'
import { relocate } from './relocate.ts'

const raiseLeast = 1.2
const raiseMost = 2
const lower = 0.95

export interface Patience {
  /** Rounds without a new least loss before the crowd goes back to the least. */
  readonly rounds: number
  /** Times that may happen without a marked gain. */
  readonly strikes: number
}

export interface Snapshot {
  readonly X: Float64Array
  readonly Y: Float64Array
  readonly at: Int32Array
  readonly loss: number
}

export const snapshot = ({ X, Y, at }: Crowd, loss: number): Snapshot => ({
  X: X.slice(),
  Y: Y.slice(),
  at: at.slice(),
  loss,
})

export function restore({ X, Y, at }: Crowd, from: Snapshot): void {
  X.set(from.X)
  Y.set(from.Y)
  at.set(from.at)
}

/** Yields after every round; true when nothing overlaps. Leaves the crowd at the least loss it saw. */
export function* separate(crowd: Crowd, patience: Patience, random: Random): Generator<void, boolean> {
  crowd.weight.fill(1)
  const losses = new Float64Array(crowd.count * crowd.count)
  const order: number[] = []
  let least = snapshot(crowd, measure(crowd, losses))
  let strikes = 0
  while (strikes < patience.strikes) {
    const before = least.loss
    let idle = 0
    while (idle < patience.rounds) {
      if (least.loss === 0) return true
      overlapping(crowd, losses, order, random)
      for (const i of order) relocate(crowd, i, random)
      const loss = measure(crowd, losses)
      reweigh(crowd, losses)
      if (loss < least.loss) {
        if (loss < 0.98 * least.loss) idle = 0
        least = snapshot(crowd, loss)
      } else idle++
      yield
    }
    strikes = least.loss < 0.98 * before ? 0 : strikes + 1
    restore(crowd, least)
    crowd.loss = least.loss
    measure(crowd, losses)
  }
  return false
}

/** Losses by pair without weights, and their sum. */
export function measure(crowd: Crowd, losses: Float64Array): number {
  const { count, free, scale } = crowd
  crowd.problem.pairs.work += count
  let sum = 0
  for (let i = 0; i < free; i++) {
    for (let j = i + 1; j < count; j++) {
      const loss = pairDepth(crowd, i, j) * scale[i] * scale[j]
      losses[i * count + j] = loss
      losses[j * count + i] = loss
      sum += loss
    }
  }
  return sum
}

function overlapping({ count, free }: Crowd, losses: Float64Array, order: number[], random: Random): void {
  order.length = 0
  for (let i = 0; i < free; i++) {
    let any = false
    for (let j = 0; j < count && !any; j++) any = losses[i * count + j] > 0
    if (any) order.push(i)
  }
  for (let k = order.length - 1; k > 0; k--) {
    const l = Math.floor(random() * (k + 1))
    const swap = order[k]
    order[k] = order[l]
    order[l] = swap
  }
}

function reweigh({ weight }: Crowd, losses: Float64Array): void {
  let most = 0
  for (let p = 0; p < losses.length; p++) if (losses[p] > most) most = losses[p]
  for (let p = 0; p < losses.length; p++) {
    if (losses[p] > 0) weight[p] *= raiseLeast + ((raiseMost - raiseLeast) * losses[p]) / most
    else weight[p] = Math.max(1, weight[p] * lower)
  }
}
