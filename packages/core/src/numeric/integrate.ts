/**
 * Ordinary differential equations y' = f(t, y): the embedded Runge–Kutta pair of order 5(4) with adaptive step, continuous
 * output of order 4 and location of events.
 *
 *   y₁ = y₀ + h Σ bᵢ kᵢ          kᵢ = f(t₀ + cᵢ h, y₀ + h Σ aᵢⱼ kⱼ)          error = h Σ eᵢ kᵢ
 *   a step stands when  sqrt(mean((errorᵢ / (absoluteᵢ + relative · max(|y₀ᵢ|, |y₁ᵢ|)))²)) ≤ 1
 *
 * Sources: coefficients, Dormand & Prince, A family of embedded Runge–Kutta formulae, J. Comp. Appl. Math. 6 (1980) 19–26,
 * Table 2 (RK5(4)7M). First step, step control and continuous output: Hairer, Nørsett & Wanner, Solving Ordinary
 * Differential Equations I, 2nd ed. (1993), sections II.4 and II.6 (recalled; the tests measure the orders).
 */
import { invariant } from '../issue.ts'

export type Derivative = (t: number, y: Float64Array, dydt: Float64Array) => void

export interface IntegrateOptions {
  /** Writes y' into `dydt`. Called only strictly between breakpoints, so it may jump at a breakpoint. */
  readonly f: Derivative
  readonly t0: number
  /** Must not lie before `t0`. */
  readonly t1: number
  readonly y0: ArrayLike<number>
  /** Error allowed in a step, as a share of |y|. Default 1e-8. */
  readonly relative?: number
  /** Error allowed in a step near y = 0, one number or one a component. Default 1e-10. */
  readonly absolute?: number | ArrayLike<number>
  /** Each is an event when its value falls from above zero to zero or below; the first one to do so ends the run. */
  readonly events?: readonly ((t: number, y: Float64Array) => number)[]
  /** Times at which f jumps or has a kink: steps end there exactly. Any order; those outside (t0, t1) are ignored. */
  readonly breakpoints?: readonly number[]
  /** Default: no limit. */
  readonly maximumStep?: number
  /** Accepted and rejected together. Default 100 000. */
  readonly maximumSteps?: number
}

/** One accepted step with its continuous output: y(t₀ + θ h) = r₁ + θ (r₂ + (1 − θ)(r₃ + θ (r₄ + (1 − θ) r₅))). */
export interface DenseStep {
  readonly t: number
  readonly h: number
  readonly r: readonly Float64Array[]
}

export interface Trajectory {
  /** `end`: t1 reached. `event`: stopped there. `not-converged`: step limit or vanishing step; what came before stands. */
  readonly kind: 'end' | 'event' | 'not-converged'
  /** Step ends, `t0` first. */
  readonly t: readonly number[]
  readonly y: readonly Float64Array[]
  /** Index into `events` of the one that ended the run, else null. */
  readonly event: number | null
  readonly dense: readonly DenseStep[]
  readonly steps: number
  readonly rejected: number
}

const c = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1]
// biome-ignore format: one row a stage, as in Table 2 of Dormand & Prince (1980)
const a = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
]
/** Fifth-order minus fourth-order weights. */
const e = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40]
/** Continuous output, Hairer, Nørsett & Wanner (1993), as in their program DOPRI5 (recalled). */
const d = [
  -12715105075 / 11282082432,
  0,
  87487479700 / 32700410799,
  -10690763975 / 1880347072,
  701980252875 / 199316789632,
  -1453857185 / 822651844,
  69997945 / 29380423,
]

const safety = 0.9
const mostShrink = 0.2
const mostGrowth = 5
/** Where in a step events are looked at before the crossing is narrowed down. */
const eventSamples = 8

export function integrate(options: IntegrateOptions): Trajectory {
  const { t0, t1, events = [], maximumSteps = 100_000 } = options
  invariant(t1 >= t0, `integration runs forward; t0 = ${t0}, t1 = ${t1}`)
  const stepper = makeStepper(options)
  const t: number[] = [t0]
  const y: Float64Array[] = [Float64Array.from(options.y0)]
  const dense: DenseStep[] = []
  let armed = events.map((g) => g(t0, y[0]))
  let rejected = 0
  const result = (kind: Trajectory['kind'], event: number | null = null): Trajectory => {
    return { kind, t, y, event, dense, steps: dense.length, rejected }
  }
  for (const [from, to] of segments(options)) {
    let now = from
    let h = stepper.start(from, to, y[y.length - 1])
    let grow = mostGrowth
    while (now < to) {
      if (dense.length + rejected >= maximumSteps) return result('not-converged')
      // A last step shorter than a hundredth of a step is joined to the one before it.
      const last = now + 1.01 * h >= to
      if (last) h = to - now
      if (!(h > 4 * Number.EPSILON * Math.max(Math.abs(now), Math.abs(to)))) return result('not-converged')
      const error = stepper.attempt(now, h)
      const factor = Number.isFinite(error) ? safety * Math.max(error, 1e-10) ** -0.2 : mostShrink
      if (!(error <= 1)) {
        rejected++
        h *= Math.min(safety, Math.max(mostShrink, factor))
        grow = 1
        continue
      }
      const step = stepper.accept(now, h)
      dense.push(step)
      const crossing = firstCrossing(step, events, armed)
      if (crossing !== null) {
        t.push(crossing.t)
        y.push(stateInStep(step, crossing.t))
        return result('event', crossing.event)
      }
      now = last ? to : now + h
      t.push(now)
      y.push(stepper.state())
      armed = events.map((g) => g(now, y[y.length - 1]))
      h = Math.min(h * Math.min(grow, Math.max(mostShrink, factor)), options.maximumStep ?? Number.POSITIVE_INFINITY)
      grow = mostGrowth
    }
  }
  return result('end')
}

/** The state at time t, by continuous output; t is held to the span of the trajectory. */
export function stateAt({ dense, t: times, y }: Trajectory, t: number): Float64Array {
  const end = times.length - 1
  if (dense.length === 0 || t <= times[0]) return y[0].slice()
  if (t >= times[end]) return y[end].slice()
  let low = 0
  let high = dense.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (dense[middle].t <= t) low = middle
    else high = middle - 1
  }
  return stateInStep(dense[low], t)
}

function segments({ t0, t1, breakpoints = [] }: IntegrateOptions): [number, number][] {
  const inner = [...new Set(breakpoints)].filter((t) => t > t0 && t < t1).sort((p, q) => p - q)
  const ends = [t0, ...inner, t1]
  return ends.slice(1).map((to, i) => [ends[i], to])
}

function makeStepper({ f, y0, relative = 1e-8, absolute = 1e-10, maximumStep }: IntegrateOptions) {
  const n = y0.length
  const allowed = typeof absolute === 'number' ? new Float64Array(n).fill(absolute) : Float64Array.from(absolute)
  invariant(allowed.length === n, `${allowed.length} absolute tolerances for ${n} components`)
  const k = Array.from({ length: 7 }, () => new Float64Array(n))
  const stage = new Float64Array(n)
  let y = Float64Array.from(y0)
  let inside: (t: number) => number = (t) => t

  const norm = (v: Float64Array, u: Float64Array): number => {
    let sum = 0
    for (let i = 0; i < n; i++) {
      sum += (v[i] / (allowed[i] + relative * Math.max(Math.abs(y[i]), Math.abs(u[i])))) ** 2
    }
    return Math.sqrt(sum / n)
  }
  const evaluate = (s: number, t: number, h: number): void => {
    stage.set(y)
    for (let j = 0; j < s; j++) {
      const factor = h * a[s][j]
      if (factor !== 0) for (let i = 0; i < n; i++) stage[i] += factor * k[j][i]
    }
    f(inside(t + c[s] * h), stage, k[s])
  }

  /** First step of a segment, from the size of y, of y' and of its change (Hairer et al. II.4). */
  const start = (from: number, to: number, state: Float64Array): number => {
    y = Float64Array.from(state)
    const margin = 2 * Number.EPSILON * Math.max(Math.abs(from), Math.abs(to))
    inside = (t) => Math.min(Math.max(t, from + margin), to - margin)
    evaluate(0, from, 0)
    const [d0, d1] = [norm(y, y), norm(k[0], y)]
    const guess = Math.min(d0 < 1e-5 || d1 < 1e-5 ? 1e-6 : (0.01 * d0) / d1, to - from)
    evaluate(1, from, 5 * guess) // c₂ = 1/5: the slope after one Euler step of length `guess`
    const change = k[1].map((v, i) => v - k[0][i])
    const d2 = norm(change, y) / guess
    const most = Math.max(d1, d2)
    const h = most <= 1e-15 ? Math.max(1e-6, guess * 1e-3) : (0.01 / most) ** 0.2
    return Math.min(100 * guess, h, to - from, maximumStep ?? Number.POSITIVE_INFINITY)
  }
  /** Tries a step and returns its scaled error; `stage` is then y₁ and k₇ its slope. */
  const attempt = (t: number, h: number): number => {
    for (let s = 1; s < 7; s++) evaluate(s, t, h)
    const error = new Float64Array(n)
    for (let s = 0; s < 7; s++) for (let i = 0; i < n; i++) error[i] += h * e[s] * k[s][i]
    return norm(error, stage)
  }
  const accept = (t: number, h: number): DenseStep => {
    const r = Array.from({ length: 5 }, () => new Float64Array(n))
    for (let i = 0; i < n; i++) {
      const rise = stage[i] - y[i]
      r[0][i] = y[i]
      r[1][i] = rise
      r[2][i] = h * k[0][i] - rise
      r[3][i] = rise - h * k[6][i] - r[2][i]
      for (let s = 0; s < 7; s++) r[4][i] += h * d[s] * k[s][i]
    }
    y = Float64Array.from(stage)
    k[0].set(k[6])
    return { t, h, r }
  }
  return { start, attempt, accept, state: () => y.slice() }
}

function stateInStep({ t: t0, h, r }: DenseStep, t: number): Float64Array {
  const theta = (t - t0) / h
  const rest = 1 - theta
  return r[0].map((r1, i) => r1 + theta * (r[1][i] + rest * (r[2][i] + theta * (r[3][i] + rest * r[4][i]))))
}

interface Crossing {
  readonly t: number
  readonly event: number
}

/** `before` are the events' values at the start of the step. */
function firstCrossing(
  step: DenseStep,
  events: NonNullable<IntegrateOptions['events']>,
  before: readonly number[],
): Crossing | null {
  let first: Crossing | null = null
  for (const [event, g] of events.entries()) {
    const value = (t: number): number => g(t, stateInStep(step, t))
    let above = before[event] > 0 ? step.t : null
    for (let s = 1; s <= eventSamples; s++) {
      const t = step.t + (s / eventSamples) * step.h
      if (value(t) > 0) above = t
      else if (above !== null) {
        const crossing = bisect(value, above, t)
        if (first === null || crossing < first.t) first = { t: crossing, event }
        break
      }
    }
  }
  return first
}

/** The last point found at which `value` is no longer positive: exact to the spacing of numbers. */
function bisect(value: (t: number) => number, above: number, below: number): number {
  while (true) {
    const middle = above + 0.5 * (below - above)
    if (!(middle > above && middle < below)) return below
    if (value(middle) > 0) above = middle
    else below = middle
  }
}
