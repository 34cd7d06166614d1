import { expect, test } from 'vitest'
import { eigenvalues, symmetricEigen } from '../../src/numeric/eigen.ts'

test('a companion matrix has the roots of its polynomial', () => {
  // (x - 2)(x² + 2x + 5) = x³ + x - 10: roots 2, -1 ± 2i
  const { re, im } = eigenvalues([0, -1, 10, 1, 0, 0, 0, 1, 0], 3)
  const roots = [...re].map((r, i) => ({ r, i: im[i] })).sort((p, q) => p.i - q.i)
  const expected = [
    { r: -1, i: -2 },
    { r: 2, i: 0 },
    { r: -1, i: 2 },
  ]
  roots.forEach((root, k) => {
    expect(root.r).toBeCloseTo(expected[k].r, 12)
    expect(root.i).toBeCloseTo(expected[k].i, 12)
  })
})

test('a chain of springs: 2 - 2 cos(k π / (n + 1)), vectors orthonormal', () => {
  const n = 12
  const A = Array.from({ length: n * n }, (_, ij) => {
    const distance = Math.abs((ij % n) - Math.floor(ij / n))
    return distance === 0 ? 2 : distance === 1 ? -1 : 0
  })
  const { values, vectors } = symmetricEigen(A, n)
  for (let k = 0; k < n; k++) {
    expect(values[k]).toBeCloseTo(2 - 2 * Math.cos(((k + 1) * Math.PI) / (n + 1)), 12)
    for (let l = 0; l < n; l++) {
      const product = vectors[k].reduce((sum, v, i) => sum + v * vectors[l][i], 0)
      expect(product).toBeCloseTo(k === l ? 1 : 0, 12)
    }
  }
})

test('a NaN is refused rather than iterated on', () => {
  expect(() => eigenvalues([Number.NaN], 1)).toThrow(/entry 0 is NaN/)
})
