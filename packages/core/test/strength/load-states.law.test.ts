/** Angles along a flight: what wind does, from where on, and that nothing is lost against a given angle. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { flightLoads, stateLoads } from '../../src/strength/load-states.ts'

const acceleration = 60
const soundSpeed = 340
const density = 1.2

/** Straight up at constant acceleration, sampled at the times given. */
const flight = (times: readonly number[]) => {
  const speed = times.map((t) => acceleration * t)
  return {
    ...{ time: times, speed, mach: speed.map((V) => V / soundSpeed) },
    dynamicPressure: speed.map((V) => 0.5 * density * V * V),
  }
}
const even = (n: number, dt = 0.1) => Array.from({ length: n }, (_, i) => i * dt)
const wind = { steady: 5, gust: 8, railLength: 3 }

describe('the rail', () => {
  test.each([0.05, 0.1, 0.4, 2])('ends where its length is flown, whatever the samples (%f s)', (dt) => {
    const states = flightLoads(flight(even(12, dt)), { angleOfAttack: null, wind })
    const exit = states.find(({ cause }) => cause === 'wind and gust at the rail')!
    const V = Math.sqrt(2 * acceleration * wind.railLength)
    expect(exit.mach * soundSpeed).toBeCloseTo(V, 9)
    expect(exit.time).toBeCloseTo(V / acceleration, 9)
    expect(exit.dynamicPressure).toBeCloseTo(0.5 * density * V * V, 6)
    expect(Math.tan(exit.angle)).toBeCloseTo((wind.steady + wind.gust) / V, 9)
  })

  test('is free of wind, and what follows sees the gust alone', () => {
    const states = flightLoads(flight(even(60)), { angleOfAttack: null, wind })
    const end = states.findIndex(({ cause }) => cause === 'wind and gust at the rail')
    expect(end).toBeGreaterThan(1)
    states.forEach(({ angle, mach }, i) => {
      if (i < end) expect(angle).toBe(0)
      if (i > end) expect(Math.tan(angle)).toBeCloseTo(wind.gust / (mach * soundSpeed), 9)
    })
    expect(states.map(({ time }) => time)).toEqual(states.map(({ time }) => time).sort((p, q) => p! - q!))
  })

  test('that is never left means no wind', () => {
    const states = flightLoads(flight(even(5)), { angleOfAttack: 0.01, wind: { ...wind, railLength: 1e4 } })
    expect(states.map(({ angle }) => angle)).toEqual(states.map(() => 0.01))
  })
})

test('of a given angle and the wind the greater counts at each instant', () => {
  fc.assert(
    fc.property(
      ...[fc.double({ min: -0.3, max: 0.3, noNaN: true }), fc.double({ min: 0, max: 30, noNaN: true })],
      (angleOfAttack, gust) => {
        const columns = flight(even(40))
        const both = flightLoads(columns, { angleOfAttack, wind: { ...wind, gust } })
        const blown = flightLoads(columns, { angleOfAttack: null, wind: { ...wind, gust } })
        both.forEach(({ angle }, i) => {
          expect(angle).toBe(Math.max(Math.abs(angleOfAttack), blown[i].angle))
        })
      },
    ),
  )
})

test('states without a flight see the gust at their own speed', () => {
  const [state] = stateLoads([{ mach: 0.5, density: 1, soundSpeed: 300 }], { angleOfAttack: null, wind })
  expect(state).toMatchObject({ time: null, mach: 0.5, dynamicPressure: 0.5 * 150 ** 2 })
  expect(Math.tan(state.angle)).toBeCloseTo(wind.gust / 150, 12)
})
