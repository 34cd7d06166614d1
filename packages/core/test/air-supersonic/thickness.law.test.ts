import { expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { sourceLattice } from '../../src/air/supersonic/lattice.ts'
import { boxSlopes, secondOrderRatio, thicknessFactors } from '../../src/air/supersonic/thickness.ts'
import { gaussLegendre } from './quadrature.ts'

/** Pressure coefficient of a small turn θ, exactly: oblique shock for θ > 0, Prandtl-Meyer for θ < 0; γ = 1.4. */
function exactPressure(M: number, theta: number): number {
  const g = 1.4
  if (theta === 0) return 0
  if (theta > 0) {
    // θ-β-M relation, weak root by Newton from the Mach angle.
    let shock = Math.asin(1 / M) + theta
    const turn = (s: number) =>
      Math.atan((2 / Math.tan(s)) * ((M * M * Math.sin(s) ** 2 - 1) / (M * M * (g + Math.cos(2 * s)) + 2)))
    for (let i = 0; i < 60; i++) shock -= (turn(shock) - theta) / ((turn(shock + 1e-6) - turn(shock - 1e-6)) / 2e-6)
    return (4 / (g + 1)) * (Math.sin(shock) ** 2 - 1 / (M * M))
  }
  const nu = (m: number) => Math.sqrt(6) * Math.atan(Math.sqrt((m * m - 1) / 6)) - Math.atan(Math.sqrt(m * m - 1))
  let m = M
  for (let i = 0; i < 60; i++) m -= (nu(m) - nu(M) + theta) / ((nu(m + 1e-6) - nu(m - 1e-6)) / 2e-6)
  const total = (v: number) => (1 + 0.2 * v * v) ** -3.5
  return (2 / (g * M * M)) * (total(m) / total(M) - 1)
}

test('the ratio is the second derivative of the exact pressure over its first', () => {
  for (const M of [1.3, 1.6, 2, 3, 5]) {
    const d = 2e-3
    const [p, q] = [exactPressure(M, d), exactPressure(M, -d)]
    const [C1, C2] = [(p - q) / (2 * d), (p + q) / (2 * d * d)]
    expect((2 * C2) / C1).toBeCloseTo(secondOrderRatio(M), 1)
    expect((2 * C2) / C1 / secondOrderRatio(M)).toBeCloseTo(1, 2)
  }
})

test('its limit for high Mach numbers is that of piston theory, (γ + 1) M / 2', () => {
  expect(secondOrderRatio(50) / (1.2 * 50)).toBeCloseTo(1, 2)
})

test('a wedge loads its front more and its rear less; nothing changes where it is level', () => {
  const [front, level, rear] = thicknessFactors(1.5, [0.05, 0, -0.05])
  expect(front).toBeGreaterThan(1)
  expect(level).toBe(1)
  expect(front + rear).toBeCloseTo(2, 12)
})

test('mean slopes of the boxes add up to the thickness, wherever a bevel ends', () => {
  const outline: Point[] = [[0, 0], [1, 0], [1.3, 0.8], [0.4, 0.8]] // biome-ignore format: corners
  const lattice = sourceLattice(outline, { chordwise: 7, spanwise: 5 })
  const half = (x: number, y: number) => {
    const [lead, trail] = [0.5 * y, 1 + 0.375 * y]
    return 0.02 * Math.max(0, Math.min(1, 8 * (x - lead), 8 * (trail - x)))
  }
  const slopes = boxSlopes(lattice, half)
  lattice.strips.forEach((strip, s) => {
    const inStrip = lattice.panels.filter((panel) => panel.strip === s)
    const upTo = (n: number) =>
      inStrip.slice(0, n).reduce((sum, { box, from, to }) => sum + slopes[box] * (to - from), 0)
    expect(upTo(inStrip.length)).toBeCloseTo(0, 12)
    expect(upTo(3)).toBeCloseTo(half(inStrip[2].to, strip.middle), 12)
  })
  // The same by integration of the slope over one box.
  const { box, from, to, strip } = lattice.panels[0]
  const y = lattice.strips[strip].middle
  const mean = gaussLegendre(200).reduce((sum, { x, w }) => {
    const at = (from + to + x * (to - from)) / 2
    return sum + (w / 2) * ((half(at + 1e-6, y) - half(at - 1e-6, y)) / 2e-6)
  }, 0)
  expect(slopes[box]).toBeCloseTo(mean, 2)
})
