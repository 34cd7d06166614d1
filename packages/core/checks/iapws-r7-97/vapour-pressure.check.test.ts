import { expect, test } from 'vitest'
import { saturationPressure } from '../../src/resin/dew-point.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'iapws-r7-97'
/** Of the Magnus formula between −45 and 60 °C, WMO-No. 8. */
const methodError = 0.006

const rows = [
  { at: '273.16 K', T: 273.16, printed: '611.657', unit: 'Pa', pascals: 1 },
  { at: '300 K', T: 300, printed: '0.353658941e-2', unit: 'MPa', pascals: 1e6 },
] as const

test.each(rows)('saturation pressure of water at $at', ({ at, T, printed, unit, pascals }) => {
  expectPublished({
    source,
    quantity: `saturation pressure of water at ${at}, ${unit}`,
    printed,
    computed: saturationPressure(T) / pascals,
    methodError,
  })
})

test.each(rows)('has teeth: a quarter of a kelvin at $at is noticed', ({ T, printed, pascals }) => {
  expect(agrees(saturationPressure(T - 0.25) / pascals, published(printed), methodError)).toBe(false)
})
