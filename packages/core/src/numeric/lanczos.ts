/**
 * The lowest eigenpairs of K x = λ M x, K and M symmetric and sparse, by shift-inverted Lanczos in the inner product of M.
 *
 *   (K − σ M)⁻¹ M v_j = β_{j−1} v_{j−1} + α_j v_j + β_j v_{j+1}      vᵢᵀ M vⱼ = δᵢⱼ      λ = σ + 1/θ, θ eigenvalue of T
 *
 * Every new vector is orthogonalised against all before it. A value counts as found when β_m |s_m| ≤ tolerance · θ.
 * A single sequence meets each eigenspace in one direction only, so repeated values come one at a time: the number of
 * eigenvalues below a shift just above the last one wanted is counted by the negative pivots of K − shift M (Sylvester), and
 * while it exceeds what was found, a new sequence starts orthogonal to all that was. `missed` is what is then still lacking.
 * Source: Parlett, The Symmetric Eigenvalue Problem (1980), chapters 3 and 13; the transformation is that of Ericsson & Ruhe,
 * The spectral transformation Lanczos method, Math. Comp. 35 (1980) 1251–1268 (both recalled).
 */
import { symmetricEigen } from './eigen.ts'
import { factorLdl, type Ldl, type LdlAnalysis, solveLdl } from './ldl.ts'
import { multiply, type SymmetricMatrix, shifted } from './sparse.ts'
import { addTimes, dot } from './vector.ts'

export interface EigenOptions {
  readonly K: SymmetricMatrix
  readonly M: SymmetricMatrix
  readonly analysis: LdlAnalysis
  /** How many of the lowest; more may come back, never fewer unless the matrix is smaller or it did not converge. */
  readonly count: number
  /** Below all eigenvalues wanted; zero when K is positive definite. */
  readonly sigma: number
  /** Of K − σ M, if they are at hand. */
  readonly factors?: Ldl
  /** Relative error of λ aimed at, by the Lanczos residual. Default 1e-9. */
  readonly tolerance?: number
  /** Vectors in one sequence. Default 20 + 6 count. */
  readonly mostVectors?: number
}

export interface Eigenpairs {
  readonly kind: 'converged' | 'not-converged'
  /** Ascending. */
  readonly values: readonly number[]
  /** xᵀ M x = 1 */
  readonly vectors: readonly Float64Array[]
  /** ‖x − (λ − σ)(K − σM)⁻¹ M x‖ in the norm of M, β_m |s_m| / θ: bounds the relative error of λ − σ. */
  readonly residuals: readonly number[]
  /** Eigenvalues known to lie below the last one returned that were not found. */
  readonly missed: number
  /** Solutions with the factors, over all sequences. */
  readonly solves: number
  readonly sequences: number
}

/** The counting shift stands this far, relative to λ − σ, above the last value wanted. */
const margin = 1e-3
const mostSequences = 12

interface Pair {
  readonly lambda: number
  readonly x: Float64Array
  readonly residual: number
}

export function lowestEigenpairs(options: EigenOptions): Eigenpairs {
  const { K, M, analysis, sigma, tolerance = 1e-9 } = options
  const n = analysis.pattern.n
  const count = Math.min(options.count, n)
  const factors = options.factors ?? factorLdl(analysis, shifted(K, M, sigma))
  let solves = 0
  const invert = (Mx: Float64Array): Float64Array => {
    solves++
    return solveLdl(factors, Mx)
  }
  const found: Pair[] = []
  let below = 0
  let sequences = 0
  let missed = count
  while (sequences < mostSequences && factors.singularAt < 0) {
    const wanted = sequences === 0 ? count : below - countBelow(found, upperShift(found, count, sigma))
    const fresh = sequence({ ...options, tolerance, invert, seed: ++sequences, locked: found, wanted })
    found.push(...fresh)
    found.sort((p, q) => p.lambda - q.lambda)
    if (found.length < count) {
      if (fresh.length === 0) break
      below = count
      continue
    }
    const shift = upperShift(found, count, sigma)
    below = eigenvaluesBelow(options, factors, shift)
    missed = below - countBelow(found, shift)
    if (missed <= 0 || fresh.length === 0) break
  }
  const pairs = found.slice(0, count)
  return {
    kind: missed === 0 && pairs.length === count ? 'converged' : 'not-converged',
    values: pairs.map(({ lambda }) => lambda),
    vectors: pairs.map(({ x }) => x),
    residuals: pairs.map(({ residual }) => residual),
    ...{ missed, solves, sequences },
  }
}

/** Just above the last value wanted. */
const upperShift = (found: readonly Pair[], count: number, sigma: number): number => {
  const last = found[Math.min(count, found.length) - 1].lambda
  return last + margin * (last - sigma)
}

const countBelow = (found: readonly Pair[], shift: number): number =>
  found.filter(({ lambda }) => lambda < shift).length

/** Sylvester's count; a shift that happens to hit an eigenvalue is moved a little. */
function eigenvaluesBelow({ K, M, analysis, sigma }: EigenOptions, base: Ldl, shift: number): number {
  for (let attempt = 0; attempt < 4; attempt++) {
    const tried = shift + 0.1 * attempt * margin * (shift - sigma)
    const factors = factorLdl(analysis, shifted(K, M, tried))
    if (factors.singularAt < 0) return factors.negativePivots - base.negativePivots
  }
  return Number.NaN
}

interface Sequence extends EigenOptions {
  readonly tolerance: number
  readonly invert: (Mx: Float64Array) => Float64Array
  readonly seed: number
  readonly locked: readonly Pair[]
  readonly wanted: number
}

/** One Lanczos sequence, M-orthogonal to the locked vectors; returns the pairs that converged. */
function sequence({ M, invert, sigma, tolerance, seed, locked, wanted, mostVectors, count }: Sequence): Pair[] {
  const n = M.pattern.n
  const most = Math.min(mostVectors ?? 20 + 6 * count, n - locked.length)
  const known = locked.map(({ x }) => ({ v: x, Mv: multiply(M, x) }))
  const basis: { v: Float64Array; Mv: Float64Array }[] = []
  const orthogonalise = (w: Float64Array): void => {
    for (const { v, Mv } of known) addTimes(w, -dot(Mv, w), v)
    for (const { v, Mv } of basis) addTimes(w, -dot(Mv, w), v)
  }
  const [alpha, beta]: number[][] = [[], []]
  let w = invert(multiply(M, startVector(n, seed)))
  orthogonalise(w)
  orthogonalise(w)
  let Mw = multiply(M, w)
  let length = Math.sqrt(Math.max(0, dot(w, Mw)))
  const first = length
  while (basis.length < most && length > 1e-13 * first) {
    const [v, Mv] = [times(1 / length, w), times(1 / length, Mw)]
    const last = basis[basis.length - 1]
    w = invert(Mv)
    alpha.push(dot(Mv, w))
    // What the recurrence knows first, then once against all: as good as twice against all.
    addTimes(w, -alpha[alpha.length - 1], v)
    if (last !== undefined) addTimes(w, -beta[beta.length - 1], last.v)
    basis.push({ v, Mv })
    orthogonalise(w)
    Mw = multiply(M, w)
    length = Math.sqrt(Math.max(0, dot(w, Mw)))
    beta.push(length)
    const m = basis.length
    const ripe = m >= 2 * wanted + 4 && (m - 2 * wanted) % 4 === 0
    if (!ripe && m < most && length > 1e-13 * alpha[0]) continue
    const pairs = convergedPairs(alpha, beta, tolerance)
    if (pairs.length < wanted && m < most && length > 1e-13 * alpha[0]) continue
    return pairs.map(({ theta, s, bound }) => ({
      lambda: sigma + 1 / theta,
      x: combine(basis, s),
      residual: bound / theta,
    }))
  }
  return []
}

/** Eigenpairs of the tridiagonal matrix, largest first, as far as they converged without a gap. */
function convergedPairs(alpha: readonly number[], beta: readonly number[], tolerance: number) {
  const m = alpha.length
  const T = new Float64Array(m * m)
  for (let i = 0; i < m; i++) {
    T[i * m + i] = alpha[i]
    if (i + 1 < m) T[i * m + i + 1] = T[(i + 1) * m + i] = beta[i]
  }
  const { values, vectors } = symmetricEigen(T, m)
  const pairs: { theta: number; s: Float64Array; bound: number }[] = []
  for (let i = m - 1; i >= 0; i--) {
    const bound = beta[m - 1] * Math.abs(vectors[i][m - 1])
    if (!(bound <= tolerance * values[i])) break
    pairs.push({ theta: values[i], s: vectors[i], bound })
  }
  return pairs
}

function combine(basis: readonly { v: Float64Array }[], s: Float64Array): Float64Array {
  const x = new Float64Array(basis[0].v.length)
  for (const [j, { v }] of basis.entries()) addTimes(x, s[j], v)
  return x
}

/** The same numbers between −1 and 1 every time: a linear congruential sequence (Numerical Recipes' quick generator). */
function startVector(n: number, seed: number): Float64Array {
  let state = seed
  return Float64Array.from({ length: n }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 31 - 1
  })
}

function times(factor: number, x: Float64Array): Float64Array {
  const out = new Float64Array(x.length)
  for (let i = 0; i < x.length; i++) out[i] = factor * x[i]
  return out
}
