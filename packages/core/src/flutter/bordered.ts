/**
 * Small dense complex systems solved in place, without allocation: the inner loop of the root iteration.
 *
 * The plain version is numeric/complex-matrix.ts, against which tests compare it. Gaussian elimination with partial pivoting by
 * |re| + |im|; source: Golub & Van Loan, Matrix Computations, 4th ed. (2013), section 3.4 (recalled).
 */

export interface DenseSystem {
  readonly m: number
  /** m × m, row-major; overwritten by its factors. */
  readonly re: Float64Array
  readonly im: Float64Array
  /** Row of the original matrix at each place. */
  readonly order: Int32Array
  /** 1/pivot. */
  readonly inverseRe: Float64Array
  readonly inverseIm: Float64Array
  readonly work: Float64Array
}

export function denseSystem(m: number): DenseSystem {
  const square = (): Float64Array => new Float64Array(m * m)
  const vector = (): Float64Array => new Float64Array(m)
  return {
    ...{ m, re: square(), im: square(), order: new Int32Array(m) },
    ...{ inverseRe: vector(), inverseIm: vector(), work: new Float64Array(2 * m) },
  }
}

/** False when no pivot was left at all, or when an entry is not a number. */
export function factorize({ m, re, im, order, inverseRe, inverseIm }: DenseSystem): boolean {
  for (let i = 0; i < m; i++) order[i] = i
  for (let k = 0; k < m; k++) {
    let pivot = k
    let best = -1
    for (let i = k; i < m; i++) {
      const size = Math.abs(re[i * m + k]) + Math.abs(im[i * m + k])
      if (size > best) {
        pivot = i
        best = size
      }
    }
    if (!(best > 0 && best < Number.POSITIVE_INFINITY)) return false
    if (pivot !== k) swapRows(re, im, order, m, k, pivot)
    const kk = k * m + k
    const square = re[kk] * re[kk] + im[kk] * im[kk]
    const pRe = re[kk] / square
    const pIm = -im[kk] / square
    inverseRe[k] = pRe
    inverseIm[k] = pIm
    for (let i = k + 1; i < m; i++) {
      const ik = i * m + k
      const fRe = re[ik] * pRe - im[ik] * pIm
      const fIm = re[ik] * pIm + im[ik] * pRe
      re[ik] = fRe
      im[ik] = fIm
      if (fRe === 0 && fIm === 0) continue
      for (let ij = ik + 1, kj = kk + 1; kj < (k + 1) * m; ij++, kj++) {
        const uRe = re[kj]
        const uIm = im[kj]
        re[ij] -= fRe * uRe - fIm * uIm
        im[ij] -= fRe * uIm + fIm * uRe
      }
    }
  }
  return true
}

function swapRows(re: Float64Array, im: Float64Array, order: Int32Array, m: number, a: number, b: number): void {
  for (let j = 0, p = a * m, q = b * m; j < m; j++, p++, q++) {
    const x = re[p]
    re[p] = re[q]
    re[q] = x
    const y = im[p]
    im[p] = im[q]
    im[q] = y
  }
  const at = order[a]
  order[a] = order[b]
  order[b] = at
}

/** The right side (real parts, then imaginary parts, m each) becomes the solution. */
export function solveInPlace({ m, re, im, order, inverseRe, inverseIm, work }: DenseSystem, b: Float64Array): void {
  work.set(b)
  for (let i = 0; i < m; i++) {
    let sumRe = work[order[i]]
    let sumIm = work[m + order[i]]
    for (let j = 0, ij = i * m; j < i; j++, ij++) {
      sumRe -= re[ij] * b[j] - im[ij] * b[m + j]
      sumIm -= re[ij] * b[m + j] + im[ij] * b[j]
    }
    b[i] = sumRe
    b[m + i] = sumIm
  }
  for (let i = m - 1; i >= 0; i--) {
    let sumRe = b[i]
    let sumIm = b[m + i]
    for (let j = i + 1, ij = i * m + i + 1; j < m; j++, ij++) {
      sumRe -= re[ij] * b[j] - im[ij] * b[m + j]
      sumIm -= re[ij] * b[m + j] + im[ij] * b[j]
    }
    b[i] = sumRe * inverseRe[i] - sumIm * inverseIm[i]
    b[m + i] = sumRe * inverseIm[i] + sumIm * inverseRe[i]
  }
}
