/** Boundary and margin of the envelope: entries, verdicts, warnings. */
import { describe, expect, test } from 'vitest'
import type { AirPoint } from '../../src/flutter/air-points.ts'
import { requiredSpeedRatio } from '../../src/flutter/boundary.ts'
import { conservativeEnvelope, type Envelope } from '../../src/flutter/envelope.ts'
import { envelopeBoundary } from '../../src/flutter/envelope-boundary.ts'
import type { AerodynamicMethod } from '../../src/flutter/forces.ts'
import { quasiSteadyForces } from '../../src/flutter/forces.ts'
import { airAt, envelope, omegas, subsonic, supersonic } from './fin.ts'

const bounded = (points: readonly AirPoint[], requiredRatio?: number, which: Envelope = envelope) =>
  envelopeBoundary({
    ...{ envelope: which, points, omegas, structuralDamping: 0 },
    ...(requiredRatio === undefined ? {} : { requiredRatio }),
  })

/** A fin of one mode, 100 rad/s, in air that takes away `a` of its stiffness and gives no flutter. */
const static1 = (name: string, a: number, from: number, to: number): AerodynamicMethod => ({
  ...{ name, machRange: { from, to }, warnings: () => [] },
  forces: () => quasiSteadyForces(1, 1, { A0: Float64Array.of(a), A1: Float64Array.of(-1e-3) }),
})

describe('entries', () => {
  const { boundary } = bounded([airAt(0.5), airAt(1.05), airAt(1.6)])

  test('speed is factor times the linear speed, and says where it comes from', () => {
    expect(boundary).toHaveLength(3)
    for (const { speed, linearSpeed, factor, dynamicPressure, point } of boundary) {
      expect(speed).toBeCloseTo((linearSpeed ?? 0) * (factor ?? 0), 9)
      expect(dynamicPressure).toBeCloseTo(0.5 * point.density * (speed ?? 0) ** 2, 6)
    }
    expect(boundary.map(({ method }) => method)).toEqual([
      'doublet lattice',
      expect.stringMatching(/^(doublet lattice at Mach 0.9|supersonic surface, with thickness at Mach 1.2)$/),
      'supersonic surface, with thickness',
    ])
    expect(boundary.every(({ kind, frequency }) => kind === 'flutter' && (frequency ?? 0) > 0)).toBe(true)
  })

  test('a divergence below flutter is the speed: V = ω √(2/(ρ a))', () => {
    const one = { subsonic: static1('a', 4, 0, 0.95), supersonic: static1('b', 4, 1.1, 5) }
    const { boundary: entries } = envelopeBoundary({
      ...{ envelope: conservativeEnvelope(one), points: [airAt(0.5, 2)], omegas: [100], structuralDamping: 0 },
    })
    expect(entries[0].kind).toBe('divergence')
    expect(entries[0].linearSpeed).toBeCloseTo(100 * Math.sqrt(2 / (2 * 4)), 6)
    expect(entries[0].frequency).toBeNull()
  })

  test('a flight gives the worst passage of each Mach number, rising', () => {
    const passages = [airAt(1.05, 0.9), airAt(0.5, 1), airAt(0.5, 0.4), airAt(1.05, 1.1)]
    const flight = passages.map((point, i) => ({ ...point, time: i, altitude: 0 }))
    const worst = bounded(flight).boundary.map(({ point }) => [point.mach, point.density])
    expect(worst).toEqual([
      [0.5, 1],
      [1.05, 1.1],
    ])
  })
})

describe('roots that nearly meet', () => {
  const { boundary: entries } = bounded([airAt(0.87), airAt(0.88), airAt(0.89)])

  test('are solved as they are, in line with their neighbours', () => {
    // At Mach 0.88 the first two roots of this fin nearly become one at 358 m/s, shapes and all.
    expect(entries[1].method).toBe('doublet lattice')
    const [before, at, after] = entries.map(({ linearSpeed }) => linearSpeed ?? Number.NaN)
    expect(Math.abs(at / ((before + after) / 2) - 1)).toBeLessThan(1e-3)
  })
})

describe('margin', () => {
  const { boundary, margin } = bounded([airAt(0.5), airAt(1.05), airAt(1.6)])
  const ratios = boundary.map(({ speed, point }) => (speed ?? 0) / point.speed)

  test('is the least ratio of envelope to flight speed', () => {
    expect(margin.speedRatio).toBeCloseTo(Math.min(...ratios), 12)
    expect(margin.requiredRatio).toBe(requiredSpeedRatio)
    expect(margin.at?.mach).toBe(boundary[ratios.indexOf(Math.min(...ratios))].point.mach)
  })

  test('holds at its own ratio and not above it', () => {
    const least = Math.min(...ratios)
    const points = boundary.map(({ point }) => point)
    expect(bounded(points, least * 0.999).margin.verdict).toBe('holds')
    expect(bounded(points, least * 1.001).margin.verdict).toBe('does not hold')
  })

  test('one point outside the envelope leaves the verdict open and says so', () => {
    const { margin: open, warnings, boundary: entries } = bounded([airAt(0.5), airAt(5.5)])
    expect(open.verdict).toBe('not determined')
    expect(open.speedRatio).toBeNull()
    expect(open.determined?.at.mach).toBe(0.5)
    expect(entries[1]).toMatchObject({ speed: null, factor: null, kind: 'not determined', method: 'not determined' })
    expect(warnings.map(({ code }) => code)).toContain('flutter/outside-envelope')
  })

  test('no points, no verdict', () => {
    expect(bounded([]).margin).toMatchObject({ verdict: 'not determined', determined: null })
  })

  test('a body that is not held is told, not solved', () => {
    const free = envelopeBoundary({ envelope, points: [airAt(0.5)], omegas: [0, 0, 100], structuralDamping: 0 })
    expect(free.margin.verdict).toBe('not determined')
    expect(free.warnings.map(({ code }) => code)).toEqual(['flutter/free-body'])
  })
})

test('methods that leave a hole in the Mach numbers are refused', () => {
  const short = { ...subsonic, machRange: { from: 0, to: 0.85 } }
  expect(() => conservativeEnvelope({ subsonic: short, supersonic })).toThrow(/0\.9/)
})
