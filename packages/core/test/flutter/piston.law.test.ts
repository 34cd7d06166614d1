/** Piston forces on shapes whose integrals are known, and what must not change with axes and units. */
import { expect, test } from 'vitest'
import { lighthill, type PistonInput, pistonTheory, vanDyke } from '../../src/flutter/piston.ts'
import { rectangle, sampled } from './panels.ts'

const [a, b] = [0.3, 0.12]
const mesh = rectangle(a, b, 20, 8)
const triangles = mesh.T.length / 3
const heave = sampled(mesh, () => 1)
const pitch = sampled(mesh, (x) => x - a / 2)
const base: PistonInput = {
  mesh,
  shapes: [heave, pitch],
  flowDirection: 0,
  faces: 2,
  order: 1,
  slopes: new Float64Array(triangles),
}
const beta = (M: number): number => Math.sqrt(M * M - 1)

test('rigid heave and pitch of a flat plate: lift slope 4/β, centre at half chord', () => {
  for (const M of [2, 3, 5]) {
    const { A0, A1 } = pistonTheory(base).forces(M).at(0)
    const slope = 4 / beta(M)
    // w = x − a/2 upward going aft is nose down: the force on heave is −slope · area.
    expect(A0[1] / (-slope * a * b)).toBeCloseTo(1, 10)
    expect(Math.abs(A0[3])).toBeLessThan(1e-12)
    expect(Math.abs(A0[0])).toBe(0)
    const E = (M * M - 2) / (M * M - 1)
    const length = pistonTheory(base).forces(M).referenceLength
    expect(length).toBeCloseTo(a / 2, 12)
    expect((A1[0] * length) / (-slope * E * a * b)).toBeCloseTo(1, 10)
    expect((A1[3] * length) / ((-slope * E * b * a ** 3) / 12)).toBeCloseTo(1, 10)
  }
})

test('one face carries half', () => {
  const two = pistonTheory(base).forces(3).at(0)
  const one = pistonTheory({ ...base, faces: 1 })
    .forces(3)
    .at(0)
  for (let ij = 0; ij < 4; ij++) expect(one.A0[ij]).toBeCloseTo(two.A0[ij] / 2, 14)
})

test('without damping the velocity term is nought and the stiffness term is untouched', () => {
  const still = pistonTheory({ ...base, aerodynamicDamping: false })
    .forces(3)
    .at(0)
  expect([...still.A1].every((v) => v === 0)).toBe(true)
  expect([...still.A0]).toEqual([...pistonTheory(base).forces(3).at(0).A0])
})

test('a wedge plate: second order adds 2 (D/C) M τ′, centre of pressure of a double wedge moves forward', () => {
  const wedge = 0.05
  const slopes = new Float64Array(triangles).fill(wedge)
  for (const coefficients of ['van-dyke', 'lighthill'] as const) {
    const first = pistonTheory({ ...base, coefficients })
      .forces(3)
      .at(0)
    const second = pistonTheory({ ...base, coefficients, order: 2, slopes })
      .forces(3)
      .at(0)
    const { C, D } = (coefficients === 'lighthill' ? lighthill : vanDyke)(3, 1.4)
    expect(second.A0[1] / first.A0[1]).toBeCloseTo(1 + ((2 * D) / C) * 3 * wedge, 12)
    expect(second.A1[0] / first.A1[0]).toBeCloseTo(1 + ((2 * D) / C) * 3 * wedge, 12)
  }
  const doubleWedge = slopesBy((x) => (x < a / 2 ? wedge : -wedge))
  const { A0 } = pistonTheory({ ...base, order: 2, slopes: doubleWedge })
    .forces(3)
    .at(0)
  // Lift is that of the flat plate; its moment about half chord is not: forward (nose up for nose up).
  expect(A0[1] / pistonTheory(base).forces(3).at(0).A0[1]).toBeCloseTo(1, 10)
  expect(A0[3]).toBeGreaterThan(0)
  const expected = ((4 / beta(3)) * 2 * (vanDyke(3, 1.4).D / vanDyke(3, 1.4).C) * 3 * wedge * b * a * a) / 4
  expect(A0[3] / expected).toBeCloseTo(1, 10)
})

test('the two sets of coefficients meet at high Mach number', () => {
  const [near, far] = [vanDyke(2, 1.4), vanDyke(40, 1.4)]
  const limit = lighthill(40, 1.4)
  expect(far.C / limit.C).toBeCloseTo(1, 3)
  expect(far.D / limit.D).toBeCloseTo(1, 2)
  expect(far.E / limit.E).toBeCloseTo(1, 2)
  expect(near.C).toBeGreaterThan(1.15)
})

test('turning plate and flow together changes nothing', () => {
  const shapes = [sampled(mesh, (x, y) => x * x + 0.3 * x * y), sampled(mesh, (x, y) => y * y - 0.2 * x)]
  const slopes = slopesBy((x) => 0.04 - 0.3 * x)
  const plain = pistonTheory({ ...base, shapes, slopes, order: 2 }).forces(2.5)
  const angle = 0.7
  const X = mesh.X.map((_, i) => {
    const [x, y] = [mesh.X[i - (i % 2)], mesh.X[i - (i % 2) + 1]]
    return i % 2 === 0 ? x * Math.cos(angle) - y * Math.sin(angle) : x * Math.sin(angle) + y * Math.cos(angle)
  })
  const turned = pistonTheory({ ...base, mesh: { ...mesh, X }, shapes, slopes, order: 2, flowDirection: angle }).forces(
    2.5,
  )
  expect(turned.referenceLength).toBeCloseTo(plain.referenceLength, 12)
  for (let ij = 0; ij < 4; ij++) {
    expect(turned.at(0).A0[ij]).toBeCloseTo(plain.at(0).A0[ij], 12)
    expect(turned.at(0).A1[ij]).toBeCloseTo(plain.at(0).A1[ij], 12)
  }
})

test('reversed flow reverses the stiffness term', () => {
  const forward = pistonTheory(base).forces(3).at(0)
  const backward = pistonTheory({ ...base, flowDirection: Math.PI })
    .forces(3)
    .at(0)
  expect(backward.A0[1]).toBeCloseTo(-forward.A0[1], 12)
  expect(backward.A1[0]).toBeCloseTo(forward.A1[0], 12)
})

test('steep bevels at high Mach numbers are warned of, second order only', () => {
  const slopes = new Float64Array(triangles).fill(0.25)
  const method = pistonTheory({ ...base, order: 2, slopes })
  expect(method.warnings(2)).toEqual([])
  expect(method.warnings(3).map(({ code }) => code)).toEqual(['flutter/piston-slope'])
  expect(pistonTheory({ ...base, slopes }).warnings(3)).toEqual([])
  expect(method.machRange.from).toBe(2)
  expect([method.name, pistonTheory(base).name]).toEqual(['piston theory, second order', 'piston theory, first order'])
})

function slopesBy(slope: (x: number) => number): Float64Array {
  return Float64Array.from({ length: triangles }, (_, t) => {
    const middle = [0, 1, 2].reduce((sum, c) => sum + mesh.X[2 * mesh.T[3 * t + c]] / 3, 0)
    return slope(middle)
  })
}
