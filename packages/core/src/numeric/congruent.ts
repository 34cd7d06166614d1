import { invariant } from '../issue.ts'

/** Tᵀ A T, n × n, for A of m × m and T of m × n, row-major. */
export function congruent(A: Float64Array, T: Float64Array, n: number): Float64Array {
  const m = T.length / n
  invariant(A.length === m * m, `${A.length} entries for ${m} rows`)
  const AT = new Float64Array(m * n)
  for (let i = 0; i < m; i++) {
    for (let k = 0; k < m; k++) {
      const a = A[i * m + k]
      for (let j = 0; j < n; j++) AT[i * n + j] += a * T[k * n + j]
    }
  }
  const out = new Float64Array(n * n)
  for (let k = 0; k < m; k++) {
    for (let i = 0; i < n; i++) {
      const t = T[k * n + i]
      for (let j = 0; j < n; j++) out[i * n + j] += t * AT[k * n + j]
    }
  }
  return out
}
