/**
 * Dense complex square matrices as separate real and imaginary parts, row-major, and their LU factors.
 *
 *   P A = L U        row i of L U is row `order[i]` of A; L has ones on its diagonal
 *
 * Gaussian elimination with partial pivoting by |re| + |im|. Source: Golub & Van Loan, Matrix Computations, 4th ed. (2013),
 * section 3.4 (recalled); the pivot measure is the one of LAPACK's IZAMAX.
 */
import { invariant } from '../issue.ts'

export interface ComplexVector {
  readonly re: Float64Array
  readonly im: Float64Array
}

/** n × n, row-major: entry (i, j) at i n + j. */
export interface ComplexMatrix extends ComplexVector {
  readonly n: number
}

export interface ComplexLu extends ComplexMatrix {
  readonly order: Int32Array
  /** +1 or −1: the sign of the permutation. */
  readonly sign: number
  /** Column at which no pivot was left (the matrix is singular to working precision), else −1. */
  readonly singularAt: number
}

export const complexVector = (n: number): ComplexVector => ({ re: new Float64Array(n), im: new Float64Array(n) })
export const complexMatrix = (n: number): ComplexMatrix => ({ n, ...complexVector(n * n) })

/** y = A x */
export function complexApply({ n, re, im }: ComplexMatrix, x: ComplexVector): ComplexVector {
  const y = complexVector(n)
  for (let i = 0; i < n; i++) {
    let [sumRe, sumIm] = [0, 0]
    for (let j = 0, ij = i * n; j < n; j++, ij++) {
      sumRe += re[ij] * x.re[j] - im[ij] * x.im[j]
      sumIm += re[ij] * x.im[j] + im[ij] * x.re[j]
    }
    y.re[i] = sumRe
    y.im[i] = sumIm
  }
  return y
}

/** LU factors of A; A is left as it was. A NaN anywhere reports as singular. */
export function complexLu(A: ComplexMatrix): ComplexLu {
  const { n } = A
  const re = A.re.slice()
  const im = A.im.slice()
  invariant(re.length === n * n && im.length === n * n, `complex matrix has ${re.length} entries for n=${n}`)
  const order = Int32Array.from({ length: n }, (_, i) => i)
  const size = columnSizes(A)
  let sign = 1
  let singularAt = -1
  for (let k = 0; k < n && singularAt < 0; k++) {
    let pivot = k
    let best = -1
    for (let i = k; i < n; i++) {
      const candidate = Math.abs(re[i * n + k]) + Math.abs(im[i * n + k])
      if (candidate > best || Number.isNaN(candidate)) [pivot, best] = [i, candidate]
    }
    if (!(best > n * Number.EPSILON * size[k])) singularAt = k
    else {
      if (pivot !== k) {
        swapRows(re, n, k, pivot)
        swapRows(im, n, k, pivot)
        ;[order[k], order[pivot]] = [order[pivot], order[k]]
        sign = -sign
      }
      eliminate(re, im, n, k)
    }
  }
  return { n, re, im, order, sign, singularAt }
}

/** x of A x = b. */
export function complexSolve({ n, re, im, order, singularAt }: ComplexLu, b: ComplexVector): ComplexVector {
  invariant(singularAt < 0, `complex matrix is singular at column ${singularAt}`)
  const x = complexVector(n)
  for (let i = 0; i < n; i++) {
    let [sumRe, sumIm] = [b.re[order[i]], b.im[order[i]]]
    for (let j = 0, ij = i * n; j < i; j++, ij++) {
      sumRe -= re[ij] * x.re[j] - im[ij] * x.im[j]
      sumIm -= re[ij] * x.im[j] + im[ij] * x.re[j]
    }
    x.re[i] = sumRe
    x.im[i] = sumIm
  }
  for (let i = n - 1; i >= 0; i--) {
    let [sumRe, sumIm] = [x.re[i], x.im[i]]
    for (let j = i + 1; j < n; j++) {
      sumRe -= re[i * n + j] * x.re[j] - im[i * n + j] * x.im[j]
      sumIm -= re[i * n + j] * x.im[j] + im[i * n + j] * x.re[j]
    }
    const [pRe, pIm] = [re[i * n + i], im[i * n + i]]
    const square = pRe * pRe + pIm * pIm
    x.re[i] = (sumRe * pRe + sumIm * pIm) / square
    x.im[i] = (sumIm * pRe - sumRe * pIm) / square
  }
  return x
}

/**
 * det A as a number of size near one times a power of two, `(re + i im) 2^exponent`: the product itself overflows for
 * stiffness matrices. Zero when singular.
 */
export function complexDeterminant({ n, re, im, sign, singularAt }: ComplexLu): {
  re: number
  im: number
  exponent: number
} {
  let value = { re: singularAt < 0 ? sign : 0, im: 0, exponent: 0 }
  for (let k = 0; k < n && singularAt < 0; k++) {
    const [pRe, pIm] = [re[k * n + k], im[k * n + k]]
    const productRe = value.re * pRe - value.im * pIm
    const productIm = value.re * pIm + value.im * pRe
    const shift = Math.floor(Math.log2(Math.max(Math.abs(productRe), Math.abs(productIm))))
    value = { re: productRe * 2 ** -shift, im: productIm * 2 ** -shift, exponent: value.exponent + shift }
  }
  return value
}

function columnSizes({ n, re, im }: ComplexMatrix): Float64Array {
  const size = new Float64Array(n)
  for (let ij = 0; ij < n * n; ij++) size[ij % n] = Math.max(size[ij % n], Math.abs(re[ij]) + Math.abs(im[ij]))
  return size
}

function swapRows(M: Float64Array, n: number, i: number, j: number): void {
  const row = M.slice(i * n, (i + 1) * n)
  M.copyWithin(i * n, j * n, (j + 1) * n)
  M.set(row, j * n)
}

function eliminate(re: Float64Array, im: Float64Array, n: number, k: number): void {
  const kk = k * n + k
  const square = re[kk] * re[kk] + im[kk] * im[kk]
  for (let i = k + 1; i < n; i++) {
    const ik = i * n + k
    const factorRe = (re[ik] * re[kk] + im[ik] * im[kk]) / square
    const factorIm = (im[ik] * re[kk] - re[ik] * im[kk]) / square
    re[ik] = factorRe
    im[ik] = factorIm
    if (factorRe === 0 && factorIm === 0) continue
    for (let j = k + 1; j < n; j++) {
      const [uRe, uIm] = [re[k * n + j], im[k * n + j]]
      re[i * n + j] -= factorRe * uRe - factorIm * uIm
      im[i * n + j] -= factorRe * uIm + factorIm * uRe
    }
  }
}
