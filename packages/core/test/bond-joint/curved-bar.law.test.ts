import { expect, test } from 'vitest'
import { curvedBarRadialStress, openingStress } from '../../src/bond/joint/curved-bar.ts'

const greatest = (inner: number, outer: number, M = 1): number => {
  let most = 0
  for (let k = 0; k <= 2000; k++)
    most = Math.max(most, curvedBarRadialStress({ M, inner, outer }, inner + ((outer - inner) * k) / 2000))
  return most
}

test('no traction on the faces, tension between them', () => {
  const bar = { M: 1, inner: 10, outer: 12 }
  expect(curvedBarRadialStress(bar, 10)).toBeCloseTo(0, 12)
  expect(curvedBarRadialStress(bar, 12)).toBeCloseTo(0, 12)
  expect(curvedBarRadialStress(bar, 11)).toBeGreaterThan(0)
  expect(curvedBarRadialStress({ ...bar, M: -1 }, 11)).toBeLessThan(0)
})

/** 3M/2Rt is low by 0.13 %, 0.5 %, 7 % at t/R of 0.095, 0.18, 0.67. */
test.each([
  [10, 11, 0.002],
  [10, 12, 0.005],
  [1, 2, 0.07],
])('the thin form lies just below the exact one: %d to %d', (inner, outer, most) => {
  const thin = openingStress({ M: 1, R: (inner + outer) / 2, t: outer - inner })
  const exact = greatest(inner, outer)
  expect(exact).toBeGreaterThan(thin)
  expect(exact / thin - 1).toBeLessThan(most)
})

test('the error of the thin form falls with the square of its thickness', () => {
  const error = (t: number) => greatest(10 - t / 2, 10 + t / 2) / openingStress({ M: 1, R: 10, t }) - 1
  expect(Math.log2(error(2) / error(1))).toBeCloseTo(2, 1)
})
