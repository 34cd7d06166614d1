/**
 * A better place for one piece among the others: samples all over the strip, near where the piece lies and where it would
 * lie closest against another one, then the best of them refined by a pattern search of shrinking steps, along an axis or a
 * diagonal by turns (sampling and refining after Gardeyn & Wauters, An open-source heuristic to reboot 2D nesting
 * research (2025); recalled).
 */
import { type Around, type Crowd, lookAround, lossAt, narrow } from './crowd.ts'
import { mateOf } from './mates.ts'
import type { Random } from './random.ts'

/** Samples, over all turns of the piece; chosen by trial. */
const strewn = 24
const nearby = 12
const mated = 8
const kept = 3

/** Steps of the pattern search as shares of the piece's lesser extent; the last is one grid unit. */
const firstStep = 0.2
const middleStep = 0.01

interface Candidate {
  turn: number
  x: number
  y: number
  loss: number
}

/** The best samples, least loss first. Shared between calls: nothing is allocated on the way. */
const best: Candidate[] = Array.from({ length: kept }, () => ({ turn: 0, x: 0, y: 0, loss: Infinity }))

/** Moves piece i to the least weighted loss found, unless where it lies is as good. */
export function relocate(crowd: Crowd, i: number, random: Random): void {
  const { X, Y, at, around } = crowd
  const { pairs, shapes, variants } = crowd.problem
  const first = at[i] - (at[i] % 4)
  const { turns } = shapes[first >> 2]
  for (let t = 0; t < turns.length; t++) lookAround(crowd, around[t], i, first + turns[t])
  const now = turns.indexOf(at[i] % 4)
  const current = lossAt(pairs, around[now], X[i], Y[i], Infinity)
  if (current === 0) return
  for (const candidate of best) candidate.loss = Infinity
  keep(now, X[i], Y[i], current)
  for (let t = 0; t < turns.length; t++) {
    if (fitsStrip(crowd, first + turns[t])) sample(crowd, i, t, first + turns[t], 1 / turns.length, random)
  }
  const { minX, maxX, minY, maxY } = variants[at[i]]!
  const size = Math.min(maxX - minX, maxY - minY)
  const steps = { first: firstStep * size, last: middleStep * size }
  let winner = best[0]
  for (const candidate of best) {
    if (candidate.loss === Infinity) break
    refine(crowd, first + turns[candidate.turn], candidate, steps, random)
    if (candidate.loss < winner.loss) winner = candidate
    if (winner.loss === 0) break
  }
  refine(crowd, first + turns[winner.turn], winner, { first: middleStep * size, last: 1 }, random)
  if (!(winner.loss < current)) return
  X[i] = winner.x
  Y[i] = winner.y
  at[i] = first + turns[winner.turn]
}

/** Looks at places of one turn; `share` of the samples are its. */
function sample(crowd: Crowd, i: number, t: number, variant: number, share: number, random: Random): void {
  const { X, Y, around } = crowd
  const { pairs, variants } = crowd.problem
  const { minX, maxX, minY, maxY } = variants[variant]!
  const { loX, hiX, loY, hiY } = rangeOf(crowd, variant)
  const reach = Math.max(maxX - minX, maxY - minY)
  const look = (x: number, y: number): void => {
    keep(t, x, y, lossAt(pairs, around[t], x, y, best[kept - 1].loss))
  }
  for (let n = strewn * share; n > 0; n--) {
    look(Math.round(loX + random() * (hiX - loX)), Math.round(loY + random() * (hiY - loY)))
  }
  for (let n = nearby * share; n > 0; n--) {
    const x = clamp(Math.round(X[i] + (random() - 0.5) * reach), loX, hiX)
    look(x, clamp(Math.round(Y[i] + (random() - 0.5) * reach), loY, hiY))
  }
  for (let n = mated * share; n > 0 && around[t].count > 0; n--) {
    const k = Math.floor(random() * around[t].count)
    const mate = mateOf(pairs, around[t].pair[k], random)
    const x = around[t].x[k] + mate.x
    const y = around[t].y[k] + mate.y
    if (x >= loX && x <= hiX && y >= loY && y <= hiY) look(x, y)
  }
}

function keep(turn: number, x: number, y: number, loss: number): void {
  if (!(loss < best[kept - 1].loss)) return
  const last = best[kept - 1]
  let k = kept - 1
  for (; k > 0 && best[k - 1].loss > loss; k--) best[k] = best[k - 1]
  best[k] = last
  last.turn = turn
  last.x = x
  last.y = y
  last.loss = loss
}

export interface Range {
  readonly loX: number
  readonly hiX: number
  readonly loY: number
  readonly hiY: number
}

/** Where the origin of a variant may be for it to lie on the strip. */
export function rangeOf({ problem, length }: Crowd, variant: number): Range {
  const { minX, maxX, minY, maxY } = problem.variants[variant]!
  return { loX: -minX, hiX: Math.max(-minX, length - maxX), loY: -minY, hiY: Math.max(-minY, problem.width - maxY) }
}

/** Whether a variant can lie on the strip at all. */
export function fitsStrip({ problem, length }: Crowd, variant: number): boolean {
  const { minX, maxX, minY, maxY } = problem.variants[variant]!
  return maxX - minX <= length && maxY - minY <= problem.width
}

export const clamp = (value: number, lo: number, hi: number): number => Math.max(lo, Math.min(hi, value))

/** Pattern search: both ways along a direction; the steps grow a little on success and halve on failure. */
function refine(
  crowd: Crowd,
  variant: number,
  from: Candidate,
  steps: { readonly first: number; readonly last: number },
  random: Random,
): void {
  const { pairs } = crowd.problem
  const wide: Around = crowd.around[from.turn]
  const { close } = crowd
  const { loX, hiX, loY, hiY } = rangeOf(crowd, variant)
  const reach = 4 * steps.first
  let { x, y, loss } = from
  let [stepX, stepY, midX, midY] = [steps.first, steps.first, x, y]
  narrow(wide, x, y, reach, close)
  while (loss > 0 && (stepX > steps.last || stepY > steps.last)) {
    const kind = Math.floor(random() * 4)
    const u = kind === 1 ? 0 : stepX
    const v = kind === 0 ? 0 : kind === 3 ? -stepY : stepY
    if (Math.abs(x - midX) + stepX > reach || Math.abs(y - midY) + stepY > reach) {
      midX = x
      midY = y
      narrow(wide, x, y, Math.max(reach, stepX, stepY), close)
    }
    const ax = clamp(Math.round(x + u), loX, hiX)
    const ay = clamp(Math.round(y + v), loY, hiY)
    const bx = clamp(Math.round(x - u), loX, hiX)
    const by = clamp(Math.round(y - v), loY, hiY)
    const a = lossAt(pairs, close, ax, ay, loss)
    const b = a === 0 ? Infinity : lossAt(pairs, close, bx, by, Math.min(a, loss))
    const better = a < loss || b < loss
    if (better) {
      x = b < a ? bx : ax
      y = b < a ? by : ay
      loss = Math.min(a, b)
    }
    const factor = better ? 1.1 : 0.5
    if (kind !== 1) stepX *= factor
    if (kind !== 0) stepY *= factor
  }
  from.x = x
  from.y = y
  from.loss = loss
}
