import { EigenvalueDecomposition, Matrix } from 'ml-matrix'
import { expect, test } from 'vitest'
import { complexEigenvalues } from '../../src/numeric/complex-eigen.ts'
import { type ComplexMatrix, complexDeterminant, complexLu } from '../../src/numeric/complex-matrix.ts'

/** Numbers in (−1, 1) that differ from run to run of the index only. */
const scattered = (i: number): number => {
  const x = Math.sin(12.9898 * (i + 1)) * 43758.5453
  return 2 * (x - Math.floor(x)) - 1
}
const random = (n: number, seed: number): ComplexMatrix => ({
  n,
  re: Float64Array.from({ length: n * n }, (_, i) => scattered(seed + 2 * i)),
  im: Float64Array.from({ length: n * n }, (_, i) => scattered(seed + 2 * i + 1)),
})
const shifted = ({ n, re, im }: ComplexMatrix, sRe: number, sIm: number): ComplexMatrix => ({
  n,
  re: re.map((v, i) => (i % (n + 1) === 0 ? v - sRe : v)),
  im: im.map((v, i) => (i % (n + 1) === 0 ? v - sIm : v)),
})

test('each value makes A − λ I singular; their sum is the trace', () => {
  for (const n of [1, 2, 3, 5, 8, 16, 24]) {
    const A = random(n, 100 * n)
    const { re, im } = complexEigenvalues(A)
    const trace = [0, 0]
    const sum = [0, 0]
    for (let k = 0; k < n; k++) {
      trace[0] += A.re[k * n + k]
      trace[1] += A.im[k * n + k]
      sum[0] += re[k]
      sum[1] += im[k]
      const det = complexDeterminant(complexLu(shifted(A, re[k], im[k])))
      const beside = complexDeterminant(complexLu(shifted(A, re[k] + 1e-3, im[k])))
      const share =
        (Math.hypot(det.re, det.im) / Math.hypot(beside.re, beside.im)) * 2 ** (det.exponent - beside.exponent)
      expect(share).toBeLessThan(1e-8)
    }
    expect(Math.hypot(sum[0] - trace[0], sum[1] - trace[1])).toBeLessThan(1e-12 * n)
  }
})

test('real matrices: the values of an independent real QR', () => {
  for (const n of [4, 10, 16]) {
    const A = { ...random(n, 7 * n), im: new Float64Array(n * n) }
    const own = complexEigenvalues(A)
    const other = new EigenvalueDecomposition(Matrix.from1DArray(n, n, Array.from(A.re)))
    for (let k = 0; k < n; k++) {
      const distances = other.realEigenvalues.map((re, j) =>
        Math.hypot(re - own.re[k], other.imaginaryEigenvalues[j] - own.im[k]),
      )
      expect(Math.min(...distances)).toBeLessThan(1e-11)
    }
  }
})

test('a triangular matrix gives its diagonal, a defective one its double value', () => {
  const triangular = {
    n: 3,
    re: Float64Array.of(1, 5, -2, 0, 2, 7, 0, 0, 3),
    im: Float64Array.of(1, 0, 0, 0, 2, 0, 0, 0, 3),
  }
  expect([...complexEigenvalues(triangular).re].sort()).toEqual([1, 2, 3])
  const defective = { n: 2, re: Float64Array.of(1, 1, 0, 1), im: new Float64Array(4) }
  expect([...complexEigenvalues(defective).re]).toEqual([1, 1])
  const zero = { n: 3, re: new Float64Array(9), im: new Float64Array(9) }
  expect([...complexEigenvalues(zero).re]).toEqual([0, 0, 0])
})

test('a permutation matrix, which plain QR would never change, gives the roots of one', () => {
  const n = 6
  const re = Float64Array.from({ length: n * n }, (_, ij) => ((Math.floor(ij / n) + 1) % n === ij % n ? 1 : 0))
  const found = complexEigenvalues({ n, re, im: new Float64Array(n * n) })
  for (let k = 0; k < n; k++) {
    const angle = (2 * Math.PI * k) / n
    const nearest = Math.min(
      ...[...found.re].map((v, i) => Math.hypot(v - Math.cos(angle), found.im[i] - Math.sin(angle))),
    )
    expect(nearest).toBeLessThan(1e-13)
  }
})
