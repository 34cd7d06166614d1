/**
 * What a cylindrical body adds to the flow across a fin that stands on it, by slender-body theory.
 *
 *   upwash      w/V = α (1 + r²/(r + y)²)          α crossflow angle, r body radius, y from the body's surface, fin square to the crossflow
 *   its mean between y₁ and y₂   1 + r²/((r + y₁)(r + y₂));   over the whole span 1 + r/(r + s)
 *   fin's lift with the body over that of the two joined fins alone, both slender, τ = r/(r + s):
 *
 *   K_W(B) = (2/π) / (1 − τ)² × { (1 + τ⁴) [½ atan(½ (1/τ − τ)) + π/4] − τ² [(1/τ − τ) + 2 atan τ] }
 *
 * The upwash is that of a doublet in the crossflow of a long cylinder; it is twice the free stream's at the surface. K_W(B) is 1
 * without a body and tends to 2 for a fin much shorter than the body is thick. Source: Pitts, Nielsen & Kaattari, Lift and center of
 * pressure of wing-body-tail combinations at subsonic, transonic, and supersonic speeds, NACA Rep. 1307 (1957), the upwash and the
 * slender-body factor (equation numbers not at hand; the check integrates the factor from the slender-body potential as well).
 */
import { invariant } from '../issue.ts'

/** w/(V α), mean between two distances from the surface of a body of radius r; the value itself where they are one. */
export function meanUpwash(bodyRadius: number, from: number, to: number): number {
  if (bodyRadius === 0) return 1
  return 1 + (bodyRadius / (bodyRadius + from)) * (bodyRadius / (bodyRadius + to))
}

/** K_W(B) for τ = r/(r + s), 0 ≤ τ < 1. */
export function slenderFinFactor(tau: number): number {
  invariant(tau >= 0 && tau < 1, `body radius over total semispan ${tau}`)
  if (tau < smallTau) return 1 + slopeAtZero * tau
  const gap = 1 / tau - tau
  const first = (1 + tau ** 4) * (0.5 * Math.atan(0.5 * gap) + Math.PI / 4)
  const second = tau * tau * (gap + 2 * Math.atan(tau))
  return ((2 / Math.PI) * (first - second)) / (1 - tau) ** 2
}

/** Below it the series replaces the formula, whose terms cancel; its square is what is left out. */
const smallTau = 1e-6
/** dK/dτ at τ = 0: 2 − 4/π, from ½ atan(½(1/τ − τ)) = π/4 − τ + …, −τ²(1/τ) = −τ and 1/(1 − τ)² = 1 + 2τ. */
const slopeAtZero = 2 - 4 / Math.PI
