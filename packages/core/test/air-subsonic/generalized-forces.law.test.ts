import { describe, expect, test } from 'vitest'
import {
  factoredWash,
  generalizedForces,
  modePressure,
  shapeOnLattice,
  steadyPressure,
} from '../../src/air/subsonic/generalized-forces.ts'
import { finLattice, type LatticeSize } from '../../src/air/subsonic/lattice.ts'
import { type FieldMesh, meshSampling, shapesFromMesh } from '../../src/air/subsonic/mesh-sampling.ts'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { liftingSurface } from '../../src/air/subsonic/surface.ts'

const clipped: Point[] = [
  [0, 0],
  [1, 0],
  [1, 0.6],
  [0.6, 0.6],
]
const surfaceOf = (outline: readonly Point[], size: LatticeSize) => liftingSurface(finLattice(outline, size))

const liftSlope = (outline: readonly Point[], size: LatticeSize, mach = 0) => {
  const surface = surfaceOf(outline, size)
  const pressure = steadyPressure(factoredWash(surface, mach), new Float64Array(surface.lattice.count).fill(-1))
  return pressure.reduce((sum, p, i) => sum + p * surface.lattice.area[i], 0)
}

const rise = (_x: number, _y: number) => 1
const none = () => 0
const pitch = (x: number) => -(x - 0.5)
const nose = () => -1
const bend = (_x: number, y: number) => y * y
const twist = (x: number, y: number) => -(x - 0.5) * y
const twistSlope = (_x: number, y: number) => -y

describe('laws of the forces', () => {
  const surface = surfaceOf(clipped, { chordwise: 6, spanwise: 7 })
  const modes = [
    shapeOnLattice(surface, rise, none),
    shapeOnLattice(surface, pitch, nose),
    shapeOnLattice(surface, bend, none),
    shapeOnLattice(surface, twist, twistSlope),
  ]

  test('Q at k = 0 is real, and rising without pitching costs nothing', () => {
    const { re, im } = generalizedForces(factoredWash(surface, 0.5), modes, 0.5)(0)
    expect(im.every((v) => v === 0)).toBe(true)
    for (let i = 0; i < 4; i++) expect(Math.abs(re[i * 4])).toBeLessThan(1e-14)
    expect(re[1]).toBeGreaterThan(0.5)
  })

  test('a slow plunge is a steady angle of attack: Im Q rise / k → −Q pitch / b', () => {
    const b = 0.5
    const Q = generalizedForces(factoredWash(surface, 0.5), modes, b)
    const [steady, slow] = [Q(0), Q(1e-3)]
    for (const row of [0, 1, 2, 3]) {
      expect(slow.im[4 * row] / 1e-3 / (-steady.re[4 * row + 1] / b)).toBeCloseTo(1, 3)
    }
  })

  test('a bending shape at rest has no steady force either: its slope along the flow is nil', () => {
    const { re } = generalizedForces(factoredWash(surface, 0), modes, 0.5)(0)
    expect(Math.abs(re[2])).toBeLessThan(1e-14)
  })

  test('forces add up: a sum of shapes has the sum of the pressures', () => {
    const wash = factoredWash(surface, 0.7)
    const both = shapeOnLattice(
      surface,
      (x, y) => bend(x, y) + 2 * twist(x, y),
      (x, y) => 2 * twistSlope(x, y),
    )
    const [p, q, sum] = [modes[2], modes[3], both].map((mode) => modePressure(wash, mode, 0.9))
    for (let i = 0; i < sum.re.length; i++) {
      expect(sum.re[i]).toBeCloseTo(p.re[i] + 2 * q.re[i], 10)
      expect(sum.im[i]).toBeCloseTo(p.im[i] + 2 * q.im[i], 10)
    }
  })

  test('a fin of twice the size has four times the force at the same reduced frequency', () => {
    const big = surfaceOf(
      clipped.map(([x, y]): Point => [2 * x, 2 * y]),
      { chordwise: 6, spanwise: 7 },
    )
    const bigModes = [shapeOnLattice(big, rise, none), shapeOnLattice(big, (x) => -(x - 1), nose)]
    const small = generalizedForces(factoredWash(surface, 0.6), modes.slice(0, 2), 0.5)(0.8)
    const large = generalizedForces(factoredWash(big, 0.6), bigModes, 1)(0.8)
    // F rise: m² of force per m of rise (2¹) and per rad (2²); moments one power more.
    const powers = [2, 4, 4, 8]
    powers.forEach((power, ij) => {
      expect(large.re[ij] / (power * small.re[ij])).toBeCloseTo(1, 9)
      expect(large.im[ij] / (power * small.im[ij])).toBeCloseTo(1, 9)
    })
  })

  test('air takes energy out of a plunging fin at every frequency and Mach number', () => {
    for (const mach of [0, 0.5, 0.9]) {
      const Q = generalizedForces(factoredWash(surface, mach), modes.slice(0, 1), 0.5)
      for (const k of [0.05, 0.3, 1, 2]) expect(Q(k).im[0]).toBeLessThan(0)
    }
  })
})

describe('reverse-flow theorem (Flax 1952): ∬ Δp₁ w₂ = ∬ Δp₂ w₁, the second flow from behind', () => {
  const swept: Point[] = [
    [0, 0],
    [1, 0],
    [1.5, 0.7],
    [0.9, 0.7],
  ]
  const reversed = swept.map(([x, y]): Point => [-x, y])
  const size = { chordwise: 10, spanwise: 10 }

  /** ∬ Δp[w₁] w₂ with w₁ in the flow over the outline; both normalwashes given over x of the outline in its own flow. */
  const pairing = (
    outline: readonly Point[],
    mach: number,
    wavenumber: number,
    w1: (x: number, y: number) => number,
    w2: (x: number, y: number) => number,
  ) => {
    const surface = surfaceOf(outline, size)
    const { lattice } = surface
    const mode = {
      slope: lattice.receiveX.map((x, i) => w1(x, lattice.y[i])),
      rise: new Float64Array(lattice.count),
      forceRise: new Float64Array(lattice.count),
    }
    const { re, im } = modePressure(factoredWash(surface, mach), mode, wavenumber)
    let [sumRe, sumIm] = [0, 0]
    for (let i = 0; i < lattice.count; i++) {
      const weight = lattice.area[i] * w2(lattice.forceX[i], lattice.y[i])
      sumRe += weight * re[i]
      sumIm += weight * im[i]
    }
    return { re: sumRe, im: sumIm }
  }

  test.each([
    [0, 0],
    [0.6, 0.8],
    [0.8, 1.5],
  ])('Mach %f, κ = %f: within 2 % on 100 boxes', (mach, wavenumber) => {
    const one = () => 1
    const along = (x: number, y: number) => x + y * y
    const backwards = (x: number, y: number) => along(-x, y)
    const ahead = pairing(swept, mach, wavenumber, one, along)
    const astern = pairing(reversed, mach, wavenumber, backwards, one)
    const apart = Math.hypot(ahead.re - astern.re, ahead.im - astern.im)
    expect(apart / Math.hypot(ahead.re, ahead.im)).toBeLessThan(0.02)
  })
})

describe('what the tip inset and the chordwise logarithm buy', () => {
  const rectangle: Point[] = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ]
  const fine = liftSlope(rectangle, { chordwise: 24, spanwise: 24 })

  test('a lattice to the very tip errs like 1/n, one that ends a quarter strip inside like 1/n²', () => {
    const error = (n: number, tipInset: number) => {
      const slope = liftSlope(rectangle, { chordwise: 12, spanwise: n, tipInset })
      return Math.abs(slope - liftSlope(rectangle, { chordwise: 12, spanwise: 32 }))
    }
    expect(error(4, 0.25)).toBeLessThan(error(8, 0) / 5)
    expect(Math.log2(error(4, 0.25) / error(8, 0.25))).toBeGreaterThan(1.6)
    expect(Math.log2(error(4, 0) / error(8, 0))).toBeLessThan(1.2)
    expect(liftSlope(rectangle, { chordwise: 6, spanwise: 6 }) / fine).toBeCloseTo(1, 2)
  })

  test('unsteady lift converges at second order in the chord of a box', () => {
    const lift = (chordwise: number) => {
      const surface = surfaceOf(rectangle, { chordwise, spanwise: 8 })
      const modes = [shapeOnLattice(surface, rise, none), shapeOnLattice(surface, pitch, nose)]
      const { re, im } = generalizedForces(factoredWash(surface, 0.3), modes, 0.5)(1)
      return { re: re[1], im: im[1] }
    }
    const [a, b, c] = [lift(5), lift(10), lift(20)]
    const order = Math.log2(Math.hypot(a.re - b.re, a.im - b.im) / Math.hypot(b.re - c.re, b.im - c.im))
    expect(order).toBeGreaterThan(1.7)
  })
})

test('shapes from a mesh are those given by functions', () => {
  const n = 14
  const X: number[] = []
  const T: number[] = []
  for (let j = 0; j <= n; j++) {
    const y = (0.6 * j) / n
    for (let i = 0; i <= n; i++) X.push(y + (1 - y) * (i / n), y)
  }
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) {
      const a = j * (n + 1) + i
      T.push(a, a + 1, a + n + 2, a, a + n + 2, a + n + 1)
    }
  }
  const mesh: FieldMesh = { X: Float64Array.from(X), T: Int32Array.from(T), perTriangle: 3 }
  const surface = surfaceOf(clipped, { chordwise: 6, spanwise: 7 })
  const z = Float64Array.from({ length: X.length / 2 }, (_, i) => Math.sin(2 * X[2 * i]) * X[2 * i + 1] ** 2)
  const found = shapesFromMesh(surface, mesh)(z)
  const exact = shapeOnLattice(
    surface,
    (x, y) => Math.sin(2 * x) * y * y,
    (x, y) => 2 * Math.cos(2 * x) * y * y,
  )
  for (let i = 0; i < surface.lattice.count; i++) {
    expect(Math.abs(found.rise[i] - exact.rise[i])).toBeLessThan(1e-4)
    expect(Math.abs(found.forceRise[i] - exact.forceRise[i])).toBeLessThan(1e-4)
    expect(Math.abs(found.slope[i] - exact.slope[i])).toBeLessThan(1e-3)
  }
  expect(meshSampling(mesh, [0.5], [0.2]).start[1]).toBeGreaterThan(17)
})
