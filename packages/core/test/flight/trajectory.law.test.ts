/** Flights with an answer in closed form, and the order of the integration. */
import { expect, test } from 'vitest'
import { gravity, standardAir } from '../../src/air/atmosphere.ts'
import type { FlightHistory } from '../../src/flight/history.ts'
import { flightTolerance, flyThrust, type ThrustFlight } from '../../src/flight/trajectory.ts'
import { integrate } from '../../src/numeric/integrate.ts'

const flight: ThrustFlight = {
  kind: 'thrust',
  time: [0, 0.05, 0.4, 2.2, 2.9, 3.2],
  thrust: [0, 2600, 2900, 2400, 900, 0],
  liftOffMass: 12,
  propellantMass: 2.9,
  referenceArea: Math.PI * 0.051 ** 2,
  drag: { mach: [0, 0.8, 1.05, 1.6, 2.5], coefficient: [0.45, 0.47, 0.72, 0.6, 0.45] },
  siteAltitude: 800,
  temperatureOffset: 5,
}
const vacuum = { mach: [0, 1], coefficient: [0, 0] }

function flown(input: ThrustFlight): FlightHistory {
  const result = flyThrust(input)
  if (!result.ok) throw new Error(JSON.stringify(result.issues))
  return result.value
}
const highest = (values: readonly number[]): number => Math.max(...values)

test('vacuum, constant thrust: Tsiolkovsky with gravity loss to the burnout speed and height', () => {
  const [F, tb, m0, mp] = [2000, 2.5, 12, 3]
  const history = flown({
    ...flight,
    time: [0, tb],
    thrust: [F, F],
    liftOffMass: m0,
    propellantMass: mp,
    drag: vacuum,
    siteAltitude: 0,
  })
  const c = (F * tb) / mp // effective exhaust speed
  const g = gravity(0) // the height gained while burning changes g by 1e-4 only; allowed for below
  const m1 = m0 - mp
  const speed = c * Math.log(m0 / m1) - g * tb
  const height = c * tb * (1 - (m1 / mp) * Math.log(m0 / m1)) - (g * tb ** 2) / 2
  const burnout = history.time.indexOf(tb)
  expect(burnout).toBeGreaterThan(0)
  expect(history.speed[burnout] / speed).toBeCloseTo(1, 5)
  expect(history.altitude[burnout] / height).toBeCloseTo(1, 5)
  expect(highest(history.speed)).toBe(history.speed[burnout])
})

test('vacuum coast: energy in the inverse-square field is kept to apogee', () => {
  const history = flown({ ...flight, drag: vacuum })
  const r0 = 6_356_766
  const energy = (i: number): number =>
    history.speed[i] ** 2 / 2 - (gravity(0) * r0 * r0) / (r0 + history.altitude[i]) + gravity(0) * r0
  const from = history.time.indexOf(3.2)
  const apogee = history.time.length - 1
  expect(from).toBeGreaterThan(0)
  expect(energy(apogee) / energy(from)).toBeCloseTo(1, 8)
  expect(history.speed[apogee]).toBeLessThan(1e-6)
})

test('coast through air of constant density: the closed form of quadratic drag', () => {
  // The trajectory's own equation with constant density and gravity, by the same integrator and tolerance.
  const [m, rho, CdA, g, v0] = [9, 1.1, 0.004, 9.8, 420]
  const k = (0.5 * rho * CdA) / m
  const run = integrate({
    f: (_, y, dydt) => {
      dydt[0] = y[1]
      dydt[1] = -g - k * y[1] * Math.abs(y[1])
    },
    t0: 0,
    t1: 100,
    y0: [0, v0],
    events: [(_, y) => y[1]],
    ...flightTolerance,
  })
  const height = (m / (rho * CdA)) * Math.log(1 + (k * v0 * v0) / g)
  const time = Math.atan(v0 * Math.sqrt(k / g)) / Math.sqrt(k * g)
  const end = run.t.length - 1
  expect(run.kind).toBe('event')
  expect(run.y[end][0] / height).toBeCloseTo(1, 7)
  expect(run.t[end] / time).toBeCloseTo(1, 7)
})

test('drag in thin high air tends to the closed form: a light slow rocket', () => {
  // A tiny rocket that climbs some metres sees constant density; drag then follows the closed form.
  const [m1, v1] = [0.5, 40]
  const F = 4000
  const tb = (v1 * m1) / F
  const drag = { mach: [0, 1], coefficient: [0.8, 0.8] }
  const input = {
    ...flight,
    time: [0, tb],
    thrust: [F, F],
    liftOffMass: m1,
    propellantMass: 1e-9,
    drag,
    siteAltitude: 0,
  }
  const history = flown({ ...input, referenceArea: 0.01, temperatureOffset: 0 })
  const i = history.time.indexOf(tb)
  const { density } = standardAir(history.altitude[i])
  const k = (0.5 * density * 0.8 * 0.01) / m1
  const climb = Math.log(1 + (k * history.speed[i] ** 2) / gravity(0)) / (2 * k)
  expect((history.maximumAltitude.value - history.altitude[i]) / climb).toBeCloseTo(1, 2)
})

test('history agrees with itself: Mach, dynamic pressure, times rising, maxima above every sample', () => {
  const history = flown(flight)
  expect(history.time.length).toBeGreaterThan(250)
  for (let i = 0; i < history.time.length; i++) {
    if (i > 0) expect(history.time[i]).toBeGreaterThan(history.time[i - 1])
    const air = standardAir(history.altitude[i], 5)
    expect(history.mach[i]).toBeCloseTo(history.speed[i] / air.soundSpeed, 10)
    expect(history.dynamicPressure[i] / (0.5 * air.density * history.speed[i] ** 2 || 1)).toBeCloseTo(
      history.dynamicPressure[i] === 0 ? 0 : 1,
      10,
    )
  }
  expect(history.maximumMach.value).toBe(highest(history.mach))
  expect(history.maximumDynamicPressure.value).toBe(highest(history.dynamicPressure))
  expect(history.maximumMach.value).toBeGreaterThan(1)
})

test('speed is the slope of altitude', () => {
  const { time, altitude, speed } = flown(flight)
  let compared = 0
  for (let i = 1; i < time.length; i++) {
    const dt = time[i] - time[i - 1]
    if (dt > 0.05 || time[i] < 0.1) continue
    const mean = (speed[i] + speed[i - 1]) / 2
    expect(Math.abs((altitude[i] - altitude[i - 1]) / dt - mean)).toBeLessThan(1e-3 * mean + 0.02)
    compared++
  }
  expect(compared).toBeGreaterThan(50)
})

test('answers at this tolerance stand to six digits: an independent fixed-step integration agrees', () => {
  const history = flown(flight)
  const rungeKutta = fixedStepApogee(flight, 2e-4)
  expect(history.maximumAltitude.value / rungeKutta.altitude).toBeCloseTo(1, 6)
  expect(history.maximumMach.value / rungeKutta.mach).toBeCloseTo(1, 5)
})

test('trends: more drag, less height; hotter air, lower Mach; higher site, lower dynamic pressure', () => {
  const base = flown(flight)
  const draggy = flown({ ...flight, referenceArea: 1.1 * flight.referenceArea })
  const hot = flown({ ...flight, temperatureOffset: 25 })
  const high = flown({ ...flight, siteAltitude: 2000 })
  expect(draggy.maximumAltitude.value).toBeLessThan(base.maximumAltitude.value)
  expect(hot.maximumMach.value).toBeLessThan(base.maximumMach.value)
  expect(high.maximumDynamicPressure.value).toBeLessThan(base.maximumDynamicPressure.value)
})

/** Classical Runge–Kutta of fourth order with a fixed step, written out apart from the code under test. */
function fixedStepApogee(f: ThrustFlight, dt: number): { altitude: number; mach: number } {
  const interpolate = (xs: readonly number[], ys: readonly number[], x: number): number => {
    if (x <= xs[0]) return ys[0]
    for (let i = 1; i < xs.length; i++) {
      if (x <= xs[i]) return ys[i - 1] + ((ys[i] - ys[i - 1]) * (x - xs[i - 1])) / (xs[i] - xs[i - 1])
    }
    return ys[ys.length - 1]
  }
  const impulseUntil = (t: number): number => {
    let sum = 0
    for (let i = 1; i < f.time.length; i++) {
      if (t <= f.time[i - 1]) break
      const to = Math.min(t, f.time[i])
      sum += ((f.thrust[i - 1] + interpolate(f.time, f.thrust, to)) / 2) * (to - f.time[i - 1])
    }
    return sum
  }
  const total = impulseUntil(1e9)
  const slope = (t: number, h: number, v: number): number => {
    const F = t > f.time[f.time.length - 1] ? 0 : interpolate(f.time, f.thrust, t)
    const m = f.liftOffMass - (f.propellantMass * impulseUntil(t)) / total
    const { density, soundSpeed } = standardAir(h, f.temperatureOffset)
    const D = 0.5 * density * v * v * f.referenceArea * interpolate(f.drag.mach, f.drag.coefficient, v / soundSpeed)
    return (F - D) / m - gravity(h)
  }
  let [t, h, v, mach] = [0, f.siteAltitude, 0, 0]
  while (slope(t, h, 0) <= 0) t += dt / 100
  while (v >= 0) {
    const a1 = slope(t, h, v)
    const a2 = slope(t + dt / 2, h + (dt / 2) * v, v + (dt / 2) * a1)
    const a3 = slope(t + dt / 2, h + (dt / 2) * (v + (dt / 2) * a1), v + (dt / 2) * a2)
    const a4 = slope(t + dt, h + dt * (v + (dt / 2) * a2), v + dt * a3)
    h += dt * v + (dt * dt * (a1 + a2 + a3)) / 6
    v += (dt * (a1 + 2 * a2 + 2 * a3 + a4)) / 6
    t += dt
    mach = Math.max(mach, v / standardAir(h, f.temperatureOffset).soundSpeed)
  }
  return { altitude: h, mach }
}
