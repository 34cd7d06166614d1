import { describe, expect, test } from 'vitest'
import { bessel01, scaledK1 } from '../../src/air/subsonic/bessel.ts'

const places = [0.001, 0.03, 0.5, 1, 2.7, 5, 8, 11.9, 12.1, 20, 60]

describe('Bessel functions', () => {
  test.each(places)('Wronskian J₁ Y₀ − J₀ Y₁ = 2/(π x) at %f', (x) => {
    const { J0, J1, Y0, Y1 } = bessel01(x)
    expect((J1 * Y0 - J0 * Y1) * ((Math.PI * x) / 2)).toBeCloseTo(1, 9)
  })

  test.each(places)('J₀ and J₁ by their integrals at %f', (x) => {
    const n = 400 // the trapezium rule on a period converges faster than any power
    let [J0, J1] = [0, 0]
    for (let i = 0; i < n; i++) {
      const t = (2 * Math.PI * i) / n
      J0 += Math.cos(x * Math.sin(t)) / n
      J1 += Math.cos(t - x * Math.sin(t)) / n
    }
    const found = bessel01(x)
    expect(found.J0).toBeCloseTo(J0, 9)
    expect(found.J1).toBeCloseTo(J1, 9)
  })

  test.each([0, 1e-6, 0.01, 0.3, 1, 3, 6, 8.99, 9.01, 15, 40])('z K₁ by its integral at %f', (z) => {
    // z K₁(z) = ∫ z cosh t e^{−z cosh t} dt, and with v = z sinh t = ∫ e^{−sqrt(z² + v²)} dv
    const n = 4000
    const end = 40
    let sum = 0
    for (let i = 0; i < n; i++) {
      // v = s³ clusters points where the integrand bends
      const s = (Math.cbrt(end) * (i + 0.5)) / n
      sum += (Math.exp(-Math.hypot(z, s ** 3)) * 3 * s * s * Math.cbrt(end)) / n
    }
    expect(Math.abs(scaledK1(z) - sum)).toBeLessThan(3e-7)
  })

  test('no step where the series change', () => {
    for (const [f, x] of [
      [(v: number) => bessel01(v).J0, 12],
      [(v: number) => bessel01(v).Y1, 12],
      [scaledK1, 9],
    ] as const) {
      const h = 1e-6
      const jump = f(x + h) - f(x - h) - (f(x - h) - f(x - 3 * h))
      expect(Math.abs(jump)).toBeLessThan(2e-10)
    }
  })
})
