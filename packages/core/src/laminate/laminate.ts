/** A laminate as the plate and the strength check take it: stiffness, transverse shear and mass about one plane. */
import type { Mat3 } from '../numeric/mat3.ts'
import { type LaminateCompliance, laminateCompliance } from './compliance.ts'
import { type LaminateInertia, laminateInertia } from './inertia.ts'
import { type BuiltLayer, totalThickness } from './layer.ts'
import { type ShearStiffness, shearStiffness } from './shear.ts'
import { laminateStiffness } from './stiffness.ts'

export interface Laminate {
  /** Bottom face (lowest z) first. */
  readonly layers: readonly BuiltLayer[]
  /** Thickness, m. */
  readonly h: number
  /** Height of the reference plane above the bottom face, m. */
  readonly reference: number
  /** Over (xx, yy, xy): N/m, N, N·m. */
  readonly A: Mat3
  readonly B: Mat3
  readonly D: Mat3
  readonly compliance: LaminateCompliance
  /** Transverse shear, 2×2 over (xz, yz), N/m. */
  readonly H: ShearStiffness
  readonly inertia: LaminateInertia
}

/** `reference` is the height of the reference plane above the bottom face, m, default half-way. */
export function laminate(layers: readonly BuiltLayer[], reference = totalThickness(layers) / 2): Laminate {
  const stiffness = laminateStiffness({ layers, reference })
  const compliance = laminateCompliance(stiffness)
  return {
    layers,
    h: totalThickness(layers),
    reference,
    ...stiffness,
    compliance,
    H: shearStiffness({ layers, reference }, compliance),
    inertia: laminateInertia(layers, reference),
  }
}
