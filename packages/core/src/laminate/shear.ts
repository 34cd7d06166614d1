/**
 * Transverse shear stiffness of a laminate by energy equivalence, no shear correction factor assumed.
 *
 *   σ(z) = Q̄ (b + z d) M                                   in-plane stress under moments alone (N = 0)
 *   F = Q̄ (b + z d)      g_ij(z) = −∫ F_ij dz from the bottom face
 *   (τxz, τyz)ᵀ = g (Qx, Qy)ᵀ      g = | g11 g32 |           equilibrium, with Mx,x = Qx and My,y = Qy
 *                                      | g31 g22 |
 *   H⁻¹ = ∫ gᵀ S g dz                                       S: the layer's transverse shear compliance, 1/Pa
 *
 * H is 2×2 over (xz, yz), N/m. For one homogeneous layer H = 5/6 G h; for a soft core between stiff skins H tends to
 * Gc (tc + tf)² / tc. The stress is a quadratic of z in each layer, the energy a quartic: three Gauss points are exact.
 * The choice of the two cylindrical bending modes is the assumption. Source: Rolfes & Rohwer, Int. J. Numer. Meth. Engng 40
 * (1997) 51-60 (recalled); without coupling it is Whitney, J. Appl. Mech. 40 (1973) 302-304 (recalled).
 */
import { invariant } from '../issue.ts'
import type { Mat3 } from '../numeric/mat3.ts'
import type { LaminateCompliance } from './compliance.ts'
import { rotatedShearCompliance, rotatedStiffness } from './lamina.ts'
import { totalThickness } from './layer.ts'
import type { LaminateSection } from './stiffness.ts'

/** 2×2, row-major, over (xz, yz), N/m. */
export type ShearStiffness = Float64Array

/** Gauss-Legendre, three points on [−1, 1]. */
const GAUSS = [
  { x: -Math.sqrt(0.6), w: 5 / 9 },
  { x: 0, w: 8 / 9 },
  { x: Math.sqrt(0.6), w: 5 / 9 },
] as const

/** `compliance` must be about the same reference plane as the section. */
export function shearStiffness(
  { layers, reference = totalThickness(layers) / 2 }: LaminateSection,
  { b, d }: LaminateCompliance,
): ShearStiffness {
  let Cxx = 0
  let Cxy = 0
  let Cyy = 0
  let z0 = -reference
  // g at the layer's lower face: column 1 for Qx, column 2 for Qy; 1/m.
  let g11 = 0
  let g31 = 0
  let g32 = 0
  let g22 = 0
  for (const { lamina, theta, t } of layers) {
    const Q = rotatedStiffness(lamina, theta)
    const S = rotatedShearCompliance(lamina, theta)
    // F = Q̄ b + z Q̄ d: the four entries that shear needs.
    const b11 = entry(Q, 0, b, 0)
    const b31 = entry(Q, 6, b, 0)
    const b32 = entry(Q, 6, b, 1)
    const b22 = entry(Q, 3, b, 1)
    const d11 = entry(Q, 0, d, 0)
    const d31 = entry(Q, 6, d, 0)
    const d32 = entry(Q, 6, d, 1)
    const d22 = entry(Q, 3, d, 1)
    for (let point = 0; point <= GAUSS.length; point++) {
      // The last one is the upper face, where the next layer begins.
      const within = point < GAUSS.length
      const dz = within ? ((1 + GAUSS[point].x) * t) / 2 : t
      const dzz = dz * (z0 + dz / 2) // (z² − z₀²)/2
      const p11 = g11 - b11 * dz - d11 * dzz
      const p31 = g31 - b31 * dz - d31 * dzz
      const p32 = g32 - b32 * dz - d32 * dzz
      const p22 = g22 - b22 * dz - d22 * dzz
      if (within) {
        const weight = (GAUSS[point].w * t) / 2
        Cxx += weight * (p11 * p11 * S.xz + 2 * p11 * p31 * S.cross + p31 * p31 * S.yz)
        Cyy += weight * (p32 * p32 * S.xz + 2 * p32 * p22 * S.cross + p22 * p22 * S.yz)
        Cxy += weight * (p11 * p32 * S.xz + (p11 * p22 + p31 * p32) * S.cross + p31 * p22 * S.yz)
      } else {
        g11 = p11
        g31 = p31
        g32 = p32
        g22 = p22
      }
    }
    z0 += t
  }
  const determinant = Cxx * Cyy - Cxy * Cxy
  invariant(determinant > 0, 'the shear energy of a laminate with positive moduli is positive')
  return Float64Array.of(Cyy / determinant, -Cxy / determinant, -Cxy / determinant, Cxx / determinant)
}

/** One entry of A B: the row of A that starts at `row`, the column of B. */
const entry = (A: Mat3, row: number, B: Mat3, column: number): number =>
  A[row] * B[column] + A[row + 1] * B[3 + column] + A[row + 2] * B[6 + column]
