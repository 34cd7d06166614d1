/** NIST cryogenic material properties, G-10 CR and 6061-T6; Wood Handbook, eq. 4-15; see source.md. */
import { expect, test } from 'vitest'
import { eGlass } from '../../src/material/fibres.data.ts'
import { laminateThermal, sheetThermal } from '../../src/material/thermal.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'nist-cryogenic-materials'
const rows = [
  ['g10', 'conductivity', [-4.1236, 13.788, -26.068, 26.272, -14.663, 4.4954, -0.6905, 0.0397], '0.608'],
  ['g10', 'specificHeat', [-2.4083, 7.6006, -8.2982, 7.3301, -4.2386, 1.4294, -0.24396, 0.015236], '999'],
  [
    'aluminium-6061-t6',
    'conductivity',
    [0.07918, 1.0957, -0.07277, 0.08084, 0.02803, -0.09464, 0.04179, -0.00571],
    '155',
  ],
  [
    'aluminium-6061-t6',
    'specificHeat',
    [46.6467, -314.292, 866.662, -1298.3, 1162.27, -637.795, 210.351, -38.3094, 2.96344],
    '954',
  ],
] as const

const printedAt = (coefficients: readonly number[], T: number): number =>
  10 ** coefficients.reduce((sum, c, i) => sum + c * Math.log10(T) ** i, 0)

test.each(rows)('%s: %s is the printed polynomial at 300 K', (id, property, coefficients, printed) => {
  expectPublished({
    source,
    quantity: `${id}, ${property}, SI`,
    printed,
    computed: sheetThermal({ id })[property].value,
  })
  expect(agrees(printedAt(coefficients, 300), published(printed))).toBe(true)
  expect(agrees(printedAt(coefficients, 285), published(printed))).toBe(false)
})

/** 70 % glass by mass. */
const Vf = 0.7 / 2580 / (0.7 / 2580 + 0.3 / 1150)
const laminate = (fibreFraction: number) => laminateThermal({ fibre: eGlass, resinDensity: 1150, fibreFraction })

test('the rule for laminates comes near G-10, its bounds enclose it', () => {
  const { conductivity, conductivityRange } = laminate(Vf)
  expectPublished({
    source,
    quantity: 'glass/epoxy by the rule, conductivity, W/(m K)',
    printed: '0.608',
    computed: conductivity.value,
    methodError: 0.1,
    why: "the source's fit is good to 5 % and G-10's glass content is recalled",
  })
  expect(conductivityRange.low).toBeLessThan(0.608)
  expect(conductivityRange.high).toBeGreaterThan(0.608)
  expect(agrees(laminate(Vf - 0.05).conductivity.value, published('0.608'), 0.1)).toBe(false)
})

test('birch plywood by eq. 4-15', () => {
  const k = (G: number): number => G * (0.1941 + 0.004064 * 10) + 0.01864
  expectPublished({ source, quantity: 'birch, G 0.62 at 10 %, W/(m K)', printed: '0.164', computed: k(0.62) })
  expect(sheetThermal({ id: 'birch-plywood' }).conductivity.value).toBe(0.164)
  expect(agrees(k(0.65), published('0.164'))).toBe(false)
})
