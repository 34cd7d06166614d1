/** NAFEMS, The Standard NAFEMS Benchmarks (1990), Test FV16: thin square cantilever, 10 m × 10 m × 0.05 m. */
import { expect, test } from 'vitest'
import { expectPublished } from '../evidence.ts'
import { sheetModes } from '../plate-cases.ts'

const sheet = { E: 200e9, nu: 0.3, t: 0.05, rho: 8000 }
const side = 10

const frequencies = (size: number, given = sheet): number[] =>
  sheetModes({
    outline: [
      [0, 0],
      [side, 0],
      [side, side],
      [0, side],
    ],
    sheet: given,
    size,
    count: 6,
  }).map((omega) => omega / (2 * Math.PI))

const target = ['0.421', '1.029', '2.582', '3.306', '3.753', '6.555']
const converged = ['0.418', '1.024', '2.563', '3.275', '3.728', '6.525']
const fine = frequencies(0.8)

test('agrees with the printed target', () => {
  target.forEach((printed, i) => {
    expectPublished({
      source: 'nafems-fv16',
      quantity: `mode ${i + 1}, Hz`,
      printed,
      computed: fine[i],
      methodError: 0.015,
      why: 'The printed values come from a Ritz solution with few beam functions, which is 0.5 to 1 % high.',
    })
  })
})

test('agrees with the converged values', () => {
  converged.forEach((printed, i) => {
    expectPublished({
      source: 'nafems-fv16',
      quantity: `mode ${i + 1} against converged Ritz, Hz`,
      printed,
      computed: fine[i],
      methodError: 0.003,
    })
  })
})

test('eight triangles on a side do already', () => {
  frequencies(side / 8).forEach((f, i) => {
    expect(Math.abs(f / fine[i] - 1)).toBeLessThan(0.002)
  })
})

test('has teeth: one per cent on thickness is noticed', () => {
  const thicker = frequencies(0.8, { ...sheet, t: 1.01 * sheet.t })
  const off = converged.filter((printed, i) => Math.abs(thicker[i] / Number(printed) - 1) > 0.006)
  expect(off.length).toBe(6)
})
