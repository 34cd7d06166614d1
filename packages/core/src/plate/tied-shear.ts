/**
 * The functions of the plate's triangle in its natural coordinates r, s, and the space in which its transverse shear is tied.
 *
 *   γ = ∇w + R φ
 *
 * R takes a field to the space (a₁ + b₁r + c₁s + s(dr + es), a₂ + b₂r + c₂s − r(dr + es)) that has the same tangential
 * component at two Gauss points of each side and the same mean over the triangle; components are covariant, along r and s. The
 * gradient of a quadratic w lies in that space already. Source: Bathe, Brezzi & Cho, The MITC7 and MITC9 plate bending
 * elements, Computers & Structures 32 (1989) 797–814 (recalled).
 */
import { inverse, Matrix } from 'ml-matrix'
import { quadrature } from './quadrature.ts'

/** The seven functions (six N, then b) and their derivatives by r and s. */
export function shapeFunctions(r: number, s: number): { N: number[]; Nr: number[]; Ns: number[] } {
  const t = 1 - r - s
  return {
    N: [t * (2 * t - 1), r * (2 * r - 1), s * (2 * s - 1), 4 * t * r, 4 * r * s, 4 * s * t, 27 * r * s * t],
    Nr: [1 - 4 * t, 4 * r - 1, 0, 4 * (t - r), 4 * s, -4 * s, 27 * s * (t - r)],
    Ns: [1 - 4 * t, 0, 4 * s - 1, -4 * r, 4 * r, 4 * (t - s), 27 * r * (t - s)],
  }
}

/** ∫ N over the reference triangle: 0 for corners, 1/6 for the middles of sides, 9/40 for the bubble. */
const means = [0, 0, 0, 1 / 6, 1 / 6, 1 / 6, 9 / 40]

/** The eight fields of the tied shear, as (r, s) components. */
const shearFields = (r: number, s: number): [number, number][] => [
  [1, 0],
  [r, 0],
  [s, 0],
  [0, 1],
  [0, r],
  [0, s],
  [s * r, -r * r],
  [s * s, -r * s],
]
/** ∫ of the same over the reference triangle. */
const shearFieldMeans: readonly [number, number][] = [
  [1 / 2, 0],
  [1 / 6, 0],
  [1 / 6, 0],
  [0, 1 / 2],
  [0, 1 / 6],
  [0, 1 / 6],
  [1 / 24, -1 / 12],
  [1 / 12, -1 / 24],
]

const gauss = [0.5 - Math.sqrt(3) / 6, 0.5 + Math.sqrt(3) / 6]
/** Tying points on the sides with the side's direction in (r, s). */
const ties = gauss.flatMap((g) => [
  { r: g, s: 0, along: [1, 0] },
  { r: 0, s: g, along: [0, 1] },
  { r: g, s: 1 - g, along: [-1, 1] },
])

/** Coefficients of the tied field (8) for unit values of the seven functions as r component, then as s component. */
const tied: { readonly alongR: number[][]; readonly alongS: number[][] } = (() => {
  const conditions = [
    ...ties.map(({ r, s, along }) => shearFields(r, s).map((f) => f[0] * along[0] + f[1] * along[1])),
    shearFieldMeans.map((f) => f[0]),
    shearFieldMeans.map((f) => f[1]),
  ]
  const solve = inverse(new Matrix(conditions))
  const coefficients = (component: 0 | 1): number[][] =>
    means.map((mean, i) => {
      const values = ties.map(({ r, s, along }) => shapeFunctions(r, s).N[i] * along[component])
      const right = [...values, component === 0 ? mean : 0, component === 1 ? mean : 0]
      return solve.mmul(Matrix.columnVector(right)).to1DArray()
    })
  return { alongR: coefficients(0), alongS: coefficients(1) }
})()

/** Everything about a point of the reference triangle that does not depend on the triangle's shape. */
export interface ReferencePoint {
  readonly r: number
  readonly s: number
  readonly N: readonly number[]
  readonly Nr: readonly number[]
  readonly Ns: readonly number[]
  /** Tied shear (r, s components) of the i-th function as r component, and as s component: 4 numbers a function. */
  readonly tiedShear: readonly (readonly [number, number, number, number])[]
}

export function referencePoint(r: number, s: number): ReferencePoint {
  const fields = shearFields(r, s)
  const value = (coefficients: readonly number[], component: 0 | 1): number =>
    coefficients.reduce((sum, c, k) => sum + c * fields[k][component], 0)
  const tiedShear = means.map((_, i): [number, number, number, number] => [
    value(tied.alongR[i], 0),
    value(tied.alongR[i], 1),
    value(tied.alongS[i], 0),
    value(tied.alongS[i], 1),
  ])
  return { r, s, ...shapeFunctions(r, s), tiedShear }
}

export const integrationPoints: readonly (ReferencePoint & { readonly weight: number })[] = quadrature.map(
  ({ r, s, weight }) => ({ ...referencePoint(r, s), weight }),
)
