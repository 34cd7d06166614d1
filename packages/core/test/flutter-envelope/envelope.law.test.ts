/** Laws of the envelope: no jumps in Mach number, order in density, least of its readings, units of the flight left out. */
import { describe, expect, test } from 'vitest'
import { conservativeEnvelope } from '../../src/flutter/envelope.ts'
import {
  frozenSubsonic,
  frozenSupersonic,
  pistonEnd,
  pistonStart,
  subsonicEnd,
  subsonicFactor,
  supersonicFactor,
  supersonicStart,
  transonicFactor,
  transonicStart,
} from '../../src/flutter/envelope-factors.data.ts'
import type { AerodynamicMethod } from '../../src/flutter/forces.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { envelope, omegas, piston, speedAt, subsonic, supersonic } from './fin.ts'

const withPiston = conservativeEnvelope({ subsonic, supersonic, piston })

const first = (method: AerodynamicMethod, mach: number, density = 1): number => {
  const { flutter, divergence } = solvePk({ omegas, structuralDamping: 0, forces: method.forces(mach), density })
  if (flutter.kind === 'not-converged') throw new Error(`${method.name} at Mach ${mach}`)
  return Math.min(flutter.V, divergence.kind === 'divergence' ? divergence.V : Number.POSITIVE_INFINITY)
}

describe('continuity in Mach number', () => {
  const joints = [
    ...[subsonicEnd, frozenSubsonic, transonicStart, frozenSupersonic, supersonicStart, pistonStart, pistonEnd],
  ]

  test.each(joints)('no jump at Mach %f', (mach) => {
    const [below, above] = [speedAt(mach - 1e-6, 1, withPiston), speedAt(mach + 1e-6, 1, withPiston)]
    expect(Math.abs(above / below - 1)).toBeLessThan(1e-3)
  })

  test('a step of 0.01 in Mach number changes the speed by less than 5 %', () => {
    const machs = Array.from({ length: 86 }, (_, i) => 0.75 + 0.01 * i)
    const speeds = machs.map((mach) => speedAt(mach))
    const steps = speeds.slice(1).map((speed, i) => Math.abs(speed / speeds[i] - 1))
    expect(steps).toHaveLength(85)
    expect(Math.max(...steps)).toBeLessThan(0.05)
  })

  test('has teeth: the linear value without factors jumps between its two surfaces', () => {
    expect(Math.abs(first(supersonic, frozenSupersonic) / first(subsonic, transonicStart) - 1)).toBeGreaterThan(0.05)
  })
})

describe('what counts', () => {
  test('subsonic at its own Mach number up to 0.8', () => {
    expect(speedAt(0.5) / first(subsonic, 0.5)).toBeCloseTo(subsonicFactor, 6)
  })

  test.each([0.95, 1, 1.1, 1.2])('Mach %f: the least of the two frozen values', (mach) => {
    const least = Math.min(first(subsonic, frozenSubsonic), first(supersonic, frozenSupersonic))
    expect(speedAt(mach) / least).toBeCloseTo(transonicFactor, 6)
  })

  test('the supersonic surface alone from 1.5 on, with its own factor', () => {
    expect(speedAt(1.7) / first(supersonic, 1.7)).toBeCloseTo(supersonicFactor, 6)
  })

  test('piston theory can only lower it, and from 2.4 on counts in full', () => {
    for (const mach of [1.9, 2.1, 2.3, 3])
      expect(speedAt(mach, 1, withPiston)).toBeLessThanOrEqual(speedAt(mach) * (1 + 1e-9))
    const least = Math.min(first(supersonic, 3), first(piston, 3))
    expect(speedAt(3, 1, withPiston) / least).toBeCloseTo(supersonicFactor, 6)
  })

  test('below every linear value of its own Mach number', () => {
    for (const mach of [0.3, 0.6, 0.85, 0.95]) expect(speedAt(mach)).toBeLessThan(first(subsonic, mach))
    for (const mach of [1.2, 1.3, 1.5, 2.5]) expect(speedAt(mach)).toBeLessThan(first(supersonic, mach))
  })

  test('outside its Mach numbers it has no reading', () => {
    expect(envelope.readings(5.01)).toHaveLength(0)
    expect(envelope.readings(-0.1)).toHaveLength(0)
    expect(envelope.readings(Number.NaN)).toHaveLength(0)
    expect(envelope.readings(0)).toHaveLength(1)
    expect(envelope.readings(5)).toHaveLength(1)
  })
})

describe('density', () => {
  test.each([0.6, 1.05, 1.6])(
    'Mach %f: thinner air, higher speed, and a lower dynamic pressure never by much',
    (mach) => {
      const densities = [1.2, 0.9, 0.6, 0.3, 0.1]
      const speeds = densities.map((density) => speedAt(mach, density))
      for (let i = 1; i < speeds.length; i++) {
        expect(speeds[i]).toBeGreaterThan(speeds[i - 1])
        // V √ρ, the speed at equal dynamic pressure, is nearly constant for a fin far heavier than the air about it.
        const equal = (speeds[i] / speeds[i - 1]) * Math.sqrt(densities[i] / densities[i - 1])
        expect(Math.abs(equal - 1)).toBeLessThan(0.1)
      }
    },
  )
})
