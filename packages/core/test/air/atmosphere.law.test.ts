import { expect, test } from 'vitest'
import { atmosphereCeiling, gravity, standardAir } from '../../src/air/atmosphere.ts'

const altitudes = Array.from({ length: 180 }, (_, i) => -500 + i * 480)

test('obeys the gas law and the hydrostatic equation within every layer', () => {
  for (const z of altitudes) {
    const step = 5
    const { pressure, density, temperature } = standardAir(z)
    const slope = (standardAir(z + step).pressure - standardAir(z - step).pressure) / (2 * step)
    expect(slope / (-density * gravity(z))).toBeCloseTo(1, 4)
    expect((density * (8314.32 / 28.9644) * temperature) / pressure).toBeCloseTo(1, 12)
  }
})

test('is continuous across the bases of the layers', () => {
  const r0 = 6_356_766
  for (const H of [11_000, 20_000, 32_000, 47_000, 51_000, 71_000, 84_852.05]) {
    const z = (r0 * H) / (r0 - H)
    const [below, above] = [standardAir(z - 1e-3), standardAir(z + 1e-3)]
    expect(above.pressure / below.pressure).toBeCloseTo(1, 6)
    expect(above.temperature / below.temperature).toBeCloseTo(1, 6)
  }
})

test('a temperature offset keeps the pressure and thins the air by the gas law', () => {
  for (const z of [0, 3_000, 12_000]) {
    const [cold, warm] = [standardAir(z), standardAir(z, 15)]
    expect(warm.pressure).toBe(cold.pressure)
    expect(warm.temperature - cold.temperature).toBeCloseTo(15, 9)
    expect((warm.density * warm.temperature) / (cold.density * cold.temperature)).toBeCloseTo(1, 12)
    expect(warm.soundSpeed / cold.soundSpeed).toBeCloseTo(Math.sqrt(warm.temperature / cold.temperature), 12)
  }
})

test('pressure falls all the way up and on beyond the ceiling', () => {
  let last = Number.POSITIVE_INFINITY
  for (let z = -1000; z < 2 * atmosphereCeiling; z += 250) {
    const { pressure } = standardAir(z)
    expect(pressure).toBeGreaterThan(0)
    expect(pressure).toBeLessThan(last)
    last = pressure
  }
})
