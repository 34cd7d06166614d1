import { describe, expect, test } from 'vitest'
import type { Issue } from '../../src/issue.ts'
import { shopWarnings } from '../../src/resin/conditions.ts'
import { baySession, type SessionInput } from '../../src/resin/session.ts'

const degC = (t: number): number => t + 273.15
const ply = { role: 'structural' as const, area: 0.08, netArea: 0.07, arealMass: 0.2 }
const input: SessionInput = {
  plies: ['P1', 'P2', 'P3'].map((id) => ({ id, ...ply })),
  resinPerCloth: 1,
  losses: { peelPly: 0.08, primer: 0.06, cup: 0.008 },
  mixing: { hardenerPerResin: 0.284, tolerance: 0.03, scaleResolution: 1e-4, cupLimit: 0.17, workingShare: 0.75 },
  shop: { temperature: degC(22), humidity: 0.5, setUpTime: 300, timePerPly: 360 },
  resin: {
    workingTime: { value: 3600 },
    workingTemperature: { value: degC(25) },
    workingMass: { value: 0.1 },
    activationEnergy: { value: 55e3 },
    minimumTemperature: { value: degC(18) },
  },
}
const only = (issues: readonly Issue[]): Issue => {
  expect(issues).toHaveLength(1)
  return issues[0]
}

describe('the shop', () => {
  const sheet = { time: 3600, temperature: degC(25), mass: 0.1, activationEnergy: 55e3 }
  const codes = (t: number, humidity: number): string[] =>
    shopWarnings({ shop: { temperature: degC(t), humidity }, sheet, minimumTemperature: degC(18) }).map(
      ({ code }) => code,
    )
  test.each([
    [22, 0.5, []],
    [18, 0.5, []],
    [17.9, 0.5, ['resin/too-cold']],
    [27.1, 0.5, ['resin/hot']],
    [22, 0.71, ['resin/damp']],
    [22, 0.9, ['resin/near-dew-point', 'resin/damp']],
    [36, 0.4, ['resin/hot', 'resin/working-time-extrapolated']],
    [5, 0.85, ['resin/too-cold', 'resin/near-dew-point', 'resin/damp', 'resin/working-time-extrapolated']],
  ])('at %d °C and %d: %j', (t, humidity, expected) => {
    expect(codes(t, humidity)).toEqual(expected)
  })
  test('a number that is no number never passes', () => {
    expect(codes(Number.NaN, 0.5)).toContain('resin/too-cold')
    expect(codes(22, Number.NaN)).toContain('resin/damp')
  })
})

describe('no batches', () => {
  test('one ply outlasts the resin', () => {
    const { value, warnings } = baySession({ ...input, shop: { ...input.shop, timePerPly: 3600 } })
    expect(value.batches).toEqual([])
    const issue = only(warnings)
    expect(issue).toMatchObject({ code: 'resin/working-time-too-short', path: 'resin.batches' })
    expect(issue.message).toContain('Ply 1 of 3 cannot be laid in time: with set-up it takes up to 65 min')
    expect(issue.message).toContain('75 % of a working time of 75 min')
  })
  test('one ply needs more than a cup', () => {
    const { value, warnings } = baySession({ ...input, mixing: { ...input.mixing, cupLimit: 0.02 } })
    expect(value.batches).toEqual([])
    expect(only(warnings)).toMatchObject({ code: 'resin/cup-limit', value: 0.02 })
    expect(warnings[0].message).toContain('One ply alone takes 28 g, more than the cup limit of 20 g')
  })
  test('a scale too coarse for small batches but not for one large one is no obstacle', () => {
    const { value, warnings } = baySession({ ...input, mixing: { ...input.mixing, scaleResolution: 3e-4 } })
    expect(value.batches).toHaveLength(1)
    expect(warnings).toEqual([])
  })
})

describe('a batch above the data sheet mass', () => {
  const heavy = { ...input, plies: input.plies.map((one) => ({ ...one, area: 0.2 })) }
  test('is shortened, and that is said to be an assumption', () => {
    const { value, warnings } = baySession(heavy)
    const [batch] = value.batches
    expect(batch.mix).toBeGreaterThan(0.13)
    expect(batch.workingTime / value.workingTime.nominal).toBeCloseTo(0.1 / batch.mix, 9)
    expect(only(warnings).code).toBe('resin/above-sheet-mass')
    expect(warnings[0].message).toContain('which is an assumption')
  })
})

describe('what a bay takes', () => {
  test('a film takes up nothing, is in no batch, and takes its time', () => {
    const film = { id: 'F1', role: 'film' as const, area: 0.1, netArea: 0.2, arealMass: 0.046 }
    const [bare, covered] = [input, { ...input, plies: [...input.plies, film] }].map((one) => baySession(one).value)
    expect({ ...covered, perPly: [], end: 0 }).toEqual({ ...bare, perPly: [], end: 0 })
    expect(covered!.end - bare!.end).toBeCloseTo(input.shop.timePerPly, 9)
    expect(covered!.perPly.at(-1)).toMatchObject({ ply: 'F1', cloth: 0.0046, mix: 0 })
  })

  test('peel ply takes its uptake, adds nothing to the cloth, and no primer', () => {
    const peel = { id: 'R1', role: 'peel' as const, area: 0.1, netArea: 0.09, arealMass: 0.085 }
    const [bare, peeled] = [input, { ...input, plies: [...input.plies, peel] }].map((one) => baySession(one).value)
    expect(peeled.cloth).toBe(bare.cloth)
    expect(peeled.mix - bare.mix).toBeCloseTo(0.008, 12)
    expect(peeled.losses).toEqual({ ...bare.losses, peelPly: 0.008 })
    expect(peeled.perPly[3]).toEqual({ ply: 'R1', cloth: 0.0085, mix: 0.008, start: 300 + 3 * 360 })
  })
  test('batches add up to the session', () => {
    const { value } = baySession({ ...input, shop: { ...input.shop, timePerPly: 1200 } })
    expect(value.batches.length).toBeGreaterThan(1)
    const sum = (of: 'mix' | 'resin' | 'hardener'): number => value.batches.reduce((all, batch) => all + batch[of], 0)
    expect(sum('mix')).toBeCloseTo(value.mix, 12)
    expect(sum('resin')).toBeCloseTo(value.resin, 12)
    expect(sum('hardener')).toBeCloseTo(value.hardener, 12)
  })
  test('no plies take nothing', () => {
    const { value, warnings } = baySession({ ...input, plies: [] })
    expect(value).toMatchObject({ cloth: 0, mix: 0, batches: [], perPly: [] })
    expect(warnings).toEqual([])
  })
})
