/**
 * Eigenvalues of dense real symmetric matrices, row-major, by tridiagonal QL.
 *
 * The algorithm is that of Golub & Van Loan, Matrix Computations, 4th ed. (2013), chapter 8, as implemented in the library
 * ml-matrix; this file only fixes the calling convention and the order. (Its general algorithm is not used: it does not end
 * for pairs of equal and opposite eigenvalues; see complex-eigen.ts.)
 */
import { EigenvalueDecomposition, Matrix } from 'ml-matrix'
import { invariant } from '../issue.ts'

export interface SymmetricEigen {
  /** Ascending. */
  readonly values: Float64Array
  /** One a value, unit length. */
  readonly vectors: readonly Float64Array[]
}

/** All eigenvalues and vectors of a real symmetric n × n matrix, ascending. */
export function symmetricEigen(A: ArrayLike<number>, n: number): SymmetricEigen {
  const found = new EigenvalueDecomposition(toMatrix(A, n), { assumeSymmetric: true })
  const V = found.eigenvectorMatrix
  const order = found.realEigenvalues.map((value, j) => ({ value, j })).sort((p, q) => p.value - q.value)
  return {
    values: Float64Array.from(order, ({ value }) => value),
    vectors: order.map(({ j }) => Float64Array.from({ length: n }, (_, i) => V.get(i, j))),
  }
}

function toMatrix(A: ArrayLike<number>, n: number): Matrix {
  invariant(A.length === n * n, `matrix has ${A.length} entries for n=${n}`)
  for (let i = 0; i < A.length; i++) invariant(Number.isFinite(A[i]), `matrix entry ${i} is ${A[i]}`)
  return Matrix.from1DArray(n, n, Array.from(A))
}
