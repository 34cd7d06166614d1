/** Several vectors at once against one after the other. */
import { expect, test } from 'vitest'
import { analyseLdl, factorLdl, solveLdl } from '../../src/numeric/ldl.ts'
import { multiplySeveral, solveSeveral } from '../../src/numeric/several.ts'
import { assemblyPlan, multiply, type SymmetricMatrix } from '../../src/numeric/sparse.ts'

const n = 40

/** A chain of triangles with springs to ground, unlike in every entry. */
function chain(): SymmetricMatrix {
  const unknowns = Int32Array.from({ length: 3 * (n - 2) }, (_, i) => Math.floor(i / 3) + (i % 3))
  const { pattern } = assemblyPlan({ n, size: 3, unknowns })
  const value = new Float64Array(pattern.row.length)
  for (let j = 0; j < n; j++) {
    for (let p = pattern.start[j]; p < pattern.start[j + 1]; p++) {
      value[p] = pattern.row[p] === j ? 9 + Math.sin(j) : -1 - 0.3 * Math.cos(3 * p)
    }
  }
  return { pattern, value }
}

const vectors = (count: number): Float64Array[] =>
  Array.from({ length: count }, (_, k) => Float64Array.from({ length: n }, (_v, i) => Math.sin(1 + i * (k + 1))))

test.each([0, 1, 3, 4, 5, 8, 9])('%i vectors', (count) => {
  const A = chain()
  const factors = factorLdl(analyseLdl(A.pattern), A)
  const xs = vectors(count)
  const [products, solutions] = [multiplySeveral(A, xs), solveSeveral(factors, xs)]
  expect([products.length, solutions.length]).toEqual([count, count])
  xs.forEach((x, k) => {
    const [product, solution] = [multiply(A, x), solveLdl(factors, x)]
    for (let i = 0; i < n; i++) {
      expect(products[k][i]).toBeCloseTo(product[i], 12)
      expect(solutions[k][i]).toBeCloseTo(solution[i], 12)
    }
  })
})
