import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  doublingRuleTime,
  isExtrapolated,
  type WorkingTimeSheet,
  workingTime,
  workingTimeBand,
} from '../../src/resin/arrhenius.ts'
import { batchFor, type SessionPlan, splitIntoBatches } from '../../src/resin/batches.ts'
import { dewPoint, saturationPressure } from '../../src/resin/dew-point.ts'
import {
  coarsestScale,
  massRatio,
  mixedMass,
  scaleError,
  smallestBatch,
  totalWindow,
  volumeWeighedError,
} from '../../src/resin/mixing.ts'

const degC = (t: number): number => t + 273.15
const sheet: WorkingTimeSheet = { time: 1800, temperature: degC(25), mass: 0.1, activationEnergy: 55e3 }
const minutes = (t: number, mass = 0.1): number => workingTime(sheet, { temperature: degC(t), mass }) / 60

describe('working time', () => {
  test('by hand: 30 min at 25 °C is 14.6 min at 35 °C and 64.8 min at 15 °C', () => {
    expect(minutes(35)).toBeCloseTo(14.6, 1)
    expect(minutes(15)).toBeCloseTo(64.8, 1)
    expect(minutes(35) / 30).toBeCloseTo(0.4868, 4)
    expect(minutes(15) / 30).toBeCloseTo(2.16, 3)
  })
  test('has teeth: one kJ/mol more is noticed', () => {
    const stiffer = { ...sheet, activationEnergy: 56e3 }
    expect(workingTime(stiffer, { temperature: degC(35), mass: 0.1 }) / 60).not.toBeCloseTo(14.6, 1)
  })
  test('doubles per 10 K at an activation energy of 51.2 kJ/mol between 20 and 30 °C', () => {
    const doubling = { ...sheet, temperature: degC(30), activationEnergy: 51.2e3 }
    expect(workingTime(doubling, { temperature: degC(20), mass: 0.1 }) / 1800).toBeCloseTo(2, 2)
    expect(doublingRuleTime(doubling, degC(20)) / 1800).toBe(2)
  })
  test('is the same on both ways round: from 25 to 35 and back', () => {
    const warm = { ...sheet, time: workingTime(sheet, { temperature: degC(35), mass: 0.1 }), temperature: degC(35) }
    expect(workingTime(warm, { temperature: degC(25), mass: 0.1 })).toBeCloseTo(1800, 9)
  })
  test('stands as it is up to the stated mass and is halved at twice the mass', () => {
    expect(minutes(25, 0.02)).toBe(30)
    expect(minutes(25, 0.2)).toBeCloseTo(15, 12)
  })
  test('falls with temperature and never rises with mass; the band holds the nominal', () => {
    const temperature = fc.double({ min: 275, max: 320, noNaN: true })
    fc.assert(
      fc.property(temperature, fc.double({ min: 0.01, max: 1, noNaN: true }), (T, mass) => {
        const time = workingTime(sheet, { temperature: T, mass })
        expect(workingTime(sheet, { temperature: T + 1, mass })).toBeLessThan(time)
        expect(workingTime(sheet, { temperature: T, mass: 1.1 * mass })).toBeLessThanOrEqual(time)
        const { low, high } = workingTimeBand(sheet, { temperature: T, mass })
        expect(low).toBeLessThanOrEqual(time * (1 + 1e-12))
        expect(high).toBeGreaterThanOrEqual(time * (1 - 1e-12))
      }),
    )
  })
  test('is trusted 10 K around the data sheet', () => {
    expect([14.9, 15.1, 25, 34.9, 35.1, Number.NaN].map((t) => isExtrapolated(sheet, degC(t)))).toEqual([
      true,
      false,
      false,
      false,
      true,
      true,
    ])
  })
})

describe('ratio', () => {
  test('by hand: 3:1 by volume of 1150 and 980 kg/m³ is 100:28.4 by mass; 2:1 is 100:42.6', () => {
    const densities = { resinDensity: 1150, hardenerDensity: 980 }
    expect(massRatio({ hardenerPerResin: 1 / 3, ...densities })).toBeCloseTo(0.284, 3)
    expect(massRatio({ hardenerPerResin: 1 / 2, ...densities })).toBeCloseTo(0.426, 3)
  })
  test('by hand: weighed as a ratio by mass it is 17 % too much hardener, 21 % at 950 kg/m³', () => {
    expect(volumeWeighedError({ resinDensity: 1150, hardenerDensity: 980 })).toBeCloseTo(0.173, 3)
    expect(volumeWeighedError({ resinDensity: 1150, hardenerDensity: 950 })).toBeCloseTo(0.211, 3)
  })
  test.each([
    [0.2, 240],
    [0.25, 208],
    [0.284, 194],
    [0.33, 179],
    [0.45, 156],
    [1, 133],
  ])('by hand: the smallest batch at 1 g and 3 % with h = %d is %d g', (hardenerPerResin, mass) => {
    const scale = { hardenerPerResin, tolerance: 0.03, scaleResolution: 1e-3 }
    expect(smallestBatch(scale) * 1e3).toBeCloseTo(mass, -0.3)
  })
  const ratio = fc.double({ min: 0.1, max: 1, noNaN: true })
  test('the worst readings of the smallest batch miss the ratio by the tolerance', () => {
    fc.assert(
      fc.property(ratio, fc.double({ min: 1e-5, max: 1e-3, noNaN: true }), (hardenerPerResin, scaleResolution) => {
        const scale = { hardenerPerResin, tolerance: 0.03, scaleResolution }
        const { mass, resin, hardener } = mixedMass(smallestBatch(scale), hardenerPerResin)
        expect(scaleResolution / resin + scaleResolution / hardener).toBeCloseTo(0.03, 12)
        expect(scaleError(mass, scale)).toBeCloseTo(0.03, 12)
        expect(coarsestScale(mass, scale)).toBeCloseTo(scaleResolution, 12)
      }),
    )
  })
  test('a total at the edge of the window has the ratio at the edge of the tolerance', () => {
    fc.assert(
      fc.property(ratio, fc.double({ min: 0.01, max: 1, noNaN: true }), (h, mass) => {
        const mixed = mixedMass(mass, h)
        const [low, high] = totalWindow(mixed, 0.03)
        expect((low - mixed.resin) / mixed.resin / h).toBeCloseTo(0.97, 9)
        expect((high - mixed.resin) / mixed.resin / h).toBeCloseTo(1.03, 9)
        expect(mixed.resin + mixed.hardener).toBeCloseTo(mass, 12)
      }),
    )
  })
})

describe('dew point', () => {
  test('by hand: 12 °C and 75 % is 7.7 °C; 20 °C and 50 % is 9.3 °C', () => {
    expect(dewPoint(degC(12), 0.75) - 273.15).toBeCloseTo(7.7, 1)
    expect(dewPoint(degC(20), 0.5) - 273.15).toBeCloseTo(9.26, 1)
  })
  test('is where the vapour saturates, and the air temperature at full humidity', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 263, max: 313, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (T, U) => {
          expect(saturationPressure(dewPoint(T, U)) / (U * saturationPressure(T))).toBeCloseTo(1, 9)
          expect(dewPoint(T, 1)).toBeCloseTo(T, 9)
          expect(dewPoint(T, U)).toBeLessThanOrEqual(T + 1e-9)
        },
      ),
    )
  })
})

describe('batches', () => {
  const plan = (demand: readonly number[], change: Partial<SessionPlan> = {}): SessionPlan => ({
    ...{ demand, primer: 0.004, cupLoss: 0.008, setUpTime: 300, timePerPly: 360, sheet: { ...sheet, time: 3600 } },
    ...{ temperature: degC(25), workingShare: 0.8, ...change },
  })
  const limits = { smallest: 0.02, largest: 0.17 }
  const anyDemand = fc.array(fc.double({ min: 0.002, max: 0.06, noNaN: true }), { minLength: 1, maxLength: 9 })

  /** All ways to cut n plies into batches, by brute force. */
  const allSplits = (n: number): number[][] =>
    Array.from({ length: 2 ** (n - 1) }, (_, mask) =>
      [...Array(n - 1).keys()].filter((i) => (mask >> i) & 1).map((i) => i + 1),
    )

  test('keep every limit, lay every ply once, and no split is shorter or has more to spare', () => {
    let found = 0
    fc.assert(
      fc.property(anyDemand, fc.double({ min: 288, max: 308, noNaN: true }), (demand, temperature) => {
        const session = plan(demand, { temperature })
        const legal = allSplits(demand.length)
          .map((cuts) => [0, ...cuts, demand.length])
          .map((ends) => ends.slice(1).map((to, k) => batchFor(session, ends[k], to)))
          .filter((batches) =>
            batches.every(({ mass, workingTime: time, mixedAt, to }) => {
              const used = 300 + 360 * to - mixedAt
              return used <= 0.8 * time && mass >= limits.smallest && mass <= limits.largest
            }),
          )
        const batches = splitIntoBatches(session, limits)
        if (batches === null) {
          expect(legal).toEqual([])
          return
        }
        found++
        const fewest = Math.min(...legal.map((way) => way.length))
        const spare = (way: typeof batches): number => Math.min(...way.map((batch) => batch.spare))
        expect(batches).toHaveLength(fewest)
        expect(spare(batches)).toBeCloseTo(Math.max(...legal.filter((way) => way.length === fewest).map(spare)), 9)
        expect(batches.flatMap(({ from, to }) => demand.slice(from, to))).toEqual(demand)
        const mixed = batches.reduce((sum, { mass }) => sum + mass, 0)
        const wanted = demand.reduce((sum, mass) => sum + mass, 0) + 0.004 + 0.008 * batches.length
        expect(mixed).toBeCloseTo(wanted, 12)
      }),
    )
    expect(found).toBeGreaterThan(30)
  })
  test('no plies, no batches', () => {
    expect(splitIntoBatches(plan([]), limits)).toEqual([])
  })
  test('a cup that would be too heavy is split', () => {
    expect(splitIntoBatches(plan([0.07, 0.07, 0.07], { timePerPly: 60 }), limits)).toHaveLength(2)
  })
})
