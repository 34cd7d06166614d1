import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  addScaled,
  apply3,
  determinant3,
  identity3,
  inverse3,
  mat3,
  multiply3,
  scaled3,
  transpose3,
  zeros3,
} from '../../src/numeric/mat3.ts'

const entries = fc.array(
  fc.integer({ min: -9999, max: 9999 }).map((i) => i / 1000),
  { minLength: 9, maxLength: 9 },
)

test('multiplies row by column', () => {
  const C = multiply3([1, 2, 3, 4, 5, 6, 7, 8, 10], [1, 0, 2, 0, 1, 0, 3, 0, 1])
  expect([...C]).toEqual([10, 2, 5, 22, 5, 14, 37, 8, 24])
  expect([...apply3([1, 2, 3, 4, 5, 6, 7, 8, 10], [1, 0, -1])]).toEqual([-2, -2, -3])
  expect(determinant3([1, 2, 3, 4, 5, 6, 7, 8, 10])).toBeCloseTo(-3, 12)
})

test('adds and scales', () => {
  const A = zeros3()
  addScaled(A, identity3(), 2)
  addScaled(A, mat3([0, 1, 0, 0, 0, 0, 0, 0, 0]), -1)
  expect([...A]).toEqual([2, -1, 0, 0, 2, 0, 0, 0, 2])
  expect([...scaled3(A, 0.5)]).toEqual([1, -0.5, 0, 0, 1, 0, 0, 0, 1])
})

test('a matrix times its inverse is the identity', () => {
  let checked = 0
  fc.assert(
    fc.property(entries, (A) => {
      const inverse = inverse3(A)
      if (inverse === null) return
      const size = Math.max(...A.map(Math.abs)) * Math.max(...inverse.map(Math.abs))
      multiply3(A, inverse).forEach((c, i) => {
        expect(Math.abs(c - identity3()[i])).toBeLessThanOrEqual(1e-13 * (1 + size * size))
      })
      checked++
    }),
  )
  expect(checked).toBeGreaterThan(50)
})

test('a singular matrix has no inverse', () => {
  expect(inverse3([1, 2, 3, 2, 4, 6, 1, 0, 1])).toBeNull()
  expect(inverse3(zeros3())).toBeNull()
  expect(inverse3([Number.NaN, 0, 0, 0, 1, 0, 0, 0, 1])).toBeNull()
})

test('transposing a product swaps the factors', () => {
  fc.assert(
    fc.property(entries, entries, (A, B) => {
      expect([...transpose3(multiply3(A, B))]).toEqual([...multiply3(transpose3(B), transpose3(A))])
    }),
  )
})
