/** Plain numerical integrals for the tests: slow, general, independent of the formulas they are compared with. */
import { scaledK1 } from '../../src/air/subsonic/bessel.ts'
import type { KernelArgument } from '../../src/air/subsonic/kernel.ts'
import type { Complex } from '../../src/air/subsonic/theodorsen.ts'

/** Gauss-Legendre, 5 points on [−1, 1] (Abramowitz & Stegun, Table 25.4). */
const gauss5 = [
  [0, 0.568_888_888_888_889],
  [0.538_469_310_105_683, 0.478_628_670_499_366],
  [-0.538_469_310_105_683, 0.478_628_670_499_366],
  [0.906_179_845_938_664, 0.236_926_885_056_189],
  [-0.906_179_845_938_664, 0.236_926_885_056_189],
] as const

export function integral(f: (t: number) => Complex, from: number, to: number, panels: number): Complex {
  let [re, im] = [0, 0]
  const half = (to - from) / panels / 2
  for (let p = 0; p < panels; p++) {
    const centre = from + (2 * p + 1) * half
    for (const [node, weight] of gauss5) {
      const value = f(centre + node * half)
      re += weight * half * value.re
      im += weight * half * value.im
    }
  }
  return { re, im }
}

/**
 * P(x, y; κ, M) with I₁ = ∫ e^{−i k₁ u} (1 + u²)^{−3/2} du done numerically. For u₁ < 0 the integral over all u is
 * 2 k₁ K₁(k₁) (tested on its own) and what lies below u₁ is taken off, so that P keeps its digits as y → 0.
 */
export function kernelByQuadrature({ x, y, mach, wavenumber }: KernelArgument, panels = 6000, reach = 9): Complex {
  const r = Math.abs(y)
  const beta2 = 1 - mach * mach
  const R = Math.hypot(x, Math.sqrt(beta2) * r)
  const u1 = (mach * R - x) / (beta2 * r)
  const k1 = wavenumber * r
  const tail = tailIntegral(Math.abs(u1), k1, panels, reach)
  const I1 = u1 >= 0 ? tail : { re: 2 * scaledK1(Math.abs(k1)) - tail.re, im: tail.im }
  const rest = (mach * r) / (R * Math.sqrt(1 + u1 * u1))
  const K1 = { re: I1.re + rest * Math.cos(k1 * u1), im: I1.im - rest * Math.sin(k1 * u1) }
  const [cos, sin] = [Math.cos(wavenumber * x), Math.sin(wavenumber * x)]
  return { re: K1.re * cos + K1.im * sin, im: K1.im * cos - K1.re * sin }
}

/** ∫ from u up, by u = sinh t to where nothing is left. */
function tailIntegral(u: number, k1: number, panels: number, reach: number): Complex {
  const from = Math.asinh(u)
  const f = (t: number) => {
    const phase = k1 * Math.sinh(t)
    return { re: Math.cos(phase) / Math.cosh(t) ** 2, im: -Math.sin(phase) / Math.cosh(t) ** 2 }
  }
  return integral(f, from, from + reach, panels)
}

export interface Line {
  readonly t1: number
  readonly t2: number
  readonly a: number
  readonly b: number
}

/**
 * Finite part of ∫ P(a + b t, t) / t² dt. Where t = 0 lies on the line the value and slope of P there are needed: `behind` when
 * the line lies ahead of the receiving point (a > 0); ahead of it nothing is felt, both are 0.
 */
export function finitePart(
  P: (x: number, t: number) => Complex,
  behind: { readonly value: Complex; readonly slope: Complex },
  { t1, t2, a, b }: Line,
  panels = 40,
): Complex {
  if (t1 * t2 > 0) {
    const f = (t: number) => scaled(P(a + b * t, t), 1 / t ** 2)
    return integral(f, t1, t2, panels)
  }
  const zero = { re: 0, im: 0 }
  const { value, slope } = a > 0 ? behind : { value: zero, slope: zero }
  const f = (t: number) => {
    const { re, im } = P(a + b * t, t)
    return scaled({ re: re - value.re - slope.re * t, im: im - value.im - slope.im * t }, 1 / t ** 2)
  }
  const parts = [scaled(value, 1 / t1 - 1 / t2), scaled(slope, Math.log(Math.abs(t2 / t1)))]
  for (const end of [t1, t2]) {
    let edge = end
    for (let step = 0; step < 17; step++, edge /= 2) {
      parts.push(integral(f, Math.min(edge / 2, edge), Math.max(edge / 2, edge), Math.ceil(panels / 10)))
    }
    // Nearer, rounding would be all that is left of the bracket.
    parts.push(scaled(f(edge), Math.abs(edge)))
  }
  return parts.reduce((sum, part) => ({ re: sum.re + part.re, im: sum.im + part.im }))
}

/** The same for the whole kernel, itself by quadrature. */
export function lineByQuadrature(line: Line & { readonly mach: number; readonly wavenumber: number }): Complex {
  const { a, b, mach, wavenumber } = line
  const value = { re: 2 * Math.cos(wavenumber * a), im: -2 * Math.sin(wavenumber * a) }
  const slope = { re: wavenumber * b * value.im, im: -wavenumber * b * value.re }
  return finitePart((x, y) => kernelByQuadrature({ x, y, mach, wavenumber }, 150, 7), { value, slope }, line, 5)
}

const scaled = ({ re, im }: Complex, factor: number): Complex => ({ re: factor * re, im: factor * im })
