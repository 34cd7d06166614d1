/**
 * Cubic spline through points, of many values at once, for functions that are even in x.
 *
 *   on [xᵢ, xᵢ₊₁]:  y = A yᵢ + B yᵢ₊₁ + ((A³ − A) mᵢ + (B³ − B) mᵢ₊₁) h²/6      A = (xᵢ₊₁ − x)/h, B = 1 − A
 *
 * m are the second derivatives, from continuity of the slope. Slope zero at x = 0 when the first point lies there (the mirror
 * image continues smoothly), else m = 0 there; m = 0 at the last point. Beyond the ends the end values are held. Source: any
 * numerical text, e.g. Stoer & Bulirsch, Introduction to Numerical Analysis, 3rd ed. (2002), section 2.5 (recalled).
 */
import { invariant } from '../issue.ts'

/** Writes the values at x into `out`, and returns it. */
export type VectorFunction = (x: number, out: Float64Array) => Float64Array

/** `xs` rising from 0 or above; `ys` one vector a point, all of one length. One point gives a constant. */
export function evenSpline(xs: readonly number[], ys: readonly Float64Array[]): VectorFunction {
  const count = xs.length
  invariant(count > 0 && ys.length === count, `spline of ${count} abscissae and ${ys.length} vectors`)
  for (let i = 1; i < count; i++) invariant(xs[i] > xs[i - 1], `spline abscissa ${i} does not rise`)
  const m = secondDerivatives(xs, ys)
  return (x, out) => {
    if (count === 1 || x <= xs[0]) return copy(ys[0], out)
    if (x >= xs[count - 1]) return copy(ys[count - 1], out)
    let i = 0
    while (x > xs[i + 1]) i++
    const h = xs[i + 1] - xs[i]
    const A = (xs[i + 1] - x) / h
    const B = 1 - A
    const [cA, cB] = [((A ** 3 - A) * h * h) / 6, ((B ** 3 - B) * h * h) / 6]
    const [y0, y1, m0, m1] = [ys[i], ys[i + 1], m[i], m[i + 1]]
    for (let j = 0; j < out.length; j++) out[j] = A * y0[j] + B * y1[j] + cA * m0[j] + cB * m1[j]
    return out
  }
}

function copy(from: Float64Array, out: Float64Array): Float64Array {
  out.set(from)
  return out
}

/** mᵢ, one vector a point: one tridiagonal elimination for all components. */
export function secondDerivatives(xs: readonly number[], ys: readonly Float64Array[]): Float64Array[] {
  const last = xs.length - 1
  const size = ys[0].length
  const m = ys.map(() => new Float64Array(size))
  if (last < 1) return m
  const factor = new Float64Array(last + 1)
  // At the first point, slope zero: 2 m₀ + m₁ = 6 (y₁ − y₀)/h². Otherwise m₀ = 0.
  if (xs[0] === 0) {
    factor[0] = 0.5
    for (let j = 0; j < size; j++) m[0][j] = (3 * (ys[1][j] - ys[0][j])) / (xs[1] - xs[0]) ** 2
  }
  for (let i = 1; i < last; i++) {
    const [h0, h1] = [xs[i] - xs[i - 1], xs[i + 1] - xs[i]]
    const pivot = 2 * (h0 + h1) - h0 * factor[i - 1]
    factor[i] = h1 / pivot
    for (let j = 0; j < size; j++) {
      const bend = 6 * ((ys[i + 1][j] - ys[i][j]) / h1 - (ys[i][j] - ys[i - 1][j]) / h0)
      m[i][j] = (bend - h0 * m[i - 1][j]) / pivot
    }
  }
  for (let i = last - 1; i >= 0; i--) for (let j = 0; j < size; j++) m[i][j] -= factor[i] * m[i + 1][j]
  return m
}
