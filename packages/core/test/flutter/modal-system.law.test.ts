/** Modes on a fixed basis as the resin softens, against the whole plate solved at the same softness. */
import { describe, expect, test } from 'vitest'
import { ownModes, type SofteningState, softeningFactors, softeningModes } from '../../src/flutter/modal-system.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { laminate } from '../../src/laminate/laminate.ts'
import { type BuiltLayer, sheetLayer } from '../../src/laminate/layer.ts'
import { curedPly } from '../../src/laminate/ply.ts'
import { cloths, resinSystems, sheets } from '../../src/material/catalogue.ts'
import { assemblePlate, type PlateModel } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { outline } from '../flutter-envelope/fin.ts'

const [cloth, resin, core] = [cloths['glass-plain-200'], Object.values(resinSystems)[0], sheets.g10]
const mesh = meshOutline({ outline, size: 0.03 })
const angles = [0, Math.PI / 4, 0]

/** Three plies of glass a face on a thin stiff core, the resin of the skins with the share f of its modulus. `lone`: one ply left out. */
function plate(f: number, lone = false): PlateModel {
  const warm = { ...resin, E: { ...resin.E, value: f * resin.E.value } }
  const { lamina, t, density } = curedPly({ cloth, resin: warm, resinPerCloth: 1, voidFraction: 0 })
  const ply = (theta: number): BuiltLayer => ({ lamina, t, density, theta, name: 'ply', strengths: null })
  const faces = angles.map(ply)
  const below = lone ? [...faces].reverse().slice(1) : [...faces].reverse()
  const middle = sheetLayer(core, { theta: 0, t: 1e-3, name: 'core' })
  const { A, B, D, H, inertia } = laminate([...below, middle, ...faces])
  const section = { A, B, D, S: H, massPerArea: inertia.m0, rotaryInertia: inertia.m2 }
  const supports = (['clamped', 'free', 'free', 'free'] as const).slice()
  return assemblePlate({ mesh, supports, sectionAt: () => section })
}

const states = (factors: readonly number[], lone = false): SofteningState[] =>
  factors.map((f) => ({ f, model: plate(f, lone) }))
const count = 8

describe.each([false, true])('bending and stretching coupled: %s', (lone) => {
  const least = 0.15
  const all = states(softeningFactors(least), lone)
  const cold = plateModes(all[0].model, count)
  const softening = softeningModes({ states: all, cold })

  test('four plates reach down to 0.15, and the fin softens by far more than the error allowed', () => {
    expect(all).toHaveLength(4)
    const { omegas } = softening.at(least)
    expect(omegas[0] / cold.omega[0]).toBeLessThan(0.9)
    expect(omegas[1] / cold.omega[1]).toBeLessThan(0.9)
  })

  test.each([1, 0.9, 0.75, 0.6, 0.45, 0.3, 0.2, 0.15])('f = %f: frequencies within 0.1 per cent', (f) => {
    const full = plateModes(plate(f, lone), count)
    const { omegas } = softening.at(f)
    expect(omegas).toHaveLength(count)
    omegas.forEach((omega, i) => {
      expect(Math.abs(omega / full.omega[i] - 1)).toBeLessThan(1e-3)
    })
  })

  test('has teeth: with the two ends alone the middle is off', () => {
    const ends = softeningModes({ states: [all[0], all[3]], cold })
    const full = plateModes(plate(0.45, lone), count)
    expect(Math.abs(ends.at(0.45).omegas[1] / full.omega[1] - 1)).toBeGreaterThan(2e-3)
  })
})

describe('shapes', () => {
  const all = states([1, 0.5, 0.2])
  const cold = plateModes(all[0].model, count)
  const soft = plateModes(all[2].model, count)
  const { shapes, at } = softeningModes({ states: all, cold, soft })

  test('the cold modes come first, and no vector that the others can make', () => {
    cold.shapes.forEach(({ w }, i) => {
      const scale = Math.max(...w.map(Math.abs))
      for (let node = 0; node < w.length; node++)
        expect(Math.abs(shapes[i].w[node] - w[node])).toBeLessThan(1e-6 * scale)
    })
    expect(shapes.length).toBeGreaterThan(count)
    expect(shapes.length).toBeLessThanOrEqual(2 * count)
    const twice = softeningModes({ states: [all[0], { f: 0.5, model: all[0].model }], cold, soft: cold })
    expect(twice.shapes).toHaveLength(count)
    expect(twice.at(0.7).omegas[3] / cold.omega[3]).toBeCloseTo(1, 9)
  })

  test('at f = 1 the modes are the cold ones, at the least f the soft ones', () => {
    for (const [f, modes] of [
      [1, cold],
      [0.2, soft],
    ] as const) {
      const { transform } = at(f)
      for (let mode = 0; mode < 4; mode++) {
        const { w } = modes.shapes[mode]
        const made = w.map((_, node) =>
          shapes.reduce((sum, shape, i) => sum + (transform?.[i * count + mode] ?? 0) * shape.w[node], 0),
        )
        const product = (a: Float64Array, b: Float64Array) => a.reduce((sum, v, i) => sum + v * b[i], 0)
        const likeness = product(made, w) ** 2 / (product(made, made) * product(w, w))
        // Softest shapes are met to the square root of what their frequencies are.
        expect(likeness).toBeGreaterThan(0.998)
      }
    }
  })

  test('transforms keep unit modal mass; f outside its range is held; the same f gives the same object', () => {
    const { transform } = at(0.4)
    const m = shapes.length
    for (let p = 0; p < count; p++) {
      for (let q = 0; q <= p; q++) {
        let sum = 0
        for (let i = 0; i < m; i++) sum += (transform?.[i * count + p] ?? 0) * (transform?.[i * count + q] ?? 0)
        expect(Math.abs(sum - (p === q ? 1 : 0))).toBeLessThan(1e-9)
      }
    }
    expect(at(0.05)).toBe(at(0.2))
    expect(at(1.5)).toBe(at(1))
    expect(at(0.4)).toBe(at(0.4))
  })

  test('plates that cannot be interpolated between are refused', () => {
    expect(() => softeningModes({ states: [all[0]], cold })).toThrow(/1 plates/)
    expect(() => softeningModes({ states: [all[0], all[0]], cold })).toThrow(/f = 1/)
  })
})

test('factors: from 1 to the least, falling, more of them the softer', () => {
  for (const least of [0.9, 0.6, 0.3, 0.05]) {
    const factors = softeningFactors(least)
    expect(factors[0]).toBe(1)
    expect(factors[factors.length - 1]).toBe(least)
    for (let i = 1; i < factors.length; i++) expect(factors[i]).toBeLessThan(factors[i - 1])
  }
  expect([0.9, 0.6, 0.3, 0.05].map((least) => softeningFactors(least).length)).toEqual([2, 3, 4, 5])
  expect(ownModes([1, 2])).toEqual({ omegas: [1, 2], transform: null })
})
