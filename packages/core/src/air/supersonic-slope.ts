/**
 * Lift slopes of flat plan forms in supersonic flow by linear theory, per radian, on the plan form's own area.
 *
 *   two-dimensional     4/β                                     β = sqrt(M² − 1)
 *   rectangular         (4/β) (1 − 1/(2 β A))                   β A ≥ 1
 *   delta               2 π tan ε / E(k),  k = sqrt(1 − m²)      m = β tan ε < 1, ε the half angle at the apex
 *                       4/β                                     m ≥ 1
 *
 * E is the complete elliptic integral of the second kind, by the arithmetic-geometric mean.
 * Sources: Ackeret (1925), two-dimensional; Bonney, J. Aero. Sci. 14 (1947) 109, rectangular; Stewart, Quart. Appl. Math. 4
 * (1946) 246, and Brown, NACA Rep. 839 (1946), delta (all recalled). AGM: Abramowitz & Stegun (1964), 17.6.3–17.6.4.
 */
import { invariant } from '../issue.ts'

/** Its square, which is what is left out, vanishes beside one. */
const smallDifference = 1e-9

export const machParameter = (mach: number): number => Math.sqrt(Math.abs(mach ** 2 - 1))

export function twoDimensionalSlope(mach: number): number {
  invariant(mach > 1, `supersonic slope asked at Mach ${mach}`)
  return 4 / machParameter(mach)
}

/** `aspectRatio` of the whole wing: span from tip to tip squared over area. */
export function rectangularSlope(mach: number, aspectRatio: number): number {
  const betaA = machParameter(mach) * aspectRatio
  invariant(betaA >= 1, `the rectangular slope holds from β A = 1; it is ${betaA}`)
  return twoDimensionalSlope(mach) * (1 - 1 / (2 * betaA))
}

/** `halfAngle` at the apex, between the centre line and a leading edge. */
export function deltaSlope(mach: number, halfAngle: number): number {
  const m = machParameter(mach) * Math.tan(halfAngle)
  return m >= 1 ? twoDimensionalSlope(mach) : (2 * Math.PI * Math.tan(halfAngle)) / ellipticE(Math.sqrt(1 - m * m))
}

/** Complete elliptic integral of the second kind for the modulus k, 0 ≤ k ≤ 1. */
export function ellipticE(k: number): number {
  invariant(k >= 0 && k <= 1, `elliptic modulus ${k}`)
  if (k === 1) return 1
  let [a, g, c] = [1, Math.sqrt(1 - k * k), k]
  let sum = 0
  for (let power = 0.5; Math.abs(c) > smallDifference; power *= 2) {
    sum += power * c * c
    ;[a, g, c] = [(a + g) / 2, Math.sqrt(a * g), (a - g) / 2]
  }
  return (Math.PI / (2 * a)) * (1 - sum)
}
