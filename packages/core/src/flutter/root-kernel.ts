/**
 * Newton's method on the aeroelastic equations of one root, bordered with the length of its shape.
 *
 *   N(s, V) ξ = 0,  cᴴ ξ = 1      N = s² I + (1 + i g) Ω² − q A₀(k) − q (b/V) s A₁(k),   k = Im(s) b / V
 *
 * k follows Im s, so N is no analytic function of s; with s = σ + i ω the derivatives are
 *
 *   N_σ ξ = d,  N_ω ξ = i d + e      d = (2 s − q (b/V) A₁) ξ,  e = (b/V) N_k ξ,  N_k = −q A₀′ − q (b/V) s A₁′
 *   N_V ξ = −ρ V A₀ ξ − ½ ρ b s A₁ ξ − (k/V) N_k ξ
 *
 * and one step is the solution of N ξ₊ + d δ + e Im δ = 0, cᴴ ξ₊ = 1, δ the change of s: two solutions with one bordered matrix
 * [N d; cᴴ 0], which stays regular where N is singular, as long as the root is a simple one. The same matrix gives the tangents
 * ds/dV, dξ/dV. At neutral stability s = i ω the unknowns are V and ω: N ξ₊ + (i d + e) Δω + N_V ξ ΔV = 0.
 *
 * Source: Newton on a bordered non-linear eigenproblem, Ruhe, SIAM J. Numer. Anal. 10 (1973) 674–689 (recalled); its form here derived.
 */
import { denseSystem, factorize, solveInPlace } from './bordered.ts'
import { forceJet, jetFiller } from './forces.ts'
import type { Aeroelastic } from './roots.ts'

/** A root and its shape (n real parts, then n imaginary parts), changed in place. */
export interface RootState {
  V: number
  re: number
  im: number
  readonly x: Float64Array
}

/** A root with its derivatives by V, the shape's at right angles to the shape. */
export interface RootTangent {
  re: number
  im: number
  readonly x: Float64Array
}

export interface RootKernel {
  readonly n: number
  /** The root at `state.V` from the guess in `state`, whose shape is of unit length; so is the result's. False: it did not settle. */
  readonly correct: (state: RootState) => boolean
  /** Of an exact root; `justCorrected`: `correct` has just been called on this very state. */
  readonly tangent: (state: RootState, out: RootTangent, justCorrected: boolean) => boolean
  /** Speed and frequency of neutral stability from the guess in `state`, whose `re` becomes 0. */
  readonly neutral: (state: RootState) => boolean
}

export const rootState = (n: number): RootState => ({ V: 0, re: 0, im: 0, x: new Float64Array(2 * n) })

const mostSteps = 12
/** Last change of s over its size, and of a unit shape: their squares, about the error that is left, are below 1e-9. */
const settled = 1e-5
const settledShape = 1e-4
/** Neutral stability: last change of V and ω over their sizes. The step that proves it is taken all the same. */
const settledNeutral = 1e-8

export function rootKernel({ omegas, structuralDamping: g, density, forces }: Aeroelastic): RootKernel {
  const { n, referenceLength: b } = forces
  const m = n + 1
  const jet = forceJet(n)
  const { A0, A1, dA0, dA1 } = jet
  const fill = jetFiller(forces)
  const B = denseSystem(m)
  const [first, second] = [new Float64Array(2 * m), new Float64Array(2 * m)]
  /** A₀ ξ, A₁ ξ, N_k ξ, d. */
  const [a0, a1, h, d] = [0, 1, 2, 3].map(() => new Float64Array(2 * n))
  /** Size of N: the border's row is scaled with it, so that pivots do not depend on units. */
  let scale = 1

  /** N into the bordered matrix, and the products with the shape that its derivatives need. */
  const load = (V: number, re: number, im: number, x: Float64Array): void => {
    fill(V > 0 ? (im * b) / V : Number.POSITIVE_INFINITY, jet)
    scale = re * re + im * im
    const q = 0.5 * density * V * V
    const c = 0.5 * density * V * b
    for (let i = 0; i < n; i++) {
      let p0 = 0
      let p1 = 0
      let q0 = 0
      let q1 = 0
      let r0 = 0
      let r1 = 0
      let t0 = 0
      let t1 = 0
      for (let j = 0, ij = i * n, at = i * m; j < n; j++, ij++, at++) {
        const v0 = A0[ij]
        const v1 = A1[ij]
        B.re[at] = -q * v0 - c * re * v1
        B.im[at] = -c * im * v1
        const xr = x[j]
        const xi = x[n + j]
        p0 += v0 * xr
        p1 += v0 * xi
        q0 += v1 * xr
        q1 += v1 * xi
        r0 += dA0[ij] * xr
        r1 += dA0[ij] * xi
        t0 += dA1[ij] * xr
        t1 += dA1[ij] * xi
      }
      const at = i * m + i
      const w2 = omegas[i] * omegas[i]
      B.re[at] += re * re - im * im + w2
      B.im[at] += 2 * re * im + g * w2
      a0[i] = p0
      a0[n + i] = p1
      a1[i] = q0
      a1[n + i] = q1
      h[i] = -q * r0 - c * (re * t0 - im * t1)
      h[n + i] = -q * r1 - c * (re * t1 + im * t0)
      d[i] = 2 * (re * x[i] - im * x[n + i]) - c * q0
      d[n + i] = 2 * (re * x[n + i] + im * x[i]) - c * q1
    }
  }

  /** The border, and the factors. */
  const bordered = (column: Float64Array, x: Float64Array): boolean => {
    for (let i = 0; i < n; i++) {
      B.re[i * m + n] = column[i]
      B.im[i * m + n] = column[n + i]
      B.re[n * m + i] = scale * x[i]
      B.im[n * m + i] = -scale * x[n + i]
    }
    B.re[n * m + n] = 0
    B.im[n * m + n] = 0
    return factorize(B)
  }

  const rightSide = (out: Float64Array, factor: number, v: Float64Array): void => {
    for (let i = 0; i < n; i++) {
      out[i] = factor * v[i]
      out[m + i] = factor * v[n + i]
    }
    out[n] = 0
    out[m + n] = 0
  }

  /** −N_V ξ, from the products of `load`. */
  const speedSide = ({ V, re, im }: { V: number; re: number; im: number }, out: Float64Array): void => {
    const [p, r] = [density * V, 0.5 * density * b]
    const t = V > 0 ? (im * b) / (V * V) : 0
    for (let i = 0; i < n; i++) {
      out[i] = p * a0[i] + r * (re * a1[i] - im * a1[n + i]) + t * h[i]
      out[m + i] = p * a0[n + i] + r * (re * a1[n + i] + im * a1[i]) + t * h[n + i]
    }
    out[n] = 0
    out[m + n] = 0
  }

  const correct = (state: RootState): boolean => {
    const { V, x } = state
    let { re, im } = state
    for (let step = 0; step < mostSteps; step++) {
      load(V, re, im, x)
      if (!bordered(d, x)) return false
      first.fill(0)
      first[n] = scale
      solveInPlace(B, first)
      rightSide(second, V > 0 ? -b / V : 0, h)
      solveInPlace(B, second)
      const dIm = first[m + n] / (1 - second[m + n])
      const dRe = first[n] + second[n] * dIm
      if (!(Math.abs(dRe) + Math.abs(dIm) < Number.POSITIVE_INFINITY)) return false
      re += dRe
      im += dIm
      const change = taken(x, dIm)
      const size = Math.hypot(re, im)
      const moved = Math.hypot(dRe, dIm) / size
      if (!(im > 0) || (step > 2 && moved > 0.5)) return false
      if (moved < settled && change < settledShape) {
        state.re = re
        state.im = im
        return true
      }
    }
    return false
  }

  /** The new shape, first + share · second, to unit length; how far it is from the old one. */
  const taken = (x: Float64Array, share: number): number => {
    let square = 0
    for (let i = 0; i < n; i++) {
      const xr = first[i] + share * second[i]
      const xi = first[m + i] + share * second[m + i]
      first[i] = xr
      first[m + i] = xi
      square += xr * xr + xi * xi
    }
    const length = 1 / Math.sqrt(square)
    for (let i = 0; i < n; i++) {
      x[i] = first[i] * length
      x[n + i] = first[m + i] * length
    }
    // cᴴ ξ₊ = 1 with |c| = 1: what is beyond 1 in the square stands at right angles.
    return Math.sqrt(Math.max(0, square - 1))
  }

  const tangent = (state: RootState, out: RootTangent, justCorrected: boolean): boolean => {
    // The matrix of the last step is that of a root 1e-5 away, as good as needed.
    if (!justCorrected) {
      load(state.V, state.re, state.im, state.x)
      if (!bordered(d, state.x)) return false
      rightSide(second, state.V > 0 ? -b / state.V : 0, h)
      solveInPlace(B, second)
    }
    speedSide(state, first)
    solveInPlace(B, first)
    out.im = first[m + n] / (1 - second[m + n])
    out.re = first[n] + second[n] * out.im
    for (let i = 0; i < n; i++) {
      out.x[i] = first[i] + out.im * second[i]
      out.x[n + i] = first[m + i] + out.im * second[m + i]
    }
    return Number.isFinite(out.re + out.im)
  }

  const column = new Float64Array(2 * n)
  const neutral = (state: RootState): boolean => {
    const { x } = state
    state.re = 0
    for (let step = 0; step < mostSteps; step++) {
      const { V, im } = state
      load(V, 0, im, x)
      for (let i = 0; i < n; i++) {
        column[i] = -d[n + i] + (b / V) * h[i]
        column[n + i] = d[i] + (b / V) * h[n + i]
      }
      if (!bordered(column, x)) return false
      first.fill(0)
      first[n] = scale
      solveInPlace(B, first)
      speedSide(state, second)
      solveInPlace(B, second)
      const dV = -first[m + n] / second[m + n]
      const dIm = first[n] + dV * second[n]
      if (!(Math.abs(dV) < 0.5 * V && Math.abs(dIm) < 0.5 * im)) return false
      state.V += dV
      state.im += dIm
      const change = taken(x, dV)
      if (Math.abs(dV) < settledNeutral * V && Math.abs(dIm) < settledNeutral * im && change < settledShape) return true
    }
    return false
  }

  return { n, correct, tangent, neutral }
}
