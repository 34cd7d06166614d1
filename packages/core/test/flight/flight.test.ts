/** Edges: flights that cannot be flown, histories that cannot be read, the heat of the air. */
import { describe, expect, test } from 'vitest'
import { standardAir } from '../../src/air/atmosphere.ts'
import { flyHistory, type HistoryFlight } from '../../src/flight/import.ts'
import { recoveryAlong, recoveryRise, recoveryTemperature } from '../../src/flight/recovery.ts'
import { thrustCurve } from '../../src/flight/thrust-curve.ts'
import { dragCoefficient, flyThrust, type ThrustFlight } from '../../src/flight/trajectory.ts'

const flight: ThrustFlight = {
  kind: 'thrust',
  time: [0, 0.1, 2, 2.5],
  thrust: [0, 900, 800, 0],
  liftOffMass: 6,
  propellantMass: 0.9,
  referenceArea: 0.005,
  drag: { mach: [0, 0.9, 1.2], coefficient: [0.5, 0.5, 0.7] },
  siteAltitude: 0,
  temperatureOffset: 0,
}
const flownHistory: HistoryFlight = {
  kind: 'history',
  time: [0, 1, 3, 10],
  altitude: [100, 200, 1200, 4000],
  speed: [0, 300, 600, 0],
  temperatureOffset: 0,
}

describe('thrust curve', () => {
  const curve = thrustCurve({ time: [0.5, 1, 2], thrust: [0, 100, 50] })
  test('straight between points, nothing outside', () => {
    expect([0.4, 0.75, 1.5, 2, 2.01].map(curve.thrust)).toEqual([0, 50, 75, 50, 0])
  })
  test('impulse is its integral', () => {
    expect([0, 0.75, 1, 2, 9].map(curve.impulse)).toEqual([0, 6.25, 25, 100, 100])
    expect(curve.totalImpulse).toBe(100)
  })
})

test('drag coefficient is held at the ends of its table', () => {
  expect([0, 0.9, 1.05, 3].map((M) => dragCoefficient(flight.drag, M))).toEqual([0.5, 0.5, 0.6, 0.7])
})

test('the rocket stands until thrust exceeds weight', () => {
  const result = flyThrust({ ...flight, time: [0, 2, 4], thrust: [0, 200, 200] })
  if (!result.ok) throw new Error('no flight')
  const { time, speed, altitude } = result.value
  const standing = time.filter((_, i) => speed[i] === 0 && altitude[i] === 0)
  expect(standing.length).toBeGreaterThan(1)
  expect(Math.max(...standing)).toBeCloseTo((2 * 6 * 9.80665) / (200 + 0.9 * 9.80665 * 0.1), 1)
})

test('too little thrust is an issue, not a flight', () => {
  const result = flyThrust({ ...flight, thrust: [0, 30, 30, 0] })
  expect(result.ok).toBe(false)
  if (!result.ok) expect(result.issues.map(({ code }) => code)).toEqual(['flight/no-lift-off'])
})

test('a drag table that ends below the flight is a warning', () => {
  const fast = { ...flight, thrust: [0, 2500, 2500, 0] }
  const result = flyThrust(fast)
  if (!result.ok) throw new Error('no flight')
  expect(result.value.maximumMach.value).toBeGreaterThan(1.2)
  expect(result.warnings.map(({ code }) => code)).toEqual(['flight/drag-table-ends'])
})

describe('history', () => {
  test('keeps the points given and puts samples between them', () => {
    const result = flyHistory(flownHistory)
    if (!result.ok) throw new Error('no history')
    const { time, speed, altitude, mach } = result.value
    for (const [i, t] of flownHistory.time.entries()) {
      const at = time.indexOf(t)
      expect(at).toBeGreaterThanOrEqual(0)
      expect([speed[at], altitude[at]]).toEqual([flownHistory.speed[i], flownHistory.altitude[i]])
    }
    expect(Math.max(...time.slice(1).map((t, i) => t - time[i]))).toBeLessThanOrEqual(10 / 300 + 1e-9)
    expect(mach[time.indexOf(3)]).toBeCloseTo(600 / standardAir(1200).soundSpeed, 12)
  })
  test('finds the largest dynamic pressure inside a straight piece', () => {
    const dive = { ...flownHistory, time: [0, 10], altitude: [0, 9000], speed: [200, 400] }
    const result = flyHistory(dive)
    if (!result.ok) throw new Error('no history')
    const { maximumDynamicPressure: found } = result.value
    const q = (t: number): number => 0.5 * standardAir(900 * t).density * (200 + 20 * t) ** 2
    expect(found.time).toBeGreaterThan(1)
    expect(found.time).toBeLessThan(9)
    expect(found.value).toBeGreaterThanOrEqual(Math.max(...Array.from({ length: 1001 }, (_, i) => q(i / 100))))
  })
  test('all issues at once, each with its place', () => {
    const broken = { ...flownHistory, time: [0, 2, 2, 10], altitude: [0, Number.NaN, 5e6, 0], speed: [0, 1, 1, 9e9] }
    const result = flyHistory(broken)
    expect(result.ok).toBe(false)
    if (!result.ok) {
      expect(result.issues.map(({ path }) => path).sort()).toEqual([
        'flight.altitude[1]',
        'flight.altitude[2]',
        'flight.speed[3]',
        'flight.time[2]',
      ])
    }
    const short = flyHistory({ ...flownHistory, speed: [1] })
    expect(short.ok).toBe(false)
  })
  test('above the atmosphere is a warning', () => {
    const result = flyHistory({ ...flownHistory, altitude: [0, 1e4, 5e4, 1.2e5] })
    if (!result.ok) throw new Error('no history')
    expect(result.warnings.map(({ code }) => code)).toEqual(['flight/above-atmosphere'])
  })
})

describe('recovery temperature', () => {
  test('Mach 1.6 in air of 15 °C recovers to 146 °C', () => {
    expect(recoveryRise).toBeCloseTo(0.178, 3)
    expect(recoveryTemperature({ temperature: 288.15, mach: 1.6 }) - 273.15).toBeCloseTo(146.5, 0)
  })
  test('time above the glass transition is measured between the crossings', () => {
    // Speed up and down in straight lines at constant altitude: the crossing can be worked out by hand.
    const level = { ...flownHistory, time: [0, 10, 20], altitude: [0, 0, 0], speed: [0, 500, 0] }
    const result = flyHistory(level)
    if (!result.ok) throw new Error('no history')
    const { temperature, soundSpeed } = standardAir(0)
    const glassTransition = 330
    const v = soundSpeed * Math.sqrt((glassTransition / temperature - 1) / recoveryRise)
    const recovery = recoveryAlong(result.value, glassTransition)
    expect(recovery.secondsAbove).toBeCloseTo(2 * (10 - v / 50), 2)
    expect(recovery.time).toBe(10)
    expect(recovery.warnings.map(({ code }) => code)).toEqual(['flight/recovery-above-glass-transition'])
    expect(recoveryAlong(result.value, 500)).toMatchObject({ secondsAbove: 0, warnings: [] })
  })
})
