/**
 * Laminate stiffness by classical lamination theory.
 *
 *   A = Σ Q̄ (z₁ − z₀)   N/m        B = Σ Q̄ (z₁² − z₀²) / 2   N        D = Σ Q̄ (z₁³ − z₀³) / 3   N·m
 *   N = A ε⁰ + B κ       M = B ε⁰ + D κ
 *
 * The sum runs over layers, bottom face first; z₀ and z₁ are a layer's faces measured up from the reference plane, which
 * is the mid-plane unless `reference` places it elsewhere. Matrices are 3×3 over (xx, yy, xy).
 * Source: Nettles, NASA RP-1351 (1994), eqs 53, 54 and 56; Jones, Mechanics of Composite Materials, eq. 4.24 (recalled).
 */
import { addScaled, type Mat3, zeros3 } from '../numeric/mat3.ts'
import { rotatedStiffness } from './lamina.ts'
import { type Layer, totalThickness } from './layer.ts'

export interface LaminateStiffness {
  /** Stretching, N/m. */
  readonly A: Mat3
  /** Coupling of stretching and bending, N. */
  readonly B: Mat3
  /** Bending, N·m. */
  readonly D: Mat3
}

/** Layers bottom first; `reference` is the height of the reference plane above the bottom face, m, default half-way. */
export interface LaminateSection {
  readonly layers: readonly Layer[]
  readonly reference?: number
}

export function laminateStiffness({
  layers,
  reference = totalThickness(layers) / 2,
}: LaminateSection): LaminateStiffness {
  const A = zeros3()
  const B = zeros3()
  const D = zeros3()
  let z0 = -reference
  for (const { lamina, theta, t } of layers) {
    const z1 = z0 + t
    const Qbar = rotatedStiffness(lamina, theta)
    addScaled(A, Qbar, z1 - z0)
    addScaled(B, Qbar, (z1 ** 2 - z0 ** 2) / 2)
    addScaled(D, Qbar, (z1 ** 3 - z0 ** 3) / 3)
    z0 = z1
  }
  return { A, B, D }
}
