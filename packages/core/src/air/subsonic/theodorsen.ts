/**
 * Oscillating flat plate in two-dimensional incompressible flow: Theodorsen's function, section lift and moment.
 *
 *   C(k) = H₁ / (H₁ + i H₀) = F + i G           H_n = J_n(k) − i Y_n(k)           k = ω b / V
 *   L / (q b) = 2π [k² z + (i k + a k²) θ] + 4π C(k) Γ                            up
 *   M / (q b²) = 2π [a k² z + (k² (1/8 + a²) − i k (1/2 − a)) θ] + 4π (a + 1/2) C(k) Γ      nose up, about the axis
 *   Γ = −i k z + (1 + i k (1/2 − a)) θ
 *
 * b is the half chord, the axis lies a b aft of mid-chord, z is the axis' rise divided by b, θ the nose-up angle; both vary as
 * e^{iωt}. Per unit span, q = ρ V² / 2. Source: Theodorsen, General theory of aerodynamic instability and the mechanism of
 * flutter, NACA Rep. 496 (1935), eqs. XVIII and XX with h = −b z (equation numbers recalled).
 */
import { bessel01 } from './bessel.ts'

export interface Complex {
  readonly re: number
  readonly im: number
}

/** C(k) for k ≥ 0; 1 at k = 0. */
export function theodorsen(k: number): Complex {
  if (k === 0) return { re: 1, im: 0 }
  const { J0, J1, Y0, Y1 } = bessel01(k)
  const [p, q] = [J1 + Y0, J0 - Y1]
  const square = p * p + q * q
  return { re: (J1 * p - Y1 * q) / square, im: -(J1 * q + Y1 * p) / square }
}

export interface SectionForces {
  /** L / (q b) per unit z. */
  readonly liftPerRise: Complex
  /** L / (q b) per unit θ. */
  readonly liftPerPitch: Complex
  /** M / (q b²) per unit z. */
  readonly momentPerRise: Complex
  /** M / (q b²) per unit θ. */
  readonly momentPerPitch: Complex
}

/** Forces of the section whose axis lies `a` half chords aft of mid-chord. */
export function sectionForces(k: number, a: number): SectionForces {
  const { re: F, im: G } = theodorsen(k)
  const [two, four] = [2 * Math.PI, 4 * Math.PI]
  const arm = 0.5 - a
  const rise = { re: four * k * G, im: -four * k * F }
  const pitch = { re: four * (F - k * arm * G), im: four * (G + k * arm * F) }
  const lever = a + 0.5
  return {
    liftPerRise: { re: two * k * k + rise.re, im: rise.im },
    liftPerPitch: { re: two * a * k * k + pitch.re, im: two * k + pitch.im },
    momentPerRise: { re: two * a * k * k + lever * rise.re, im: lever * rise.im },
    momentPerPitch: {
      re: two * k * k * (0.125 + a * a) + lever * pitch.re,
      im: -two * k * arm + lever * pitch.im,
    },
  }
}
