/**
 * One layer in plane stress: reduced stiffness in its own axes and turned by theta.
 *
 *   Q11 = E1 / (1 − ν12 ν21)   Q22 = E2 / (1 − ν12 ν21)   Q12 = ν12 Q22   Q66 = G12   ν21 = ν12 E2 / E1      Pa
 *   Q̄11 = Q11 c⁴ + 2 (Q12 + 2 Q66) s² c² + Q22 s⁴, and so on; c = cos θ, s = sin θ
 *
 * theta runs from axis x towards axis y to the layer's axis 1. Matrices are 3×3 over (xx, yy, xy), engineering shear
 * strain. Source: Nettles, NASA RP-1351 (1994), eqs 10 and 22; the turned terms as in Jones, Mechanics of Composite
 * Materials, eq. 2.85 (recalled).
 */
import type { Mat3 } from '../numeric/mat3.ts'

/** Moduli in Pa; axis 1 along the warp or grain, 2 across it, 3 through the thickness. */
export interface Lamina {
  readonly E1: number
  readonly E2: number
  readonly G12: number
  readonly nu12: number
  readonly G13: number
  readonly G23: number
}

/** Compliance in transverse shear over (xz, yz), 1/Pa. */
export interface ShearCompliance {
  readonly xz: number
  readonly yz: number
  readonly cross: number
}

/** Q, Pa, in the layer's own axes. */
export function reducedStiffness({ E1, E2, G12, nu12 }: Lamina): Mat3 {
  const nu21 = (nu12 * E2) / E1
  const Q22 = E2 / (1 - nu12 * nu21)
  const Q12 = nu12 * Q22
  return Float64Array.of(E1 / (1 - nu12 * nu21), Q12, 0, Q12, Q22, 0, 0, 0, G12)
}

/** Q̄, Pa: the stiffness of a layer whose axis 1 lies at theta; one object for each, not to be written to. */
export function rotatedStiffness(lamina: Lamina, theta: number): Mat3 {
  const angles = kept.get(lamina) ?? new Map<number, Mat3>()
  kept.set(lamina, angles)
  const found = angles.get(theta) ?? rotated(reducedStiffness(lamina), theta)
  angles.set(theta, found)
  return found
}

/** A fin asks for the same few layers at each of its points. */
const kept = new WeakMap<Lamina, Map<number, Mat3>>()

/** Turns the reduced stiffness of an orthotropic layer by theta. */
export function rotated(Q: Mat3, theta: number): Mat3 {
  // By index: taking a typed array apart by position runs its iterator, which costs more than all the rest here.
  const Q11 = Q[0]
  const Q12 = Q[1]
  const Q22 = Q[4]
  const Q66 = Q[8]
  const c = Math.cos(theta)
  const s = Math.sin(theta)
  const c2 = c * c
  const s2 = s * s
  const Qbar11 = Q11 * c2 * c2 + 2 * (Q12 + 2 * Q66) * s2 * c2 + Q22 * s2 * s2
  const Qbar22 = Q11 * s2 * s2 + 2 * (Q12 + 2 * Q66) * s2 * c2 + Q22 * c2 * c2
  const Qbar12 = (Q11 + Q22 - 4 * Q66) * s2 * c2 + Q12 * (s2 * s2 + c2 * c2)
  const Qbar66 = (Q11 + Q22 - 2 * Q12 - 2 * Q66) * s2 * c2 + Q66 * (s2 * s2 + c2 * c2)
  const Qbar16 = (Q11 - Q12 - 2 * Q66) * s * c * c2 + (Q12 - Q22 + 2 * Q66) * s * c * s2
  const Qbar26 = (Q11 - Q12 - 2 * Q66) * s * c * s2 + (Q12 - Q22 + 2 * Q66) * s * c * c2
  return Float64Array.of(Qbar11, Qbar12, Qbar16, Qbar12, Qbar22, Qbar26, Qbar16, Qbar26, Qbar66)
}

/** The in-plane moduli whose reduced stiffness is Q; the inverse of `reducedStiffness`. */
export function inPlaneModuli(Q: Mat3): { E1: number; E2: number; G12: number; nu12: number } {
  const Q11 = Q[0]
  const Q12 = Q[1]
  const Q22 = Q[4]
  return { E1: Q11 - Q12 ** 2 / Q22, E2: Q22 - Q12 ** 2 / Q11, G12: Q[8], nu12: Q12 / Q22 }
}

/** Transverse shear compliance turned by theta: τ13 = c τxz + s τyz, τ23 = −s τxz + c τyz. */
export function rotatedShearCompliance({ G13, G23 }: Lamina, theta: number): ShearCompliance {
  const c = Math.cos(theta)
  const s = Math.sin(theta)
  return {
    xz: (c * c) / G13 + (s * s) / G23,
    yz: (s * s) / G13 + (c * c) / G23,
    cross: c * s * (1 / G13 - 1 / G23),
  }
}
