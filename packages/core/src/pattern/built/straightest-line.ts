/**
 * The straightest line on a bay's surface from a point in a direction: a geodesic, in the surface's coordinates (a, s).
 *
 *   u″ⁱ + Γⁱ_jk u′ʲ u′ᵏ = 0,    Γ from the metric g_jk = P_j · P_k,    by Runge–Kutta of fourth order in steps of at most 0.5 mm
 *
 * The metric comes from central differences of the surface. Where (a, s) unrolls the surface it is constant and the line is
 * straight in (a, s) to rounding.
 */
import type { Place, Surface } from './built-bay.ts'
import type { Joint } from './yarn-net.ts'

export interface LineStart {
  readonly a: number
  readonly s: number
  /** Direction; made of unit length on the surface. */
  readonly da: number
  readonly ds: number
  readonly step: number
  readonly count: number
}

type State = readonly [number, number, number, number]

/** The start and `count` places after it, `step` apart along the line. */
export function straightestLine(bay: Surface, { a, s, da, ds, step, count }: LineStart): readonly Joint[] {
  const [E, F, G] = metric(bay, a, s)
  const size = Math.sqrt(E * da * da + 2 * F * da * ds + G * ds * ds)
  let state: State = [a, s, da / size, ds / size]
  const joints: Joint[] = [{ a, s, place: bay.at(a, s) }]
  const parts = Math.ceil(step / 5e-4)
  const h = step / parts
  for (let k = 0; k < count; k++) {
    for (let n = 0; n < parts; n++) state = advanced(bay, state, h)
    if (!state.every(Number.isFinite)) break
    joints.push({ a: state[0], s: state[1], place: bay.at(state[0], state[1]) })
  }
  return joints
}

function advanced(bay: Surface, y: State, h: number): State {
  const k1 = slope(bay, y)
  const k2 = slope(bay, moved(y, k1, h / 2))
  const k3 = slope(bay, moved(y, k2, h / 2))
  const k4 = slope(bay, moved(y, k3, h))
  return y.map((v, i) => v + (h / 6) * (k1[i]! + 2 * k2[i]! + 2 * k3[i]! + k4[i]!)) as unknown as State
}

const moved = (y: State, k: State, h: number): State => [
  y[0] + h * k[0],
  y[1] + h * k[1],
  y[2] + h * k[2],
  y[3] + h * k[3],
]

function slope(bay: Surface, [a, s, u, v]: State): State {
  const e = 1e-4
  const [E, F, G] = metric(bay, a, s)
  const [Ea, Fa, Ga] = difference(metric(bay, a + e, s), metric(bay, a - e, s), e)
  const [Es, Fs, Gs] = difference(metric(bay, a, s + e), metric(bay, a, s - e), e)
  // Lower-index acceleration, then raised with the inverse metric.
  const la = 0.5 * Ea * u * u + Es * u * v + (Fs - 0.5 * Ga) * v * v
  const ls = (Fa - 0.5 * Es) * u * u + Ga * u * v + 0.5 * Gs * v * v
  const det = E * G - F * F
  return [u, v, -(G * la - F * ls) / det, -(E * ls - F * la) / det]
}

type Metric = readonly [number, number, number]

function difference(b: Metric, a: Metric, e: number): Metric {
  return [(b[0] - a[0]) / (2 * e), (b[1] - a[1]) / (2 * e), (b[2] - a[2]) / (2 * e)]
}

function metric(bay: Surface, a: number, s: number): Metric {
  const e = 1e-5
  const da = rate(bay.at(a + e, s), bay.at(a - e, s), e)
  const ds = rate(bay.at(a, s + e), bay.at(a, s - e), e)
  return [dot(da, da), dot(da, ds), dot(ds, ds)]
}

const rate = (b: Place, a: Place, e: number): Place => [
  (b[0] - a[0]) / (2 * e),
  (b[1] - a[1]) / (2 * e),
  (b[2] - a[2]) / (2 * e),
]

const dot = (u: Place, v: Place): number => u[0] * v[0] + u[1] * v[1] + u[2] * v[2]
