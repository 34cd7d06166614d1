/** The worst case of a flight: found without solving all of it, in equilibrium, linear in the angle, and matched by its proof load. */
import { describe, expect, test } from 'vitest'
import { subsonicAir } from '../../src/flutter/lattice-method.ts'
import { type PlateStatic, plateStatic } from '../../src/plate/static.ts'
import { plateResponse } from '../../src/strength/plate-response.ts'
import { strainMap } from '../../src/strength/strain-map.ts'
import { judgedNodes, worstSpot } from '../../src/strength/stress-map.ts'
import { type WorstCase, type WorstCaseInput, worstCase } from '../../src/strength/worst-case.ts'
import {
  air,
  balanced,
  coreThickness,
  input,
  laminateAt,
  laminateReader,
  loadAt,
  lopsided,
  model,
  outline,
  plateOf,
} from './fin.ts'

function solved(given: WorstCaseInput): WorstCase {
  const { value, warnings } = worstCase(given)
  if (value === null) throw new Error(JSON.stringify(warnings))
  return value
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)

describe.each([0.6, 1.02, 1.5])('Mach %f', (mach) => {
  const found = solved(input([loadAt(mach, 60e3)]))
  const { worst, failure, map, through, tip } = found

  test('the root carries what the air brings', () => {
    const { nodal, X, sides } = worst.reactions
    expect(sides.length).toBeGreaterThan(3)
    expect(sum(nodal.map(({ force }) => force)) / worst.force).toBeCloseTo(-1, 6)
    const moment = sum(nodal.map(({ node, force, momentX }) => momentX + X[2 * node + 1] * force))
    expect(moment / worst.rootMoment).toBeCloseTo(-1, 6)
    expect(worst.centre[1] * worst.force).toBeCloseTo(worst.rootMoment, 9)
    expect(worst.pressure * input([]).area).toBeCloseTo(worst.force, 9)
  })

  test('the first failure is the top of the map and of the stresses through its thickness', () => {
    expect(Math.max(...map)).toBeCloseTo(failure.index, 12)
    expect(worst.failureIndex).toBe(failure.index)
    expect(failure.unaveraged / failure.index).toBeGreaterThan(0.97)
    expect(failure.unaveraged / failure.index).toBeLessThan(1.15)
    const own = through[failure.place]
    expect(own.layer).toBe(failure.layer)
    expect(own.index).toBeCloseTo(failure.index, 12)
    expect(own.z[failure.face === 'bottom' ? 0 : 1]).toBe(failure.z)
    expect(Math.max(...through.map(({ index }) => index ?? 0))).toBeCloseTo(failure.index, 12)
    through.slice(1).forEach(({ z }, i) => {
      expect(z[0]).toBeCloseTo(through[i].z[1], 12)
    })
  })

  test('twice the angle is twice everything; its sign does not count', () => {
    const twice = solved(input([loadAt(mach, 60e3, 0.06)]))
    expect(twice.failure.index / failure.index).toBeCloseTo(2, 9)
    expect(twice.worst.rootMoment / worst.rootMoment).toBeCloseTo(2, 9)
    expect(twice.worst.amplification).toBeCloseTo(worst.amplification, 12)
    expect(twice.tip!.byFailure / tip!.byFailure).toBeCloseTo(2, 9)
    const { position, layer, mode } = failure
    expect(twice.failure).toMatchObject({ position, layer, mode })
  })

  test('the tip load by moment brings the moment, the one by failure the index of the inner half', () => {
    const static_ = (force: number) => plateStatic(model, { forces: [{ at: tip!.at, force }] })
    const byMoment = static_(tip!.byMoment)
    if (byMoment.kind !== 'solved') throw new Error(byMoment.kind)
    expect(Math.abs(byMoment.segments[0].momentAlong)).toBeCloseTo(worst.rootMoment, 6)
    const index = (state: PlateStatic): number => {
      if (state.kind !== 'solved') throw new Error(state.kind)
      const strains = strainMap(model)
      const values = strains.atNodes(strains.atCorners(state.field))
      return worstSpot(judgedNodes(model.layout, laminateAt), values, undefined, (_, y) => y <= 0.1).index
    }
    expect(index(static_(tip!.byFailure))).toBeCloseTo(failure.index, 9)
    expect(index(static_(-tip!.byFailure))).toBeCloseTo(failure.index, 9)
    expect(tip!.governs).toBe(tip!.byFailure <= tip!.byMoment ? 'failure' : 'moment')
  })
})

describe('a flight', () => {
  /** Up through Mach 1 and down again, the pressure highest on the way up. */
  const states = Array.from({ length: 49 }, (_, i) => {
    const t = i / 48
    const mach = 1.9 * Math.sin(Math.PI * t) ** 2
    const q = 0.7 * 60e3 * mach ** 2 * Math.exp(-2.2 * t)
    return { ...loadAt(mach, q, 0.03), time: t }
  })
  const gusty = states.map((state) => ({ ...state, angle: Math.atan2(9, 340 * state.mach), cause: 'gust' as const }))

  test.each([
    ['a given angle', states],
    ['gusts', gusty],
  ])('%s: the instants found are the worst of all', (_, flown) => {
    const found = solved(input(flown))
    const each = flown.filter(({ mach }) => mach > 0.3).map((state) => solved(input([state], { tip: null })))
    const most = Math.max(...each.map(({ failure }) => failure.index))
    const moment = Math.max(...each.map(({ worst }) => worst.rootMoment))
    expect(found.failure.index / most).toBeGreaterThan(0.998)
    expect(found.failure.index).toBeLessThanOrEqual(most * (1 + 1e-9))
    expect(found.greatestMoment.rootMoment / moment).toBeGreaterThan(0.998)
  })
})

test('rigid or elastic, the fin that is stressed more counts', () => {
  for (const [mach, q] of [
    [0.6, 60e3],
    [1.5, 200e3],
  ]) {
    const { worst } = solved(input([loadAt(mach, q)]))
    const still = solved(input([loadAt(mach, 1e-3, (0.03 * q) / 1e-3)]))
    expect(still.worst.amplification).toBeCloseTo(1, 6)
    expect(worst.failureIndex).toBeGreaterThanOrEqual(still.worst.failureIndex * (1 - 1e-6))
    expect(worst.counts).toBe(worst.failureIndex > still.worst.failureIndex * (1 + 1e-9) ? 'elastic' : 'rigid')
  }
})

describe('a finer mesh and more boxes', () => {
  test.each([0.6, 1.4])('change index and moment little at Mach %f', (mach) => {
    const state = [loadAt(mach, 60e3)]
    const coarse = solved(input(state))
    const fine = solved(
      input(state, {
        model: plateOf(laminateAt, { size: 0.015 }),
        air: { ...air, subsonic: subsonicAir(outline, 200) },
      }),
    )
    expect(Math.abs(fine.worst.rootMoment / coarse.worst.rootMoment - 1)).toBeLessThan(0.02)
    expect(Math.abs(fine.failure.index / coarse.failure.index - 1)).toBeLessThan(0.04)
  })
})

test('a lay-up that bends as it stretches, and an elastic root, are solved too', () => {
  const coupled = laminateReader(lopsided)
  const springs = { deflection: 4e8, coupling: 0, rotation: 4e4, twist: 0, inPlane: 'held' } as const
  const own = plateOf(coupled, { root: springs })
  const { worst, failure } = solved(input([loadAt(0.6, 60e3)], { model: own, laminateAt: coupled }))
  expect(failure.index).toBeGreaterThan(0)
  expect(sum(worst.reactions.nodal.map(({ force }) => force)) / worst.force).toBeCloseTo(-1, 6)
  const held = solved(input([loadAt(0.6, 60e3)], { model: plateOf(coupled), laminateAt: coupled }))
  expect(Math.max(...worst.deflection)).toBeGreaterThan(Math.max(...held.worst.deflection))
})

test('thickness moves the supersonic load forward', () => {
  const half = (x: number, y: number) => coreThickness(x, y) / 2
  const state = [loadAt(1.6, 60e3)]
  const [thin, thick] = [solved(input(state)), solved(input(state, { air: { ...air, halfThickness: half } }))]
  expect(thick.worst.centre[0]).toBeLessThan(thin.worst.centre[0])
})

describe('no answer, and warnings', () => {
  const codes = (given: WorstCaseInput) => worstCase(given).warnings.map(({ code }) => code)

  test('no load, nothing that holds, nothing that can fail', () => {
    expect(codes(input([]))).toEqual(['strength/no-load'])
    expect(codes(input([loadAt(0.6, 60e3, 0)]))).toEqual(['strength/no-load'])
    expect(codes(input([loadAt(0.6, 60e3)], { model: plateOf(laminateAt, { root: 'free' }) }))).toEqual([
      'strength/no-load',
    ])
    const veil = laminateReader({ lower: [], upper: [] }, 'core')
    expect(codes(input([loadAt(0.6, 60e3)], { laminateAt: veil }))).toEqual(['strength/no-load'])
  })

  test('a large angle, the transonic gap, beyond the theory', () => {
    expect(codes(input([loadAt(0.6, 1e3, 0.3)]))).toEqual(['strength/beyond-linear'])
    expect(codes(input([loadAt(1.0, 60e3)]))).toEqual(['strength/transonic'])
    expect(codes(input([loadAt(5.5, 60e3)]))).toEqual(['strength/mach-range'])
    expect(codes(input([loadAt(0.6, 60e3)]))).toEqual([])
  })

  test('a ply that fails, and one of which the mesh cannot tell', () => {
    const { index, unaveraged } = solved(input([loadAt(1.5, 60e3, 0.01)])).failure
    expect(unaveraged).toBeGreaterThan(index)
    expect(codes(input([loadAt(1.5, 60e3, 0.01 / (0.99 * unaveraged))]))).toContain('strength/index-uncertain')
    const fails = worstCase(input([loadAt(1.5, 60e3, 0.0101 / index)]))
    expect(fails.value?.failure.index).toBeCloseTo(1.01, 9)
    expect(fails.warnings.map(({ code }) => code)).toContain('strength/ply-fails')
  })

  test('a fin swept forward beyond its divergence, and near it', () => {
    const forward = [
      [0, 0],
      [0.25, 0],
      [0.1, 0.35],
      [-0.08, 0.35],
    ] as const
    const soft = plateOf(() => laminateReader(balanced)(0.12, 0.02), { points: forward, size: 0.04 })
    const own = (q: number) =>
      input([loadAt(0.6, q, 1e-3)], {
        ...{ model: soft, laminateAt: () => laminateReader(balanced)(0.12, 0.02) },
        ...{ air: { ...air, subsonic: subsonicAir(forward) }, tip: null },
      })
    const { value } = worstCase(own(4e3))
    expect(value).not.toBeNull()
    const critical = value!.worst.divergence
    expect(Number.isFinite(critical)).toBe(true)
    expect(codes(own(0.7 * critical))).toEqual(['strength/near-divergence'])
    expect(codes(own(1.1 * critical))).toEqual(['strength/diverges'])
  })
})

test('the solver of many loads and the plate’s own give one deflection', () => {
  const nodal = Float64Array.from({ length: model.layout.nodes.X.length / 2 }, (_, i) => Math.sin(i))
  const plate = plateResponse(model)!
  const own = plateStatic(model, { nodal })
  if (own.kind !== 'solved') throw new Error(own.kind)
  plate.deflection(plate.solve(nodal)).forEach((w, i) => {
    expect(Math.abs(w - own.field.w[i])).toBeLessThan(1e-9)
  })
})
