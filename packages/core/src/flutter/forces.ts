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
import { congruent } from '../numeric/congruent.ts'
import { secondDerivatives } from '../numeric/spline.ts'

export interface ForceMatrices {
  /** Re Q. */
  readonly A0: Float64Array
  /** Im Q / k. */
  readonly A1: Float64Array
}

/** The matrices and their derivatives by k at one k. */
export interface ForceJet extends ForceMatrices {
  readonly dA0: Float64Array
  readonly dA1: Float64Array
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
  /** `at` with derivatives, written in place. Without it the derivatives are taken by differences. */
  readonly fill?: (k: number, jet: ForceJet) => void
  /** The same air on n shapes made of these: their shares, m × n row-major for m shapes here; Q becomes Tᵀ Q T. */
  readonly on?: (T: Float64Array, n: number) => GeneralizedForces
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
  return {
    ...{ n, referenceLength, quasiSteady: true, highestReducedFrequency: infinite, at: () => matrices },
    on: (T, to) => {
      const [A0, A1] = [congruent(matrices.A0, T, to), congruent(matrices.A1, T, to)]
      return quasiSteadyForces(to, referenceLength, { A0, A1 })
    },
  }
}

export interface ForceTable {
  readonly referenceLength: number
  /** Rising, two or more; may begin at 0. */
  readonly k: readonly number[]
  readonly Q: readonly ComplexMatrix[]
}

/**
 * Forces from matrices computed at some reduced frequencies. Re Q and Im Q / k are even in k and go through cubic splines; at
 * k = 0, Im Q / k is put on the parabola in k² through the next two. Held beyond the last frequency.
 */
export function tabulatedForces({ referenceLength, k, Q }: ForceTable): GeneralizedForces {
  invariant(k.length >= 2 && Q.length === k.length, `force table of ${k.length} frequencies and ${Q.length} matrices`)
  invariant(k[0] > 0 || k.length >= 3, 'a force table that begins at k = 0 needs two more frequencies')
  const values = valuesOf(k, Q)
  const bends = secondDerivatives(k, values)
  return throughValues({ n: Q[0].n, referenceLength, k, value: (i) => values[i], bend: (i) => bends[i] })
}

interface SplinedTable {
  readonly n: number
  readonly referenceLength: number
  readonly k: readonly number[]
  /** Re Q and Im Q / k one after the other, a vector a frequency; and their second derivatives. */
  readonly value: (i: number) => Float64Array
  readonly bend: (i: number) => Float64Array
}

/** The spline is linear in its values, so its second derivatives are turned with them, each when it is first asked for. */
function throughValues({ n, referenceLength, k, value, bend }: SplinedTable): GeneralizedForces {
  const fill = splined(k, n * n, value, bend)
  return {
    ...{ n, referenceLength, quasiSteady: false, highestReducedFrequency: k[k.length - 1], fill },
    at: (at) => {
      const jet = forceJet(n)
      fill(at, jet)
      return { A0: jet.A0, A1: jet.A1 }
    },
    on: (T, to) => {
      const turned = (vector: (i: number) => Float64Array): ((i: number) => Float64Array) => {
        const made: Float64Array[] = []
        return (i) => {
          if (made[i] !== undefined) return made[i]
          const both = vector(i)
          const out = new Float64Array(2 * to * to)
          out.set(congruent(both.subarray(0, n * n), T, to))
          out.set(congruent(both.subarray(n * n), T, to), to * to)
          made[i] = out
          return out
        }
      }
      return throughValues({ n: to, referenceLength, k, value: turned(value), bend: turned(bend) })
    },
  }
}

export function forceJet(n: number): ForceJet {
  const square = (): Float64Array => new Float64Array(n * n)
  return { A0: square(), A1: square(), dA0: square(), dA1: square() }
}

/** Fills a jet from any forces. */
export function jetFiller(forces: GeneralizedForces): (k: number, jet: ForceJet) => void {
  const { fill, at, quasiSteady } = forces
  if (fill !== undefined) return fill
  return (k, { A0, A1, dA0, dA1 }) => {
    const here = at(k)
    A0.set(here.A0)
    A1.set(here.A1)
    if (quasiSteady || !Number.isFinite(k)) {
      dA0.fill(0)
      dA1.fill(0)
      return
    }
    const h = differenceStep * (k + differenceStep)
    const [below, above] = [at(k - h), at(k + h)]
    for (let ij = 0; ij < A0.length; ij++) {
      dA0[ij] = (above.A0[ij] - below.A0[ij]) / (2 * h)
      dA1[ij] = (above.A1[ij] - below.A1[ij]) / (2 * h)
    }
  }
}

/** Share of k: cube root of the rounding error. */
const differenceStep = 6e-6

/** Re Q and Im Q / k one after the other, a vector a frequency. */
function valuesOf(k: readonly number[], Q: readonly ComplexMatrix[]): Float64Array[] {
  const square = Q[0].n ** 2
  const values = Q.map(({ re, im }, i) => {
    const both = new Float64Array(2 * square)
    both.set(re)
    for (let ij = 0; ij < square; ij++) both[square + ij] = k[i] > 0 ? im[ij] / k[i] : im[ij]
    return both
  })
  if (k[0] === 0) {
    const share = k[1] ** 2 / (k[2] ** 2 - k[1] ** 2)
    for (let ij = square; ij < 2 * square; ij++) {
      values[0][ij] = values[1][ij] - share * (values[2][ij] - values[1][ij])
    }
  }
  return values
}

/** The even cubic spline of numeric/spline.ts with its derivative, m its second derivatives. */
function splined(k: readonly number[], square: number, y: SplinedTable['value'], m: SplinedTable['bend']) {
  const last = k.length - 1
  return (at: number, { A0, A1, dA0, dA1 }: ForceJet): void => {
    if (at <= k[0] || !(at < k[last])) {
      const end = y(at <= k[0] ? 0 : last)
      for (let ij = 0; ij < square; ij++) {
        A0[ij] = end[ij]
        A1[ij] = end[square + ij]
        dA0[ij] = 0
        dA1[ij] = 0
      }
      return
    }
    let i = 0
    while (at > k[i + 1]) i++
    const h = k[i + 1] - k[i]
    const b = (at - k[i]) / h
    const a = 1 - b
    const ca = ((a * a * a - a) * h * h) / 6
    const cb = ((b * b * b - b) * h * h) / 6
    const da = ((1 - 3 * a * a) * h) / 6
    const db = ((3 * b * b - 1) * h) / 6
    const [y0, y1, m0, m1] = [y(i), y(i + 1), m(i), m(i + 1)]
    for (let ij = 0, kl = square; ij < square; ij++, kl++) {
      A0[ij] = a * y0[ij] + b * y1[ij] + ca * m0[ij] + cb * m1[ij]
      dA0[ij] = (y1[ij] - y0[ij]) / h + da * m0[ij] + db * m1[ij]
      A1[ij] = a * y0[kl] + b * y1[kl] + ca * m0[kl] + cb * m1[kl]
      dA1[ij] = (y1[kl] - y0[kl]) / h + da * m0[kl] + db * m1[kl]
    }
  }
}
