/**
 * What an aerodynamic method gives to a flutter solution: generalized air forces on given mode shapes.
 *
 *   F = q (A₀(k) + (b/V) s A₁(k)) ξ          at s = i ω:  F = q Q(k, M) ξ,  Q = A₀ + i k A₁,  k = ω b / V
 *
 * ξ are the modal coordinates, q = ½ ρ V², b the reference length, s the rate of growth and oscillation (ξ ~ e^(s t)).
 * F_i is the work of the air on mode i, so A₀ and A₁ carry m times the square of the shapes' unit: m³ for shapes in m, m/kg
 * for shapes of unit modal mass in 1/√kg. Row-major n × n, row i the force on mode i. A method is one implementation; it
 * states the Mach numbers it answers for.
 */
import type { Issue } from '../issue.ts'
import { invariant } from '../issue.ts'
import type { ComplexMatrix } from '../numeric/complex-matrix.ts'
import { evenSpline } from '../numeric/spline.ts'

export interface ForceMatrices {
  /** Re Q. */
  readonly A0: Float64Array
  /** Im Q / k. */
  readonly A1: Float64Array
}

/** Of one Mach number. */
export interface GeneralizedForces {
  readonly n: number
  /** b, to which the reduced frequency is referred. */
  readonly referenceLength: number
  /** The matrices do not depend on k. */
  readonly quasiSteady: boolean
  /** Largest k that was computed; matrices are held beyond it. Infinite when quasi-steady. */
  readonly highestReducedFrequency: number
  readonly at: (k: number) => ForceMatrices
}

export interface AerodynamicMethod {
  /** As printed beside every result. */
  readonly name: string
  /** Inclusive range of Mach numbers in which the method answers. */
  readonly machRange: { readonly from: number; readonly to: number }
  readonly forces: (mach: number) => GeneralizedForces
  /** What a reader must know about the result at this Mach number. */
  readonly warnings: (mach: number) => readonly Issue[]
}

export function quasiSteadyForces(n: number, referenceLength: number, matrices: ForceMatrices): GeneralizedForces {
  invariant(matrices.A0.length === n * n && matrices.A1.length === n * n, `force matrices for n=${n}`)
  const infinite = Number.POSITIVE_INFINITY
  return { n, referenceLength, quasiSteady: true, highestReducedFrequency: infinite, at: () => matrices }
}

export interface ForceTable {
  readonly referenceLength: number
  /** Rising, two or more; may begin at 0. */
  readonly k: readonly number[]
  readonly Q: readonly ComplexMatrix[]
}

/**
 * Forces from matrices computed at some reduced frequencies. Re Q and Im Q / k are even in k and go through cubic splines; at
 * k = 0, Im Q / k is put on the parabola in k² through the next two.
 */
export function tabulatedForces({ referenceLength, k, Q }: ForceTable): GeneralizedForces {
  invariant(k.length >= 2 && Q.length === k.length, `force table of ${k.length} frequencies and ${Q.length} matrices`)
  invariant(k[0] > 0 || k.length >= 3, 'a force table that begins at k = 0 needs two more frequencies')
  const n = Q[0].n
  const damping = Q.map(({ im }, i) => (k[i] > 0 ? im.map((v) => v / k[i]) : im))
  if (k[0] === 0) {
    const share = k[1] ** 2 / (k[2] ** 2 - k[1] ** 2)
    damping[0] = damping[1].map((v, ij) => v - share * (damping[2][ij] - v))
  }
  const realPart = evenSpline(
    k,
    Q.map(({ re }) => re),
  )
  const dampingPart = evenSpline(k, damping)
  return {
    n,
    referenceLength,
    quasiSteady: false,
    highestReducedFrequency: k[k.length - 1],
    at: (at) => ({
      A0: realPart(at, new Float64Array(n * n)),
      A1: dampingPart(at, new Float64Array(n * n)),
    }),
  }
}
