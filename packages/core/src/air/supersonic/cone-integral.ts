/**
 * Integrals of the supersonic source 1/R over the part of a box that lies in the forward Mach cone of a receiving point.
 *
 *   R² = ξ² − β² η²       ξ: receiving point's x minus source's, η: source's y minus receiving point's; the cone is ξ ≥ β|η|
 *   a straight line across a strip:  ξ = a + t η,  η₁ ≤ η ≤ η₂
 *   E(a) = ∬ dξ dη / R   over the cone's part behind the line (nearer to the receiving point), so that a box between two
 *          lines has E of its front edge − E of its rear edge
 *        = ∫ acosh((a + t η)/(β|η|)) dη  =  [η acosh((a + t η)/(β η))] + a ∫ dη/√Q      for η ≥ 0;  η < 0 by t → −t
 *   Q(η) = (a + t η)² − β² η²
 *   ∫ dη/√Q = (2 Δ/S) atanh(z)/z,    z² = (t² − β²) Δ²/S²,  Δ the interval, S the sum of √Q at its ends (z² < 0: atan)
 *
 * The last form has no cancellation and no special case at the sonic edge t = β. Derived in docs/methods/air-supersonic.md;
 * the tests compare it with numerical integration. Units: lengths m, E m.
 */

export interface BoxInCone {
  /** The edge farther upstream, ξ = a + t η. */
  readonly a: number
  readonly t: number
  /** The edge nearer to the receiving point; the two do not cross between η₁ and η₂. */
  readonly aRear: number
  readonly tRear: number
  readonly eta1: number
  readonly eta2: number
  readonly beta: number
}

/** ∬ dξ dη / R over the box inside the cone. */
export function boxIntegral({ a, t, aRear, tRear, eta1, eta2, beta }: BoxInCone): number {
  if (!(lineReach(a, t, eta1, eta2, beta) > 0)) return 0
  return bandIntegral(a, t, eta1, eta2, beta) - bandIntegral(aRear, tRear, eta1, eta2, beta)
}

/** E(a). */
export function bandIntegral(a: number, t: number, eta1: number, eta2: number, beta: number): number {
  const least = hair * (eta2 - eta1)
  let sum = 0
  if (eta2 > least) sum += halfBand(a, t, eta1 > least ? eta1 : 0, eta2, beta)
  if (-eta1 > least) sum += halfBand(a, -t, -eta2 > least ? -eta2 : 0, -eta1, beta)
  return sum
}

/** Largest ξ − β|η| on the line: where it is not positive the line does not meet the cone. Linear pieces: at an end or η = 0. */
export function lineReach(a: number, t: number, eta1: number, eta2: number, beta: number): number {
  const ends = Math.max(a + t * eta1 - beta * Math.abs(eta1), a + t * eta2 - beta * Math.abs(eta2))
  return eta1 < 0 && eta2 > 0 ? Math.max(ends, a) : ends
}

/** An interval this short beside its strip is a rounding error of the place where the line leaves the cone. */
export const hair = 1e-11

/** For 0 ≤ η₁ < η₂. */
function halfBand(a: number, t: number, eta1: number, eta2: number, beta: number): number {
  const inside = clipToCone(a, t, eta1, eta2, beta)
  if (inside === null) return 0
  const [lo, hi] = inside
  const roots = rootQ(lo, a, t, beta) + rootQ(hi, a, t, beta)
  // A line that runs along the Mach line through the receiving point has nothing behind it.
  if (!(roots > 0)) return 0
  const ratio = (hi - lo) / roots
  const z2 = (t * t - beta * beta) * ratio * ratio
  return etaAcosh(hi, a, t, beta) - etaAcosh(lo, a, t, beta) + 2 * a * ratio * atanhRatio(z2)
}

/** The part of [η₁, η₂], η ≥ 0, where a + t η > β η. */
export function clipToCone(
  a: number,
  t: number,
  eta1: number,
  eta2: number,
  beta: number,
): readonly [number, number] | null {
  const slope = t - beta
  let [lo, hi] = [eta1, eta2]
  if (slope < 0) hi = Math.min(hi, -a / slope)
  else if (slope > 0) lo = Math.max(lo, -a / slope)
  else if (a <= 0) return null
  return hi - lo > hair * (eta1 + eta2) ? [lo, hi] : null
}

/** √Q as a product of differences taken before they cancel: near the cone, and for edges along the Mach line. */
function rootQ(eta: number, a: number, t: number, beta: number): number {
  return Math.sqrt(Math.max(0, (a + (t - beta) * eta) * (a + (t + beta) * eta)))
}

function etaAcosh(eta: number, a: number, t: number, beta: number): number {
  return eta > 0 ? eta * Math.acosh(Math.max(1, (a + t * eta) / (beta * eta))) : 0
}

/** atanh(z)/z of z², atan(|z|)/|z| for z² < 0. */
function atanhRatio(z2: number): number {
  if (Math.abs(z2) < 1e-4) return 1 + z2 * (1 / 3 + z2 * (1 / 5 + z2 / 7))
  const z = Math.sqrt(Math.abs(z2))
  return z2 > 0 ? Math.atanh(Math.min(z, 1 - 1e-16)) / z : Math.atan(z) / z
}
