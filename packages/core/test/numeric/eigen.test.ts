import { expect, test } from 'vitest'
import { symmetricEigen } from '../../src/numeric/eigen.ts'

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
  expect(() => symmetricEigen([Number.NaN], 1)).toThrow(/entry 0 is NaN/)
})
