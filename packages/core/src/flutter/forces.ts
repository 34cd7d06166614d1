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
  const n = Q[0].n
  const fill = splined(k, valuesOf(k, Q))
  return {
    ...{ n, referenceLength, quasiSteady: false, highestReducedFrequency: k[k.length - 1], fill },
    at: (at) => {
      const jet = forceJet(n)
      fill(at, jet)
      return { A0: jet.A0, A1: jet.A1 }
    },
    on: (T, to) => {
      const turned = Q.map(({ re, im }) => ({ n: to, re: congruent(re, T, to), im: congruent(im, T, to) }))
      return tabulatedForces({ referenceLength, k, Q: turned })
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

/** The even cubic spline of numeric/spline.ts with its derivative, as polynomials in t = k − kᵢ, `c₀ + t (c₁ + t (c₂ + t c₃))`. */
function splined(k: readonly number[], y: readonly Float64Array[]): (at: number, jet: ForceJet) => void {
  const m = secondDerivatives(k, y)
  const last = k.length - 1
  const square = y[0].length / 2
  const c1 = m.slice(0, last).map((mi, i) => {
    const h = k[i + 1] - k[i]
    return mi.map((v, j) => (y[i + 1][j] - y[i][j]) / h - (h * (2 * v + m[i + 1][j])) / 6)
  })
  const c2 = m.slice(0, last).map((mi) => mi.map((v) => v / 2))
  const c3 = m.slice(0, last).map((mi, i) => mi.map((v, j) => (m[i + 1][j] - v) / (6 * (k[i + 1] - k[i]))))
  return (at, { A0, A1, dA0, dA1 }) => {
    if (at <= k[0] || !(at < k[last])) {
      const end = at <= k[0] ? y[0] : y[last]
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
    const t = at - k[i]
    const [p0, p1, p2, p3] = [y[i], c1[i], c2[i], c3[i]]
    for (let ij = 0, kl = square; ij < square; ij++, kl++) {
      A0[ij] = p0[ij] + t * (p1[ij] + t * (p2[ij] + t * p3[ij]))
      dA0[ij] = p1[ij] + t * (2 * p2[ij] + 3 * t * p3[ij])
      A1[ij] = p0[kl] + t * (p1[kl] + t * (p2[kl] + t * p3[kl]))
      dA1[ij] = p1[kl] + t * (2 * p2[kl] + 3 * t * p3[kl])
    }
  }
}

/** Tᵀ A T, n × n, for T of m × n. */
export function congruent(A: Float64Array, T: Float64Array, n: number): Float64Array {
  const m = T.length / n
  invariant(A.length === m * m, `${A.length} forces for ${m} shapes`)
  const AT = new Float64Array(m * n)
  for (let i = 0; i < m; i++) {
    for (let k = 0; k < m; k++) {
      const a = A[i * m + k]
      for (let j = 0; j < n; j++) AT[i * n + j] += a * T[k * n + j]
    }
  }
  const out = new Float64Array(n * n)
  for (let k = 0; k < m; k++) {
    for (let i = 0; i < n; i++) {
      const t = T[k * n + i]
      for (let j = 0; j < n; j++) out[i * n + j] += t * AT[k * n + j]
    }
  }
  return out
}
