/**
 * Static divergence: the least dynamic pressure at which the air's stiffness takes away the structure's.
 *
 *   det(Ω² − q A₀(0)) = 0      q = 1/μ,  μ the largest positive real eigenvalue of Ω⁻¹ A₀(0) Ω⁻¹      V = sqrt(2 q / ρ)
 *
 * The aerodynamics of the given Mach number are kept while the speed rises, as in the flutter solution.
 * Source: Bisplinghoff, Ashley & Halfman, Aeroelasticity (1955), section 8-2 (recalled), on modes instead of sections.
 */
import { complexEigenvalues } from '../numeric/complex-eigen.ts'
import type { Aeroelastic } from './roots.ts'

export type DivergenceResult =
  | { readonly kind: 'divergence'; readonly V: number; readonly dynamicPressure: number }
  /** No positive real dynamic pressure makes the stiffness singular. */
  | { readonly kind: 'never' }

/** An eigenvalue counts as real when its imaginary part is below this share of the largest one. */
const realTolerance = 1e-9

export function divergence({ omegas, forces, density }: Aeroelastic): DivergenceResult {
  const n = forces.n
  const { A0 } = forces.at(0)
  const B = A0.map((v, ij) => v / (omegas[Math.floor(ij / n)] * omegas[ij % n]))
  const { re, im } = complexEigenvalues({ n, re: B, im: new Float64Array(n * n) })
  const size = Math.max(...re.map((v, i) => Math.hypot(v, im[i])))
  let largest = 0
  for (let i = 0; i < n; i++) if (Math.abs(im[i]) <= realTolerance * size) largest = Math.max(largest, re[i])
  if (!(largest > realTolerance * size)) return { kind: 'never' }
  const dynamicPressure = 1 / largest
  return { kind: 'divergence', V: Math.sqrt((2 * dynamicPressure) / density), dynamicPressure }
}
