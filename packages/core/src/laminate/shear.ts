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
import { type Mat3, multiply3 } from '../numeric/mat3.ts'
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
  let below: Shear = { g11: 0, g31: 0, g32: 0, g22: 0 }
  for (const { lamina, theta, t } of layers) {
    const Qbar = rotatedStiffness(lamina, theta)
    const constant = multiply3(Qbar, b)
    const linear = multiply3(Qbar, d)
    const S = rotatedShearCompliance(lamina, theta)
    for (const { x, w } of GAUSS) {
      const { g11, g31, g32, g22 } = shearAt(below, { constant, linear, z0, z: z0 + ((1 + x) * t) / 2 })
      Cxx += (w * t * (g11 * g11 * S.xz + 2 * g11 * g31 * S.cross + g31 * g31 * S.yz)) / 2
      Cyy += (w * t * (g32 * g32 * S.xz + 2 * g32 * g22 * S.cross + g22 * g22 * S.yz)) / 2
      Cxy += (w * t * (g11 * g32 * S.xz + (g11 * g22 + g31 * g32) * S.cross + g31 * g22 * S.yz)) / 2
    }
    below = shearAt(below, { constant, linear, z0, z: z0 + t })
    z0 += t
  }
  const determinant = Cxx * Cyy - Cxy * Cxy
  invariant(determinant > 0, 'the shear energy of a laminate with positive moduli is positive')
  return Float64Array.of(Cyy / determinant, -Cxy / determinant, -Cxy / determinant, Cxx / determinant)
}

/** The transverse shear stress at a height, for unit shear forces: column 1 for Qx, column 2 for Qy; 1/m. */
interface Shear {
  readonly g11: number
  readonly g31: number
  readonly g32: number
  readonly g22: number
}

interface Within {
  readonly constant: Mat3
  readonly linear: Mat3
  readonly z0: number
  readonly z: number
}

/** g at z in the layer that starts at z0, where `below` holds. */
function shearAt(below: Shear, { constant, linear, z0, z }: Within): Shear {
  const dz = z - z0
  const dzz = (z * z - z0 * z0) / 2
  return {
    g11: below.g11 - constant[0] * dz - linear[0] * dzz,
    g31: below.g31 - constant[6] * dz - linear[6] * dzz,
    g32: below.g32 - constant[7] * dz - linear[7] * dzz,
    g22: below.g22 - constant[4] * dz - linear[4] * dzz,
  }
}
