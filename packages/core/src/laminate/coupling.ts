/**
 * How strongly a laminate couples, as numbers between 0 and 1.
 *
 *   bendStretch  = max |Bij| / √(Aii Djj)        a stretched fin bends, a warm one warps
 *   bendTwist    = max |Di6| / √(Dii D66)        a bent fin twists, i = 1, 2
 *   stretchShear = max |Ai6| / √(Aii A66)        a stretched fin shears, i = 1, 2
 *
 * Each is below 1 because the 6×6 stiffness is positive definite (Cauchy-Schwarz).
 */
import type { Mat3 } from '../numeric/mat3.ts'
import type { LaminateStiffness } from './stiffness.ts'

export interface Coupling {
  readonly bendStretch: number
  readonly bendTwist: number
  readonly stretchShear: number
}

/** What rounding leaves of a coupling that is zero: the entries are sums of a dozen terms of relative error 1e-16. */
export const NO_COUPLING = 1e-12

export function coupling({ A, B, D }: LaminateStiffness): Coupling {
  let bendStretch = 0
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      bendStretch = Math.max(bendStretch, Math.abs(B[3 * i + j]) / Math.sqrt(A[4 * i] * D[4 * j]))
  return { bendStretch, bendTwist: withShear(D), stretchShear: withShear(A) }
}

const withShear = (K: Mat3): number =>
  Math.max(Math.abs(K[2]) / Math.sqrt(K[0] * K[8]), Math.abs(K[5]) / Math.sqrt(K[4] * K[8]))
