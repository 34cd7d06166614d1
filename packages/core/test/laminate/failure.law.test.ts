import fc from 'fast-check'
import { expect, test } from 'vitest'
import { laminateCompliance, strainUnder } from '../../src/laminate/compliance.ts'
import { type Criterion, indexOfQuadratic } from '../../src/laminate/failure/criterion.ts'
import { hashin } from '../../src/laminate/failure/hashin.ts'
import { maximumStrain } from '../../src/laminate/failure/maximum-strain.ts'
import { maximumStress } from '../../src/laminate/failure/maximum-stress.ts'
import { tsaiHill, tsaiHillSigned } from '../../src/laminate/failure/tsai-hill.ts'
import { tsaiWu } from '../../src/laminate/failure/tsai-wu.ts'
import { firstPlyFailure, plyFailures } from '../../src/laminate/first-ply.ts'
import { lastPlyFailure } from '../../src/laminate/last-ply.ts'
import { laminateStiffness } from '../../src/laminate/stiffness.ts'

const lamina = { E1: 20e9, E2: 18e9, G12: 3e9, nu12: 0.13, G13: 2e9, G23: 2e9 }
const strengths = { Xt: 330e6, Xc: 300e6, Yt: 310e6, Yc: 280e6, S: 50e6 }
const criteria: readonly Criterion[] = [maximumStress, maximumStrain, tsaiHill, tsaiHillSigned, tsaiWu, hashin]
const index = (criterion: Criterion, s1: number, s2: number, t12: number) =>
  criterion.evaluate({ stress: { s1, s2, t12 }, strengths, lamina })

test.each(criteria)('$name: twice the stress, twice the index; the sign of shear does not matter', (criterion) => {
  const stress = fc.double({ min: -500e6, max: 500e6, noNaN: true })
  fc.assert(
    fc.property(stress, stress, stress, fc.double({ min: 0.1, max: 10, noNaN: true }), (s1, s2, t12, k) => {
      const one = index(criterion, s1, s2, t12).index
      expect(index(criterion, k * s1, k * s2, k * t12).index).toBeCloseTo(k * one, 6)
      expect(index(criterion, s1, s2, -t12).index).toBe(one)
      expect(one).toBeGreaterThanOrEqual(0)
    }),
  )
})

test.each(criteria)('$name: 1 at each strength alone', (criterion) => {
  const { Xt, Xc, Yt, Yc, S } = strengths
  expect(index(criterion, Xt, 0, 0).index).toBeCloseTo(1, 9)
  expect(index(criterion, 0, Yt, 0).index).toBeCloseTo(1, 9)
  expect(index(criterion, 0, 0, S).index).toBeCloseTo(1, 9)
  // The plain Tsai-Hill judges compression by the tensile strengths, and says so in its name.
  if (criterion === tsaiHill) return
  expect(index(criterion, -Xc, 0, 0).index).toBeCloseTo(1, 9)
  expect(index(criterion, 0, -Yc, 0).index).toBeCloseTo(1, 9)
})

test('maximum stress names the mode', () => {
  expect(index(maximumStress, 100e6, 0, 0).mode).toBe('tension along')
  expect(index(maximumStress, -100e6, 0, 0).mode).toBe('compression along')
  expect(index(maximumStress, 10e6, 100e6, 0).mode).toBe('tension across')
  expect(index(maximumStress, 10e6, -100e6, 0).mode).toBe('compression across')
  expect(index(maximumStress, 100e6, 0, 40e6).mode).toBe('shear')
})

test('the index of a quadratic keeps its digits where terms nearly cancel', () => {
  // x² − b x − a = 0 with a tiny a and a large negative b: x ≈ a / |b|.
  expect(indexOfQuadratic(1e-20, -1)).toBeCloseTo(1e-20, 30)
  expect(indexOfQuadratic(0, -1)).toBe(0)
  expect(indexOfQuadratic(0, 0)).toBe(0)
})

const layer = (name: string, deg: number, given: typeof strengths | null = strengths) => ({
  name,
  lamina,
  theta: (deg * Math.PI) / 180,
  t: 0.5e-3,
  density: 1600,
  strengths: given,
})
const stateOf = (layers: ReturnType<typeof layer>[], M: number[]) =>
  strainUnder(laminateCompliance(laminateStiffness({ layers })), { N: [0, 0, 0], M })

test('a bent strip fails on its compressed face, which is the weaker one', () => {
  const layers = [layer('a', 0), layer('b', 0), layer('c', 0)]
  const section = { layers, reference: 0.75e-3 }
  const failure = firstPlyFailure(section, stateOf(layers, [10, 0, 0]), maximumStress)!
  expect(failure).toMatchObject({ layer: 'a', face: 'bottom', mode: 'compression along', z: -0.75e-3 })
  // σ = 6 M / h²
  expect(failure.index).toBeCloseTo((6 * 10) / 1.5e-3 ** 2 / 300e6, 6)
})

test('a layer without strengths is passed over; none at all gives no answer', () => {
  const layers = [layer('veil', 0, null), layer('b', 0), layer('c', 0)]
  const state = stateOf(layers, [10, 0, 0])
  const section = { layers, reference: 0.75e-3 }
  expect(plyFailures(section, state, maximumStress).map(({ layer }) => layer)).toEqual(['b', 'c'])
  const veils = [layer('veil', 0, null)]
  expect(firstPlyFailure({ layers: veils, reference: 0 }, state, tsaiWu)).toBeNull()
  expect(lastPlyFailure(veils, { N: [1, 0, 0], M: [0, 0, 0] }, tsaiWu)).toBeNull()
})

test('the last ply never fails before the first, and every ply fails in its turn', () => {
  const layers = [layer('a', 0), layer('b', 45), layer('c', 90), layer('d', 45), layer('e', 0)]
  const { failures, firstPlyFactor, lastPlyFactor } = lastPlyFailure(
    layers,
    { N: [1, 0, 0], M: [0, 0, 0] },
    maximumStress,
  )!
  expect(lastPlyFactor).toBeGreaterThanOrEqual(firstPlyFactor)
  expect(failures.map(({ position }) => position).sort()).toEqual([0, 1, 2, 3, 4])
})
