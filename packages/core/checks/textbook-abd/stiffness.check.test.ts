/** A, B, D of ten 0° plies under ten 45° plies, and the blocks of the inverse. Printed in GPa, MN/m, kN, N·m. */
import { expect, test } from 'vitest'
import { laminateCompliance } from '../../src/laminate/compliance.ts'
import { reducedStiffness, rotatedStiffness } from '../../src/laminate/lamina.ts'
import { laminateStiffness } from '../../src/laminate/stiffness.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const lamina = { E1: 148e9, E2: 9.65e9, G12: 4.55e9, nu12: 0.3, G13: 4.55e9, G23: 4.55e9 }
const degrees = [...Array(10).fill(0), ...Array(10).fill(45)] as number[]
const stiffness = (t = 0.1e-3) =>
  laminateStiffness({ layers: degrees.map((deg) => ({ lamina, theta: (deg * Math.PI) / 180, t })) })

const at = { 11: 0, 12: 1, 16: 2, 22: 4, 26: 5, 66: 8 } as const
type Row = readonly [keyof typeof at, string]
const check = (name: string, M: Float64Array, unit: number, rows: readonly Row[]) => {
  for (const [entry, printed] of rows)
    expectPublished({
      source: 'textbook-abd',
      quantity: `${name}, entry ${entry}`,
      printed,
      computed: M[at[entry]] / unit,
    })
}

test('lamina', () => {
  check('Q, GPa', reducedStiffness(lamina), 1e9, [
    [11, '148.87'],
    [12, '2.91'],
    [22, '9.71'],
    [66, '4.55'],
  ])
  check('Q̄ at 45°, GPa', rotatedStiffness(lamina, Math.PI / 4), 1e9, [
    [11, '45.65'],
    [12, '36.55'],
    [16, '34.79'],
    [66, '38.19'],
  ])
})

test('laminate', () => {
  const { A, B, D } = stiffness()
  check('A, MN/m', A, 1e6, [
    [11, '194.52'],
    [12, '39.46'],
    [16, '34.79'],
    [22, '55.36'],
    [66, '42.74'],
  ])
  check('B, kN', B, 1e3, [
    [11, '-51.61'],
    [12, '16.82'],
    [22, '17.97'],
    [16, '17.40'],
    [26, '17.40'],
    [66, '16.82'],
  ])
  check('D, N·m', D, 1, [
    [11, '64.84'],
    [12, '13.15'],
    [16, '11.60'],
    [22, '18.45'],
    [66, '14.25'],
  ])
})

test('inverse of a laminate that couples', () => {
  const { a, b, d } = laminateCompliance(stiffness())
  check('a, 1e-9 m/N', a, 1e-9, [
    [11, '13.44'],
    [12, '-4.85'],
    [16, '-7.14'],
    [22, '41.81'],
    [26, '-21.23'],
    [66, '64.95'],
  ])
  check('b, 1e-6/N', b, 1e-6, [
    [11, '17.07'],
    [12, '-6.01'],
    [16, '-11.06'],
    [22, '-5.04'],
    [26, '-11.06'],
    [66, '-24.05'],
  ])
  check('d, 1e-3/(N·m)', d, 1e-3, [
    [11, '40.32'],
    [12, '-14.56'],
    [16, '-21.41'],
    [22, '125.42'],
    [26, '-63.68'],
    [66, '194.86'],
  ])
})

test('has teeth: one per cent on the ply thickness is noticed', () => {
  const { A, B, D } = stiffness(0.101e-3)
  expect(agrees(A[0] / 1e6, published('194.52'))).toBe(false)
  expect(agrees(B[0] / 1e3, published('-51.61'))).toBe(false)
  expect(agrees(D[0], published('64.84'))).toBe(false)
})
