import { CholeskyDecomposition, EigenvalueDecomposition, Matrix, solve } from 'ml-matrix'
import { expect, test } from 'vitest'
import { lowestEigenpairs } from '../../src/numeric/lanczos.ts'
import { analyseLdl, factorLdl, solveLdl } from '../../src/numeric/ldl.ts'
import { multiply, type SymmetricMatrix } from '../../src/numeric/sparse.ts'

/** Tridiagonal K and M, written column by column: above the diagonal, then on it. */
function tridiagonal(n: number, diagonal: (i: number) => number, beside: (i: number) => number): SymmetricMatrix {
  const start = [0]
  const row: number[] = []
  const value: number[] = []
  for (let j = 0; j < n; j++) {
    if (j > 0) [row.push(j - 1), value.push(beside(j))]
    row.push(j)
    value.push(diagonal(j))
    start.push(row.length)
  }
  return { pattern: { n, start: Int32Array.from(start), row: Int32Array.from(row) }, value: Float64Array.from(value) }
}

const onPatternOf = ({ pattern }: SymmetricMatrix, { value }: SymmetricMatrix): SymmetricMatrix => ({ pattern, value })

test('generalised problem against the dense solution', () => {
  const n = 60
  const K = tridiagonal(
    n,
    (i) => 2.5 + 0.3 * Math.sin(i),
    () => -1,
  )
  const M = onPatternOf(
    K,
    tridiagonal(
      n,
      (i) => 4 + Math.cos(i),
      () => 0.7,
    ),
  )
  const dense = (A: SymmetricMatrix): Matrix => {
    const full = Matrix.zeros(n, n)
    for (let j = 0; j < n; j++) {
      for (let p = A.pattern.start[j]; p < A.pattern.start[j + 1]; p++) {
        full.set(A.pattern.row[p], j, A.value[p])
        full.set(j, A.pattern.row[p], A.value[p])
      }
    }
    return full
  }
  const L = new CholeskyDecomposition(dense(M)).lowerTriangularMatrix
  const reduced = solve(L, solve(L, dense(K)).transpose())
  const expected = new EigenvalueDecomposition(reduced, { assumeSymmetric: true }).realEigenvalues.sort((p, q) => p - q)
  const found = lowestEigenpairs({ K, M, analysis: analyseLdl(K.pattern), count: 8, sigma: 0 })
  expect(found.kind).toBe('converged')
  expect(found.missed).toBe(0)
  found.values.forEach((value, i) => {
    expect(value / expected[i]).toBeCloseTo(1, 10)
  })
  const factors = factorLdl(analyseLdl(K.pattern), K)
  found.vectors.forEach((x, i) => {
    // The residual as reported is what one more solution shows, but for rounding.
    const y = solveLdl(factors, multiply(M, x))
    const rest = x.map((value, k) => value - found.values[i] * y[k])
    const shown = Math.sqrt(multiply(M, rest).reduce((sum, value, k) => sum + value * rest[k], 0))
    expect(found.residuals[i]).toBeLessThan(1e-8)
    expect(Math.abs(shown - found.residuals[i])).toBeLessThan(1e-12 + 0.01 * shown)
  })
  found.vectors.forEach((x, i) => {
    found.vectors.forEach((y, j) => {
      const product = multiply(M, x).reduce((sum, value, k) => sum + value * y[k], 0)
      expect(product).toBeCloseTo(i === j ? 1 : 0, 9)
    })
  })
})

/** Diagonal K, M = I: eigenvalues as given, whatever their multiplicity. */
function diagonal(values: readonly number[]) {
  const n = values.length
  const K = tridiagonal(
    n,
    (i) => values[i],
    () => 0,
  )
  return {
    K,
    M: onPatternOf(
      K,
      tridiagonal(
        n,
        () => 1,
        () => 0,
      ),
    ),
    analysis: analyseLdl(K.pattern),
  }
}

test.each([1, 2, 3, 4, 5, 6, 7, 8])('repeated eigenvalues are all found: %i of 1, 2, 2, 3, 3, 3, 4, 5', (count) => {
  const spectrum = [4, 3, 2, 1, 3, 2, 3, 5, ...Array.from({ length: 40 }, (_, i) => 10 + i)]
  const found = lowestEigenpairs({ ...diagonal(spectrum), count, sigma: 0 })
  expect(found.kind).toBe('converged')
  const expected = [1, 2, 2, 3, 3, 3, 4, 5].slice(0, count)
  expect(found.values.length).toBe(count)
  found.values.forEach((value, i) => {
    expect(value).toBeCloseTo(expected[i], 9)
  })
})

test('two runs give the same numbers', () => {
  const problem = { ...diagonal(Array.from({ length: 50 }, (_, i) => 1 + i * i)), count: 5, sigma: 0 }
  expect(lowestEigenpairs(problem)).toEqual(lowestEigenpairs(problem))
})

test('a sequence cut short says that it did not converge', () => {
  const spectrum = Array.from({ length: 200 }, (_, i) => 1 + i * 1e-3)
  const found = lowestEigenpairs({ ...diagonal(spectrum), count: 6, sigma: 0, mostVectors: 8 })
  expect(found.kind).toBe('not-converged')
})

test('zero eigenvalues are met from a shift below them', () => {
  const found = lowestEigenpairs({ ...diagonal([0, 0, 0, 1, 4, 9, 16, 25, 36, 49]), count: 4, sigma: -0.1 })
  expect(found.kind).toBe('converged')
  found.values.forEach((value, i) => {
    expect(value).toBeCloseTo([0, 0, 0, 1][i], 10)
  })
})
