import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix'
import { expect, test } from 'vitest'
import { analyseLdl, factorLdl, solveLdl } from '../../src/numeric/ldl.ts'
import { minimumDegree } from '../../src/numeric/minimum-degree.ts'
import { assemblyPlan, multiply, packed, type SymmetricMatrix, shifted, zeroMatrix } from '../../src/numeric/sparse.ts'

/** Triangles of an m × m grid of cells, one unknown a node, in the order given. */
function grid(m: number, place: (node: number) => number = (node) => node) {
  const node = (i: number, j: number): number => place(j * (m + 1) + i)
  const elements: number[] = []
  for (let j = 0; j < m; j++) {
    for (let i = 0; i < m; i++) {
      elements.push(node(i, j), node(i + 1, j), node(i + 1, j + 1))
      elements.push(node(i, j), node(i + 1, j + 1), node(i, j + 1))
    }
  }
  return { n: (m + 1) ** 2, elements: Int32Array.from(elements) }
}

/** Each element adds a dense 3 × 3 matrix, positive definite and different from the others'. */
function assembled(n: number, elements: Int32Array): SymmetricMatrix {
  const plan = assemblyPlan({ n, size: 3, unknowns: elements })
  const A = zeroMatrix(plan.pattern)
  for (let e = 0; e < elements.length / 3; e++) {
    for (let j = 0; j < 3; j++) {
      for (let i = 0; i <= j; i++) {
        const at = plan.slot[e * packed(3) + packed(j) + i]
        if (at >= 0) A.value[at] += i === j ? 3 + Math.sin(e + i) : -1 + 0.4 * Math.cos(e + i + j)
      }
    }
  }
  return A
}

function dense({ pattern: { n, start, row }, value }: SymmetricMatrix): Matrix {
  const A = Matrix.zeros(n, n)
  for (let j = 0; j < n; j++) {
    for (let p = start[j]; p < start[j + 1]; p++) {
      A.set(row[p], j, value[p])
      A.set(j, row[p], value[p])
    }
  }
  return A
}

test('assembly, product and solution agree with the dense matrix', () => {
  const { n, elements } = grid(6)
  const A = assembled(n, elements)
  const full = dense(A)
  const x = Float64Array.from({ length: n }, (_, i) => Math.cos(i * i))
  const y = full.mmul(Matrix.columnVector([...x])).to1DArray()
  multiply(A, x).forEach((value, i) => {
    expect(value).toBeCloseTo(y[i], 12)
  })
  const factors = factorLdl(analyseLdl(A.pattern), A)
  expect(factors.singularAt).toBe(-1)
  expect(factors.negativePivots).toBe(0)
  const expected = solve(full, Matrix.columnVector([...x])).to1DArray()
  solveLdl(factors, x).forEach((value, i) => {
    expect(value).toBeCloseTo(expected[i], 11)
  })
})

test('held unknowns are left out', () => {
  const { elements } = grid(3)
  const held = Int32Array.from(elements, (node) => (node < 4 ? -1 : node - 4))
  const A = dense(assembled(12, held))
  const whole = dense(assembled(16, elements))
  for (let i = 0; i < 12; i++) for (let j = 0; j < 12; j++) expect(A.get(i, j)).toBe(whole.get(i + 4, j + 4))
})

test('negative pivots count the eigenvalues below a shift', () => {
  const { n, elements } = grid(5)
  const A = assembled(n, elements)
  const identity = zeroMatrix(A.pattern)
  for (let j = 0; j < n; j++) identity.value[A.pattern.start[j + 1] - 1] = 1
  const values = new EigenvalueDecomposition(dense(A)).realEigenvalues.sort((p, q) => p - q)
  const analysis = analyseLdl(A.pattern)
  for (const k of [0, 1, 7, 20, n - 1]) {
    const shift = k + 1 < n ? (values[k] + values[k + 1]) / 2 : values[k] + 1
    expect(factorLdl(analysis, shifted(A, identity, shift)).negativePivots).toBe(k + 1)
  }
})

test('a singular matrix is reported', () => {
  const { n, elements } = grid(4)
  const plan = assemblyPlan({ n, size: 3, unknowns: elements })
  const A = zeroMatrix(plan.pattern)
  // graph Laplacian: constants cost nothing
  for (let e = 0; e < elements.length / 3; e++) {
    for (let j = 0; j < 3; j++) {
      for (let i = 0; i <= j; i++) A.value[plan.slot[e * packed(3) + packed(j) + i]] += i === j ? 2 : -1
    }
  }
  expect(factorLdl(analyseLdl(A.pattern), A).singularAt).toBe(n - 1)
})

test('minimum degree orders every node once and fills far less than row by row', () => {
  const m = 20
  const { n, elements } = grid(m)
  const order = minimumDegree({ n, elements, perElement: 3 })
  expect([...order].sort((p, q) => p - q)).toEqual(Array.from({ length: n }, (_, i) => i))
  const place = new Int32Array(n)
  order.forEach((node, k) => {
    place[node] = k
  })
  const entries = (list: Int32Array): number =>
    analyseLdl(assemblyPlan({ n, size: 3, unknowns: list }).pattern).row.length
  const ordered = entries(grid(m, (node) => place[node]).elements)
  expect(ordered).toBeLessThan(0.6 * entries(elements))
})
