/** Laws of the heat transfer coefficient: powers, limits, continuity, agreement of different routes to one number. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { attachmentLine, contaminationLimit, pitotRatio } from '../../src/flight/heat/attachment-line.ts'
import { type PlateFlow, plateHeating, turbulentHalfFriction } from '../../src/flight/heat/flat-plate.ts'
import { compressed, heatCapacity, machNumber, type Stream, viscosity } from '../../src/flight/heat/stream.ts'
import { recoveryTemperature } from '../../src/flight/recovery.ts'

const stream = (M: number, temperature = 280, density = 1.1): Stream => ({
  temperature,
  density,
  speed: M * Math.sqrt(1.4 * 287.053 * temperature),
})
const plate = (flow: PlateFlow, distance: number, M = 1.5, pressureRatio = 1) =>
  plateHeating({ kind: 'plate', distance, flow, pressureRatio }, stream(M))
const edge = (M: number, radius: number, sweep: number) => attachmentLine({ kind: 'edge', radius, sweep }, stream(M))

describe('flat', () => {
  test('the turbulent recovery temperature is the one told without conduction', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 3, noNaN: true }),
        fc.double({ min: 200, max: 320, noNaN: true }),
        (M, T) => {
          const { recovery } = plateHeating({ kind: 'plate', distance: 0.1, flow: 'turbulent' }, stream(M, T))
          expect(recovery / recoveryTemperature({ temperature: T, mach: M })).toBeCloseTo(1, 6)
        },
      ),
    )
  })
  test('falls with the root of the distance when laminar, with its fifth root when turbulent', () => {
    const fall = (flow: PlateFlow): number => plate(flow, 0.08).coefficient(330) / plate(flow, 0.02).coefficient(330)
    expect(fall('laminar')).toBeCloseTo(4 ** -0.5, 12)
    expect(fall('turbulent')).toBeCloseTo(4 ** -0.2, 12)
  })
  test('goes with density to the power 0.8', () => {
    const at = (density: number): number =>
      plateHeating({ kind: 'plate', distance: 0.05, flow: 'turbulent' }, stream(1.5, 280, density)).coefficient(330)
    expect(at(1) / at(0.5)).toBeCloseTo(2 ** 0.8, 12)
  })
  test('turbulent friction has no jump and falls with Reynolds number', () => {
    const Re = Array.from({ length: 7000 }, (_, i) => 100 * 1.0025 ** i)
    const ratio = Re.slice(1).map((next, i) => turbulentHalfFriction(next) / turbulentHalfFriction(Re[i]))
    expect(Re.at(-1)).toBeGreaterThan(1e9)
    expect(Math.max(...ratio)).toBeLessThan(1)
    expect(Math.min(...ratio)).toBeGreaterThan(1.0025 ** -0.51)
  })
  test('turbulent is never below laminar; nothing at rest', () => {
    for (const x of [1e-4, 1e-2, 1]) {
      for (const M of [0.01, 0.5, 2]) {
        expect(plate('turbulent', x, M).coefficient(300)).toBeGreaterThanOrEqual(
          plate('laminar', x, M).coefficient(300) * 0.99,
        )
      }
    }
    expect(plate('turbulent', 0.1, 0).coefficient(300)).toBe(0)
    expect(edge(0, 1e-3, 0.5).coefficient(300)).toBe(0)
  })
  test('a hotter wall takes a lower coefficient', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('laminar' as const, 'turbulent' as const),
        fc.double({ min: 250, max: 500, noNaN: true }),
        (flow, Tw) => {
          expect(plate(flow, 0.1).coefficient(Tw + 20)).toBeLessThan(plate(flow, 0.1).coefficient(Tw))
        },
      ),
    )
  })
  test('compression along the streamline keeps the total temperature and p / ρ^γ', () => {
    const free = stream(1.6)
    const local = compressed(free, 1.3)
    const total = ({ temperature, speed }: Stream): number => temperature + speed ** 2 / (2 * heatCapacity)
    expect(total(local)).toBeCloseTo(total(free), 9)
    expect((local.density * local.temperature) / (free.density * free.temperature)).toBeCloseTo(1.3, 12)
    expect((local.density / free.density) ** 1.4).toBeCloseTo(1.3, 12)
    expect(plate('turbulent', 0.1, 1.6, 1.3).coefficient(330)).toBeGreaterThan(
      plate('turbulent', 0.1, 1.6).coefficient(330),
    )
  })
})

describe('leading edge', () => {
  test('unswept, the recovery temperature is the total one', () => {
    for (const M of [0.3, 1, 2, 3]) expect(edge(M, 1e-3, 0).recovery).toBeCloseTo(280 * (1 + 0.2 * M ** 2), 3)
  })
  test('laminar: falls with the root of the radius', () => {
    expect(edge(1.5, 4e-4, 0.8).coefficient(330) / edge(1.5, 1e-4, 0.8).coefficient(330)).toBeCloseTo(0.5, 12)
  })
  test('no jump where the normal flow turns supersonic', () => {
    const at = (M: number): number => edge(M, 5e-4, 0).coefficient(330)
    for (let M = 0.9; M < 1.1; M += 0.001) expect(Math.abs(at(M + 0.001) / at(M) - 1)).toBeLessThan(2e-3)
  })
  test('sweep lowers it while the line is laminar', () => {
    const h = [0, 0.3, 0.6, 0.9, 1.2].map((sweep) => edge(2, 2e-4, sweep).coefficient(330))
    for (let i = 1; i < h.length; i++) expect(h[i]).toBeLessThan(h[i - 1])
  })
  test('a blunt swept edge turns turbulent, and then lies within 10 % of the law of Poll', () => {
    const [M, R, sweep, Tw] = [2, 6e-3, 0.9, 340]
    const line = edge(M, R, sweep)
    expect(line.contamination(Tw)).toBeGreaterThan(contaminationLimit)
    expect(edge(M, 1e-4, sweep).contamination(Tw)).toBeLessThan(contaminationLimit)
    const Mn = M * Math.cos(sweep)
    const W = stream(M).speed * Math.sin(sweep)
    const Te = 280 * (1 + 0.2 * Mn ** 2)
    const Tstar = Te + 0.5 * (Tw - Te) + 0.22 * (line.recovery - Te)
    const rho = (1.1 * 280 * pitotRatio(Mn)) / Tstar
    const Rbar = W / Math.sqrt((line.gradient * viscosity(Tstar)) / rho)
    const poll = rho * W * heatCapacity * 0.0296 * Rbar ** -0.4 * 0.71 ** (-2 / 3)
    expect(Math.abs(line.coefficient(Tw) / poll - 1)).toBeLessThan(0.1)
  })
  test('pitot pressure: isentropic below Mach 1, 5.6404 at Mach 2, no jump between', () => {
    expect(pitotRatio(0.5)).toBeCloseTo(1.05 ** 3.5, 12)
    expect(pitotRatio(2)).toBeCloseTo(5.6404, 4)
    expect(pitotRatio(1 + 1e-9)).toBeCloseTo(pitotRatio(1), 8)
  })
})

test('Mach number is that of the stream', () => {
  expect(machNumber(stream(1.37))).toBeCloseTo(1.37, 5)
})
