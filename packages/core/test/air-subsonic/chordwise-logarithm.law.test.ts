/**
 * The chordwise logarithm where it can be seen alone: a lattice in two dimensions, M = 0, against Theodorsen.
 *
 *   w/V = −(1/4π) ∫ Δc_p [1/x − iκ e^{−iκx} (Ci(κ|x|) + i (Si(κx) + π/2))] dξ        x = x_receiving − ξ
 *
 * Possio's kernel for incompressible flow (Bisplinghoff, Ashley & Halfman, Aeroelasticity (1955), section 6-4, recalled).
 */
import { expect, test } from 'vitest'
import { sectionForces } from '../../src/air/subsonic/theodorsen.ts'
import { complexLu, complexMatrix, complexSolve, complexVector } from '../../src/numeric/complex-matrix.ts'

/** Ci and Si of 0 < x < 8 by their power series (Abramowitz & Stegun 5.2.14, 5.2.16). */
function cosineAndSineIntegral(x: number): [number, number] {
  let [term, Ci, Si] = [1, 0.577_215_664_901_532_9 + Math.log(x), 0]
  for (let n = 1; n < 60; n++) {
    term *= x / n
    const sign = n % 4 < 2 ? 1 : -1
    if (n % 2 === 1) Si += (sign * term) / n
    else Ci += (sign * term) / n
  }
  return [Ci, Si]
}

/** Error of the lift of a plate of half chord 1 pitching about mid-chord, share of its size. */
function liftError(k: number, n: number, corrected: boolean): number {
  const c = 2 / n
  const D = complexMatrix(n)
  const w = complexVector(n)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const x = (i - j + 0.5) * c
      const [Ci, Si] = cosineAndSineIntegral(k * Math.abs(x))
      const [re, im] = [Ci, (x < 0 ? -Si : Si) + Math.PI / 2]
      const [cos, sin] = [Math.cos(k * x), Math.sin(k * x)]
      // −iκ e^{−iκx} (re + i im) = κ (im cos − re sin) − iκ (re cos + im sin)
      D.re[i * n + j] = (-c / (4 * Math.PI)) * (1 / x + k * (im * cos - re * sin))
      D.im[i * n + j] = (c / (4 * Math.PI)) * k * (re * cos + im * sin)
      if (corrected && (j === i || j === i + 1)) D.im[i * n + j] -= (k * c * Math.LN2) / (8 * Math.PI)
    }
    w.re[i] = -1
    w.im[i] = -k * (-1 + (i + 0.75) * c)
  }
  const { re, im } = complexSolve(complexLu(D), w)
  const { liftPerPitch: exact } = sectionForces(k, 0)
  const [liftRe, liftIm] = [re, im].map((part) => part.reduce((sum, v) => sum + v * c, 0))
  return Math.hypot(liftRe - exact.re, liftIm - exact.im) / Math.hypot(exact.re, exact.im)
}

test('the plain lattice is first order, the corrected one second order', () => {
  for (const k of [0.1, 0.3, 1]) {
    const order = (corrected: boolean) => Math.log2(liftError(k, 10, corrected) / liftError(k, 20, corrected))
    expect(order(false)).toBeGreaterThan(0.8)
    expect(order(false)).toBeLessThan(1.2)
    expect(order(true)).toBeGreaterThan(1.8)
  }
})

test('the figures of docs/methods/air-subsonic.md', () => {
  const rows = [
    [0.3, 5, 1.4e-2, 2.6e-3],
    [0.3, 10, 7e-3, 5.8e-4],
    [1, 10, 5.1e-2, 4.5e-3],
    [1, 20, 2.5e-2, 1e-3],
  ] as const
  for (const [k, n, plain, corrected] of rows) {
    expect(liftError(k, n, false) / plain).toBeCloseTo(1, 1)
    expect(liftError(k, n, true) / corrected).toBeCloseTo(1, 1)
  }
})
