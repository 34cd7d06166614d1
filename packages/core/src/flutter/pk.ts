/**
 * Flutter speed by the p-k method, at fixed Mach number and density: the aerodynamics of that Mach number are kept while the
 * speed rises, and the roots of the aeroelastic equations (roots.ts) are followed from the modes in vacuum.
 *
 * Flutter is the least speed at which the growth Re s / |s| of an oscillating root passes zero. Roots are followed by
 * continuity: a step in speed stands only when every root keeps its shape (likeness of shapes) and no two followed roots
 * have become one; else it is halved. An unstable speed is approached from below by halves until it lies within
 * `coarsestBracket` of a stable one; then the crossing itself is narrowed down. Where two frequencies pass each other within
 * a step, the place where they meet is looked at by itself: flutter of two hardly coupled modes is a narrow hump just there.
 */
import type { ComplexVector } from '../numeric/complex-matrix.ts'
import { crossing } from './crossing.ts'
import { type DivergenceResult, divergence } from './divergence.ts'
import { advance, advanceEach, largestGrowth, type SweepPoint, unstableMeeting } from './following.ts'
import { type Aeroelastic, growth, highest, iterationTolerance, type Root, rootsAt, rootValues } from './roots.ts'

export type FlutterResult =
  | {
      readonly kind: 'flutter'
      /** Speed, m/s. */
      readonly V: number
      /** Circular frequency at flutter, rad/s. */
      readonly omega: number
      /** Reduced frequency there. */
      readonly k: number
      /** In modal coordinates, of unit length. */
      readonly shape: ComplexVector
    }
  | { readonly kind: 'none-below'; readonly V: number }
  | {
      readonly kind: 'not-converged'
      readonly iterations: number
      readonly residual: number
      readonly tolerance: number
    }

export interface PkResult {
  readonly flutter: FlutterResult
  readonly divergence: DivergenceResult
  /** From the first speed to just below flutter, or to the end of the sweep. */
  readonly sweep: readonly SweepPoint[]
}

/** Growth above which a root counts as unstable: above the 1e-8 that rounding leaves on two roots about to meet. */
const unstableGrowth = 1e-7
/**
 * The same where nothing damps at all. There two frequencies that are equal by symmetry, and that only the mesh couples, part
 * with a growth of 1e-5 at any speed; roots that truly meet pass this value within 1e-5 of their speed.
 */
const unstableUndamped = 5e-4
/** Width to which the flutter speed is narrowed down, share of it. */
export const speedTolerance = 1e-7
/** Steps as shares of the speed: largest where shapes change (else the speed itself), least, and the widest bracket. */
const largestStep = 0.35
const leastStep = 1e-2
const coarsestBracket = 0.06
/** Least likeness of a root's shape from one step to the next. */
const leastLikeness = 0.8
/** `speedLimit`: where the sweep ends; default where the air's stiffness dwarfs the highest mode's. */
export function solvePk(system: Aeroelastic, speedLimit = basisLimit(system)): PkResult {
  const diverges = divergence(system)
  const start = Math.min(firstSpeed(system), speedLimit)
  if (!Number.isFinite(start))
    return { flutter: { kind: 'none-below', V: speedLimit }, divergence: diverges, sweep: [] }
  const unstable = leastGrowth(system)
  const sweep: SweepPoint[] = [{ V: 0, roots: vacuumRoots(system) }]
  let h = start
  /** Least speed known to be unstable. */
  let ceiling = Number.POSITIVE_INFINITY
  while (true) {
    const last = sweep[sweep.length - 1]
    if (last.V > 0 && ceiling - last.V <= coarsestBracket * last.V) {
      return { flutter: narrowed(system, last, ceiling), divergence: diverges, sweep }
    }
    const V = Math.min(last.V + h, speedLimit, (last.V + ceiling) / 2)
    const step = V - last.V
    const least = last.V === 0 ? step : leastStep * last.V
    const trial = advance(system, last, V)
    if (trial.kind === 'not-converged') {
      if (step <= least) return { flutter: notConverged(trial), divergence: diverges, sweep }
      h = Math.max(step / 2, least)
    } else if (trial.worst > unstable) {
      if (last.V === 0) return { flutter: narrowed(system, last, V), divergence: diverges, sweep }
      ceiling = V
    } else if (trial.likeness < leastLikeness && step > least) {
      h = Math.max(step / 2, least)
    } else {
      const hump = unstableMeeting(system, last, { V, roots: trial.roots }, unstable)
      if (hump !== null) {
        ceiling = hump
        continue
      }
      sweep.push({ V, roots: trial.roots })
      if (V >= speedLimit) return { flutter: { kind: 'none-below', V }, divergence: diverges, sweep }
      h = Math.min((trial.likeness > 0.95 ? 2 : 1.2) * step, (trial.likeness > 0.995 ? 1 : largestStep) * V)
    }
  }
}

/** Where q |A₀| reaches four times the square of the highest frequency: beyond it the modes kept cannot tell. */
export function basisLimit({ omegas, forces, density }: Aeroelastic): number {
  const q = (4 * highest(omegas) ** 2) / frobenius(forces.at(0).A0)
  return Math.sqrt((2 * q) / density)
}

/** Where the air's stiffness or damping first reaches a twentieth of the lowest mode's own stiffness. */
function firstSpeed({ omegas, forces, density }: Aeroelastic): number {
  const { A0, A1 } = forces.at(0)
  const share = 0.05
  const lowest = Math.min(...Array.from(omegas))
  const byStiffness = Math.sqrt((2 * share * lowest ** 2) / (density * frobenius(A0)))
  const byDamping = (2 * share * lowest) / (density * forces.referenceLength * frobenius(A1))
  return Math.min(byStiffness, byDamping)
}

function leastGrowth({ structuralDamping, forces }: Aeroelastic): number {
  const damped = structuralDamping > 0 || !forces.quasiSteady || forces.at(0).A1.some((v) => v !== 0)
  return damped ? unstableGrowth : unstableUndamped
}

function frobenius(A: Float64Array): number {
  return Math.sqrt(A.reduce((sum, v) => sum + v * v, 0))
}

function vacuumRoots({ omegas, structuralDamping: g, forces: { n } }: Aeroelastic): Root[] {
  // s = i ω sqrt(1 + i g)
  const angle = Math.atan(g) / 2
  const size = (1 + g * g) ** 0.25
  return Array.from({ length: n }, (_, i) => {
    const shape = { re: new Float64Array(n), im: new Float64Array(n) }
    shape.re[i] = 1
    return { re: -omegas[i] * size * Math.sin(angle), im: omegas[i] * size * Math.cos(angle), shape }
  })
}

/** The crossing between the last stable point and an unstable speed. */
function narrowed(system: Aeroelastic, stable: SweepPoint, unstable: number): FlutterResult {
  const threshold = leastGrowth(system)
  let failed: FlutterResult | null = null
  const rootsOf = (V: number): readonly (Root | null)[] => {
    if (system.forces.quasiSteady) return rootsAt(system, V, 0)
    const trial = advanceEach(system, stable, V)
    if (trial.kind === 'roots') return trial.roots
    failed = notConverged(trial)
    return []
  }
  const excess = (V: number): number =>
    largestGrowth(system.forces.quasiSteady ? rootValues(system, V, 0) : rootsOf(V)) - threshold
  const a = stable.V > 0 ? stable.V : 1e-3 * unstable
  const fa = Math.min(0, largestGrowth(stable.roots) - threshold)
  const found = crossing(excess, { a, b: unstable, fa, fb: excess(unstable) }, speedTolerance * unstable)
  const worse = (worst: Root | null, root: Root | null): Root | null =>
    root !== null && (worst === null || growth(root) > growth(worst)) ? root : worst
  const root = rootsOf(found.b).reduce(worse, null)
  if (failed !== null || root === null) return failed ?? notConverged({ iterations: found.evaluations, residual: 1 })
  const k = (root.im * system.forces.referenceLength) / found.b
  return { kind: 'flutter', V: found.b, omega: root.im, k, shape: root.shape }
}

function notConverged({ iterations, residual }: { iterations: number; residual: number }): FlutterResult {
  return { kind: 'not-converged', iterations, residual, tolerance: iterationTolerance }
}
