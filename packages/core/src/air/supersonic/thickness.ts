/**
 * What a fin's thickness adds to its linear supersonic pressure, panel by panel, to second order in the slopes.
 *
 *   one face at the slope δ to the flow     c_p = C₁ δ + C₂ δ²      C₁ = 2/β      C₂ = ((γ + 1) M⁴ − 4 β²) / (2 β⁴)
 *   both faces, δ = τ′ ± α                  Δc_p = 2 C₁ α (1 + 2 (C₂/C₁) τ′)
 *   factor on the linear Δc_p               1 + τ′ ((γ + 1) M⁴ − 4 β²) / (2 β³)
 *
 * τ′ is the slope of half the thickness along the flow at the panel, positive where the fin thickens. Exact to second order for
 * steady plane flow; used here as a local factor on the pressure of a finite, oscillating fin, as published supersonic analyses
 * do: Rodden, Farkas, Malcom & Kliszewski, Aerospace Corp. TDR-169(3230-11)TN-2 (1962) for piston theory, and Liu, Yao, Sarhaddi
 * & Chavez, J. Aircraft 34 (1997) 304 for lifting surfaces (both recalled). Second-order coefficient: Busemann (1935); Van Dyke,
 * NACA Rep. 1081 (1952) (recalled). It grows like β⁻³ towards Mach 1, where it means nothing: `largestThicknessTerm`.
 */
import { invariant } from '../../issue.ts'
import type { SourceLattice } from './lattice.ts'

/** Factors further than this from 1 are outside a second-order theory: the next term would be of the same size as its square. */
export const largestThicknessTerm = 0.4

/** 2 C₂/C₁, per unit slope of half the thickness. */
export function secondOrderRatio(mach: number, gamma = 1.4): number {
  invariant(mach > 1, `second-order supersonic pressure at Mach ${mach}`)
  const beta2 = mach * mach - 1
  return ((gamma + 1) * mach ** 4 - 4 * beta2) / (2 * beta2 ** 1.5)
}

/** Factors on the pressure, one a slope. */
export function thicknessFactors(mach: number, slopes: ArrayLike<number>, gamma = 1.4): Float64Array {
  const ratio = secondOrderRatio(mach, gamma)
  return Float64Array.from(slopes, (slope) => 1 + ratio * slope)
}

/** Largest |factor − 1|; above `largestThicknessTerm` the factors are not to be used. */
export function thicknessTerm(mach: number, slopes: ArrayLike<number>, gamma = 1.4): number {
  return (
    Math.abs(secondOrderRatio(mach, gamma)) * Array.from(slopes, Math.abs).reduce((most, v) => Math.max(most, v), 0)
  )
}

/**
 * Mean streamwise slope of half the thickness over each box's panel, from the thickness at its ends, so that a bevel that ends
 * inside a panel counts in proportion.
 */
export function boxSlopes(lattice: SourceLattice, halfThickness: (x: number, y: number) => number): Float64Array {
  const { panels, count, y } = lattice
  const [rise, length] = [new Float64Array(count), new Float64Array(count)]
  for (const { box, from, to } of panels) {
    rise[box] += halfThickness(to, y[box]) - halfThickness(from, y[box])
    length[box] += to - from
  }
  return rise.map((dz, box) => (length[box] > 0 ? dz / length[box] : 0))
}
