/** Steady forces on boxes and nodes: the same total, moments and work; the same pressures as the unsteady code at zero frequency. */
import { describe, expect, test } from 'vitest'
import { factoredWash, steadyPressure } from '../../src/air/subsonic/generalized-forces.ts'
import { steadySurface } from '../../src/air/subsonic/steady.ts'
import { steadyPressure as supersonicPressure } from '../../src/air/supersonic/generalized-forces.ts'
import { boxSlopes, thicknessFactors } from '../../src/air/supersonic/thickness.ts'
import { steadyFinAir } from '../../src/strength/air-on-plate.ts'
import { air, bodyRadius, coreThickness, model } from './fin.ts'

const steady = steadyFinAir(air)
const { nodes } = model.layout
const sum = (values: ArrayLike<number>, of = (_: number) => 1) =>
  Array.from(values).reduce((total, value, i) => total + value * of(i), 0)

describe.each([0.6, 1.4])('Mach %f', (mach) => {
  const [{ rigid, respond, surface }] = steady.at(mach)
  const placement = steady.placement(surface, model.layout)
  const nodal = placement.toNodes(rigid)

  test('total force and both moments survive the way to the nodes', () => {
    const force = sum(rigid)
    expect(force).toBeGreaterThan(0)
    expect(sum(nodal) / force).toBeCloseTo(1, 9)
    const about = (axis: 0 | 1) => [
      sum(nodal, (i) => nodes.X[2 * i + axis]),
      sum(rigid, (i) => (axis === 0 ? placement.x : placement.y)[i]),
    ]
    for (const axis of [0, 1] as const) {
      const [onNodes, onBoxes] = about(axis)
      expect(onNodes / onBoxes).toBeCloseTo(1, 9)
    }
  })

  test('the work on a cubic deflection is the same on nodes and boxes', () => {
    const z = (x: number, y: number) => 0.3 + 2 * x - y + 5 * x * y + 40 * y ** 3 - 20 * x ** 2 * y
    const onNodes = sum(nodal, (i) => z(nodes.X[2 * i], nodes.X[2 * i + 1]))
    const onBoxes = sum(rigid, (i) => z(placement.x[i], placement.y[i]))
    expect(onNodes / onBoxes).toBeCloseTo(1, 9)
  })

  test('slopes of a deflection are those of a cubic', () => {
    const w = Float64Array.from({ length: nodes.X.length / 2 }, (_, i) => nodes.X[2 * i] ** 3 - 0.4 * nodes.X[2 * i])
    const lattice = surface === 'doublet lattice' ? air.subsonic.at(0).surface.lattice : air.supersonic.lattice
    placement.slopes(w).forEach((slope, box) => {
      expect(slope).toBeCloseTo(3 * lattice.receiveX[box] ** 2 - 0.4, 9)
    })
  })

  test('the response is linear in the wash, and a turned fin feels minus its slope', () => {
    const wash = Float64Array.from(rigid, (_, i) => Math.sin(i))
    const twice = respond(wash.map((w) => 2 * w))
    respond(wash).forEach((force, i) => {
      expect(twice[i]).toBeCloseTo(2 * force, 12)
    })
    const flat = steadyFinAir({ ...air, bodyRadius: 0 })
    const [alone] = flat.at(mach)
    respond(new Float64Array(rigid.length).fill(-1)).forEach((force, i) => {
      expect(force).toBeCloseTo(alone.rigid[i], 12)
    })
  })
})

test('steady lattice and flutter lattice at zero frequency are one', () => {
  const { surface } = air.subsonic.at(0)
  const wash = Float64Array.from({ length: surface.lattice.count }, (_, i) => -1 - 0.1 * Math.cos(i))
  const unsteady = steadyPressure(factoredWash(surface, 0.7), wash)
  steadySurface(
    surface,
    0.7,
  )(wash).forEach((pressure, i) => {
    expect(pressure).toBeCloseTo(unsteady[i], 10)
  })
})

test('supersonic forces are the surface’s pressures times area, with the factor of thickness where it is given', () => {
  const mach = 1.6
  const { lattice } = air.supersonic
  const half = (x: number, y: number) => coreThickness(x, y) / 2
  const flat = steadyFinAir({ ...air, bodyRadius: 0, halfThickness: half }).at(mach)[0].rigid
  const pressure = supersonicPressure(air.supersonic.at(mach), new Float64Array(lattice.count).fill(-1))
  const factors = thicknessFactors(mach, boxSlopes(lattice, half))
  expect(Math.max(...factors)).toBeGreaterThan(1.05)
  flat.forEach((force, i) => {
    expect(force).toBeCloseTo(pressure[i] * lattice.area[i] * factors[i], 10)
  })
})

describe('over Mach number', () => {
  const momentOf = (mach: number, at: number) => {
    const { rigid, surface } = steady.at(mach)[at]
    const { y } = steady.placement(surface, model.layout)
    return sum(rigid, (i) => y[i])
  }

  test('in the gap both edges are given, and the ranking takes the larger', () => {
    const readings = steady.at(1.02)
    expect(readings.map(({ surface, mach }) => [surface, mach])).toEqual([
      ['doublet lattice', 0.95],
      ['supersonic surface', 1.1],
    ])
    expect(steady.momentSlope(1.02)).toBeCloseTo(Math.max(momentOf(1.02, 0), momentOf(1.02, 1)), 12)
  })

  test.each([0.2, 0.5, 0.8, 0.93, 1.12, 1.3, 1.75, 2.6, 4.5])(
    'the ranking’s moment at Mach %f is good to 1 %%',
    (mach) => {
      expect(Math.abs(steady.momentSlope(mach) / momentOf(mach, 0) - 1)).toBeLessThan(0.01)
    },
  )

  test('beyond Mach 5 the forces are held', () => {
    expect(steady.at(6)[0].mach).toBe(5)
    expect(steady.momentSlope(6)).toBe(steady.momentSlope(5))
  })
})

test('the body’s upwash raises the load by between its least and its greatest value', () => {
  for (const mach of [0.3, 1.3, 2]) {
    const alone = sum(steadyFinAir({ ...air, bodyRadius: 0 }).at(mach)[0].rigid)
    const factor = sum(steadyFinAir(air).at(mach)[0].rigid) / alone
    expect(factor).toBeGreaterThan(1 + (bodyRadius / (bodyRadius + 0.2)) ** 2)
    expect(factor).toBeLessThan(2)
    // Strips alike would give 1 + r/(r + s).
    expect(Math.abs(factor / (1 + bodyRadius / (bodyRadius + 0.2)) - 1)).toBeLessThan(0.06)
  }
})
