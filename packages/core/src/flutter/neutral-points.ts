/**
 * All points of neutral stability, by a sweep over the reduced frequency: nothing is followed over the speed.
 *
 *   at s = i ω, V = ω b/k:    Ω⁻¹ (k² I + ½ ρ b² Q(k)) Ω⁻¹ y = μ (1 + i g) y        μ = (k/ω)² = (b/V)²
 *
 * A neutral point is where an eigenvalue μ is real and positive. Eigenvalues are followed over k by nearness, k in steps that are halved
 * while a pairing is in doubt; a change of the sign of Im μ gives the guess that Newton (root-kernel.ts) makes exact. The same points as
 * those of p-k, whose aerodynamics agree with Q just there. Source: the V-g method with the artificial damping set to naught;
 * Bisplinghoff, Ashley & Halfman, Aeroelasticity (1955), section 9-5 (recalled).
 */
import { complexEigenvalues } from '../numeric/complex-eigen.ts'
import { type ComplexVector, complexLu, complexMatrix, complexSolve, complexVector } from '../numeric/complex-matrix.ts'
import { firstSpeed } from './limits.ts'
import { type RootKernel, type RootState, rootKernel } from './root-kernel.ts'
import { type Aeroelastic, highest } from './roots.ts'

export interface NeutralPoints {
  /** Speed rising. */
  readonly points: readonly RootState[]
  /** Reduced frequencies looked at. */
  readonly steps: number
}

/** From one k to the next, and where halving ends: from there on every crossing that any pairing would show is tried. */
const coarsestRatio = 1.12
const leastRatio = 1 + 1e-3
/** An eigenvalue's departure from where it was going, as a share of its distance to the next one, up to which a pairing is sure. */
const surePairing = 0.25
/** Least reduced frequency; the highest is that of so many times the highest mode at the least speed. */
const slowest = 1e-3
const fastest = 1.5

interface Station {
  readonly k: number
  readonly mu: ComplexVector
  /** Derivative by ln k, by differences. */
  readonly slope: ComplexVector
}

/** Speeds between which points are wanted. */
export interface SpeedRange {
  readonly from: number
  readonly to: number
}

export function neutralPoints(
  system: Aeroelastic,
  range: SpeedRange = { from: firstSpeed(system) / 2, to: Number.POSITIVE_INFINITY },
  kernel: RootKernel = rootKernel(system),
): NeutralPoints {
  const points: RootState[] = []
  const keep = (ends: Ends): void => {
    const point = inRange(ends, system, range) ? neutralBetween(system, kernel, ends) : null
    if (point !== null && !points.some((other) => isSame(other, point))) points.push(point)
  }
  const start = eigenvaluesAt(system, slowest)
  let before: Station = { k: slowest, mu: start, slope: complexVector(kernel.n) }
  let from = before
  let steps = 1
  const end = (fastest * highest(system.omegas) * system.forces.referenceLength) / range.from
  while (from.k < end) {
    const { to, sure, tries } = nextStation(system, from, Math.min(end, from.k * coarsestRatio))
    steps += tries
    for (const [i, j] of signChanges(from.mu, to.mu, sure)) {
      keep({ k: [from.k, to.k], mu: [entry(from.mu, i), entry(to.mu, j)] })
    }
    for (const ends of touches(system, before, from, to)) keep(ends)
    before = from
    from = to
  }
  return { points: points.sort((a, b) => a.V - b.V), steps }
}

/** A root at neutral stability, or as good as; V, s and shape as in `RootState`. */
export interface Neutral extends RootState {
  /** The mode its branch comes from; −1 if it was not found by following. */
  readonly mode: number
}

/** The first neutral point in a range of speeds. */
export function leastNeutral(system: Aeroelastic, kernel: RootKernel, range: SpeedRange): Neutral | null {
  const first = neutralPoints(system, range, kernel).points.find(({ V }) => V >= range.from && V <= range.to)
  return first === undefined ? null : { ...first, mode: -1 }
}

/** The next station, at the k given or nearer, so that the pairing is sure if it can be. */
function nextStation(system: Aeroelastic, from: Station, farthest: number) {
  let k = farthest
  for (let tries = 1; ; tries++) {
    const found = eigenvaluesAt(system, k)
    const { order, sure } = paired(from, k, found)
    if (!sure && k / from.k > leastRatio) {
      k = Math.sqrt(from.k * k)
      continue
    }
    const width = Math.log(k / from.k)
    const re = Float64Array.from(order, (j) => found.re[j])
    const im = Float64Array.from(order, (j) => found.im[j])
    const slope = {
      re: re.map((v, i) => (v - from.mu.re[i]) / width),
      im: im.map((v, i) => (v - from.mu.im[i]) / width),
    }
    return { to: { k, mu: { re, im }, slope }, sure, tries }
  }
}

/** Where an eigenvalue's imaginary part comes nearest to zero about the middle station of three, and is beyond it there. */
function touches(system: Aeroelastic, before: Station, at: Station, after: Station): Ends[] {
  const ends: Ends[] = []
  const [x, z] = [Math.log(before.k / at.k), Math.log(after.k / at.k)]
  if (x === 0) return ends
  for (let i = 0; i < at.mu.re.length; i++) {
    const [p, q, r] = [before.mu.im[i], at.mu.im[i], after.mu.im[i]]
    if (p * q <= 0 || q * r <= 0 || Math.abs(q) > Math.abs(p) || Math.abs(q) > Math.abs(r)) continue
    // Parabola q + a t + c t² through the three; its lowest point.
    const [dp, dr] = [(p - q) / x, (r - q) / z]
    const c = (dr - dp) / (z - x)
    const t = (c * x - dp) / (2 * c)
    if (!(t > x && t < z) || (q + t * (dp - c * x + c * t)) * q > 0.5 * q * q) continue
    const k = at.k * Math.exp(t)
    const all = eigenvaluesAt(system, k)
    const going = { re: at.mu.re[i] + t * (t < 0 ? at.slope : after.slope).re[i], im: q }
    let best = 0
    for (let j = 1; j < all.re.length; j++)
      if (distance(entry(all, j), going) < distance(entry(all, best), going)) best = j
    const there = entry(all, best)
    if (there.im * q >= 0) continue
    ends.push(
      { k: [before.k, k], mu: [entry(before.mu, i), there] },
      { k: [k, after.k], mu: [there, entry(after.mu, i)] },
    )
  }
  return ends
}

interface Complex {
  readonly re: number
  readonly im: number
}

const entry = ({ re, im }: ComplexVector, i: number): Complex => ({ re: re[i], im: im[i] })

/** Pairs whose imaginary parts differ in sign; where the pairing is in doubt, of any two that are near. */
function signChanges(from: ComplexVector, to: ComplexVector, sure: boolean): [number, number][] {
  const found: [number, number][] = []
  const n = from.re.length
  for (let i = 0; i < n; i++) {
    const own = apart(from, i, to, i)
    for (let j = 0; j < n; j++) {
      const candidate = i === j || (!sure && apart(from, i, to, j) < 4 * own)
      if (candidate && from.im[i] * to.im[j] < 0 && (from.re[i] > 0 || to.re[j] > 0)) found.push([i, j])
    }
  }
  return found
}

const apart = (a: ComplexVector, i: number, b: ComplexVector, j: number): number =>
  Math.hypot(a.re[i] - b.re[j], a.im[i] - b.im[j])

function eigenvaluesAt({ omegas, structuralDamping: g, density, forces }: Aeroelastic, k: number): ComplexVector {
  const n = forces.n
  const { A0, A1 } = forces.at(k)
  const half = 0.5 * density * forces.referenceLength ** 2
  const M = complexMatrix(n)
  // 1/(1 + i g) and a scale that makes the largest of Ω⁻¹ one.
  const least = Math.min(...Array.from(omegas))
  const square = 1 + g * g
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const ij = i * n + j
      const over = least ** 2 / (omegas[i] * omegas[j])
      const re = over * ((i === j ? k * k : 0) + half * A0[ij])
      const im = over * half * k * A1[ij]
      M.re[ij] = (re + g * im) / square
      M.im[ij] = (im - g * re) / square
    }
  }
  const { re, im } = complexEigenvalues(M)
  return { re: re.map((v) => v / least ** 2), im: im.map((v) => v / least ** 2) }
}

/** For each eigenvalue its place among those at the next k: the nearest to where it was going, the surest first. */
function paired({ k, mu, slope }: Station, next: number, to: ComplexVector): { order: Int32Array; sure: boolean } {
  const n = mu.re.length
  const width = Math.log(next / k)
  const going = { re: mu.re.map((v, i) => v + width * slope.re[i]), im: mu.im.map((v, i) => v + width * slope.im[i]) }
  const pairs = Array.from({ length: n * n }, (_, ij) => {
    const [i, j] = [Math.floor(ij / n), ij % n]
    return { i, j, apart: apart(going, i, to, j) }
  }).sort((p, q) => p.apart - q.apart)
  const order = new Int32Array(n).fill(-1)
  const taken = new Set<number>()
  let sure = true
  for (const { i, j, apart: departure } of pairs) {
    if (order[i] >= 0 || taken.has(j)) continue
    order[i] = j
    taken.add(j)
    for (let other = 0; other < n; other++) {
      if (other !== j && !(departure < surePairing * apart(to, j, to, other))) sure = false
    }
  }
  return { order, sure }
}

interface Ends {
  readonly k: readonly [number, number]
  readonly mu: readonly [Complex, Complex]
}

function inRange({ mu }: Ends, { forces }: Aeroelastic, { from, to }: SpeedRange): boolean {
  const speeds = mu.map(({ re }) => (re > 0 ? forces.referenceLength / Math.sqrt(re) : Number.POSITIVE_INFINITY))
  return Math.max(...speeds) >= from && Math.min(...speeds) <= to
}

/** Halvings of an interval of k before a change of sign is held to be none. */
const mostHalvings = 24

/** The point between two eigenvalues on either side of the real axis: Newton, from ends drawn closer until it ends between them. */
function neutralBetween(system: Aeroelastic, kernel: RootKernel, ends: Ends): RootState | null {
  let { k, mu } = ends
  for (let halving = 0; halving < mostHalvings; halving++) {
    const share = mu[0].im / (mu[0].im - mu[1].im)
    const at = k[0] + share * (k[1] - k[0])
    const real = mu[0].re + share * (mu[1].re - mu[0].re)
    const state = real > 0 ? neutralNear(system, kernel, at, real) : null
    if (state !== null) {
      const found = (state.im * system.forces.referenceLength) / state.V
      const slack = 0.05 * (k[1] - k[0])
      if (found > k[0] - slack && found < k[1] + slack) return state
    }
    const middle = (k[0] + k[1]) / 2
    const half = { re: (mu[0].re + mu[1].re) / 2, im: (mu[0].im + mu[1].im) / 2 }
    const all = eigenvaluesAt(system, middle)
    let best = 0
    for (let i = 1; i < kernel.n; i++) if (distance(entry(all, i), half) < distance(entry(all, best), half)) best = i
    const there = entry(all, best)
    ;[k, mu] =
      there.im * mu[0].im > 0
        ? [
            [middle, k[1]],
            [there, mu[1]],
          ]
        : [
            [k[0], middle],
            [mu[0], there],
          ]
  }
  return null
}

const distance = (a: Complex, b: Complex): number => Math.hypot(a.re - b.re, a.im - b.im)

function neutralNear(system: Aeroelastic, kernel: RootKernel, k: number, mu: number): RootState | null {
  const V = system.forces.referenceLength / Math.sqrt(mu)
  const omega = (k * V) / system.forces.referenceLength
  const state = { V, re: 0, im: omega, x: shapeAt(system, V, omega) }
  return kernel.neutral(state) ? state : null
}

/** Two steps of inverse iteration on N(i ω, V) from a shape that no mode is orthogonal to. */
function shapeAt(
  { omegas, structuralDamping: g, density, forces }: Aeroelastic,
  V: number,
  omega: number,
): Float64Array {
  const n = forces.n
  const k = (omega * forces.referenceLength) / V
  const { A0, A1 } = forces.at(k)
  const q = 0.5 * density * V * V
  const N = complexMatrix(n)
  for (let ij = 0; ij < n * n; ij++) {
    N.re[ij] = -q * A0[ij]
    N.im[ij] = -q * k * A1[ij]
  }
  for (let i = 0; i < n; i++) {
    N.re[i * n + i] += omegas[i] ** 2 - omega ** 2
    N.im[i * n + i] += g * omegas[i] ** 2
  }
  const F = complexLu(N)
  let x = complexVector(n)
  for (let i = 0; i < n; i++) x.re[i] = 1 + 0.1 * Math.cos(3 * i)
  for (let turn = 0; turn < 2 && F.singularAt < 0; turn++) {
    x = complexSolve(F, x)
    const length = Math.sqrt(x.re.reduce((sum, v, i) => sum + v * v + x.im[i] ** 2, 0))
    x = { re: x.re.map((v) => v / length), im: x.im.map((v) => v / length) }
  }
  return Float64Array.of(...x.re, ...x.im)
}

const isSame = (a: RootState, b: RootState): boolean =>
  Math.abs(a.V - b.V) < 1e-6 * a.V && Math.abs(a.im - b.im) < 1e-6 * a.im
