/** Sums over long vectors, four at a time: one running sum would wait for every addition before it. */

/** aᵀ b */
export function dot(a: Float64Array, b: Float64Array): number {
  const n = a.length
  const whole = n - (n % 4)
  let s0 = 0
  let s1 = 0
  let s2 = 0
  let s3 = 0
  for (let i = 0; i < whole; i += 4) {
    s0 += a[i] * b[i]
    s1 += a[i + 1] * b[i + 1]
    s2 += a[i + 2] * b[i + 2]
    s3 += a[i + 3] * b[i + 3]
  }
  for (let i = whole; i < n; i++) s0 += a[i] * b[i]
  return s0 + s1 + (s2 + s3)
}

/** a += factor b, in place */
export function addTimes(a: Float64Array, factor: number, b: Float64Array): void {
  for (let i = 0; i < a.length; i++) a[i] += factor * b[i]
}

export const length = (a: Float64Array): number => Math.sqrt(dot(a, a))
