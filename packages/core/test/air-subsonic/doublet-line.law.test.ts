import { describe, expect, test } from 'vitest'
import {
  type DoubletLine,
  linearIntegral,
  parabolaWeights,
  steadyIntegral,
} from '../../src/air/subsonic/doublet-line.ts'
import { finitePart } from './quadrature.ts'

const lines: DoubletLine[] = [
  { t1: -0.1, t2: 0.1, a: 0.05, b: 0, mach: 0 },
  { t1: -0.1, t2: 0.1, a: 0.05, b: 1.3, mach: 0.7 },
  { t1: -0.1, t2: 0.1, a: -0.3, b: 1.3, mach: 0.7 },
  { t1: -0.12, t2: 0.08, a: -0.02, b: -0.8, mach: 0.4 },
  { t1: 0.1, t2: 0.3, a: 0.2, b: 0.9, mach: 0.8 },
  { t1: -1.4, t2: -1.1, a: -0.6, b: 0.9, mach: 0.8 },
  { t1: 0.1, t2: 0.3, a: 1e-13, b: 0.9, mach: 0.3 },
  { t1: 2, t2: 2.1, a: 4, b: -2, mach: 0.9 },
]

const real = (re: number) => ({ re, im: 0 })

describe.each(lines)('a doublet line %o', (line) => {
  const { a, b, mach } = line
  const R = (x: number, t: number) => Math.sqrt(x * x + (1 - mach * mach) * t * t)

  test('steady integral', () => {
    const behind = { value: real(2), slope: real(0) }
    const { re } = finitePart((x, t) => real(1 + x / R(x, t)), behind, line)
    expect(Math.abs(steadyIntegral(line) - re)).toBeLessThan(1e-6 * Math.abs(re) + 1e-6)
  })

  test('linear integral', () => {
    const behind = { value: real(2 * a), slope: real(2 * b) }
    const { re } = finitePart((x, t) => real(x + R(x, t) + (mach * mach * t * t) / R(x, t)), behind, line)
    expect(Math.abs(linearIntegral(line) - re)).toBeLessThan(1e-6 * Math.abs(re) + 1e-6)
  })
})

describe('weights of the parabola', () => {
  const moment = (t1: number, t2: number, f: (t: number) => number) => {
    const w = parabolaWeights(t1, t2)
    return w[0] * f(t1) + w[1] * f((t1 + t2) / 2) + w[2] * f(t2)
  }
  test.each([
    [-0.1, 0.1],
    [-0.07, 0.13],
    [0.1, 0.3],
    [-0.5, -0.4],
    [7, 7.1],
  ])('exact for 1, t and t² on [%f, %f]', (t1, t2) => {
    const close = (value: number, exact: number) =>
      expect(Math.abs(value - exact)).toBeLessThan(1e-8 * Math.abs(1 / t1 - 1 / t2))
    close(
      moment(t1, t2, () => 1),
      1 / t1 - 1 / t2,
    )
    close(
      moment(t1, t2, (t) => t),
      Math.log(Math.abs(t2 / t1)),
    )
    close(
      moment(t1, t2, (t) => t * t),
      t2 - t1,
    )
  })

  test('the two ways to the moments agree where they meet', () => {
    const e = 0.1
    const [near, far] = [4 - 1e-9, 4 + 1e-9].map((c) => parabolaWeights(c * e - e, c * e + e))
    for (let i = 0; i < 3; i++) expect(near[i] / far[i]).toBeCloseTo(1, 7)
  })
})
