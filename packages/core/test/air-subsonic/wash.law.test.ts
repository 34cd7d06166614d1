import { describe, expect, test } from 'vitest'
import { finLattice, type Lattice, latticeOfStrips } from '../../src/air/subsonic/lattice.ts'
import { finStrips, type Point, type Strip } from '../../src/air/subsonic/strips.ts'
import { doubletLine, liftingSurface } from '../../src/air/subsonic/surface.ts'
import { surfaceAtMach } from '../../src/air/subsonic/surface-at-mach.ts'
import { washMatrix } from '../../src/air/subsonic/wash.ts'
import type { ComplexMatrix } from '../../src/numeric/complex-matrix.ts'
import { lineByQuadrature } from './quadrature.ts'

const swept: Point[] = [
  [0, 0],
  [1, 0],
  [1.5, 0.8],
  [0.9, 0.8],
]

/** D summed box by box from numerical integrals of the kernel, with the chordwise logarithm of docs/methods/air-subsonic.md. */
function plainMatrix(lattice: Lattice, mach: number, wavenumber: number): ComplexMatrix {
  const n = lattice.count
  const D = { n, re: new Float64Array(n * n), im: new Float64Array(n * n) }
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (const mirror of [1, -1] as const) {
        const line = doubletLine(lattice, i, j, mirror, mach)
        const { re, im } = lineByQuadrature({ ...line, wavenumber })
        const scale = lattice.chord[j] / (8 * Math.PI)
        D.re[i * n + j] += scale * re
        D.im[i * n + j] += scale * im
      }
      const sameStrip = lattice.y[i] === lattice.y[j]
      if (!sameStrip || (j !== i && j !== i + 1)) continue
      const b = (lattice.lineOut[j] - lattice.lineIn[j]) / (lattice.yOut[j] - lattice.yIn[j])
      const strength = (1 + b * b) / Math.sqrt(1 - mach * mach + b * b)
      D.im[i * n + j] -= (wavenumber * lattice.chord[j] * Math.LN2 * strength) / (8 * Math.PI)
    }
  }
  return D
}

/** Largest difference of entries over the size of the largest entry of the row. */
function difference(A: ComplexMatrix, B: ComplexMatrix): number {
  let worst = 0
  for (let i = 0; i < A.n; i++) {
    let [size, apart] = [0, 0]
    for (let ij = i * A.n; ij < (i + 1) * A.n; ij++) {
      size = Math.max(size, Math.hypot(A.re[ij], A.im[ij]))
      apart = Math.max(apart, Math.hypot(A.re[ij] - B.re[ij], A.im[ij] - B.im[ij]))
    }
    worst = Math.max(worst, apart / size)
  }
  return worst
}

describe('the fast matrix against integrals of the kernel', () => {
  const lattice = finLattice(swept, { chordwise: 3, spanwise: 4 })
  // A parabola over a box of half width e leaves (κ e)² ln(κ e) of its own logarithm, more where Mach shortens the waves.
  test.each([
    [0, 0, 1e-6],
    [0.6, 0.5, 1e-4],
    [0.8, 2, 3e-3],
  ])('Mach %f, κ = %f: within %f of the largest entry', (mach, wavenumber, tolerance) => {
    const fast = washMatrix(surfaceAtMach(liftingSurface(lattice), mach), wavenumber)
    expect(difference(plainMatrix(lattice, mach, wavenumber), fast)).toBeLessThan(tolerance)
  })
})

describe('laws of the matrix', () => {
  const at = (lattice: Lattice, mach: number, wavenumber: number, reflection = 1) =>
    washMatrix(surfaceAtMach(liftingSurface(lattice, reflection), mach), wavenumber)

  test('κ = 0 at Mach M is the incompressible matrix of the fin drawn out by 1/β along the flow', () => {
    const mach = 0.75
    const beta = Math.sqrt(1 - mach * mach)
    const size = { chordwise: 5, spanwise: 5 }
    const here = at(finLattice(swept, size), mach, 0)
    const drawnOut = swept.map(([x, y]): Point => [x / beta, y])
    const there = at(finLattice(drawnOut, size), 0, 0)
    // w/V = D Δc_p: chords grow by 1/β, the kernel not at all, so D(M) = β D(0).
    for (let ij = 0; ij < here.re.length; ij++) {
      expect(Math.abs(here.re[ij] - beta * there.re[ij])).toBeLessThan(1e-11 * Math.abs(here.re[0]))
    }
  })

  test('κ → 0 tends to the steady matrix, with slope −iκ', () => {
    const lattice = finLattice(swept, { chordwise: 4, spanwise: 4 })
    const [steady, slow, slower] = [0, 1e-3, 5e-4].map((k) => at(lattice, 0.5, k))
    for (let ij = 0; ij < steady.re.length; ij++) {
      expect(slow.re[ij]).toBeCloseTo(steady.re[ij], 4)
      // 2e-3: error of the exponential fit's tail, see docs/methods/air-subsonic.md
      expect(Math.abs(slow.im[ij] / slower.im[ij] - 2)).toBeLessThan(2e-3)
    }
  })

  test('the units of length do not matter', () => {
    const scaledUp = swept.map(([x, y]): Point => [1000 * x, 1000 * y])
    const size = { chordwise: 4, spanwise: 4 }
    const [metres, millimetres] = [at(finLattice(swept, size), 0.7, 1.5), at(finLattice(scaledUp, size), 0.7, 1.5e-3)]
    expect(difference(metres, millimetres)).toBeLessThan(1e-10)
  })

  test('a fin and its mirror image drawn out in full are the fin with a mirror', () => {
    const half = finStrips(swept, 5)
    const image = half.map(({ yIn, yOut, pieces }): Strip => {
      const mirrored = pieces.map((p) => ({
        leadIn: p.leadOut,
        leadOut: p.leadIn,
        trailIn: p.trailOut,
        trailOut: p.trailIn,
      }))
      return { yIn: -yOut, yOut: -yIn, pieces: mirrored }
    })
    const whole = at(latticeOfStrips([...half, ...image], 4), 0.6, 1.2, 0)
    for (const sign of [1, -1]) {
      const folded = at(latticeOfStrips(half, 4), 0.6, 1.2, sign)
      const n = folded.n
      const sum = { n, re: new Float64Array(n * n), im: new Float64Array(n * n) }
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          const [own, other] = [i * 2 * n + j, i * 2 * n + n + j]
          sum.re[i * n + j] = whole.re[own] + sign * whole.re[other]
          sum.im[i * n + j] = whole.im[own] + sign * whole.im[other]
        }
      }
      expect(difference(folded, sum)).toBeLessThan(1e-10)
    }
  })
})
