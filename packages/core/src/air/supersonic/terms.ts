/**
 * Terms of the potential of a box: its integral inside the forward Mach cone and the moments by which a slowly varying factor is
 * expanded there (`influence.ts`). Kept in one growing array, `width` numbers a term.
 */
import { boxMoments } from './box-moments.ts'
import { type BoxInCone, boxIntegral } from './cone-integral.ts'

export interface Terms {
  readonly count: number
  readonly entries: number
  /** Entry each term belongs to. */
  readonly entry: Int32Array
  /** By term: W, ξ, R, v_ξξ, T, G, H. */
  readonly values: Float64Array
}

export const width = 7

export interface TermStore {
  /** Adds a box with a factor on its strength to the entry under way; false when the box does not reach into the cone. */
  readonly add: (box: BoxInCone, factor: number) => boolean
  /** Closes the entry under way and gives its number, −1 if nothing was added. */
  readonly close: () => number
  readonly taken: () => Terms
}

export function termStore(): TermStore {
  let values = new Float64Array(width * 4096)
  let entry = new Int32Array(4096)
  let [count, entries, open] = [0, 0, false]
  const add = (box: BoxInCone, factor: number): boolean => {
    const W = boxIntegral(box)
    if (!(W > 0)) return false
    if (count === entry.length) {
      entry = grown(entry, new Int32Array(2 * count))
      values = grown(values, new Float64Array(2 * width * count))
    }
    entry[count] = entries
    writeTerm(values, width * count, box, factor * W)
    count++
    open = true
    return true
  }
  const close = (): number => {
    if (!open) return -1
    open = false
    return entries++
  }
  const taken = () => ({ count, entries, entry: entry.slice(0, count), values: values.slice(0, width * count) })
  return { add, close, taken }
}

function grown<A extends Float64Array | Int32Array>(from: A, to: A): A {
  to.set(from)
  return to
}

function writeTerm(values: Float64Array, at: number, box: BoxInCone, W: number): void {
  const { xi, eta, xiXi, xiEta, etaEta } = boxMoments(box)
  const b2 = box.beta * box.beta
  const e = b2 * eta
  values[at] = W
  values[at + 1] = xi
  values[at + 2] = Math.sqrt(Math.max(0, xi * xi - e * eta))
  values[at + 3] = xiXi
  values[at + 4] = xiXi - b2 * etaEta
  values[at + 5] = xi * xi * xiXi - 2 * xi * e * xiEta + e * e * etaEta
  values[at + 6] = 2 * (xi * xiXi - e * xiEta)
}
