/**
 * Tension across a curved laminate that a moment opens: the closed forms that the T-section is held against where they apply.
 *
 * Bar of inner radius a and outer b, moment M per width tending to decrease its curvature, isotropic:
 *
 *   σr = −(4M/N) (a² b²/r² ln(b/a) + b² ln(r/b) + a² ln(a/r))      N = (b² − a²)² − 4 a² b² (ln(b/a))²
 *
 * Source: Timoshenko & Goodier, Theory of Elasticity, 3rd ed. (1970), art. 29, eqs 51 and 52 (recalled).
 *
 *   σr ≈ 3M / (2 R t)      R mean radius, t thickness
 *
 * Source: Kedward, Wilson & McLean, Composites 20 (1989) 527-536 (recalled). It is the limit of the first for a thin bar.
 *
 * A curved skin on a fillet differs: its moment is small, because the fillet supports it, and what pulls it off is its own
 * tension N going round the curve, σr ≈ N / r on the fillet.
 */
export interface CurvedBar {
  /** Per width, N. */
  readonly M: number
  readonly inner: number
  readonly outer: number
}

/** Radial stress at radius r, Pa. */
export function curvedBarRadialStress({ M, inner: a, outer: b }: CurvedBar, r: number): number {
  const log = Math.log(b / a)
  const N = (b ** 2 - a ** 2) ** 2 - 4 * a ** 2 * b ** 2 * log ** 2
  return ((-4 * M) / N) * (((a * b) / r) ** 2 * log + b ** 2 * Math.log(r / b) + a ** 2 * Math.log(a / r))
}

/** Greatest radial stress of a thin curved laminate, Pa; R mean radius, t thickness. */
export const openingStress = ({ M, R, t }: { readonly M: number; readonly R: number; readonly t: number }): number =>
  (3 * M) / (2 * R * t)
