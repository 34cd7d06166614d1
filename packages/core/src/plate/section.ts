/**
 * The plate's stiffness and mass at one point, per unit of area, about the reference plane z = 0 in which the mesh lies.
 *
 *   N = A ε + B κ      M = B ε + D κ      Q = S γ
 *   ε = (∂u/∂x, ∂v/∂y, ∂u/∂y + ∂v/∂x)      κ = (∂φx/∂x, ∂φy/∂y, ∂φx/∂y + ∂φy/∂x)      γ = (∂w/∂x + φx, ∂w/∂y + φy)
 *
 * A point at height z moves by u + z φx, v + z φy, w: for a thin plate φ = −∇w and κ is minus the second derivatives of w.
 * Source: Reddy, Mechanics of Laminated Composite Plates and Shells, 2nd ed. (2004), section 3.4 (recalled).
 */
import type { Mat3Like } from '../numeric/mat3.ts'

export interface PlateSection {
  /** N/m, N and N·m, 3×3 row-major over (xx, yy, xy). */
  readonly A: Mat3Like
  readonly B: Mat3Like
  readonly D: Mat3Like
  /** N/m, 2×2 row-major over (xz, yz), shear correction included. */
  readonly S: ArrayLike<number>
  /** kg/m² */
  readonly massPerArea: number
  /** ∫ ρ z² dz, kg */
  readonly rotaryInertia: number
}

/** Where a section is wanted. */
export interface SectionPoint {
  readonly x: number
  readonly y: number
  /** Triangle of the mesh. */
  readonly element: number
}

/** A coupling this far below √(A D) changes no digit that anyone reads. */
const negligible = 1e-9

/** Whether any of the sections couples bending with stretching. */
export function isCoupled(sections: Iterable<PlateSection>): boolean {
  let last: PlateSection | null = null
  for (const section of sections) {
    if (section === last) continue
    last = section
    const { A, B, D } = section
    const scale = Math.sqrt(Math.max(A[0], A[4]) * Math.max(D[0], D[4]))
    for (let i = 0; i < 9; i++) if (Math.abs(B[i]) > negligible * scale) return true
  }
  return false
}
