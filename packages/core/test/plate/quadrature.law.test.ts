import { expect, test } from 'vitest'
import { quadrature } from '../../src/plate/quadrature.ts'
import { shapeFunctions } from '../../src/plate/tied-shear.ts'

const factorial = (n: number): number => (n <= 1 ? 1 : n * factorial(n - 1))

test('integrates every monomial up to degree 4: ∫ rⁱ sʲ = i! j! / (i + j + 2)!', () => {
  for (let i = 0; i <= 4; i++) {
    for (let j = 0; i + j <= 4; j++) {
      const sum = quadrature.reduce((total, { r, s, weight }) => total + weight * r ** i * s ** j, 0)
      expect(sum).toBeCloseTo((factorial(i) * factorial(j)) / factorial(i + j + 2), 15)
    }
  }
})

test('does not integrate degree 6, or it would be another rule', () => {
  const sum = quadrature.reduce((total, { r, weight }) => total + weight * r ** 6, 0)
  expect(Math.abs(sum - factorial(6) / factorial(8))).toBeGreaterThan(1e-5)
})

test('each shape function is one at its own node and none at the others', () => {
  const nodes = [
    [0, 0],
    [1, 0],
    [0, 1],
    [0.5, 0],
    [0.5, 0.5],
    [0, 0.5],
  ]
  nodes.forEach(([r, s], i) => {
    const { N } = shapeFunctions(r, s)
    for (let j = 0; j < 6; j++) expect(N[j]).toBeCloseTo(i === j ? 1 : 0, 14)
    expect(N[6]).toBeCloseTo(0, 14)
  })
  expect(shapeFunctions(1 / 3, 1 / 3).N[6]).toBeCloseTo(1, 14)
})

test('derivatives agree with differences', () => {
  const [r, s, step] = [0.21, 0.37, 1e-6]
  const { Nr, Ns } = shapeFunctions(r, s)
  for (let i = 0; i < 7; i++) {
    const alongR = (shapeFunctions(r + step, s).N[i] - shapeFunctions(r - step, s).N[i]) / (2 * step)
    const alongS = (shapeFunctions(r, s + step).N[i] - shapeFunctions(r, s - step).N[i]) / (2 * step)
    expect(Nr[i]).toBeCloseTo(alongR, 8)
    expect(Ns[i]).toBeCloseTo(alongS, 8)
  }
})
