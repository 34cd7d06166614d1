/**
 * Mass of a laminate about its reference plane: m0 = Σ ρ t (kg/m²), m1 = Σ ρ (z₁² − z₀²) / 2 (kg/m),
 * m2 = Σ ρ (z₁³ − z₀³) / 3 (kg): the zeroth, first and second moment through the thickness.
 */
import type { BuiltLayer } from './layer.ts'

export interface LaminateInertia {
  readonly m0: number
  readonly m1: number
  readonly m2: number
}

export type DenseLayer = Pick<BuiltLayer, 'density' | 't'>

/** Layers bottom first; `reference` is the height of the reference plane above the bottom face, m. */
export function laminateInertia(layers: readonly DenseLayer[], reference: number): LaminateInertia {
  let m0 = 0
  let m1 = 0
  let m2 = 0
  let z0 = -reference
  for (const { density, t } of layers) {
    const z1 = z0 + t
    m0 += density * t
    m1 += (density * (z1 ** 2 - z0 ** 2)) / 2
    m2 += (density * (z1 ** 3 - z0 ** 3)) / 3
    z0 = z1
  }
  return { m0, m1, m2 }
}
