/**
 * Points and weights on the triangle (0, 0), (1, 0), (0, 1); weights sum to its area, 1/2. Exact to degree 4.
 *
 * Source: Strang & Fix, An Analysis of the Finite Element Method (1973), Table 4.1, the rule of 6 points; its numbers in
 * closed form, as roots of the moment equations (the test checks every monomial).
 */
export interface QuadraturePoint {
  readonly r: number
  readonly s: number
  readonly weight: number
}

const spread = Math.sqrt(38 - 44 * Math.sqrt(2 / 5))
const share = Math.sqrt(213125 - 53320 * Math.sqrt(10))

/** Three points (a, a), (1 − 2a, a), (a, 1 − 2a). */
const orbit = (a: number, weight: number): QuadraturePoint[] => [
  { r: a, s: a, weight },
  { r: 1 - 2 * a, s: a, weight },
  { r: a, s: 1 - 2 * a, weight },
]

export const quadrature: readonly QuadraturePoint[] = [
  ...orbit((8 - Math.sqrt(10) + spread) / 18, (620 + share) / 7440),
  ...orbit((8 - Math.sqrt(10) - spread) / 18, (620 - share) / 7440),
]
