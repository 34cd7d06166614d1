/** Curves of damping and frequency: all roots at once at every speed, tags, crossings, shares. */
import { describe, expect, test } from 'vitest'
import { curveSpeeds, modeShares, rootCurves } from '../../src/flutter/curves.ts'
import { type GeneralizedForces, quasiSteadyForces, tabulatedForces } from '../../src/flutter/forces.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { type Aeroelastic, rootValues } from '../../src/flutter/roots.ts'
import { omegas, supersonic } from '../flutter-envelope/fin.ts'

const fin: Aeroelastic = {
  ...{ omegas, structuralDamping: 0.01, density: 1 },
  forces: supersonic.forces(1.3),
}
const { flutter } = solvePk(fin)
if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
const speeds = curveSpeeds(1.3 * flutter.V)
const { roots } = rootCurves(fin, speeds)

describe('a fin at Mach 1.3', () => {
  test('fifty speeds, a root a mode, each begins at its mode', () => {
    expect(speeds).toHaveLength(50)
    expect(roots.map(({ mode }) => mode)).toEqual([0, 1, 2, 3, 4, 5])
    for (const { mode, frequency, damping } of roots) {
      expect(frequency).toHaveLength(50)
      expect((2 * Math.PI * (frequency[0] ?? 0)) / omegas[mode]).toBeCloseTo(1, 2)
      // Hysteretic g decays like g/2 of critical damping: 2 Re s/|s| = −g, and air on top.
      expect(damping[0]).toBeLessThan(-0.0099)
    }
  })

  test('every point is one of all roots at its k', () => {
    for (const i of [0, 10, 25, 40, 49]) {
      for (const { frequency, damping } of roots) {
        const omega = 2 * Math.PI * (frequency[i] ?? Number.NaN)
        const all = rootValues(fin, speeds[i], (omega * fin.forces.referenceLength) / speeds[i])
        const apart = all.map(({ re, im }) =>
          Math.hypot(im / omega - 1, (2 * re) / Math.hypot(re, im) - (damping[i] ?? Number.NaN)),
        )
        expect(Math.min(...apart)).toBeLessThan(1e-6)
      }
    }
  })

  test('the root that flutters passes zero at the flutter speed, and only it below', () => {
    const critical = roots[flutter.mode]
    const above = speeds.findIndex((V) => V > flutter.V)
    expect(critical.damping[above - 1]).toBeLessThan(0)
    expect(critical.damping[above]).toBeGreaterThan(0)
    for (const { damping } of roots) for (let i = 0; i < above; i++) expect(damping[i]).toBeLessThan(0)
  })

  test('no jumps: a second difference stays small against the spread of the curve', () => {
    for (const { frequency } of roots) {
      const f = frequency.map((v) => v ?? Number.NaN)
      for (let i = 1; i + 1 < f.length; i++) expect(Math.abs(f[i + 1] - 2 * f[i] + f[i - 1])).toBeLessThan(0.05 * f[0])
    }
  })

  test('shares add up to one, the two lowest modes carry the flutter of this fin', () => {
    const shares = modeShares(flutter)
    expect(shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
    expect(
      shares
        .slice(0, 2)
        .map(({ mode }) => mode)
        .sort(),
    ).toEqual([0, 1])
    expect(shares[0].share + shares[1].share).toBeGreaterThan(0.9)
    expect(shares[0].phase).toBe(0)
    for (let i = 1; i < shares.length; i++) expect(shares[i].share).toBeLessThanOrEqual(shares[i - 1].share)
  })
})

describe('two modes whose frequencies pass each other, hardly coupled', () => {
  const quasi = quasiSteadyForces(2, 0.1, {
    A0: Float64Array.of(-2, 0.01, 0.01, 1),
    A1: Float64Array.of(-0.05, 0, 0, -0.2),
  })
  const k = [0, 0.1, 0.5, 2]
  const { A0, A1 } = quasi.at(0)
  const table = tabulatedForces({
    referenceLength: 0.1,
    k,
    Q: k.map((kk) => ({ n: 2, re: A0.slice(), im: A1.map((v) => kk * v) })),
  })

  test.each([
    ['all at once', quasi],
    ['one by one', table],
  ] as [string, GeneralizedForces][])('%s: each goes straight on with its mode', (_, forces) => {
    const system = { omegas: [20, 50], structuralDamping: 0.01, density: 1.2, forces }
    const at = curveSpeeds(40)
    const [first, second] = rootCurves(system, at).roots
    at.forEach((V, i) => {
      const q = 0.6 * V * V
      expect((2 * Math.PI * (first.frequency[i] ?? 0)) / Math.sqrt(400 + 2 * q)).toBeCloseTo(1, 2)
      expect((2 * Math.PI * (second.frequency[i] ?? 0)) / Math.sqrt(2500 - q)).toBeCloseTo(1, 2)
    })
  })
})

test('a root that stops oscillating leaves its curve', () => {
  const forces = quasiSteadyForces(1, 0.1, { A0: Float64Array.of(2), A1: Float64Array.of(-0.1) })
  const k = [0, 0.5, 2]
  const { A0, A1 } = forces.at(0)
  const Q = k.map((kk) => ({ n: 1, re: A0.slice(), im: A1.map((v) => kk * v) }))
  for (const each of [forces, tabulatedForces({ referenceLength: 0.1, k, Q })]) {
    const system = { omegas: [30], structuralDamping: 0, density: 1.2, forces: each }
    // Ω² = q A₀ at 27.4 m/s; damped, it stops a little before.
    const [{ frequency }] = rootCurves(system, [10, 20, 27, 29, 35]).roots
    expect(frequency[1]).toBeGreaterThan(0)
    expect(frequency.slice(3)).toEqual([null, null])
  }
})
