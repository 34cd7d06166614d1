/**
 * What of a lattice's influence depends on geometry and Mach number, but not on frequency: the steady matrix, the slope of its
 * imaginary part at zero frequency, and the kernel's ingredients at every pair of receiving point and sample (`kernel.ts` has
 * the equations and symbols).
 */
import { invariant } from '../../issue.ts'
import { linearIntegral, steadyIntegral } from './doublet-line.ts'
import { exponentialFit } from './kernel.data.ts'
import { doubletLine, type LiftingSurface, type SideGeometry } from './surface.ts'

/** What does not depend on frequency, by receiving box and sample. */
export interface SideAtMach extends SideGeometry {
  /** 1 where u₁ ≥ 0, else 0. */
  readonly ahead: Uint8Array
  /** x₀/R + 1 where u₁ ≥ 0, else x₀/R − 1. */
  readonly steady: Float64Array
  /** x₀ + R + M² t²/R */
  readonly linear: Float64Array
  /** M (R − M x₀) / β² */
  readonly phase: Float64Array
  /** exp(−2 b |u₁|), the first exponential of the fit; the others are its squares. */
  readonly decay: Float64Array
}

export interface SurfaceAtMach {
  readonly surface: LiftingSurface
  readonly mach: number
  readonly sides: readonly SideAtMach[]
  /** Real part of D at κ = 0, n × n. */
  readonly D0: Float64Array
  /** −∂ Im D / ∂κ at κ = 0, n × n. */
  readonly D1: Float64Array
}

export function surfaceAtMach(surface: LiftingSurface, mach: number): SurfaceAtMach {
  invariant(mach >= 0 && mach < 1, `subsonic lifting surface at Mach ${mach}`)
  const { count, chord } = surface.lattice
  const D0 = new Float64Array(count * count)
  const D1 = new Float64Array(count * count)
  for (const { mirror, factor } of surface.sides) {
    for (let i = 0; i < count; i++) {
      for (let j = 0; j < count; j++) {
        const line = doubletLine(surface.lattice, i, j, mirror, mach)
        const scale = (factor * chord[j]) / (8 * Math.PI)
        D0[i * count + j] += scale * steadyIntegral(line)
        D1[i * count + j] += scale * linearIntegral(line)
      }
    }
  }
  return { surface, mach, D0, D1, sides: surface.sides.map((side) => sideAtMach(surface, side, mach)) }
}

function sideAtMach(surface: LiftingSurface, side: SideGeometry, mach: number): SideAtMach {
  const { lattice, pointX, pointColumn, columns, stripOf } = surface
  const n = lattice.count
  const m = pointX.length
  const ahead = new Uint8Array(n * m)
  const [steady, linear, phase, decay] = Array.from({ length: 4 }, () => new Float64Array(n * m))
  const beta2 = 1 - mach * mach
  for (let i = 0, at = 0; i < n; i++) {
    for (let p = 0; p < m; p++, at++) {
      const x = lattice.receiveX[i] - pointX[p]
      const r = side.distance[stripOf[i] * columns + pointColumn[p]]
      const R = Math.sqrt(x * x + beta2 * r * r)
      const isAhead = mach * R >= x
      ahead[at] = isAhead ? 1 : 0
      steady[at] = x / R + (isAhead ? 1 : -1)
      linear[at] = x + R + (mach * mach * r * r) / R
      phase[at] = (mach * (R - mach * x)) / beta2
      decay[at] = r === 0 ? 0 : Math.exp((-2 * exponentialFit.b * Math.abs(mach * R - x)) / (beta2 * r))
    }
  }
  return { ...side, ahead, steady, linear, phase, decay }
}
