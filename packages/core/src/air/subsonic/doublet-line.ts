/**
 * Integrals along one straight doublet line, as seen from a receiving point in the same plane.
 *
 * With t = y − η the spanwise distance, x₀ = a + b t the streamwise one (b the tangent of the line's sweep, a its value where the
 * line, extended, passes the point's span), R = sqrt(x₀² + β² t²), s = sign a, c = b² + β², and finite parts at t = 0:
 *
 *   ∫ (1 + x₀/R) / t² dt = −1/t − R/(a t)
 *   ∫ (x₀ + R) / t² dt   = −(a + R)/t + b (1 + s) ln|t| − b s ln(R + s x₀) + sqrt(c) A(t)
 *   ∫ dt / R             = A(t) / sqrt(c)                                  A(t) = asinh((c t + a b) / (|a| β))
 *   ∫ L_j(t) / t² dt     for L_j the parabolas that are 1 at one of t₀, t₁, t₂ and 0 at the others
 *
 * The first is the horseshoe vortex of the Prandtl-Glauert equation, the second and third the part of the kernel linear in
 * frequency, the fourth carries the rest. Derivation by differentiation; see docs/methods/air-subsonic.md.
 */
export interface DoubletLine {
  /** Spanwise distance y − η to the line's outboard end. */
  readonly t1: number
  /** Spanwise distance to its inboard end; t2 > t1. */
  readonly t2: number
  /** Streamwise distance at t = 0. */
  readonly a: number
  /** Tangent of sweep. */
  readonly b: number
  readonly mach: number
}

/** ∫ (1 + x₀/R) / t² dt, 1/m. */
export function steadyIntegral({ t1, t2, a, b, mach }: DoubletLine): number {
  const beta2 = 1 - mach * mach
  const [R1, R2] = [Math.hypot(a + b * t1, Math.sqrt(beta2) * t1), Math.hypot(a + b * t2, Math.sqrt(beta2) * t2)]
  const plain = 1 / t1 - 1 / t2
  if (t1 < 0 && t2 > 0) return plain + (R1 / t1 - R2 / t2) / a
  // Same side: (R₁/|t₁| − R₂/|t₂|) / a without the division by a, which may vanish. (R/t)² = (a/t + b)² + β².
  const side = Math.sign(t2)
  return plain + (side * plain * (a * (1 / t1 + 1 / t2) + 2 * b)) / (R1 / Math.abs(t1) + R2 / Math.abs(t2))
}

/** ∫ (x₀ + R + M² t²/R) / t² dt, dimensionless. */
export function linearIntegral(line: DoubletLine): number {
  const { t1, t2, mach } = line
  const beta2 = 1 - mach * mach
  // A line that points at the receiving point: every term below has a limit there, taken by standing off a hair.
  const hair = 1e-9 * (t2 - t1)
  const a = Math.abs(line.a) < hair ? hair : line.a
  const part = (t: number) => linearAntiderivative(t, { a, b: line.b, beta2, mach })
  return part(t2) - part(t1)
}

function linearAntiderivative(
  t: number,
  { a, b, beta2, mach }: { a: number; b: number; beta2: number; mach: number },
): number {
  const s = a < 0 ? -1 : 1
  const c = b * b + beta2
  const x0 = a + b * t
  const R = Math.sqrt(x0 * x0 + beta2 * t * t)
  const forward = s * x0
  const sum = forward >= 0 ? R + forward : (beta2 * t * t) / (R - forward)
  const A = Math.asinh((c * t + a * b) / (Math.abs(a) * Math.sqrt(beta2)))
  const logs = b * (1 + s) * Math.log(Math.abs(t)) - b * s * Math.log(sum)
  return -(a + R) / t + logs + (c + mach * mach) * (A / Math.sqrt(c))
}

/**
 * Weights w_j = ∫ L_j(t) / t² dt over [t1, t2] for nodes at t1, the middle and t2, so that ∫ P/t² dt ≈ Σ w_j P(t_j). Near the
 * line by its antiderivatives, else by Gauss's rule, which has no cancellation there.
 */
export function parabolaWeights(t1: number, t2: number): [number, number, number] {
  const centre = (t1 + t2) / 2
  const e = (t2 - t1) / 2
  const [m0, m1, m2] = Math.abs(centre) > 4 * e ? momentsByGauss(centre, e) : momentsExact(centre, e)
  // With σ = (t − centre)/e the parabolas are σ(σ − 1)/2, 1 − σ², σ(σ + 1)/2; m_n = ∫ σⁿ/t² dt.
  return [(m2 - m1) / 2, m0 - m2, (m2 + m1) / 2]
}

function momentsExact(centre: number, e: number): [number, number, number] {
  const [t1, t2] = [centre - e, centre + e]
  const inverse = 1 / t1 - 1 / t2
  const log = Math.log(Math.abs(t2 / t1))
  return [inverse, (log - centre * inverse) / e, (2 * e - 2 * centre * log + centre * centre * inverse) / (e * e)]
}

/** Gauss-Legendre, 8 points (Abramowitz & Stegun, Table 25.4). */
const gauss8 = [
  [0.183_434_642_495_65, 0.362_683_783_378_362],
  [0.525_532_409_916_329, 0.313_706_645_877_887],
  [0.796_666_477_413_627, 0.222_381_034_453_374],
  [0.960_289_856_497_536, 0.101_228_536_290_376],
] as const

function momentsByGauss(centre: number, e: number): [number, number, number] {
  let [m0, m1, m2] = [0, 0, 0]
  for (const [node, weight] of gauss8) {
    for (const sigma of [-node, node]) {
      const f = (weight * e) / (centre + sigma * e) ** 2
      m0 += f
      m1 += f * sigma
      m2 += f * sigma * sigma
    }
  }
  return [m0, m1, m2]
}
