/**
 * The roots followed over the speed against the points of neutral stability found by a sweep over k: no instability is skipped, and what is
 * called flutter is one. And the parts of it against plain versions of themselves.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { denseSystem, factorize, solveInPlace } from '../../src/flutter/bordered.ts'
import { forceJet, jetFiller } from '../../src/flutter/forces.ts'
import { basisLimit } from '../../src/flutter/limits.ts'
import { neutralPoints } from '../../src/flutter/neutral-points.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { rootKernel, rootState } from '../../src/flutter/root-kernel.ts'
import { type Aeroelastic, growth, rootValues } from '../../src/flutter/roots.ts'
import { complexLu, complexMatrix, complexSolve, complexVector } from '../../src/numeric/complex-matrix.ts'
import { envelope, omegas } from '../flutter-envelope/fin.ts'
import { inventedSystem } from './invented.ts'

const seeds = fc.integer({ min: 1, max: 2 ** 31 })
const sizes = fc.integer({ min: 2, max: 7 })

/** Flutter and the first neutral point, both below the search's end and below divergence. */
function bothWays(system: Aeroelastic) {
  const limit = Math.min(basisLimit(system), 1e4)
  const { flutter, divergence } = solvePk(system, limit)
  const end = divergence.kind === 'divergence' ? Math.min(limit, divergence.V) : limit
  const [first] = neutralPoints(system).points.filter(({ V }) => V < end)
  return { flutter: flutter.kind === 'flutter' && flutter.V < end ? flutter : null, first, kind: flutter.kind }
}

/** Growth of the root nearest to a frequency, all roots at once at that k. */
function growthNear(system: Aeroelastic, V: number, omega: number): number {
  const all = rootValues(system, V, (omega * system.forces.referenceLength) / V)
  return growth(all.reduce((a, b) => (Math.hypot(b.re, b.im - omega) < Math.hypot(a.re, a.im - omega) ? b : a)))
}

describe('flutter by following against neutral points over k', () => {
  let [same, compared] = [0, 0]
  test('invented systems: no neutral point lies below flutter, and flutter is one', () => {
    fc.assert(
      fc.property(seeds, sizes, (seed, n) => {
        const system = inventedSystem(seed, n)
        const { flutter, first, kind } = bothWays(system)
        expect(kind).not.toBe('not-converged')
        if (first !== undefined) expect(first.V).toBeGreaterThan((flutter?.V ?? 0) * (1 - 1e-6))
        if (flutter === null) {
          expect(first).toBeUndefined()
          return
        }
        compared++
        if (Math.abs((first?.V ?? 0) / flutter.V - 1) < 1e-6) same++
        expect(Math.abs(growthNear(system, flutter.V, flutter.omega))).toBeLessThan(1e-6)
      }),
      { numRuns: 150, seed: 20 },
    )
  })

  test('and the two are the same point in nearly all of them', () => {
    // The sweep over k, not the following, misses a pair of changes of sign here and there.
    expect(compared).toBeGreaterThan(50)
    expect(same / compared).toBeGreaterThan(0.97)
  })

  test.each([0.3, 0.88, 1.05, 1.3, 1.7])('a fin at Mach %f, every reading', (mach) => {
    const readings = envelope.readings(mach)
    expect(readings.length).toBeGreaterThan(0)
    for (const { method, mach: at } of readings) {
      for (const density of [1.2, 0.3]) {
        const system = { omegas, structuralDamping: 0, density, forces: method.forces(at) }
        const { flutter, first } = bothWays(system)
        expect((first?.V ?? Number.NaN) / (flutter?.V ?? Number.NaN)).toBeCloseTo(1, 7)
      }
    }
  })

  test('has teeth: a root that begins to oscillate again after it had stopped is found by no branch, but it is found', () => {
    // It flutters at 182.5 m/s with a sixth of the lowest mode's frequency.
    const { flutter, first } = bothWays(reviving)
    expect(flutter?.V).toBeCloseTo(first.V, 6)
    expect(flutter?.mode).toBe(-1)
  })
})

/** Found by search among invented systems. */
const reviving = inventedSystem(4094, 4)

test('one flutter point, all things about it: equation, shape, direction', () => {
  const system = inventedSystem(7, 5)
  const { flutter } = solvePk(system)
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  const { V, omega, k, shape } = flutter
  const { A0, A1 } = system.forces.at(k)
  const q = 0.5 * system.density * V * V
  let [most, size] = [0, 0]
  for (let i = 0; i < 5; i++) {
    const w2 = system.omegas[i] ** 2
    let re = (w2 - omega ** 2) * shape.re[i] - system.structuralDamping * w2 * shape.im[i]
    let im = (w2 - omega ** 2) * shape.im[i] + system.structuralDamping * w2 * shape.re[i]
    for (let j = 0; j < 5; j++) {
      const [a, b] = [A0[i * 5 + j], k * A1[i * 5 + j]]
      re -= q * (a * shape.re[j] - b * shape.im[j])
      im -= q * (a * shape.im[j] + b * shape.re[j])
    }
    most = Math.max(most, Math.hypot(re, im))
    size = Math.max(size, w2)
  }
  expect(most / size).toBeLessThan(1e-9)
  expect(growthNear(system, 0.99 * V, omega)).toBeLessThan(0)
  expect(growthNear(system, 1.01 * V, omega)).toBeGreaterThan(0)
})

describe('parts', () => {
  test('systems solved in place: what the plain solution gives', () => {
    fc.assert(
      fc.property(seeds, fc.integer({ min: 1, max: 9 }), (seed, m) => {
        const numbers = Array.from(
          { length: 2 * m * m + 2 * m },
          (_, i) => (43758.5453 * Math.sin(12.9898 * i + (seed % 1000))) % 1,
        )
        const [A, B] = [complexMatrix(m), denseSystem(m)]
        for (let ij = 0; ij < m * m; ij++) {
          A.re[ij] = B.re[ij] = numbers[2 * ij]
          A.im[ij] = B.im[ij] = numbers[2 * ij + 1]
        }
        const b = complexVector(m)
        b.re.set(numbers.slice(-m))
        b.im.set(numbers.slice(-2 * m, -m))
        const x = Float64Array.of(...b.re, ...b.im)
        expect(factorize(B)).toBe(true)
        solveInPlace(B, x)
        const plain = complexSolve(complexLu(A), b)
        const size = Math.hypot(...plain.re, ...plain.im)
        for (let i = 0; i < m; i++) {
          expect(Math.abs(x[i] - plain.re[i]) / size).toBeLessThan(1e-9)
          expect(Math.abs(x[m + i] - plain.im[i]) / size).toBeLessThan(1e-9)
        }
      }),
    )
    expect(factorize(denseSystem(3))).toBe(false)
  })

  test('derivatives by k are those of the table, by spline and by differences', () => {
    const { forces } = inventedSystem(3, 4)
    const { fill: _, ...plain } = forces
    for (const k of [0.02, 0.2, 0.7, 1.19]) {
      const [jet, differences] = [forceJet(4), forceJet(4)]
      jetFiller(forces)(k, jet)
      jetFiller(plain)(k, differences)
      for (const key of ['A0', 'A1', 'dA0', 'dA1'] as const) {
        for (let ij = 0; ij < 16; ij++) expect(jet[key][ij]).toBeCloseTo(differences[key][ij], 7)
      }
    }
  })

  test('tangents of a root are its differences', () => {
    const system = inventedSystem(5, 4)
    const kernel = rootKernel(system)
    const at = (V: number) => {
      const state = rootState(4)
      state.V = V
      state.im = system.omegas[2]
      state.x[2] = 1
      expect(kernel.correct(state)).toBe(true)
      return state
    }
    const out = { re: 0, im: 0, x: new Float64Array(8) }
    const [below, here, above] = [at(8 - 1e-3), at(8), at(8 + 1e-3)]
    expect(kernel.tangent(here, out, false)).toBe(true)
    expect(out.re / ((above.re - below.re) / 2e-3)).toBeCloseTo(1, 5)
    expect(out.im / ((above.im - below.im) / 2e-3)).toBeCloseTo(1, 5)
  })

  test('the same air on shapes made of others: Q turned, and back', () => {
    const { forces } = inventedSystem(9, 3)
    const turn = Float64Array.of(0.6, 0.8, 0, -0.8, 0.6, 0, 0, 0, 2)
    const back = Float64Array.of(0.6, -0.8, 0, 0.8, 0.6, 0, 0, 0, 0.5)
    const twice = forces.on?.(turn, 3).on?.(back, 3)
    for (const k of [0, 0.3, 2]) {
      const [a, b] = [forces.at(k), twice?.at(k)]
      for (let ij = 0; ij < 9; ij++) expect(b?.A0[ij]).toBeCloseTo(a.A0[ij], 12)
    }
    // Fewer shapes than before: one made of the first two.
    const one = forces.on?.(Float64Array.of(1, 2, 0), 1).at(0.3)
    const { A0 } = forces.at(0.3)
    expect(one?.A0[0]).toBeCloseTo(A0[0] + 2 * A0[1] + 2 * A0[3] + 4 * A0[4], 12)
  })
})
