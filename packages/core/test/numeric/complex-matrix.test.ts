import { Matrix, solve } from 'ml-matrix'
import { expect, test } from 'vitest'
import {
  type ComplexMatrix,
  complexApply,
  complexDeterminant,
  complexLu,
  complexMatrix,
  complexSolve,
  complexVector,
} from '../../src/numeric/complex-matrix.ts'

/** A linear congruential sequence (Numerical Recipes' quick generator), so that the cases are the same every run. */
function numbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 31 - 1
  }
}

function random(n: number, seed: number): ComplexMatrix {
  const next = numbers(seed)
  const A = complexMatrix(n)
  for (let i = 0; i < n * n; i++) {
    A.re[i] = next()
    A.im[i] = next()
  }
  return A
}

test('solves as the real embedding [[Re, -Im], [Im, Re]] does', () => {
  for (const n of [1, 2, 7, 40]) {
    const A = random(n, n)
    const b = complexVector(n)
    b.re.forEach((_, i) => {
      b.re[i] = Math.cos(i)
      b.im[i] = Math.sin(3 * i)
    })
    const x = complexSolve(complexLu(A), b)
    const big = new Matrix(2 * n, 2 * n)
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const [re, im] = [A.re[i * n + j], A.im[i * n + j]]
        big.set(i, j, re)
        big.set(n + i, n + j, re)
        big.set(n + i, j, im)
        big.set(i, n + j, -im)
      }
    }
    const y = solve(big, Matrix.columnVector([...b.re, ...b.im])).to1DArray()
    for (let i = 0; i < n; i++) {
      expect(x.re[i]).toBeCloseTo(y[i], 9)
      expect(x.im[i]).toBeCloseTo(y[n + i], 9)
    }
    const back = complexApply(A, x)
    for (let i = 0; i < n; i++) expect(Math.hypot(back.re[i] - b.re[i], back.im[i] - b.im[i])).toBeLessThan(1e-12 * n)
  }
})

test('pivots: a zero first pivot is no obstacle', () => {
  const A = { n: 2, re: Float64Array.of(0, 1, 1, 0), im: Float64Array.of(0, 0, 0, 0) }
  const x = complexSolve(complexLu(A), { re: Float64Array.of(3, 5), im: Float64Array.of(-1, 2) })
  expect([...x.re]).toEqual([5, 3])
  expect([...x.im]).toEqual([2, -1])
})

test('the determinant of a known matrix, and of one whose plain product would overflow', () => {
  // (1 + i)(2 - i) - (3)(i) = 3 + i - 3i = 3 - 2i
  const A = { n: 2, re: Float64Array.of(1, 3, 0, 2), im: Float64Array.of(1, 0, 1, -1) }
  const small = complexDeterminant(complexLu(A))
  expect(small.re * 2 ** small.exponent).toBeCloseTo(3, 12)
  expect(small.im * 2 ** small.exponent).toBeCloseTo(-2, 12)
  const n = 50
  const huge = complexMatrix(n)
  for (let i = 0; i < n; i++) huge.re[i * n + i] = 2 ** 40
  expect(complexDeterminant(complexLu(huge))).toEqual({ re: 1, im: 0, exponent: 2000 })
})

test('reports a singular matrix and one with a NaN', () => {
  const A = random(5, 3)
  for (let j = 0; j < 5; j++) {
    A.re[20 + j] = A.re[j] - A.re[5 + j]
    A.im[20 + j] = A.im[j] - A.im[5 + j]
  }
  expect(complexLu(A).singularAt).toBe(4)
  const broken = random(5, 4)
  broken.im[7] = Number.NaN
  expect(complexLu(broken).singularAt).toBeGreaterThanOrEqual(0)
  expect(complexDeterminant(complexLu(complexMatrix(3)))).toEqual({ re: 0, im: 0, exponent: 0 })
})
