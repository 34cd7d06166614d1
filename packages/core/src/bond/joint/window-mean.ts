/**
 * Mean tractions over a stated length of a line: a measure of stress that a re-entrant corner does not make infinite.
 *
 *   t̄ = (1/ℓ) ∫ t ds over [s, s + ℓ]
 *
 * At the corner where stiff core, adhesive and tube meet, elastic stress grows without bound as the mesh shrinks, but like a
 * power of the distance above −1, so that its mean over a length has a limit. Averaging over a length of the material stands
 * behind the line method of Taylor, The Theory of Critical Distances (2007), chapter 2 (recalled); the length used here is
 * the caller's, see `averagingLength` in allowable.ts.
 *
 * Windows start at the line's beginning, at every end and middle of a side, and one ends at the line's end. A line shorter
 * than the length is one window.
 */
import type { LineTraction } from './tee-lines.ts'

/** Means over each window, Pa; the same windows for every load on one section. */
export interface WindowMeans {
  readonly normal: Float64Array
  readonly along: Float64Array
}

export function windowMeans(line: LineTraction, length: number): WindowMeans {
  const ends = cumulative(line.length)
  const total = ends[ends.length - 1]
  const window = Math.min(length, total)
  const starts = windowStarts(line.length, ends, total - window)
  const mean = (values: Float64Array): Float64Array => {
    const integral = runningIntegral(line.length, ends, values)
    return starts.map((s) => (integral(s + window) - integral(s)) / window)
  }
  return { normal: mean(line.normal), along: mean(line.along) }
}

function cumulative(length: Float64Array): Float64Array {
  const ends = new Float64Array(length.length + 1)
  length.forEach((l, n) => {
    ends[n + 1] = ends[n] + l
  })
  return ends
}

function windowStarts(length: Float64Array, ends: Float64Array, last: number): Float64Array {
  const starts = [last]
  for (let n = 0; n < length.length; n++)
    for (const s of [ends[n], ends[n] + length[n] / 2]) if (s < last) starts.push(s)
  return Float64Array.from(starts)
}

/** ∫ from the line's beginning to s; a side's values stand at ±1/√3 of its half length and are linear. */
function runningIntegral(length: Float64Array, ends: Float64Array, values: Float64Array): (s: number) => number {
  const part = (n: number, x: number): number => {
    const [a, b] = [values[2 * n], values[2 * n + 1]]
    return (length[n] / 2) * (((a + b) / 2) * (x + 1) + (((b - a) * Math.sqrt(3)) / 4) * (x * x - 1))
  }
  const sums = new Float64Array(ends.length)
  for (let n = 0; n < length.length; n++) sums[n + 1] = sums[n] + part(n, 1)
  return (s) => {
    let n = 0
    while (n < length.length - 1 && ends[n + 1] <= s) n++
    return sums[n] + part(n, Math.min(1, (2 * (s - ends[n])) / length[n] - 1))
  }
}
