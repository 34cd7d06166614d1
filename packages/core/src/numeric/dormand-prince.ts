/**
 * One step of y' = f(t, y) by the embedded Runge–Kutta pair of order 5(4), with continuous output of order 4.
 *
 *   y₁ = y₀ + h Σ bᵢ kᵢ          kᵢ = f(t₀ + cᵢ h, y₀ + h Σ aᵢⱼ kⱼ)          e = h Σ eᵢ kᵢ
 *   y(t₀ + θ h) = r₁ + θ (r₂ + (1 − θ)(r₃ + θ (r₄ + (1 − θ) r₅)))
 *
 * Sources: coefficients, Dormand & Prince, A family of embedded Runge–Kutta formulae, J. Comp. Appl. Math. 6 (1980) 19–26,
 * Table 2 (RK5(4)7M). First step and continuous output: Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I,
 * 2nd ed. (1993), sections II.4 and II.6 (recalled; the tests measure the orders).
 */
import { invariant } from '../issue.ts'

export type Derivative = (t: number, y: Float64Array, dydt: Float64Array) => void

/** One accepted step with the coefficients r of its continuous output. */
export interface DenseStep {
  readonly t: number
  readonly h: number
  readonly r: readonly Float64Array[]
}

export function stateInStep({ t: t0, h, r }: DenseStep, t: number): Float64Array {
  const theta = (t - t0) / h
  const rest = 1 - theta
  return r[0].map((r1, i) => r1 + theta * (r[1][i] + rest * (r[2][i] + theta * (r[3][i] + rest * r[4][i]))))
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

export interface StepperOptions {
  readonly f: Derivative
  readonly y0: ArrayLike<number>
  readonly relative: number
  readonly absolute: number | ArrayLike<number>
  readonly maximumStep: number
}

export interface Stepper {
  /** Takes up a state at the start of a stretch in which f is smooth; returns a first step. f is called inside it only. */
  readonly start: (from: number, to: number, state: Float64Array) => number
  /** Tries a step; returns its error, scaled so that 1 is what is allowed. */
  readonly attempt: (t: number, h: number) => number
  /** Makes the step last tried the state. */
  readonly accept: (t: number, h: number) => DenseStep
  readonly state: () => Float64Array
}

interface Work {
  readonly f: Derivative
  readonly n: number
  readonly relative: number
  readonly allowed: Float64Array
  readonly k: readonly Float64Array[]
  /** After an attempt: y₁, and k₇ is its slope. */
  readonly stage: Float64Array
  y: Float64Array
  from: number
  to: number
}

export function makeStepper({ f, y0, relative, absolute, maximumStep }: StepperOptions): Stepper {
  const n = y0.length
  const allowed = typeof absolute === 'number' ? new Float64Array(n).fill(absolute) : Float64Array.from(absolute)
  invariant(allowed.length === n, `${allowed.length} absolute tolerances for ${n} components`)
  const k = Array.from({ length: 7 }, () => new Float64Array(n))
  const work: Work = {
    f,
    n,
    relative,
    allowed,
    k,
    stage: new Float64Array(n),
    y: Float64Array.from(y0),
    from: 0,
    to: 0,
  }
  return {
    start: (from, to, state) => {
      Object.assign(work, { from, to, y: Float64Array.from(state) })
      return Math.min(firstStep(work), maximumStep)
    },
    attempt: (t, h) => {
      for (let s = 1; s < 7; s++) evaluate(work, s, { t, h })
      const error = new Float64Array(n)
      for (let s = 0; s < 7; s++) for (let i = 0; i < n; i++) error[i] += h * e[s] * k[s][i]
      return norm(work, error, work.stage)
    },
    accept: (t, h) => {
      const step = { t, h, r: continuousOutput(work, h) }
      work.y = Float64Array.from(work.stage)
      k[0].set(k[6])
      return step
    },
    state: () => work.y.slice(),
  }
}

function norm({ n, allowed, relative, y }: Work, v: Float64Array, u: Float64Array): number {
  let sum = 0
  for (let i = 0; i < n; i++) {
    sum += (v[i] / (allowed[i] + relative * Math.max(Math.abs(y[i]), Math.abs(u[i])))) ** 2
  }
  return Math.sqrt(sum / n)
}

/** Slope of stage s; its time is kept strictly inside the stretch, where f may jump at the ends. */
function evaluate({ f, n, k, stage, y, from, to }: Work, s: number, { t, h }: { t: number; h: number }): void {
  stage.set(y)
  for (let j = 0; j < s; j++) {
    const factor = h * a[s][j]
    if (factor !== 0) for (let i = 0; i < n; i++) stage[i] += factor * k[j][i]
  }
  const margin = 2 * Number.EPSILON * Math.max(Math.abs(from), Math.abs(to))
  f(Math.min(Math.max(t + c[s] * h, from + margin), to - margin), stage, k[s])
}

/** From the size of y, of y' and of its change (Hairer et al. II.4). */
function firstStep(work: Work): number {
  const { y, k, from, to } = work
  evaluate(work, 0, { t: from, h: 0 })
  const [d0, d1] = [norm(work, y, y), norm(work, k[0], y)]
  const guess = Math.min(d0 < 1e-5 || d1 < 1e-5 ? 1e-6 : (0.01 * d0) / d1, to - from)
  evaluate(work, 1, { t: from, h: 5 * guess }) // c₂ = 1/5: the slope after one Euler step of length `guess`
  const d2 =
    norm(
      work,
      k[1].map((v, i) => v - k[0][i]),
      y,
    ) / guess
  const most = Math.max(d1, d2)
  const h = most <= 1e-15 ? Math.max(1e-6, guess * 1e-3) : (0.01 / most) ** 0.2
  return Math.min(100 * guess, h, to - from)
}

function continuousOutput({ n, k, y, stage }: Work, h: number): Float64Array[] {
  const r = Array.from({ length: 5 }, () => new Float64Array(n))
  for (let i = 0; i < n; i++) {
    const rise = stage[i] - y[i]
    r[0][i] = y[i]
    r[1][i] = rise
    r[2][i] = h * k[0][i] - rise
    r[3][i] = rise - h * k[6][i] - r[2][i]
    for (let s = 0; s < 7; s++) r[4][i] += h * d[s] * k[s][i]
  }
  return r
}
