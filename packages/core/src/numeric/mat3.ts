/**
 * 3×3 matrices, row-major, nine numbers: entry (i, j) at 3 i + j. Vectors are three numbers.
 *
 * Functions that take a `target` write into it; the others return a new matrix.
 */
export type Mat3 = Float64Array

/** Reads like a `Mat3` but may be a literal: `[1, 0, 0,  0, 1, 0,  0, 0, 1]`. */
export type Mat3Like = ArrayLike<number>

export const zeros3 = (): Mat3 => new Float64Array(9)

export const mat3 = (entries: Mat3Like): Mat3 => Float64Array.from(entries)

export const identity3 = (): Mat3 => Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1)

/** target += factor · A */
export function addScaled(target: Mat3, A: Mat3Like, factor: number): void {
  for (let i = 0; i < 9; i++) target[i] += factor * A[i]
}

/** factor · A */
export function scaled3(A: Mat3Like, factor: number): Mat3 {
  return mat3(A).map((a) => factor * a)
}

/** A B */
export function multiply3(A: Mat3Like, B: Mat3Like): Mat3 {
  const C = zeros3()
  for (let i = 0; i < 9; i += 3)
    for (let j = 0; j < 3; j++) C[i + j] = A[i] * B[j] + A[i + 1] * B[3 + j] + A[i + 2] * B[6 + j]
  return C
}

/** A v */
export function apply3(A: Mat3Like, v: ArrayLike<number>): Float64Array {
  return Float64Array.of(
    A[0] * v[0] + A[1] * v[1] + A[2] * v[2],
    A[3] * v[0] + A[4] * v[1] + A[5] * v[2],
    A[6] * v[0] + A[7] * v[1] + A[8] * v[2],
  )
}

export function transpose3(A: Mat3Like): Mat3 {
  return Float64Array.of(A[0], A[3], A[6], A[1], A[4], A[7], A[2], A[5], A[8])
}

export function determinant3(A: Mat3Like): number {
  return A[0] * (A[4] * A[8] - A[5] * A[7]) - A[1] * (A[3] * A[8] - A[5] * A[6]) + A[2] * (A[3] * A[7] - A[4] * A[6])
}

/** A⁻¹ by cofactors, or null when A is singular to working precision (or holds a NaN). */
export function inverse3(A: Mat3Like): Mat3 | null {
  const det = determinant3(A)
  // Hadamard: |det| ≤ product of row lengths. A determinant lost in the rounding of that product is zero.
  const row = (i: number): number => Math.sqrt(A[i] * A[i] + A[i + 1] * A[i + 1] + A[i + 2] * A[i + 2])
  if (!(Math.abs(det) > 8 * Number.EPSILON * row(0) * row(3) * row(6))) return null
  const C = zeros3()
  C[0] = (A[4] * A[8] - A[5] * A[7]) / det
  C[1] = (A[2] * A[7] - A[1] * A[8]) / det
  C[2] = (A[1] * A[5] - A[2] * A[4]) / det
  C[3] = (A[5] * A[6] - A[3] * A[8]) / det
  C[4] = (A[0] * A[8] - A[2] * A[6]) / det
  C[5] = (A[2] * A[3] - A[0] * A[5]) / det
  C[6] = (A[3] * A[7] - A[4] * A[6]) / det
  C[7] = (A[1] * A[6] - A[0] * A[7]) / det
  C[8] = (A[0] * A[4] - A[1] * A[3]) / det
  return C
}
