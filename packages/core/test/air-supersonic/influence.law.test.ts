/** Entries of the influence against direct integration of e^{−iμξ} cos(νR)/R, and the solution against its own equations. */
import { describe, expect, test } from 'vitest'
import { entriesAt } from '../../src/air/supersonic/influence.ts'
import { sourceLattice } from '../../src/air/supersonic/lattice.ts'
import { harmonicFlow, sourceStrengths, supersonicFlow } from '../../src/air/supersonic/solution.ts'
import { gaussLegendre } from './quadrature.ts'

const outline = [[0, 0], [1, 0], [1.2, 0.6], [0.7, 0.6]] as const // biome-ignore format: corners
const lattice = sourceLattice(outline, { chordwise: 8, spanwise: 6 })

/** One side of a box between lines x₀ + slope (|y| − y₀) and the same plus h, by Gauss's rule in η and in u, ξ = β|η| cosh u. */
function direct(
  mach: number,
  kappa: number,
  at: { x: number; y: number },
  box: { lead: number; slope: number; middle: number; yIn: number; yOut: number },
  side: 1 | -1,
) {
  const beta2 = mach * mach - 1
  const [beta, mu, nu, h] = [Math.sqrt(beta2), (kappa * mach * mach) / beta2, (kappa * mach) / beta2, lattice.h]
  let [re, im] = [0, 0]
  const [y1, y2] = side > 0 ? [box.yIn, box.yOut] : [-box.yOut, -box.yIn]
  const edge = (y: number) => at.x - box.lead - box.slope * (side * y - box.middle)
  // Cuts where the edges leave the cone: edge(y) = ±β (y − at.y), both straight.
  const t = -side * box.slope
  const leaving = [edge(at.y), edge(at.y) - h].flatMap((a) => [a / (beta - t), -a / (beta + t)])
  const cuts = [y1, y2, at.y, ...leaving.map((eta) => at.y + eta)].filter((y) => y >= y1 && y <= y2)
  cuts.sort((p, q) => p - q)
  for (let c = 1; c < cuts.length; c++) {
    const half = (cuts[c] - cuts[c - 1]) / 2
    for (const { x: s, w } of gaussLegendre(24)) {
      const y = (cuts[c] + cuts[c - 1]) / 2 + (half * s * (3 - s * s)) / 2
      const cone = Math.max(1e-12, beta * Math.abs(y - at.y))
      const [hi, lo] = [edge(y), edge(y) - h].map((xi) => Math.acosh(Math.max(1, xi / cone)))
      for (const { x: v, w: weight } of gaussLegendre(10)) {
        const u = (lo + hi + v * (hi - lo)) / 2
        const [xi, R] = [cone * Math.cosh(u), cone * Math.sinh(u)]
        const dA = (w * 1.5 * (1 - s * s) * half * weight * (hi - lo)) / 2
        re += dA * Math.cos(mu * xi) * Math.cos(nu * R)
        im -= dA * Math.sin(mu * xi) * Math.cos(nu * R)
      }
    }
  }
  return { re: -re / Math.PI, im: -im / Math.PI }
}

describe.each([
  [1.2, 0, 1e-5],
  [1.2, 1, 2.5e-3],
  [1.6, 3, 7e-3],
  [3, 4, 7e-3],
])('M %f, ω/V = %f', (mach, kappa, allowed) => {
  const flow = supersonicFlow(lattice, mach)
  const { field, influence, unknowns } = flow
  const A = entriesAt(influence, field.beta, kappa)
  const points = [...Array.from(unknowns, (s) => field.boxes[s]), ...field.stations]

  // Second order in the phase across a box, which is up to 1.2 rad here.
  test(`entries agree with direct integration within ${allowed}`, () => {
    let [compared, worst] = [0, 0]
    for (let r = 0; r < points.length; r += 3) {
      for (let s = r % 5; s < field.boxes.length; s += 5) {
        const { strip, line, cut } = field.boxes[s]
        const entry = influence.index[r * influence.columns + s]
        if (cut !== null || entry < 0) continue
        const { lead, ...rest } = field.strips[strip]
        const box = { ...rest, lead: lead + line * lattice.h }
        const at = { x: points[r].x, y: field.strips[points[r].strip].middle }
        const [own, image] = ([1, -1] as const).map((side) => direct(mach, kappa, at, box, side))
        const [re, im] = [own.re + image.re, own.im + image.im]
        worst = Math.max(
          worst,
          Math.hypot(A.re[entry] - re, A.im[entry] - im) / (Math.hypot(re, im) + 0.05 * lattice.h),
        )
        compared++
      }
    }
    expect(worst).toBeLessThan(allowed)
    expect(compared).toBeGreaterThan(25)
  })

  test('the equations of the boxes off the fin are met', () => {
    const harmonic = harmonicFlow(flow, kappa)
    const wash = { re: lattice.y.map((y) => 1 + y), im: lattice.receiveX.map((x) => kappa * x) }
    const [sigma] = sourceStrengths(harmonic, [wash])
    const potential = (r: number) => {
      let [re, im, size] = [0, 0, 0]
      for (let s = 0; s < influence.columns; s++) {
        const e = influence.index[r * influence.columns + s]
        if (e < 0) continue
        re += A.re[e] * sigma.re[s] - A.im[e] * sigma.im[s]
        im += A.re[e] * sigma.im[s] + A.im[e] * sigma.re[s]
        size += Math.hypot(A.re[e], A.im[e]) * Math.hypot(sigma.re[s], sigma.im[s])
      }
      return { re, im, size }
    }
    expect(unknowns.length).toBeGreaterThan(0)
    for (const [r, s] of unknowns.entries()) {
      const box = field.boxes[s]
      const { re, im, size } = potential(r)
      if (box.kind === 'diaphragm') expect(Math.hypot(re, im)).toBeLessThan(1e-11 * size)
      else {
        const trail = potential(unknowns.length + box.trail)
        const angle = kappa * (box.x - field.stations[box.trail].x)
        const [c, d] = [Math.cos(angle), Math.sin(angle)]
        expect(Math.hypot(re - c * trail.re - d * trail.im, im - c * trail.im + d * trail.re)).toBeLessThan(
          1e-11 * size,
        )
      }
    }
  })
})
