/**
 * Ordinary differential equations y' = f(t, y), with adaptive step, continuous output and location of events.
 *
 *   a step stands when  error = sqrt(mean((eᵢ / (absoluteᵢ + relative · max(|y₀ᵢ|, |y₁ᵢ|)))²)) ≤ 1
 *   next step           h ← h · min(5, max(0.2, 0.9 error^(−1/5))), not longer right after a rejected one
 *
 * The steps are those of Dormand and Prince (dormand-prince.ts). Step control: Hairer, Nørsett & Wanner, Solving Ordinary
 * Differential Equations I, 2nd ed. (1993), section II.4 (recalled).
 */
import { invariant } from '../issue.ts'
import { type DenseStep, type Derivative, makeStepper, stateInStep } from './dormand-prince.ts'

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

const safety = 0.9
const mostShrink = 0.2
const mostGrowth = 5
/** Where in a step events are looked at before the crossing is narrowed down. */
const eventSamples = 8

export function integrate(options: IntegrateOptions): Trajectory {
  const { t0, t1, events = [], maximumSteps = 100_000 } = options
  invariant(t1 >= t0, `integration runs forward; t0 = ${t0}, t1 = ${t1}`)
  const stepper = makeStepper({ relative: 1e-8, absolute: 1e-10, maximumStep: Number.POSITIVE_INFINITY, ...options })
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
