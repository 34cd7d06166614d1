/**
 * Flutter speed by the p-k method, at fixed Mach number and density: the aerodynamics of that Mach number are kept while the
 * speed rises, and the roots of the aeroelastic equations (roots.ts) are followed from the modes in vacuum.
 *
 * Flutter is the least speed at which the growth Re s / |s| of an oscillating root passes zero. Roots are followed one by one
 * (following.ts); where that cannot be, quasi-steady ones all at once (sweeping.ts: undamped roots that meet, twins), others by their
 * neutral points over k (neutral-points.ts).
 */
import type { ComplexVector } from '../numeric/complex-matrix.ts'
import { type DivergenceResult, divergence } from './divergence.ts'
import { byNeutralPoints, closenesses, type Followed, followed } from './following.ts'
import { basisLimit, firstSpeed, isDamped, leastGrowth } from './limits.ts'
import type { Aeroelastic } from './roots.ts'
import { type Swept, swept } from './sweeping.ts'

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
      /** Place of the mode that the root comes from; −1 if the root was not found by following it. */
      readonly mode: number
    }
  | { readonly kind: 'none-below'; readonly V: number }
  /** Roots could not be followed however close the steps, and no neutral point was found either: nothing is said. */
  | { readonly kind: 'not-converged'; readonly attempts: number }

export interface PkResult {
  readonly flutter: FlutterResult
  readonly divergence: DivergenceResult
}

/** `speedLimit`: where the search for flutter ends; default where the air's stiffness dwarfs the highest mode's. */
export function solvePk(system: Aeroelastic, speedLimit = basisLimit(system)): PkResult {
  const first = divergence(system)
  const diverges = first.kind === 'divergence' ? first.V : Number.POSITIVE_INFINITY
  return { flutter: flutter(system, speedLimit, diverges), divergence: first }
}

function flutter(system: Aeroelastic, speedLimit: number, diverges: number): FlutterResult {
  const firstStep = Math.min(firstSpeed(system), speedLimit)
  if (!Number.isFinite(firstStep)) return { kind: 'none-below', V: speedLimit }
  const limits = { firstStep, speedLimit, unstable: leastGrowth(system), diverges }
  const { forces } = system
  const found = isDamped(system) ? followed(system, limits) : null
  if (found === null && forces.quasiSteady) return ofSwept(system, swept(system, limits))
  const last = found ?? byNeutralPoints(system, limits)
  return last === null ? { kind: 'not-converged', attempts: closenesses.length } : ofFollowed(system, last)
}

function ofSwept({ forces }: Aeroelastic, found: Swept): FlutterResult {
  if (found.kind === 'none-below') return found
  const { V, root, mode } = found
  return { kind: 'flutter', V, omega: root.im, k: (root.im * forces.referenceLength) / V, shape: root.shape, mode }
}

function ofFollowed({ forces: { n, referenceLength } }: Aeroelastic, found: Followed): FlutterResult {
  if (found.kind === 'none-below') return found
  const { V, im, x, mode } = found.at
  const shape = { re: x.slice(0, n), im: x.slice(n) }
  return { kind: 'flutter', V, omega: im, k: (im * referenceLength) / V, shape, mode }
}
