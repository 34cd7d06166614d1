/**
 * Eigenvalues of a dense complex matrix: reduction to Hessenberg form by elimination with pivoting, then QR steps with
 * Wilkinson's shift on the part not yet deflated.
 *
 *   a QR step with shift σ:   H − σ I = Q R,   H ← R Q + σ I,   Q a product of plane rotations
 *   an eigenvalue has split off when  |h(k, k−1)| ≤ ε (|h(k−1, k−1)| + |h(k, k)|)
 *
 * No balancing: the caller scales so that entries are of like size. Sources: Wilkinson & Reinsch, Handbook for Automatic
 * Computation II (1971), contributions II/13 (reduction) and II/15 (complex QR); Golub & Van Loan, Matrix Computations,
 * 4th ed. (2013), section 7.5 (recalled).
 */
import { invariant } from '../issue.ts'
import { type ComplexMatrix, type ComplexVector, complexVector } from './complex-matrix.ts'

const mostStepsAnEigenvalue = 60

/** All n eigenvalues, in the order they split off from the bottom; A is left as it was. */
export function complexEigenvalues(A: ComplexMatrix): ComplexVector {
  const { n } = A
  const H = { n, re: A.re.slice(), im: A.im.slice() }
  for (let i = 0; i < n * n; i++) invariant(Number.isFinite(H.re[i] + H.im[i]), `matrix entry ${i} is not finite`)
  reduceToHessenberg(H)
  const values = complexVector(n)
  let high = n - 1
  let steps = 0
  while (high >= 0) {
    const low = startOfBlock(H, high)
    if (low === high) {
      values.re[high] = H.re[high * n + high]
      values.im[high] = H.im[high * n + high]
      high--
      steps = 0
      continue
    }
    steps++
    invariant(steps <= mostStepsAnEigenvalue, `complex QR: eigenvalue ${high} of ${n} did not split off`)
    const [shiftRe, shiftIm] = steps % 10 === 0 ? exceptionalShift(H, high) : wilkinsonShift(H, high)
    qrStep(H, low, high, shiftRe, shiftIm)
  }
  return values
}

/** Similar Hessenberg matrix, in place: columns below the subdiagonal are eliminated with the largest entry as pivot. */
function reduceToHessenberg({ n, re, im }: ComplexMatrix): void {
  for (let k = 1; k < n - 1; k++) {
    let pivot = k
    let best = 0
    for (let i = k; i < n; i++) {
      const size = Math.abs(re[i * n + k - 1]) + Math.abs(im[i * n + k - 1])
      if (size > best) [pivot, best] = [i, size]
    }
    if (best === 0) continue
    if (pivot !== k) swap(re, im, n, k, pivot)
    const p = k * n + k - 1
    const square = re[p] * re[p] + im[p] * im[p]
    for (let i = k + 1; i < n; i++) {
      const e = i * n + k - 1
      if (re[e] === 0 && im[e] === 0) continue
      const fRe = (re[e] * re[p] + im[e] * im[p]) / square
      const fIm = (im[e] * re[p] - re[e] * im[p]) / square
      for (let j = k - 1, ij = e, kj = p; j < n; j++, ij++, kj++) {
        const uRe = re[kj]
        const uIm = im[kj]
        re[ij] -= fRe * uRe - fIm * uIm
        im[ij] -= fRe * uIm + fIm * uRe
      }
      re[e] = 0
      im[e] = 0
      for (let j = 0, ji = i, jk = k; j < n; j++, ji += n, jk += n) {
        const uRe = re[ji]
        const uIm = im[ji]
        re[jk] += fRe * uRe - fIm * uIm
        im[jk] += fRe * uIm + fIm * uRe
      }
    }
  }
}

function swap(re: Float64Array, im: Float64Array, n: number, a: number, b: number): void {
  for (const M of [re, im]) {
    for (let j = 0; j < n; j++) [M[a * n + j], M[b * n + j]] = [M[b * n + j], M[a * n + j]]
    for (let j = 0; j < n; j++) [M[j * n + a], M[j * n + b]] = [M[j * n + b], M[j * n + a]]
  }
}

/** First row of the undeflated block that ends at `high`; the small entry above it is set to zero. */
function startOfBlock({ n, re, im }: ComplexMatrix, high: number): number {
  const size = (i: number): number => Math.abs(re[i]) + Math.abs(im[i])
  for (let k = high; k > 0; k--) {
    const below = k * n + k - 1
    if (size(below) <= Number.EPSILON * (size(below - n) + size(k * n + k))) {
      re[below] = 0
      im[below] = 0
      return k
    }
  }
  return 0
}

/** The eigenvalue of the last 2 × 2 block that lies nearer to its last entry. */
function wilkinsonShift({ n, re, im }: ComplexMatrix, high: number): [number, number] {
  const d = high * n + high
  const [a, b, c] = [d - n - 1, d - n, d - 1]
  // Roots of (a − x)(d − x) = b c: with half difference δ = (a − d)/2,  x = d + δ ± sqrt(δ² + b c).
  const [deltaRe, deltaIm] = [(re[a] - re[d]) / 2, (im[a] - im[d]) / 2]
  const squareRe = deltaRe * deltaRe - deltaIm * deltaIm + re[b] * re[c] - im[b] * im[c]
  const squareIm = 2 * deltaRe * deltaIm + re[b] * im[c] + im[b] * re[c]
  const size = Math.hypot(squareRe, squareIm)
  let rootRe = Math.sqrt((size + Math.abs(squareRe)) / 2)
  let rootIm = rootRe > 0 ? squareIm / (2 * rootRe) : 0
  if (squareRe < 0) {
    const swapped = Math.abs(rootIm)
    rootIm = squareIm >= 0 ? rootRe : -rootRe
    rootRe = swapped
  }
  // The sign that opposes δ gives the root nearer to d.
  const sign = deltaRe * rootRe + deltaIm * rootIm > 0 ? -1 : 1
  return [re[d] + deltaRe + sign * rootRe, im[d] + deltaIm + sign * rootIm]
}

function exceptionalShift({ n, re, im }: ComplexMatrix, high: number): [number, number] {
  const d = high * n + high
  return [re[d] + Math.abs(re[d - 1]), im[d] + Math.abs(im[d - 1])]
}

/** H ← R Q + σ I on rows and columns low…high. The rest of H is not kept: only eigenvalues are wanted. */
function qrStep({ n, re, im }: ComplexMatrix, low: number, high: number, shiftRe: number, shiftIm: number): void {
  for (let i = low; i <= high; i++) {
    re[i * n + i] -= shiftRe
    im[i * n + i] -= shiftIm
  }
  let lastRe1 = 0
  let lastIm1 = 0
  let lastRe2 = 0
  let lastIm2 = 0
  for (let k = low; k < high; k++) {
    const p = k * n + k
    const s = p + n
    const r = Math.sqrt(re[p] * re[p] + im[p] * im[p] + re[s] * re[s] + im[s] * im[s])
    const inverse = r > 0 ? 1 / r : 0
    const aRe = r > 0 ? re[p] * inverse : 1
    const aIm = im[p] * inverse
    const bRe = re[s] * inverse
    const bIm = im[s] * inverse
    rotateRows(re, im, p, s, high - k + 1, aRe, aIm, bRe, bIm)
    // The columns of the rotation before this one: its rows are done with now.
    if (k > low) rotateColumns(re, im, n, low, k, k - 1, lastRe1, lastIm1, lastRe2, lastIm2)
    lastRe1 = aRe
    lastIm1 = aIm
    lastRe2 = bRe
    lastIm2 = bIm
  }
  rotateColumns(re, im, n, low, high, high - 1, lastRe1, lastIm1, lastRe2, lastIm2)
  for (let i = low; i <= high; i++) {
    re[i * n + i] += shiftRe
    im[i * n + i] += shiftIm
  }
}

/** rows p, s ← (ā p + b̄ s, −b p + a s), `count` entries each. */
function rotateRows(
  re: Float64Array,
  im: Float64Array,
  p: number,
  s: number,
  count: number,
  aRe: number,
  aIm: number,
  bRe: number,
  bIm: number,
): void {
  for (let j = 0; j < count; j++) {
    const x = re[p + j]
    const y = im[p + j]
    const u = re[s + j]
    const v = im[s + j]
    re[p + j] = aRe * x + aIm * y + bRe * u + bIm * v
    im[p + j] = aRe * y - aIm * x + bRe * v - bIm * u
    re[s + j] = aRe * u - aIm * v - bRe * x + bIm * y
    im[s + j] = aRe * v + aIm * u - bRe * y - bIm * x
  }
}

/** columns k, k + 1 ← (a x + b u, −b̄ x + ā u) in rows low…last. */
function rotateColumns(
  re: Float64Array,
  im: Float64Array,
  n: number,
  low: number,
  last: number,
  k: number,
  aRe: number,
  aIm: number,
  bRe: number,
  bIm: number,
): void {
  for (let i = low, p = low * n + k; i <= last; i++, p += n) {
    const x = re[p]
    const y = im[p]
    const u = re[p + 1]
    const v = im[p + 1]
    re[p] = aRe * x - aIm * y + bRe * u - bIm * v
    im[p] = aRe * y + aIm * x + bRe * v + bIm * u
    re[p + 1] = aRe * u + aIm * v - bRe * x - bIm * y
    im[p + 1] = aRe * v - aIm * u - bRe * y + bIm * x
  }
}
