/**
 * Numerator of the kernel that relates normalwash to pressure on a plane lifting surface oscillating in subsonic flow.
 *
 *   w(x, y) / V = (1/8π) ∬ Δc_p(ξ, η) P(x − ξ, y − η) / (y − η)² dξ dη        (finite part at η = y)
 *
 *   P = e^{−iκx} K₁        K₁ = I₁ + M r e^{−i k₁u₁} / (R sqrt(1 + u₁²))        I₁ = ∫_{u₁}^∞ e^{−i k₁u} (1 + u²)^{−3/2} du
 *   r = |y|,  R = sqrt(x² + β² r²),  u₁ = (M R − x) / (β² r),  k₁ = κ r,  κ = ω / V,  β² = 1 − M²
 *
 * Integrated by parts, with f(u) = 1 − u/sqrt(1 + u²), S = ∫_{|u₁|}^∞ f(u) e^{−i k₁(u − |u₁|)} du, ψ = κ M (R − M x) / β²
 *
 *   u₁ ≥ 0:   P = e^{−iψ} (1 + x/R − i k₁ S)
 *   u₁ < 0:   P = e^{−iψ} (x/R − 1 − i k₁ S*) + 2 k₁ K₁(k₁) e^{−iκx}                 (K₁(k₁): modified Bessel function)
 *
 * and for small κ          P = 1 + x/R − iκ (x + R + M² r²/R) + O(κ²)             whose first two terms are integrated exactly.
 *
 * Units: x, y m, κ 1/m. This is the plain version, one pair of points at a time; `wash.ts` holds the fast one.
 * Source: Watkins, Runyan & Woolston, NACA Rep. 1234 (1955), in the form of Landahl, AIAA J. 5 (1967) 1045; S by the exponential
 * fit of Desmarais (`kernel.data.ts`), 2 k₁ K₁(k₁) = 2 Re I₁(u₁ = 0). The expansion in κ is derived in
 * docs/methods/air-subsonic.md.
 */
import { scaledK1 } from './bessel.ts'
import { exponentialFit } from './kernel.data.ts'
import type { Complex } from './theodorsen.ts'

export interface KernelArgument {
  /** Receiving point minus sending point, streamwise. */
  readonly x: number
  /** The same, spanwise. */
  readonly y: number
  readonly mach: number
  /** κ = ω / V, 1/m. */
  readonly wavenumber: number
}

/** P(x, y; κ, M). */
export function kernelNumerator({ x, y, mach, wavenumber }: KernelArgument): Complex {
  const r = Math.abs(y)
  const beta2 = 1 - mach * mach
  const R = Math.sqrt(x * x + beta2 * r * r)
  const upstream = mach * R >= x
  const psi = (wavenumber * mach * (R - mach * x)) / beta2
  const k1 = wavenumber * r
  const S = r === 0 ? { re: 0, im: 0 } : integralS(Math.abs(mach * R - x) / (beta2 * r), k1)
  const re = (upstream ? 1 : -1) + x / R + (upstream ? k1 * S.im : -k1 * S.im)
  const im = -k1 * S.re
  const [cos, sin] = [Math.cos(psi), Math.sin(psi)]
  const rest = upstream ? 0 : 2 * scaledK1(k1)
  return {
    re: re * cos + im * sin + rest * Math.cos(wavenumber * x),
    im: im * cos - re * sin - rest * Math.sin(wavenumber * x),
  }
}

/** S(u, k₁), u ≥ 0. */
function integralS(u: number, k1: number): Complex {
  const { a, b } = exponentialFit
  let [re, im] = [0, 0]
  for (let n = 0; n < a.length; n++) {
    const c = b * 2 ** (n + 1)
    const term = (a[n] * Math.exp(-c * u)) / (c * c + k1 * k1)
    re += term * c
    im -= term * k1
  }
  return { re, im }
}

/** The terms of P of order 0 and 1 in κ: real part 1 + x/R, imaginary part −κ (x + R + M² r²/R). */
export function kernelLowFrequency({ x, y, mach, wavenumber }: KernelArgument): Complex {
  const R = Math.sqrt(x * x + (1 - mach * mach) * y * y)
  return { re: 1 + x / R, im: -wavenumber * (x + R + (mach * mach * y * y) / R) }
}
