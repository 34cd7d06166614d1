/** Laws of a fin heated along a flight: bounds, orderings, what a lumped skin hides, what the model of the leading edge bounds. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { conduction } from '../../src/flight/heat/conduction.ts'
import { type HeatInput, heatAlong } from '../../src/flight/heat/heat-along.ts'
import { wallOf } from '../../src/flight/heat/section.ts'
import { depthNames, type HeatStation, type StationHeat } from '../../src/flight/heat/station.ts'
import { core, input, madeUpHistory, skin } from './flight.ts'

const only = (change: Partial<HeatInput>): StationHeat => heatAlong({ ...input, ...change }).stations[0]
const flat = input.stations[0]

describe('one flight', () => {
  const heat = only({})
  test('no deeper place is ever hotter at its peak, and none leaves the range of start and recovery', () => {
    const hottest = depthNames.map((depth) => heat.peak[depth].temperature)
    for (let i = 1; i < hottest.length; i++) expect(hottest[i]).toBeLessThan(hottest[i - 1])
    expect(hottest[0]).toBeLessThan(heat.peak.recovery.temperature)
    expect(Math.min(...depthNames.flatMap((depth) => heat[depth]))).toBeGreaterThan(263)
  })
  test('deeper places peak later', () => {
    const times = depthNames.map((depth) => heat.peak[depth].time)
    for (let i = 1; i < times.length; i++) expect(times[i]).toBeGreaterThanOrEqual(times[i - 1])
  })
  test('what came in through the face is what the wall holds', () => {
    expect(heat.energy.stored / heat.energy.absorbed).toBeCloseTo(1, 9)
  })
  test('means lie between the temperatures at their ends', () => {
    heat.surface.forEach((_, i) => {
      const ends = [heat.surface[i], heat.skinMiddle[i], heat.interface[i]]
      expect(heat.skinMean[i]).toBeLessThan(Math.max(...ends) + 0.5)
      expect(heat.skinMean[i]).toBeGreaterThan(Math.min(...ends) - 0.5)
    })
  })
  test('Biot number is that of the largest coefficient', () => {
    const h = Math.max(...heat.coefficient)
    expect(heat.biot.skin).toBeCloseTo((h * skin.thickness) / skin.conductivity, 12)
    expect(heat.biot.half).toBeCloseTo(heat.biot.skin + (h * core.thickness) / core.conductivity, 12)
  })
})

test('the surface temperature follows the coarse defaults to 0.2 K', () => {
  const fine = only({ cells: 320, longestStep: 0.005 })
  const coarse = only({})
  for (const depth of depthNames) {
    const apart = Math.max(...fine[depth].map((T, i) => Math.abs(T - coarse[depth][i])))
    expect(apart).toBeLessThan(0.2)
  }
})

test('samples put between change next to nothing at the samples there were', () => {
  const [few, many] = [only({ history: madeUpHistory(241) }), only({ history: madeUpHistory(961) })]
  for (const depth of depthNames) {
    expect(Math.max(...few[depth].map((T, i) => Math.abs(T - many[depth][4 * i])))).toBeLessThan(0.1)
  }
})

test('a lumped skin reads a cooler surface: its Biot number is far above 0.1', () => {
  const real = only({})
  const lumped = only({ layers: [{ ...skin, conductivity: 1e4 }, core] })
  expect(real.biot.skin).toBeGreaterThan(1)
  expect(real.peak.surface.temperature - lumped.peak.surface.temperature).toBeGreaterThan(15)
})

describe('orderings', () => {
  const surface = (change: Partial<HeatStation>, layers = input.layers): number =>
    only({ layers, stations: [{ ...flat, ...change }] }).peak.surface.temperature
  test('nearer the leading edge, with more coefficient, less conduction or less skin behind it is hotter', () => {
    const base = surface({})
    expect(surface({ at: { kind: 'plate', distance: 0.02, flow: 'turbulent' } })).toBeGreaterThan(base)
    expect(surface({ at: { kind: 'plate', distance: 0.1, flow: 'turbulent', pressureRatio: 1.3 } })).toBeGreaterThan(
      base,
    )
    expect(surface({ at: { kind: 'plate', distance: 0.1, flow: 'laminar' } })).toBeLessThan(base)
    expect(surface({ coefficientFactor: 1.15 })).toBeGreaterThan(base)
    expect(surface({}, [{ ...skin, conductivity: 0.25 }, core])).toBeGreaterThan(base)
    expect(
      surface({}, [
        { ...skin, thickness: 0.3e-3 },
        { ...core, thickness: 0.3e-3 },
      ]),
    ).toBeGreaterThan(base)
  })
  test('a higher glass transition is exceeded for less time, and more modulus is left', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 300, max: 420, noNaN: true }),
        fc.double({ min: 0.5, max: 30, noNaN: true }),
        (Tg, more) => {
          const glassTransitions = [
            { name: 'low', temperature: Tg },
            { name: 'high', temperature: Tg + more },
          ]
          const [low, high] = only({ glassTransitions, cells: 12, longestStep: 0.5 }).against
          for (const depth of depthNames) {
            expect(high.secondsAbove[depth]).toBeLessThanOrEqual(low.secondsAbove[depth])
          }
          high.resinFactor.forEach((factor, i) => {
            expect(factor).toBeGreaterThanOrEqual(low.resinFactor[i] - 1e-3)
          })
        },
      ),
      { numRuns: 25 },
    )
  })
})

test('a fin that stands still keeps its temperature', () => {
  const still = madeUpHistory(11)
  const history = { ...still, speed: still.time.map(() => 0), mach: still.time.map(() => 0) }
  for (const station of [flat, { name: 'edge', at: { kind: 'edge', radius: 1e-3, sweep: 0.9 } } as const]) {
    expect(only({ history, stations: [station] }).surface.every((T) => Math.abs(T - 290) < 1e-9)).toBe(true)
  }
})

/**
 * A blunt edge of thickness 2 R, heated with h on its front and `flank` on its sides, both by air of one constant recovery
 * temperature: the temperature is the product of two one-dimensional ones (Carslaw & Jaeger, section 1.15, recalled),
 * θ = θ half space (x) · θ slab (y). The cylinder of the model, heated with h all round, must be hotter at every instant.
 */
describe('the cylinder of the leading edge', () => {
  const [k, density, specificHeat] = [0.35, 1700, 1000]
  const material = { conductivity: k, density, specificHeat }
  const R = 0.7e-3
  /** θ of the outer face and of the inner end, at every step. */
  function cooled(thickness: number, h: number, shape: 'slab' | 'cylinder') {
    const wall = wallOf({ layers: [{ ...material, thickness }], shape, inner: 'adiabatic', cells: 150 })
    const T = new Float64Array(wall.depth.length).fill(0)
    const heating = { recovery: 1, coefficient: () => h }
    const advance = conduction(wall)
    return Array.from({ length: 120 }, () => {
      advance(T, { duration: 0.025, start: heating, stage: heating, end: heating })
      return { face: 1 - T[0], middle: 1 - T[T.length - 1] }
    })
  }
  test.each([
    [2700, 1500],
    [2700, 2700],
    [1200, 600],
  ])('h %f on the front, %f on the sides', (h, flank) => {
    const model = cooled(R, h, 'cylinder')
    const front = cooled(8e-3, h, 'slab')
    const sides = cooled(R, flank, 'slab')
    const over = model.map(({ face }, j) => front[j].face * sides[j].middle - face)
    expect(Math.min(...over)).toBeGreaterThan(0)
    // 0.1 of the rise to the recovery temperature: how far above the truth the bound lies, at worst.
    expect(Math.max(...over)).toBeLessThan(0.1)
  })
})
