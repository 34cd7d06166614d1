/**
 * L D Lᵀ factors of a sparse symmetric matrix, without pivoting, in the order of its rows.
 *
 *   A = L D Lᵀ      L unit lower triangular, by columns; D diagonal
 *
 * Row k of L solves L₁ D₁ l = A(1…k−1, k); its pattern is what the rows of column k reach in the elimination tree. The tree,
 * the patterns and the place of every entry depend on the pattern of A alone and are found once. Number of negative d =
 * number of negative eigenvalues (Sylvester's law of inertia). Without pivoting the factors are stable for definite A; for an
 * indefinite one, K − σ M, growth is possible, so a pivot that vanishes beside its diagonal entry is reported.
 * Source: Davis, Direct Methods for Sparse Linear Systems (2006), chapter 4, up-looking factorisation (recalled).
 */
import type { SymmetricMatrix, SymmetricPattern } from './sparse.ts'

export interface LdlAnalysis {
  readonly pattern: SymmetricPattern
  /** Columns of L. */
  readonly start: Int32Array
  readonly row: Int32Array
  /** Rows of L: the columns of row k in the order in which they are eliminated. */
  readonly reachStart: Int32Array
  readonly reach: Int32Array
}

export interface Ldl {
  readonly analysis: LdlAnalysis
  readonly L: Float64Array
  readonly D: Float64Array
  readonly negativePivots: number
  /** Row whose pivot vanished to rounding (the matrix is singular), else −1. */
  readonly singularAt: number
}

/** A pivot smaller than this share of its diagonal entry is rounding. */
const vanishing = 16 * Number.EPSILON

export function analyseLdl(pattern: SymmetricPattern): LdlAnalysis {
  const { n } = pattern
  const parent = new Int32Array(n).fill(-1)
  const mark = new Int32Array(n)
  const count = new Int32Array(n)
  const reachStart = new Int32Array(n + 1)
  const path = new Int32Array(n)
  let reach = new Int32Array(4 * pattern.row.length + n)
  for (let k = 0; k < n; k++) {
    mark[k] = k
    let top = n // reach of row k is gathered at the end of `path`, tree paths in order
    for (let p = pattern.start[k]; p < pattern.start[k + 1] - 1; p++) {
      let length = 0
      for (let i = pattern.row[p]; mark[i] !== k; i = parent[i]) {
        if (parent[i] < 0) parent[i] = k
        mark[i] = k
        count[i]++
        path[length++] = i
      }
      while (length > 0) path[--top] = path[--length]
    }
    reachStart[k + 1] = reachStart[k] + n - top
    if (reachStart[k + 1] > reach.length) reach = grown(reach, 2 * reachStart[k + 1])
    for (let p = top, at = reachStart[k]; p < n; p++, at++) reach[at] = path[p]
  }
  const start = new Int32Array(n + 1)
  for (let k = 0; k < n; k++) start[k + 1] = start[k] + count[k]
  const filled = start.slice()
  const row = new Int32Array(start[n])
  for (let k = 0; k < n; k++) for (let p = reachStart[k]; p < reachStart[k + 1]; p++) row[filled[reach[p]]++] = k
  return { pattern, start, row, reachStart, reach: reach.slice(0, start[n]) }
}

function grown(a: Int32Array, length: number): Int32Array<ArrayBuffer> {
  const b = new Int32Array(length)
  b.set(a)
  return b
}

export function factorLdl(analysis: LdlAnalysis, { value }: SymmetricMatrix): Ldl {
  const { pattern, start, row, reachStart, reach } = analysis
  const { n } = pattern
  const L = new Float64Array(row.length)
  const D = new Float64Array(n)
  const y = new Float64Array(n)
  const end = start.slice(0, n)
  let negativePivots = 0
  let singularAt = -1
  for (let k = 0; k < n; k++) {
    const diagonal = pattern.start[k + 1] - 1
    for (let p = pattern.start[k]; p < diagonal; p++) y[pattern.row[p]] = value[p]
    let d = value[diagonal]
    for (let r = reachStart[k]; r < reachStart[k + 1]; r++) {
      const i = reach[r]
      const yi = y[i]
      y[i] = 0
      const last = end[i]
      for (let p = start[i]; p < last; p++) y[row[p]] -= L[p] * yi
      const l = yi / D[i]
      d -= l * yi
      L[last] = l
      end[i] = last + 1
    }
    if (!(Math.abs(d) > vanishing * Math.abs(value[diagonal])) && singularAt < 0) singularAt = k
    if (d < 0) negativePivots++
    D[k] = d
  }
  return { analysis, L, D, negativePivots, singularAt }
}

/** x of A x = b. */
export function solveLdl({ analysis: { start, row }, L, D }: Ldl, b: Float64Array): Float64Array {
  const n = D.length
  const x = b.slice()
  for (let j = 0; j < n; j++) {
    const xj = x[j]
    if (xj !== 0) for (let p = start[j]; p < start[j + 1]; p++) x[row[p]] -= L[p] * xj
  }
  for (let j = n - 1; j >= 0; j--) {
    let xj = x[j] / D[j]
    for (let p = start[j]; p < start[j + 1]; p++) xj -= L[p] * x[row[p]]
    x[j] = xj
  }
  return x
}
