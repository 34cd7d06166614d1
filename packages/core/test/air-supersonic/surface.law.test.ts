/** Laws of linear supersonic flow that the surface must keep. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import {
  keptFlow,
  modeForces,
  shapeOnBoxes,
  steadyPressure,
  supersonicForces,
} from '../../src/air/supersonic/generalized-forces.ts'
import { sourceLattice, sourceLatticeSize } from '../../src/air/supersonic/lattice.ts'
import type { Mirror } from '../../src/air/supersonic/reach.ts'
import { harmonicFlow, supersonicFlow } from '../../src/air/supersonic/solution.ts'

const plate = (corners: readonly (readonly [number, number])[]): Point[] => corners.map(([x, y]): Point => [x, y])
const fins = {
  rectangle: plate([[0, 0], [1, 0], [1, 0.8], [0, 0.8]]),
  'clipped delta': plate([[0, 0], [1, 0], [1, 0.5], [0.5, 0.5]]),
  delta: plate([[0, 0], [1, 0], [1, 0.5]]),
  'swept, slow trailing edge': plate([[0, 0], [1, 0], [1.6, 0.7], [1, 0.7]]),
  'trapezoid about mid-chord': plate([[0, 0], [1, 0], [0.75, 0.6], [0.25, 0.6]]),
} // biome-ignore format: corners

const turnedRound = (outline: readonly Point[]): Point[] => {
  const most = Math.max(...outline.map(([x]) => x))
  return outline.map(([x, y]): Point => [most - x, y]).reverse()
}

/** Force over q for a uniform normalwash of size 1 at κ = ω/V, complex. */
function uniform(outline: readonly Point[], mach: number, kappa: number, boxes = 150): [number, number] {
  const lattice = sourceLattice(outline, sourceLatticeSize(outline, boxes))
  const flat = shapeOnBoxes(lattice, () => 0, () => -1) // biome-ignore format: two functions
  const [force] = modeForces(harmonicFlow(supersonicFlow(lattice, mach), kappa), [flat])
  return [force.re.reduce((sum, v) => sum + v, 0), force.im.reduce((sum, v) => sum + v, 0)]
}

/** Force over q, symmetric flow, for bending, twist and chordwise bending shapes. */
function Qof(outline: readonly Point[], mach: number, { scale = 1, boxes = 150, mirror = 1 as Mirror } = {}) {
  const scaled = outline.map(([x, y]): Point => [scale * x, scale * y])
  const lattice = sourceLattice(scaled, sourceLatticeSize(scaled, boxes))
  const shapes = [
    shapeOnBoxes(lattice, (_, y) => y * y, () => 0),
    shapeOnBoxes(lattice, (x, y) => x * y, (_, y) => y),
    shapeOnBoxes(lattice, (x) => x * x, (x) => 2 * x),
  ] // biome-ignore format: value and slope on a line
  return supersonicForces(keptFlow(supersonicFlow(lattice, mach, mirror)), shapes, scale / 2)
}

describe('reverse flow: turned round, a fin has the same lift for the same uniform normalwash, steady or oscillating', () => {
  const cases = Object.entries(fins).flatMap(([name, outline]) =>
    [1.1, 1.3, 2].map((mach) => ({ name, outline, mach })),
  )
  test.each(cases)('$name, M $mach', ({ name, outline, mach }) => {
    // Turned round, the slow trailing edge is a leading edge swept forward, at Mach 1.3 just slower than the Mach line: waves
    // from all of it meet at the root, and the load jumps there within a strip.
    const allowed = name.startsWith('swept') ? 0.03 : 0.012
    for (const kappa of [0, 0.5, 1.5]) {
      const [a, b] = [uniform(outline, mach, kappa), uniform(turnedRound(outline), mach, kappa)]
      expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeLessThan(allowed * Math.hypot(...a))
    }
  })
})

describe('frequency to zero', () => {
  test.each(Object.entries(fins))('%s: Q is continuous, Im Q / k too', (_, outline) => {
    for (const mach of [1.1, 1.5]) {
      const Q = Qof(outline, mach)
      const [still, slow, slower] = [0, 2e-3, 1e-3].map(Q)
      const size = Math.max(...still.re.map(Math.abs))
      for (let ij = 0; ij < 9; ij++) {
        expect(Math.abs(slower.re[ij] - still.re[ij])).toBeLessThan(1e-4 * size)
        expect(still.im[ij]).toBe(0)
        expect(Math.abs(slow.im[ij] / 2e-3 - slower.im[ij] / 1e-3)).toBeLessThan(1e-3 * size)
      }
    }
  })
})

test('lengths: a fin twice as large has Q eight times as large, shapes measured in their own units', () => {
  const [one, two] = [Qof(fins['clipped delta'], 1.4)(0.3), Qof(fins['clipped delta'], 1.4, { scale: 2 })(0.3)]
  // z is y², x y, x²: lengths squared, so Q grows by 2^(2+2+1).
  for (let ij = 0; ij < 9; ij++) {
    expect(two.re[ij]).toBeCloseTo(32 * one.re[ij], 8)
    expect(two.im[ij]).toBeCloseTo(32 * one.im[ij], 8)
  }
})

test('a fin with its image is the wing without a mirror', () => {
  const half = fins.delta
  const whole = plate([[1, 0], [1, 1], [0, 0.5]]) // biome-ignore format: corners
  const lift = (outline: readonly Point[], mirror: Mirror) => {
    const lattice = sourceLattice(outline, sourceLatticeSize(outline, mirror === 0 ? 300 : 150))
    const p = steadyPressure(keptFlow(supersonicFlow(lattice, 1.5, mirror)), lattice.y.map(() => -1)) // biome-ignore format: a line
    return p.reduce((sum, v, box) => sum + v * lattice.area[box], 0)
  }
  expect(lift(whole, 0) / (2 * lift(half, 1))).toBeCloseTo(1, 1.6)
})

test('behind no Mach line of the tip the flow is plane and exact', () => {
  const lattice = sourceLattice(fins.rectangle, { chordwise: 10, spanwise: 8 })
  const p = steadyPressure(keptFlow(supersonicFlow(lattice, 3)), lattice.y.map(() => -1)) // biome-ignore format: a line
  for (let box = 0; box < lattice.stripStart[3]; box++) expect(p[box]).toBeCloseTo(4 / Math.sqrt(8), 10)
})

describe('high Mach numbers: piston theory', () => {
  const wide = plate([[0, 0], [1, 0], [1, 3], [0, 3]]) // biome-ignore format: corners
  /** Δc_p = −(4/β)(∂z/∂x + iκ z (M² − 2)/(M² − 1)): first order in frequency; its limit is −(4/M)(∂z/∂x + iκ z). */
  const piston = (mach: number, kappa: number, z: number, slope: number): [number, number] => {
    const beta2 = mach * mach - 1
    return [(-4 / Math.sqrt(beta2)) * slope, ((-4 / Math.sqrt(beta2)) * kappa * z * (mach * mach - 2)) / beta2]
  }
  // The next term is of the order of (κ c)²/M², and of κ c/M² through the travel of waves along the chord.
  test.each([
    [5, 0.1, 0.01],
    [5, 0.5, 0.02],
    [5, 1, 0.06],
    [10, 0.1, 0.003],
    [10, 0.5, 0.006],
    [10, 1, 0.015],
    [10, 2, 0.05],
  ])('M %f, ω c/V = %f: within %f', (mach, kappa, allowed) => {
    const lattice = sourceLattice(wide, { chordwise: 12, spanwise: 10 })
    const shape = shapeOnBoxes(lattice, (x) => x - 0.3, () => 1) // biome-ignore format: value and slope
    const [force] = modeForces(harmonicFlow(supersonicFlow(lattice, mach), kappa), [shape])
    for (let box = 0; box < lattice.stripStart[6]; box++) {
      const [re, im] = piston(mach, kappa, shape.rise[box], 1)
      const off = Math.hypot(force.re[box] / lattice.area[box] - re, force.im[box] / lattice.area[box] - im)
      expect(off).toBeLessThan(allowed * Math.hypot(re, im))
    }
  })
})

describe('finer boxes', () => {
  test.each(Object.entries(fins))('%s: Q at 150 boxes is that of 500', (_, outline) => {
    for (const [mach, k] of [
      [1.1, 0.3],
      [1.4, 0.5],
      [2.5, 1],
    ]) {
      // biome-ignore format: pairs
      const [coarse, fine] = [Qof(outline, mach)(k), Qof(outline, mach, { boxes: 500 })(k)]
      for (let i = 0; i < 3; i++) {
        const row = [0, 1, 2].map((j) => Math.hypot(fine.re[3 * i + j], fine.im[3 * i + j]))
        for (let j = 0; j < 3; j++) {
          const at = 3 * i + j
          const off = Math.hypot(coarse.re[at] - fine.re[at], coarse.im[at] - fine.im[at])
          expect(off).toBeLessThan(0.025 * Math.max(...row))
        }
      }
    }
  })
})

describe('any simple outline', () => {
  const shapes = {
    'two prongs': plate([[0, 0], [1, 0], [1.2, 0.6], [1, 0.6], [0.8, 0.2], [0.5, 0.2], [0.6, 0.6], [0.3, 0.6]]),
    strake: plate([[0, 0], [1, 0], [1, 0.5], [0.7, 0.5], [0.5, 0.15]]),
    'step in the leading edge': plate([[0, 0], [1, 0], [1, 0.6], [0.5, 0.6], [0.5, 0.3], [0.1, 0.3]]),
    'half ellipse': Array.from({ length: 21 }, (_, i): Point => [0.5 + 0.5 * Math.cos((Math.PI * i) / 20), 0.5 * Math.sin((Math.PI * i) / 20)]),
  } // biome-ignore format: corners
  test.each(Object.entries(shapes))('%s: lift converges', (_, outline) => {
    for (const mach of [1.1, 1.3, 2]) {
      const [coarse, fine] = [uniform(outline, mach, 0), uniform(outline, mach, 0, 500)]
      expect(Math.abs(coarse[0] / fine[0] - 1)).toBeLessThan(0.025)
    }
  })
})
