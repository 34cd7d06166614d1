/** Boundary and margin of the envelope: entries, verdicts, warnings. */
import { describe, expect, test } from 'vitest'
import type { AirPoint } from '../../src/flutter/air-points.ts'
import { requiredSpeedRatio } from '../../src/flutter/boundary.ts'
import { conservativeEnvelope, type Envelope } from '../../src/flutter/envelope.ts'
import { envelopeBoundary } from '../../src/flutter/envelope-boundary.ts'
import type { AerodynamicMethod } from '../../src/flutter/forces.ts'
import { quasiSteadyForces } from '../../src/flutter/forces.ts'
import { ownModes } from '../../src/flutter/modal-system.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { airAt, envelope, omegas, subsonic, supersonic } from './fin.ts'

const bounded = (points: readonly AirPoint[], requiredRatio?: number, which: Envelope = envelope) =>
  envelopeBoundary({
    ...{ envelope: which, points, modes: ownModes(omegas), structuralDamping: 0 },
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
      ...{ envelope: conservativeEnvelope(one), points: [airAt(0.5, 2)], modes: ownModes([100]), structuralDamping: 0 },
    })
    expect(entries[0].kind).toBe('divergence')
    expect(entries[0].linearSpeed).toBeCloseTo(100 * Math.sqrt(2 / (2 * 4)), 6)
    expect(entries[0].frequency).toBeNull()
  })

  test('divergence has a list of its own: linear value, factor, envelope', () => {
    const both = { subsonic: static1('a', 4, 0, 0.95), supersonic: static1('b', 9, 1.1, 5) }
    const { divergence } = envelopeBoundary({
      ...{ envelope: conservativeEnvelope(both), modes: ownModes([100]), structuralDamping: 0 },
      points: [airAt(0.5, 2), airAt(1, 2), airAt(2, 2)],
    })
    const [slow, middle, fast] = divergence
    expect(slow).toMatchObject({ kind: 'divergence', factor: 0.9, method: 'a' })
    expect(slow.speed).toBeCloseTo(0.9 * 50, 6)
    expect(slow.linear).toMatchObject({ method: 'a', speed: slow.linearSpeed })
    expect(middle).toMatchObject({ factor: 0.75, method: 'b at Mach 1.2', linear: null })
    expect(middle.linearSpeed).toBeCloseTo(100 * Math.sqrt(2 / (2 * 9)), 6)
    expect(fast).toMatchObject({ factor: 0.85, method: 'b' })
    // This fin's own modes in its own air never diverge.
    const { divergence: none } = bounded([airAt(1.6)])
    expect(none[0]).toMatchObject({ kind: 'never', speed: null, factor: null })
  })

  test('the linear value of the point’s own Mach number stands beside, where there is one', () => {
    const { boundary: entries } = bounded([airAt(0.5), airAt(0.93), airAt(1.05), airAt(1.15), airAt(1.6)])
    const alone = (method: AerodynamicMethod, mach: number): number => {
      const { flutter } = solvePk({ omegas, structuralDamping: 0, forces: method.forces(mach), density: 1 })
      return flutter.kind === 'flutter' ? flutter.V : Number.NaN
    }
    const expected = [
      alone(subsonic, 0.5),
      alone(subsonic, 0.93),
      null,
      alone(supersonic, 1.15),
      alone(supersonic, 1.6),
    ]
    entries.forEach(({ linear, speed }, i) => {
      if (expected[i] === null) expect(linear).toBeNull()
      else expect((linear?.speed ?? 0) / (expected[i] ?? 1)).toBeCloseTo(1, 9)
      if (linear !== null) expect(speed).toBeLessThan(linear.speed ?? 0)
    })
    expect(entries[1].linearSpeed).not.toBe(entries[1].linear?.speed)
  })

  test('the governing reading keeps its equations for curves', () => {
    const [{ solved, linearSpeed }] = bounded([airAt(1.05)]).boundary
    expect(solved?.flutter.V).toBe(linearSpeed)
    expect(solved?.system.omegas).toBe(omegas)
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
    const free = envelopeBoundary({
      envelope,
      points: [airAt(0.5)],
      modes: ownModes([0, 0, 100]),
      structuralDamping: 0,
    })
    expect(free.margin.verdict).toBe('not determined')
    expect(free.warnings.map(({ code }) => code)).toEqual(['flutter/free-body'])
  })
})

test('methods that leave a hole in the Mach numbers are refused', () => {
  const short = { ...subsonic, machRange: { from: 0, to: 0.85 } }
  expect(() => conservativeEnvelope({ subsonic: short, supersonic })).toThrow(/0\.9/)
})
