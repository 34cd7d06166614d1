import { describe, expect, test } from 'vitest'
import { exponentialFit } from '../../src/air/subsonic/kernel.data.ts'
import { kernelLowFrequency, kernelNumerator } from '../../src/air/subsonic/kernel.ts'
import { kernelByQuadrature } from './quadrature.ts'

test('the exponential fit has the error it states', () => {
  const { a, b } = exponentialFit
  let worst = 0
  for (let i = 0; i <= 40_000; i++) {
    const u = (i / 2000) ** 2 // 0 … 400
    const s = Math.sqrt(1 + u * u)
    const fit = a.reduce((sum, an, n) => sum + an * Math.exp(-b * 2 ** (n + 1) * u), 0)
    worst = Math.max(worst, Math.abs(fit - 1 / (s * (s + u))))
  }
  expect(worst).toBeLessThan(2.6e-5)
  expect(worst).toBeGreaterThan(2.4e-5)
})

describe('the kernel against its defining integral', () => {
  const cases: [number, number, number, number][] = []
  for (const mach of [0, 0.45, 0.8, 0.95]) {
    for (const x of [-2, -0.1, 0.02, 0.6, 3]) {
      for (const y of [0.05, 0.8, -2]) for (const wavenumber of [0.1, 1, 3]) cases.push([x, y, mach, wavenumber])
    }
  }
  test('180 pairs of points', () => {
    let worst = 0
    for (const [x, y, mach, wavenumber] of cases) {
      const [fast, slow] = [kernelNumerator, kernelByQuadrature].map((f) => f({ x, y, mach, wavenumber }))
      // The fit's error enters as k₁ S.
      const scale = 1 + wavenumber * Math.abs(y)
      worst = Math.max(worst, Math.hypot(fast.re - slow.re, fast.im - slow.im) / scale)
    }
    expect(cases.length).toBe(180)
    expect(worst).toBeLessThan(6e-5)
  })
})

describe('limits of the kernel', () => {
  test('κ = 0 is the Prandtl-Glauert horseshoe', () => {
    for (const [x, y, mach] of [
      [0.3, 0.2, 0],
      [-0.4, 0.7, 0.6],
      [1.2, -0.01, 0.9],
    ]) {
      const { re, im } = kernelNumerator({ x, y, mach, wavenumber: 0 })
      expect(re).toBeCloseTo(1 + x / Math.hypot(x, Math.sqrt(1 - mach * mach) * y), 12)
      expect(im).toBeCloseTo(0, 12)
    }
  })

  test('the terms of order 0 and 1 leave a remainder of order κ² ln κ', () => {
    for (const [x, y, mach] of [
      [0.5, 0.3, 0],
      [-0.5, 0.3, 0.7],
      [0.5, -0.3, 0.7],
    ]) {
      const rest = (wavenumber: number) => {
        const [whole, low] = [kernelNumerator, kernelLowFrequency].map((f) => f({ x, y, mach, wavenumber }))
        return Math.hypot(whole.re - low.re, whole.im - low.im)
      }
      const order = Math.log2(rest(0.8) / rest(0.4))
      expect(order).toBeGreaterThan(1.4)
      expect(order).toBeLessThan(2.2)
    }
  })

  test('behind the sending point on its own line it is the wake alone, ahead of it nothing', () => {
    const behind = kernelNumerator({ x: 0.7, y: 0, mach: 0.6, wavenumber: 2 })
    expect(behind.re).toBeCloseTo(2 * Math.cos(1.4), 12)
    expect(behind.im).toBeCloseTo(-2 * Math.sin(1.4), 12)
    const ahead = kernelNumerator({ x: -0.7, y: 0, mach: 0.6, wavenumber: 2 })
    expect(Math.hypot(ahead.re, ahead.im)).toBeLessThan(1e-12)
  })

  test('κ → −κ is the complex conjugate, y → −y changes nothing', () => {
    const at = { x: 0.4, y: 0.3, mach: 0.5, wavenumber: 1.3 }
    const here = kernelByQuadrature(at)
    const back = kernelByQuadrature({ ...at, wavenumber: -1.3 })
    expect(back.re).toBeCloseTo(here.re, 10)
    expect(back.im).toBeCloseTo(-here.im, 10)
    expect(kernelNumerator({ ...at, y: -0.3 })).toEqual(kernelNumerator(at))
  })
})
