/**
 * Steady pressure on a subsonic lifting surface: the doublet lattice at zero frequency, without the parts that an oscillation needs.
 *
 *   D₀ Δc_p = w/V        D₀_ij = (c_j/8π) ∫ (1 + x₀/R)/t² dt over the doublet line of box j and its image        (`wash.ts`)
 *
 * A horseshoe vortex lattice by the Prandtl-Glauert rule; at the same Mach number the same numbers as `factoredWash` at κ = 0.
 */
import { invariant } from '../../issue.ts'
import { complexLu, complexSolve } from '../../numeric/complex-matrix.ts'
import { steadyIntegral } from './doublet-line.ts'
import { doubletLine, type LiftingSurface } from './surface.ts'

/** Δc_p (lower − upper, over q) on each box for the normalwash w/V at the receiving points: −α for a flat fin at α. */
export function steadySurface(surface: LiftingSurface, mach: number): (normalwash: Float64Array) => Float64Array {
  invariant(mach >= 0 && mach < 1, `subsonic lifting surface at Mach ${mach}`)
  const { count, chord } = surface.lattice
  const re = new Float64Array(count * count)
  for (const { mirror, factor } of surface.sides) {
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < count; j++) {
        const line = doubletLine(surface.lattice, i, j, mirror, mach)
        re[i * count + j] += ((factor * chord[j]) / (8 * Math.PI)) * steadyIntegral(line)
      }
    }
  }
  const factors = complexLu({ n: count, re, im: new Float64Array(count * count) })
  invariant(factors.singularAt < 0, `steady lattice at Mach ${mach} is singular at box ${factors.singularAt}`)
  const none = new Float64Array(count)
  return (normalwash) => complexSolve(factors, { re: normalwash, im: none }).re
}
