/**
 * Eigenvalues of dense real matrices, row-major, by the QR algorithm (general) and by tridiagonal QL (symmetric).
 *
 * The algorithms are those of Golub & Van Loan, Matrix Computations, 4th ed. (2013), chapters 7 and 8, as implemented in the
 * library ml-matrix; this file only fixes the calling convention and the order.
 */
import { EigenvalueDecomposition, Matrix } from 'ml-matrix'
import { invariant } from '../issue.ts'

export interface ComplexValues {
  readonly re: Float64Array
  readonly im: Float64Array
}

/** All n eigenvalues of a real n × n matrix, in the order found; complex ones in pairs. */
export function eigenvalues(A: ArrayLike<number>, n: number): ComplexValues {
  const found = new EigenvalueDecomposition(toMatrix(A, n))
  return { re: Float64Array.from(found.realEigenvalues), im: Float64Array.from(found.imaginaryEigenvalues) }
}

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
