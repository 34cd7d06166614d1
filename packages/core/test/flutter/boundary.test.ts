/** The boundary over a flight: points, methods, margins and what is said where nothing can be. */
import { describe, expect, test } from 'vitest'
import type { FlightHistory } from '../../src/flight/history.ts'
import { flyHistory } from '../../src/flight/import.ts'
import { flightPoints, statePoints } from '../../src/flutter/air-points.ts'
import { flutterBoundary, requiredSpeedRatio } from '../../src/flutter/boundary.ts'
import { type AerodynamicMethod, quasiSteadyForces } from '../../src/flutter/forces.ts'
import { pistonTheory } from '../../src/flutter/piston.ts'
import { screenFin } from '../../src/flutter/screening.ts'
import { rectangle, sampled, sineMode } from './panels.ts'

/** Up to Mach 2.6 in thick air in 4 s, then slowing down while it climbs. */
function flown(fastest: number): FlightHistory {
  const result = flyHistory({
    kind: 'history',
    time: [0, 4, 40],
    altitude: [0, 1500, 14000],
    speed: [0, fastest, 0],
    temperatureOffset: 0,
  })
  if (!result.ok) throw new Error('no flight')
  return result.value
}

const panel = { a: 0.3, b: 0.3, D: 400, mass: 8 }
const mesh = rectangle(panel.a, panel.b, 16, 16)
const modes = [1, 2, 3, 4, 5, 6, 7, 8].map((m) => sineMode(panel, m))
const shapes = modes.map(({ w }) => sampled(mesh, w))
const omegas = modes.map(({ omega }) => omega)
const piston = pistonTheory({ mesh, shapes, flowDirection: 0, faces: 2, order: 1, slopes: [] })
/** Stands in for a later subsonic method. */
const elsewhere: AerodynamicMethod = {
  name: 'made for this test',
  machRange: { from: 0, to: 2 },
  forces: (mach) => {
    const { A0, A1 } = piston.forces(3).at(0)
    return quasiSteadyForces(omegas.length, 0.15, { A0: A0.map((v) => v * (1 + mach)), A1 })
  },
  warnings: () => [],
}
const base = { omegas, structuralDamping: 0.02 }

describe('points along a flight', () => {
  const history = flown(850)
  const points = flightPoints(history)
  test('at least twelve Mach numbers up to the highest, Mach 2 among them, each passage a point', () => {
    const levels = [...new Set(points.map(({ mach }) => mach))]
    expect(levels.length).toBeGreaterThanOrEqual(12)
    expect(Math.max(...levels)).toBeCloseTo(history.maximumMach.value, 12)
    expect(levels).toContain(2)
    for (const level of levels.filter((mach) => mach < history.maximumMach.value * 0.999)) {
      const passages = points.filter(({ mach }) => mach === level)
      expect(passages.length).toBe(2)
      expect(passages[0].density).toBeGreaterThan(passages[1].density)
    }
  })
  test('their air is that of the flight at their time', () => {
    for (const { mach, speed, soundSpeed, density, altitude } of points) {
      expect(speed / (mach * soundSpeed)).toBeCloseTo(1, 9)
      expect(density).toBeLessThan(1.226)
      expect(altitude).toBeGreaterThanOrEqual(0)
    }
  })
  test('the greatest dynamic pressure is one of them', () => {
    const q = Math.max(...points.map(({ density, speed }) => 0.5 * density * speed ** 2))
    expect(q / history.maximumDynamicPressure.value).toBeCloseTo(1, 4)
  })
})

test('below Mach 2 piston theory does not answer and nothing passes', () => {
  const result = flutterBoundary({ ...base, methods: [piston], points: flightPoints(flown(520)) })
  expect(result.boundary.length).toBeGreaterThanOrEqual(12)
  for (const entry of [...result.boundary, ...result.divergence]) {
    expect(entry).toMatchObject({ speed: null, dynamicPressure: null, frequency: null, method: 'not determined' })
  }
  expect(result.margin).toMatchObject({ speedRatio: null, verdict: 'not determined', at: null, determined: null })
  expect(result.warnings.map(({ code }) => code)).toEqual(['flutter/not-determined'])
})

test('a flight through Mach 2 is determined above it only; the verdict stays open', () => {
  const result = flutterBoundary({ ...base, methods: [piston], points: flightPoints(flown(850)) })
  for (const { point, method, speed } of result.boundary) {
    expect(method).toBe(point.mach < 2 ? 'not determined' : 'piston theory, first order')
    expect(speed === null).toBe(point.mach < 2)
  }
  expect(result.boundary.some(({ speed }) => speed !== null)).toBe(true)
  expect(result.margin.verdict).toBe('not determined')
  expect(result.margin.speedRatio).toBeNull()
  expect(result.margin.determined?.at.mach).toBeGreaterThanOrEqual(2)
})

test('a fin that flutters where it could be computed is told so while the verdict is open', () => {
  const soft = omegas.map((omega) => omega / 4)
  const result = flutterBoundary({ ...base, omegas: soft, methods: [piston], points: flightPoints(flown(850)) })
  expect(result.margin.verdict).toBe('not determined')
  expect(result.warnings.map(({ code }) => code)).toContain('flutter/unstable-where-determined')
})

test('with methods for every Mach number the margin is the least ratio and the verdict follows from it', () => {
  const points = flightPoints(flown(850))
  const stiff = flutterBoundary({ ...base, methods: [elsewhere, piston], points })
  const { margin, boundary } = stiff
  const ratios = boundary.map(({ speed, point }) => (speed ?? 0) / point.speed)
  expect(margin.speedRatio).toBeCloseTo(Math.min(...ratios), 9)
  expect(margin.verdict).toBe((margin.speedRatio ?? 0) >= requiredSpeedRatio ? 'holds' : 'does not hold')
  expect(margin.at?.time).toBeGreaterThan(0)
  const harder = flutterBoundary({ ...base, methods: [elsewhere, piston], points, requiredRatio: 1e3 })
  expect(harder.margin.verdict).toBe('does not hold')
  expect(stiff.warnings).toEqual([])
  // Mach numbers up, methods in order of preference: the first that answers.
  expect(boundary.find(({ point }) => point.mach === 2)?.method).toBe('made for this test')
  expect(boundary.map(({ point }) => point.mach)).toEqual(boundary.map(({ point }) => point.mach).sort((a, b) => a - b))
})

test('states given one by one: one entry each, speed by the density given', () => {
  const states = [
    { mach: 3, density: 0.4, soundSpeed: 300 },
    { mach: 4, density: 0.1, soundSpeed: 300 },
  ]
  const undamped = pistonTheory({
    mesh,
    shapes,
    flowDirection: 0,
    faces: 1,
    order: 1,
    slopes: [],
    aerodynamicDamping: false,
  })
  const result = flutterBoundary({ omegas, structuralDamping: 0, methods: [undamped], points: statePoints(states) })
  expect(result.boundary.length).toBe(2)
  for (const [i, { speed, dynamicPressure, frequency, point }] of result.boundary.entries()) {
    const lambda = (2 * (dynamicPressure ?? 0) * panel.a ** 3) / (Math.sqrt(point.mach ** 2 - 1) * panel.D)
    expect(lambda / 512.65).toBeCloseTo(1, 1)
    expect(dynamicPressure).toBeCloseTo(0.5 * states[i].density * (speed ?? 0) ** 2, 6)
    expect(frequency).toBeGreaterThan(omegas[0] / (2 * Math.PI))
    expect(frequency).toBeLessThan(omegas[1] / (2 * Math.PI))
  }
  expect(result.margin.at?.time).toBeNull()
  expect(result.divergence.every(({ outcome }) => outcome === 'none below')).toBe(true)
})

test('states of one Mach number and different density stay apart, in their order', () => {
  const states = [0.8, 0.2, 0.4].map((density) => ({ mach: 3, density, soundSpeed: 320 }))
  const { boundary, margin } = flutterBoundary({ ...base, methods: [piston], points: statePoints(states) })
  expect(boundary.map(({ point }) => point.density)).toEqual([0.8, 0.2, 0.4])
  const speeds = boundary.map(({ speed }) => speed ?? 0)
  expect(speeds[1]).toBeGreaterThan(speeds[2])
  expect(speeds[2]).toBeGreaterThan(speeds[0])
  expect(margin.at?.density).toBe(0.8)
})

test('flutter above the highest reduced frequency computed is told', () => {
  const short: AerodynamicMethod = {
    ...piston,
    forces: (mach) => ({ ...piston.forces(mach), quasiSteady: false, highestReducedFrequency: 1e-3 }),
  }
  const points = statePoints([{ mach: 3, density: 1, soundSpeed: 340 }])
  const result = flutterBoundary({ ...base, methods: [short], points })
  expect(result.warnings.map(({ code }) => code)).toEqual(['flutter/beyond-reduced-frequency'])
  const plain = flutterBoundary({ ...base, methods: [piston], points })
  expect((result.boundary[0].speed ?? 0) / (plain.boundary[0].speed ?? 1)).toBeCloseTo(1, 5)
})

test('a plate that nothing holds has no boundary, and says so', () => {
  const result = flutterBoundary({
    ...base,
    omegas: [0, ...omegas.slice(1)],
    methods: [piston],
    points: statePoints([{ mach: 3, density: 1, soundSpeed: 340 }]),
  })
  expect(result.boundary.map(({ outcome }) => outcome)).toEqual(['not determined'])
  expect(result.warnings.map(({ code }) => code)).toEqual(['flutter/free-body'])
})

test('imposed frequencies in any order', () => {
  const points = statePoints([{ mach: 3, density: 1, soundSpeed: 340 }])
  const order = [3, 0, 1, 2, 7, 6, 5, 4]
  const turned = pistonTheory({
    ...{ mesh, flowDirection: 0, faces: 2, order: 1, slopes: [] },
    shapes: order.map((i) => shapes[i]),
  })
  const plain = flutterBoundary({ ...base, methods: [piston], points }).boundary[0].speed ?? 0
  const other = flutterBoundary({ ...base, omegas: order.map((i) => omegas[i]), methods: [turned], points })
  expect((other.boundary[0].speed ?? 0) / plain).toBeCloseTo(1, 6)
})

test('no points: nothing determined', () => {
  const result = flutterBoundary({ ...base, methods: [piston], points: [] })
  expect(result).toMatchObject({ boundary: [], margin: { speedRatio: null, verdict: 'not determined' } })
})

test('screening: labelled, at the greatest dynamic pressure, with its constant', () => {
  const points = flightPoints(flown(520))
  const fin = { torsionalStiffness: 6, area: 0.0231, span: 0.11, taper: 0.4, thickness: 4e-3 }
  const screening = screenFin(fin, points)
  if (screening === null) throw new Error('none')
  const q = ({ density, speed }: (typeof points)[number]): number => 0.5 * density * speed ** 2
  expect(q(screening.at)).toBe(Math.max(...points.map(q)))
  expect(screening.label).toContain('screening')
  expect(screening.speedRatio).toBeCloseTo(screening.speed / screening.at.speed, 12)
  expect(screening.constant).toBeCloseTo(135.5e3, -2)
  expect(screening.speed / screening.printedLineSpeed).toBeCloseTo(Math.SQRT2, 12)
  expect(screening.source).toContain('TN 4197')
  expect(screenFin(fin, [])).toBeNull()
})
