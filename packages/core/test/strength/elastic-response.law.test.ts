/** Static aeroelasticity without modes: it satisfies its own equation, diverges where the flutter kernel says, and unloads a swept fin. */
import { describe, expect, test } from 'vitest'
import { divergence } from '../../src/flutter/divergence.ts'
import { quasiSteadyForces } from '../../src/flutter/forces.ts'
import { doubletLatticeMethod, subsonicAir } from '../../src/flutter/lattice-method.ts'
import type { Point } from '../../src/geometry/point.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { steadyFinAir } from '../../src/strength/air-on-plate.ts'
import { elasticResponse } from '../../src/strength/elastic-response.ts'
import { plateResponse } from '../../src/strength/plate-response.ts'
import { air, balanced, laminateReader, outline, plateOf } from './fin.ts'

/** Swept forward: it turns into the wind as it bends. */
const forward: readonly Point[] = [
  [0, 0],
  [0.25, 0],
  [0.1, 0.35],
  [-0.08, 0.35],
]
const flat = laminateReader(balanced)
const plain = () => flat(0.12, 0.02)

function bench(points: readonly Point[], mach: number, highest: number, size = 0.04) {
  const model = plateOf(plain, { points, size })
  const plate = plateResponse(model)!
  const own = points === outline ? air : { ...air, subsonic: subsonicAir(points), bodyRadius: 0.03 }
  const steady = steadyFinAir(own)
  const [forces] = steady.at(mach)
  const placement = steady.placement(forces.surface, model.layout)
  const response = elasticResponse(plate, forces, placement, highest)
  const moment = (force: Float64Array) => force.reduce((sum, f, i) => sum + f * placement.y[i], 0)
  const amplification = (q: number): number => {
    const solution = response.at(q)
    return solution === 'diverged' ? Number.NaN : moment(solution.elasticForce) / moment(solution.rigidForce)
  }
  return { model, plate, steady, forces, placement, response, amplification, subsonic: own.subsonic }
}

const norm = (v: ArrayLike<number>) => Math.sqrt(Array.from(v).reduce((sum, x) => sum + x * x, 0))

describe.each([
  ['subsonic', outline, 0.6, 40e3],
  ['supersonic', outline, 1.5, 150e3],
  ['swept forward', forward, 0.6, 8e3],
] as const)('%s', (_, points, mach, q) => {
  const { plate, forces, placement, response } = bench(points, mach, q)
  const solution = response.at(q)
  if (solution === 'diverged') throw new Error('diverged')

  test('the air of the bent fin bends it to where it is', () => {
    const slopes = placement.slopes(plate.deflection(solution.elastic)).map((slope) => q * slope)
    const load = forces.respond(slopes).map((f, i) => f + forces.rigid[i])
    expect(norm(load.map((f, i) => f - solution.elasticForce[i])) / norm(load)).toBeLessThan(2e-6)
    const again = plate.solve(placement.toNodes(load))
    expect(norm(again.map((x, i) => x - solution.elastic[i])) / norm(again)).toBeLessThan(2e-6)
    expect(solution.residual).toBeLessThan(1e-6)
  })

  test('without air pressure on the bent fin it is the rigid one', () => {
    const still = response.at(0)
    if (still === 'diverged') throw new Error('diverged')
    expect(Array.from(still.elastic)).toEqual(Array.from(still.rigid))
  })
})

describe('divergence', () => {
  const mach = 0.6
  const first = bench(forward, mach, 20e3)
  const critical = bench(forward, mach, 0.9 * first.response.divergence).response.divergence
  const near = bench(forward, mach, 0.95 * critical)

  test('is that of the flutter kernel on the same air, the closer the more modes', () => {
    const modes = plateModes(near.model, 24)
    const { X, T } = near.model.layout.nodes
    const mesh = { X, T, perTriangle: 6 as const }
    const errors = [4, 8, 24].map((n) => {
      const shapes = modes.shapes.slice(0, n).map(({ w }) => w)
      const { A0 } = doubletLatticeMethod({ outline: forward, mesh, shapes, air: near.subsonic }).forces(mach).at(0)
      const forces = quasiSteadyForces(n, 1, { A0, A1: new Float64Array(n * n) })
      const found = divergence({ omegas: modes.omega.slice(0, n), forces, density: 1 } as never)
      if (found.kind === 'never') throw new Error('never')
      return Math.abs(found.dynamicPressure / critical - 1)
    })
    expect(errors[0]).toBeGreaterThan(errors[2])
    expect(errors[1]).toBeLessThan(0.01)
    expect(errors[2]).toBeLessThan(0.002)
  })

  test('the load grows without limit towards it, like 1/(1 − q/q_D)', () => {
    const at = (share: number) => near.amplification(share * critical)
    expect(at(0.3)).toBeGreaterThan(1.2)
    expect(at(0.9)).toBeGreaterThan(at(0.6))
    expect(at(0.99) / at(0.98)).toBeCloseTo(2, 1)
    expect(at(0.999) / at(0.99)).toBeGreaterThan(8)
    expect(near.response.at(1.0001 * critical)).toBe('diverged')
  })
})

test('a fin swept far back is unloaded by its own bending', () => {
  const swept: readonly Point[] = [
    [0, 0],
    [0.2, 0],
    [0.62, 0.4],
    [0.5, 0.4],
  ]
  const { amplification } = bench(swept, 0.6, 20e3)
  expect(amplification(10e3)).toBeLessThan(0.95)
  expect(amplification(20e3)).toBeLessThan(amplification(10e3))
  expect(bench(forward, 0.6, 5e3).amplification(5e3)).toBeGreaterThan(1.05)
})
