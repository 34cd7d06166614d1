import { describe, expect, test } from 'vitest'
import { parseQuantity } from '../../src/quantity/parse.ts'
import type { QuantityName } from '../../src/quantity/quantities.data.ts'

const value = (text: unknown, quantity: QuantityName): number => {
  const read = parseQuantity(text, quantity)
  if (!read.ok) throw new Error(`${String(text)}: ${read.problem.code} ${read.problem.reason}`)
  return read.value
}

/** Arithmetic written out from the exact definitions: in 0.0254 m, lb 0.45359237 kg, standard gravity 9.80665 m/s². */
const readings = [
  ['0.75 in', 'length', 0.01905],
  ['3/4 in', 'length', 0.01905],
  ['¾ in', 'length', 0.01905],
  ['1 ½ in', 'length', 0.0381],
  ['1½"', 'length', 0.0381],
  ['1-1/2 in', 'length', 0.0381],
  ['1 1/2 inches', 'length', 0.0381],
  [`1' 2 1/4"`, 'length', 14.25 * 0.0254],
  ['1′ 2 1/4″', 'length', 14.25 * 0.0254],
  [`5'-6"`, 'length', 66 * 0.0254],
  ['5 ft 6 in', 'length', 66 * 0.0254],
  ['5ft6in', 'length', 66 * 0.0254],
  ['-0.5 mm', 'length', -0.0005],
  ['−0.5 mm', 'length', -0.0005],
  ['.125in', 'length', 0.003175],
  ['12 thou', 'length', 0.0003048],
  ['250 µm', 'length', 0.00025],
  ['2 yd', 'length', 1.8288],
  ['1.2e3 mm', 'length', 1.2],
  ['1 in^2', 'area', 0.00064516],
  ['12 cm²', 'area', 0.0012],
  ['250 g/m2', 'arealMass', 0.25],
  ['250 g/m²', 'arealMass', 0.25],
  ['250 gsm', 'arealMass', 0.25],
  ['7.5 oz/yd^2', 'arealMass', 0.2542931060616172],
  ['1 psi', 'pressure', 6894.757293168361],
  ['12 ksi', 'pressure', 82737087.51802033],
  ['2.7 Msi', 'pressure', 18615844691.554577],
  ['18.6 GPa', 'pressure', 18.6e9],
  ['5 N/mm2', 'pressure', 5e6],
  ['35 lbf', 'force', 155.6877565341175],
  ['0.098 lb/in^3', 'density', 2712.630661599906],
  ['1.15 g/cm3', 'density', 1150],
  ['1 slug/ft^3', 'density', 515.3788183931962],
  ['24 lb 8 oz', 'mass', 24.5 * 0.45359237],
  ['1 h 30 min', 'time', 5400],
  ['20 degC', 'temperature', 293.15],
  ['20 °C', 'temperature', 293.15],
  ['20 deg C', 'temperature', 293.15],
  ['68 degF', 'temperature', 293.15],
  ['-40 F', 'temperature', 233.15],
  ['20 degC', 'temperatureInterval', 20],
  ['36 degF', 'temperatureInterval', 20],
  ['45 deg', 'angle', Math.PI / 4],
  ['45°', 'angle', Math.PI / 4],
  ['180 deg/s', 'angularRate', Math.PI],
  ['1116 ft/s', 'speed', 340.1568],
  ['55 kJ/mol', 'molarEnergy', 55000],
  ['100:28', 'ratio', 100 / 28],
  ['3 : 1', 'ratio', 3],
  ['30 %', 'fraction', 0.3],
  [0.3, 'fraction', 0.3],
  [4, 'count', 4],
] as const satisfies readonly (readonly [unknown, QuantityName, number])[]

describe('what people write', () => {
  test.each(readings)('%s as %s', (text, quantity, si) => {
    const read = value(text, quantity)
    expect(Math.abs(read - si)).toBeLessThanOrEqual(4e-16 * Math.abs(si))
  })
})

const refusals = [
  ['', 'length', 'quantity/empty'],
  ['   ', 'length', 'quantity/empty'],
  ['12', 'length', 'quantity/missing-unit'],
  [12, 'length', 'quantity/missing-unit'],
  ['3/4', 'length', 'quantity/missing-unit'],
  ['5 ft 6', 'length', 'quantity/missing-unit'],
  ['3 kg', 'length', 'quantity/wrong-dimension'],
  ['45', 'angle', 'quantity/missing-unit'],
  ['45 mm', 'angle', 'quantity/wrong-dimension'],
  ['20 degC', 'length', 'quantity/wrong-dimension'],
  ['NaN mm', 'length', 'quantity/not-a-number'],
  ['nan', 'length', 'quantity/not-a-number'],
  ['Infinity m', 'length', 'quantity/not-finite'],
  ['-inf m', 'length', 'quantity/not-finite'],
  ['1e999 m', 'length', 'quantity/not-finite'],
  ['1e308 km', 'length', 'quantity/not-finite'],
  ['1e99999999999 m', 'length', 'quantity/not-finite'],
  ['3/0 in', 'length', 'quantity/syntax'],
  ['1,5 mm', 'length', 'quantity/syntax'],
  ['about 5 mm', 'length', 'quantity/syntax'],
  ['5 mm or so', 'length', 'quantity/syntax'],
  ['5 mn', 'length', 'quantity/unknown-unit'],
  ['5 Mpa', 'pressure', 'quantity/unknown-unit'],
  ['5 ft -6 in', 'length', 'quantity/syntax'],
  ['1 MPa 3 psi', 'pressure', 'quantity/syntax'],
  [null, 'length', 'quantity/not-text'],
  [{}, 'length', 'quantity/not-text'],
  [['5 mm'], 'length', 'quantity/not-text'],
  ['1'.repeat(500), 'length', 'quantity/syntax'],
  ['3:0', 'ratio', 'quantity/syntax'],
  ['3', 'ratio', 'quantity/syntax'],
  [3, 'ratio', 'quantity/not-text'],
  ['0.3', 'fraction', 'quantity/missing-unit'],
  [2.5, 'count', 'quantity/syntax'],
  ['2', 'count', 'quantity/not-a-number'],
  [Number.POSITIVE_INFINITY, 'number', 'quantity/not-finite'],
] as const satisfies readonly (readonly [unknown, QuantityName, string])[]

describe('what is refused', () => {
  test.each(refusals)('%j as %s is %s', (text, quantity, code) => {
    const read = parseQuantity(text, quantity)
    expect(read.ok ? read : read.problem.code).toBe(code)
    if (!read.ok) {
      expect(read.problem.reason.length).toBeGreaterThan(8)
      expect(read.problem.hint).toMatch(/Write .* like/)
    }
  })

  test('offers the near unit, the way to weigh and what was written instead', () => {
    const near = parseQuantity('5 mn', 'length')
    const areal = parseQuantity('5', 'arealMass')
    const mass = parseQuantity('3 kg', 'length')
    expect(!near.ok && near.problem.hint).toMatch(/Did you mean 'mm'|Did you mean 'min'|Did you mean 'm'/)
    expect(!areal.ok && areal.problem.hint).toContain('100 x 100 mm square: grams x 100 = g/m2')
    expect(!mass.ok && mass.problem.reason).toContain('is a mass; it must be a length')
  })
})
