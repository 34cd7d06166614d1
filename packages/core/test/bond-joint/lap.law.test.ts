/** What the closed forms of lap joints must satisfy: equilibrium, their own differential equations, limits. */
import { expect, test } from 'vitest'
import { golandReissner, volkersenShear } from '../../src/bond/joint/lap.ts'

/** Simpson's rule with n even intervals. */
function integral(f: (x: number) => number, a: number, b: number, n = 2000): number {
  const step = (b - a) / n
  let sum = f(a) + f(b)
  for (let k = 1; k < n; k++) sum += (k % 2 === 1 ? 4 : 2) * f(a + k * step)
  return (sum * step) / 3
}

const lap = { P: 1e5, L: 12.5e-3, E: 70e9, nu: 0.33, t: 1.6e-3, Ea: 3e9, Ga: 1.1e9, ta: 0.2e-3 }

test('shear carries the load, like and unlike adherends', () => {
  for (const second of [1, 0.3, 4]) {
    const { at } = volkersenShear({ P: 1e5, L: 12.5e-3, G: 1.1e9, ta: 0.2e-3, Et: [1.12e8, second * 1.12e8] })
    expect(integral(at, -6.25e-3, 6.25e-3) / 1e5).toBeCloseTo(1, 9)
  }
  const { shear } = golandReissner(lap)
  expect(integral(shear, -lap.L / 2, lap.L / 2) / lap.P).toBeCloseTo(1, 9)
})

test('the greater shear stands where the softer adherend is loaded', () => {
  const { at } = volkersenShear({ P: 1e5, L: 12.5e-3, G: 1.1e9, ta: 0.2e-3, Et: [1e8, 2e8] })
  expect(at(-6.25e-3)).toBeGreaterThan(at(6.25e-3))
})

test('peel balances the transverse force and answers to the moment at the ends', () => {
  const { peel, k, kPrime } = golandReissner(lap)
  const { P, L, E, t, Ea, ta } = lap
  const [p, c] = [P / t, L / 2]
  expect(integral(peel, 0, c) / ((kPrime * p * t ** 2) / (2 * c))).toBeCloseTo(1, 6)
  const step = c / 400
  const second = (x: number) => (peel(x + step) - 2 * peel(x) + peel(x - step)) / step ** 2
  const asked = ((Ea / ta) * (12 / (E * t ** 3)) * k * p * t ** 2) / 2
  expect(second(c) / asked).toBeCloseTo(1, 3)
})

test('σ⁗ = −24 Ea σ / (E ta t³)', () => {
  const { peel } = golandReissner(lap)
  const { L, E, t, Ea, ta } = lap
  const step = L / 200
  for (const x of [0, 0.2 * L, 0.4 * L]) {
    const fourth =
      (peel(x + 2 * step) - 4 * peel(x + step) + 6 * peel(x) - 4 * peel(x - step) + peel(x - 2 * step)) / step ** 4
    const asked = (-24 * Ea * peel(x)) / (E * ta * t ** 3)
    expect(Math.abs(fourth - asked)).toBeLessThan(1e-2 * ((24 * Ea * peel(L / 2)) / (E * ta * t ** 3)))
  }
})

test('a light load bends nothing, a long lap under a heavy one hinges: k from 1 to 1 / (1 + 2√2)', () => {
  expect(golandReissner({ ...lap, P: 1e-6 }).k).toBeCloseTo(1, 5)
  expect(golandReissner({ ...lap, P: 1e7, L: 0.2 }).k).toBeCloseTo(1 / (1 + 2 * Math.SQRT2), 9)
})
