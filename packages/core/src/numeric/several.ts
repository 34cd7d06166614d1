/**
 * Products and solutions with several vectors at once: the matrix, which is larger than a processor's near memory, is read once for four.
 *
 * Entry i of the r-th vector of a group stands at 4 i + r. The sums are those of `multiply` and `solveLdl`.
 */
import type { Ldl } from './ldl.ts'
import type { SymmetricMatrix } from './sparse.ts'

const width = 4

/** A x for each x. */
export function multiplySeveral(A: SymmetricMatrix, xs: readonly Float64Array[]): Float64Array[] {
  return byGroups(xs, (X) => groupProduct(A, X))
}

/** x of A x = b for each b. */
export function solveSeveral(factors: Ldl, bs: readonly Float64Array[]): Float64Array[] {
  return byGroups(bs, (X) => {
    solveGroup(factors, X)
    return X
  })
}

function byGroups(xs: readonly Float64Array[], work: (X: Float64Array) => Float64Array): Float64Array[] {
  const out: Float64Array[] = []
  for (let first = 0; first < xs.length; first += width) {
    const group = xs.slice(first, first + width)
    const n = group[0].length
    const X = new Float64Array(width * n)
    group.forEach((x, r) => {
      for (let i = 0; i < n; i++) X[width * i + r] = x[i]
    })
    const Y = work(X)
    group.forEach((_, r) => {
      const y = new Float64Array(n)
      for (let i = 0; i < n; i++) y[i] = Y[width * i + r]
      out.push(y)
    })
  }
  return out
}

function groupProduct({ pattern: { n, start, row }, value }: SymmetricMatrix, X: Float64Array): Float64Array {
  const Y = new Float64Array(X.length)
  for (let j = 0; j < n; j++) {
    const at = width * j
    const x0 = X[at]
    const x1 = X[at + 1]
    const x2 = X[at + 2]
    const x3 = X[at + 3]
    const diagonal = start[j + 1] - 1
    let s0 = value[diagonal] * x0
    let s1 = value[diagonal] * x1
    let s2 = value[diagonal] * x2
    let s3 = value[diagonal] * x3
    for (let p = start[j]; p < diagonal; p++) {
      const a = value[p]
      const i = width * row[p]
      Y[i] += a * x0
      Y[i + 1] += a * x1
      Y[i + 2] += a * x2
      Y[i + 3] += a * x3
      s0 += a * X[i]
      s1 += a * X[i + 1]
      s2 += a * X[i + 2]
      s3 += a * X[i + 3]
    }
    Y[at] += s0
    Y[at + 1] += s1
    Y[at + 2] += s2
    Y[at + 3] += s3
  }
  return Y
}

function solveGroup({ analysis: { start, row }, L, D }: Ldl, X: Float64Array): void {
  const n = D.length
  for (let j = 0; j < n; j++) {
    const at = width * j
    const x0 = X[at]
    const x1 = X[at + 1]
    const x2 = X[at + 2]
    const x3 = X[at + 3]
    for (let p = start[j]; p < start[j + 1]; p++) {
      const l = L[p]
      const i = width * row[p]
      X[i] -= l * x0
      X[i + 1] -= l * x1
      X[i + 2] -= l * x2
      X[i + 3] -= l * x3
    }
  }
  for (let j = n - 1; j >= 0; j--) {
    const at = width * j
    const d = D[j]
    let x0 = X[at] / d
    let x1 = X[at + 1] / d
    let x2 = X[at + 2] / d
    let x3 = X[at + 3] / d
    for (let p = start[j]; p < start[j + 1]; p++) {
      const l = L[p]
      const i = width * row[p]
      x0 -= l * X[i]
      x1 -= l * X[i + 1]
      x2 -= l * X[i + 2]
      x3 -= l * X[i + 3]
    }
    X[at] = x0
    X[at + 1] = x1
    X[at + 2] = x2
    X[at + 3] = x3
  }
}
