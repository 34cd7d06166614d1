/** Edges and wiring: stations of a fin, what is told of the laminate, warnings, broken promises. */
import { describe, expect, test } from 'vitest'
import { peakOf, secondsAbove } from '../../src/flight/heat/exposure.ts'
import { type FinPlaces, finStations } from '../../src/flight/heat/fin-stations.ts'
import { heatAlong } from '../../src/flight/heat/heat-along.ts'
import { laminateTemperature } from '../../src/flight/heat/laminate-temperature.ts'
import { wallOf } from '../../src/flight/heat/section.ts'
import { core, input, madeUpHistory, skin } from './flight.ts'

const places: FinPlaces = {
  chord: 0.2,
  sweep: 0.9,
  wallAt: (distance) => ({
    skin: distance < 0.05 ? [{ ...skin, thickness: 0.3e-3 }] : [skin],
    coreThickness: Math.min(3.2e-3, 0.8e-3 + 0.12 * distance),
  }),
  core,
  coreThickness: 3.2e-3,
  leadingEdge: { kind: 'bevel', width: 12e-3, land: 0.8e-3 },
  fillet: { radius: 15e-3, adhesive: { conductivity: 0.25, density: 1150, specificHeat: 1200 } },
}

describe('stations of a fin', () => {
  const stations = finStations(places)
  const named = (name: string) => stations.find((station) => station.name === name)!
  test('five strips, a laminar one for no area, bevel, edge and fillet', () => {
    expect(stations.map(({ name }) => name)).toEqual([
      '10 % of the chord',
      '30 % of the chord',
      '50 % of the chord',
      '70 % of the chord',
      '90 % of the chord',
      '50 % of the chord, laminar',
      'the middle of the bevel',
      'the leading edge',
      'the fillet',
    ])
    expect(named('50 % of the chord, laminar').share).toBe(0)
  })
  test('the wall of a strip ends on the middle of the core', () => {
    const [outer, inner] = named('50 % of the chord').layers!
    expect([outer.thickness, outer.part, inner.thickness, inner.part]).toEqual([1.2e-3, 'skin', 1.6e-3, 'core'])
    expect(named('50 % of the chord').at).toMatchObject({ kind: 'plate', distance: 0.1, flow: 'turbulent' })
  })
  test('the bevel is half-way up, along the stream', () => {
    expect(named('the middle of the bevel').at).toMatchObject({ distance: 6e-3 / Math.cos(0.9) })
  })
  test('radius of the leading edge: half the land and the skin, and the wall ends on its axis', () => {
    const { at, layers, shape } = named('the leading edge')
    expect(at.kind === 'edge' && at.radius).toBeCloseTo(0.7e-3, 12)
    expect(shape).toBe('cylinder')
    expect(layers!.reduce((sum, { thickness }) => sum + thickness, 0)).toBeCloseTo(0.7e-3, 12)
  })
  test.each([
    ['square' as const, 0, 0, 1.6e-3 + 0.3e-3],
    ['round' as const, 6e-3, 0, 1.6e-3 ** 2 / 6e-3 + 0.3e-3],
    ['round' as const, 6e-3, 2e-3, 1e-3 + 0.3e-3],
  ])('of a %s edge, width %f, land %f', (kind, width, land, radius) => {
    const edge = finStations({ ...places, leadingEdge: { kind, width, land } }).find(({ role }) => role === 'edge')!
    expect(edge.at.kind === 'edge' && edge.at.radius).toBeCloseTo(radius, 12)
    expect(finStations({ ...places, leadingEdge: { kind, width, land } }).some(({ role }) => role === 'bevel')).toBe(
      width > 0,
    )
  })
  test('the fillet lies on its adhesive', () => {
    expect(named('the fillet').layers!.at(-1)!.thickness).toBeCloseTo(15e-3 * (Math.SQRT2 - 1), 12)
    expect(finStations({ ...places, fillet: null }).some(({ role }) => role === 'fillet')).toBe(false)
  })
})

describe('the laminate', () => {
  const heat = heatAlong({ ...input, stations: finStations(places) })
  const { time, mean, hottest } = laminateTemperature(heat)
  test('one value an instant for skin, core and every glass transition', () => {
    expect(time).toHaveLength(121)
    for (const state of [mean, hottest]) {
      expect(state.resin.map(({ name }) => name)).toEqual(['as cured', 'post-cured'])
      for (const column of [state.skin, state.core, ...state.resin.map(({ factor }) => factor)])
        expect(column).toHaveLength(121)
    }
  })
  test('the mean is over the strips alone, each alike; the hottest bounds it', () => {
    const strips = heat.stations.slice(0, 5)
    const at = 30
    expect(mean.skin[at]).toBeCloseTo(
      strips.reduce((sum, { skinMean }) => sum + skinMean[at] / 5, 0),
      9,
    )
    expect(hottest.skin[at]).toBe(Math.max(...strips.map(({ skinMean }) => skinMean[at])))
    expect(hottest.resin[0].factor[at]).toBeLessThan(mean.resin[0].factor[at])
    expect(mean.resin[0].factor[at]).toBeLessThan(mean.resin[1].factor[at])
  })
  test('without a core its temperature is that of the skin', () => {
    const solid = heatAlong({ ...input, layers: [skin] })
    expect(solid.stations[0].coreMean).toBeNull()
    expect(laminateTemperature(solid).mean.core).toEqual(laminateTemperature(solid).mean.skin)
    expect(solid.stations[0].interface).toEqual(solid.stations[0].middle)
  })
  test('bending feels the outer plies more: less modulus is left than the mean temperature says', () => {
    const station = heat.stations[2]
    const factor = Math.min(...station.against[0].resinFactor)
    expect(factor).toBeGreaterThan(0)
    expect(factor).toBeLessThan(1)
  })
})

describe('warnings', () => {
  const warnings = (change: object) => heatAlong({ ...input, ...change }).warnings
  test('a soft surface is told with its seconds, in degrees Celsius', () => {
    const [warning] = warnings({})
    expect(warning).toMatchObject({ code: 'heat/above-glass-transition', path: 'flight.heat' })
    expect(warning.message).toContain('58 °C')
    expect(warning.message).toContain('as cured')
    expect(warning.hint.length).toBeGreaterThan(10)
  })
  test('none when the resin in force holds, though another would not', () => {
    const glassTransitions = [
      { name: 'post-cured', temperature: 600 },
      { name: 'as cured', temperature: 331 },
    ]
    expect(warnings({ glassTransitions })).toEqual([])
    expect(warnings({ glassTransitions: [] })).toEqual([])
  })
  test('beyond Mach 3 the laws are out of range', () => {
    const fast = madeUpHistory()
    const history = { ...fast, mach: fast.mach.map((M) => 1.6 * M) }
    expect(warnings({ history, glassTransitions: [] }).map(({ code }) => code)).toEqual(['heat/mach-range'])
  })
})

test('peak and seconds above, straight between samples', () => {
  expect(peakOf([0, 1, 2], [300, 350, 340])).toEqual({ temperature: 350, time: 1 })
  expect(secondsAbove([0, 1, 2, 4], [300, 350, 350, 300], 325)).toBeCloseTo(0.5 + 1 + 1, 12)
  expect(secondsAbove([0, 1], [300, 310], 310)).toBe(0)
})

describe('broken promises', () => {
  test('layers, times and temperatures that cannot be', () => {
    const wall = (layers: readonly object[], shape = 'slab', inner = 'adiabatic') =>
      wallOf({ layers: layers as never, shape: shape as never, inner: inner as never, cells: 10 })
    expect(() => wall([])).toThrow('without layers')
    expect(() => wall([{ ...skin, conductivity: Number.NaN }])).toThrow('broken promise')
    expect(() => wall([{ ...skin, thickness: 0 }])).toThrow('broken promise')
    expect(() => wall([skin], 'cylinder', 'heated')).toThrow('other face')
    expect(() => heatAlong({ ...input, history: madeUpHistory(1) })).toThrow('samples')
    expect(() => heatAlong({ ...input, initialTemperature: Number.NaN })).toThrow('broken promise')
    const backwards = madeUpHistory(3)
    expect(() => heatAlong({ ...input, history: { ...backwards, time: [0, 2, 1] } })).toThrow('does not rise')
    expect(() => laminateTemperature(heatAlong({ ...input, stations: [] }))).toThrow('flat of the fin')
  })
})
