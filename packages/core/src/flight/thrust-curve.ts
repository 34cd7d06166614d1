/**
 * A motor as points of thrust against time: straight between the points, nothing before the first and after the last.
 *
 *   I(t) = ∫ F dt   exact for straight pieces      m(t) = m₀ − m_p I(t) / I(∞)
 *
 * Propellant is spent in proportion to impulse: constant exhaust velocity, the usual assumption where only a thrust curve is
 * known (common practice, no source).
 */
import { invariant } from '../issue.ts'

export interface ThrustPoints {
  readonly time: readonly number[]
  readonly thrust: readonly number[]
}

export interface ThrustCurve {
  readonly thrust: (t: number) => number
  /** Impulse delivered until t. */
  readonly impulse: (t: number) => number
  readonly totalImpulse: number
  readonly ignition: number
  readonly burnout: number
}

export function thrustCurve({ time, thrust }: ThrustPoints): ThrustCurve {
  const n = time.length
  invariant(n >= 2 && thrust.length === n, `thrust curve of ${n} times and ${thrust.length} thrusts`)
  for (let i = 1; i < n; i++) invariant(time[i] > time[i - 1], `thrust curve: time ${i} does not rise`)
  const spent = [0]
  for (let i = 1; i < n; i++) {
    spent.push(spent[i - 1] + ((thrust[i] + thrust[i - 1]) / 2) * (time[i] - time[i - 1]))
  }
  const thrustIn = (i: number, t: number): number =>
    thrust[i] + ((thrust[i + 1] - thrust[i]) * (t - time[i])) / (time[i + 1] - time[i])
  const inside = (t: number): boolean => t >= time[0] && t <= time[n - 1]
  return {
    thrust: (t) => (inside(t) ? thrustIn(pieceOf(time, t), t) : 0),
    impulse: (t) => {
      if (!inside(t)) return t < time[0] ? 0 : spent[n - 1]
      const i = pieceOf(time, t)
      return spent[i] + ((thrust[i] + thrustIn(i, t)) / 2) * (t - time[i])
    },
    totalImpulse: spent[n - 1],
    ignition: time[0],
    burnout: time[n - 1],
  }
}

/** The i with xᵢ ≤ x < xᵢ₊₁, held to the first and last piece; `xs` rising. */
export function pieceOf(xs: readonly number[], x: number): number {
  let low = 0
  let high = xs.length - 2
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (xs[middle] <= x) low = middle
    else high = middle - 1
  }
  return low
}
