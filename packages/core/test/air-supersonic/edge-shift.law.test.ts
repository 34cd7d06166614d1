/**
 * The three places from which boxes near an edge are judged, from the plane problem at the edge: a row of boxes of constant source
 * strength of length 1 beside it, φ = −(1/π) Σ σ_j ∫ ln|x − s| ds, asked at a fraction p of each box.
 */
import { expect, test } from 'vitest'
import { diaphragmPoint, wakePoint, wakeSetback } from '../../src/air/supersonic/field-boxes.ts'
import { tipInset } from '../../src/air/supersonic/lattice.ts'

/**
 * Shift of the edge outward, from the factored symbol of the row, z = e^{−iθ}: with
 *   σ(θ) = (1 − e^{−iθ}) Σ_n π e^{i θ_n p} / (i θ_n |θ_n|),  θ_n = θ + 2πn,   ln(σ · 2 sin(θ/2)/π) = Σ c_m z^m
 * the strengths of the row go like (j + 1/4 + Σ m c_m)^{−1/2}, so the edge is felt 1/4 − Σ m c_m of a box inside the row.
 */
function rowShift(p: number): number {
  const [N, terms, orders] = [512, 400, 120]
  const logs = Array.from({ length: N }, (_, k) => {
    const theta = (2 * Math.PI * (k + 0.5)) / N
    let [re, im] = [0, 0]
    for (let n = -terms; n <= terms; n++) {
      const s = theta + 2 * Math.PI * n
      // e^{isp}/(i s |s|)
      re += Math.sin(s * p) / (s * Math.abs(s))
      im -= Math.cos(s * p) / (s * Math.abs(s))
    }
    const [a, b] = [1 - Math.cos(theta), Math.sin(theta)]
    const size = 2 * Math.sin(theta / 2)
    return {
      theta,
      log: Math.log(Math.hypot(re * a - im * b, re * b + im * a) * size),
      angle: Math.atan2(re * b + im * a, re * a - im * b),
    }
  })
  let sum = 0
  for (let m = 1; m < orders; m++) {
    // c_m = mean of (log + i angle) e^{imθ}; real because σ(−θ) is its conjugate.
    const c = logs.reduce(
      (total, { theta, log, angle }) => total + log * Math.cos(m * theta) - angle * Math.sin(m * theta),
      0,
    )
    sum += (m * c) / N
  }
  return 0.25 - sum
}

test('asked in the middle of the boxes the edge is felt 0.1747 of a box outside', () => {
  expect(rowShift(0.5)).toBeCloseTo(tipInset, 4)
})

test('asked at 0.2153 of the boxes the edge is felt where it is', () => {
  expect(rowShift(1 - diaphragmPoint)).toBeCloseTo(0, 3)
})

/**
 * Where a smooth outflow begins: on 0 < x < 1, φ = constant = φ(0) with σ ~ √x at the left, 1/√(1 − x) at the right, driven by
 * φ' = 1; the exact σ is proportional to √(x/(1 − x)). The edge is where σ² (1 − x) of the row's strengths has its zero.
 */
test('with the wake asked in the middle of its boxes the flow leaves the edge 0.2014 of a box ahead of them', () => {
  const N = 160
  const h = 1 / N
  const points = [0, ...Array.from({ length: N }, (_, j) => (j + wakePoint) * h)]
  const F = (t: number) => (t === 0 ? 0 : t * Math.log(Math.abs(t)) - t)
  const rows = points.map((x) => [
    ...Array.from({ length: N }, (_, j) => -(F(x - j * h) - F(x - (j + 1) * h)) / Math.PI),
    -1,
    x,
  ])
  const sigma = solved(rows)
  let [n, sx, sy, sxx, sxy] = [0, 0, 0, 0, 0]
  for (let j = 8; j < 30; j++) {
    const x = j + 0.5
    const y = sigma[j] ** 2 * (1 - x * h)
    n += 1
    sx += x
    sy += y
    sxx += x * x
    sxy += x * y
  }
  const slope = (n * sxy - sx * sy) / (n * sxx - sx * sx)
  const zero = (slope * sx - sy) / n / slope
  expect(zero).toBeCloseTo(-wakeSetback, 2)
})

/** Gaussian elimination with pivoting; rows hold the right-hand side last. */
function solved(rows: number[][]): number[] {
  const n = rows.length
  for (let k = 0; k < n; k++) {
    const pivot = rows.slice(k).reduce((best, row, i) => (Math.abs(row[k]) > Math.abs(rows[best][k]) ? k + i : best), k)
    ;[rows[k], rows[pivot]] = [rows[pivot], rows[k]]
    for (let i = k + 1; i < n; i++) {
      const f = rows[i][k] / rows[k][k]
      for (let j = k; j <= n; j++) rows[i][j] -= f * rows[k][j]
    }
  }
  const x = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i][n]
    for (let j = i + 1; j < n; j++) sum -= rows[i][j] * x[j]
    x[i] = sum / rows[i][i]
  }
  return x
}
