/**
 * The factors against their definitions, exactly, and against mathjs, an independent library, to the digits it carries.
 */
import { createUnit, unit as mathUnit } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { parseQuantity } from '../../src/quantity/parse.ts'
import type { QuantityName } from '../../src/quantity/quantities.data.ts'
import { multiply, power, type Rational, rational } from '../../src/quantity/rational.ts'
import { findUnit } from '../../src/quantity/unit.ts'
import { units } from '../../src/quantity/units.data.ts'

const factor = (name: string): Rational => findUnit(name)!.factor
const same = (a: Rational, b: Rational): boolean => a.n * b.d === b.n * a.d

describe('definitions, exactly', () => {
  const pound = rational('0.45359237')
  const gravity = rational('9.80665')
  test.each([
    ['in', rational('0.0254')],
    ['ft', rational('0.3048')],
    ['yd', rational('0.9144')],
    ['mil', rational('0.0000254')],
    ['lb', pound],
    ['oz', { n: pound.n, d: pound.d * 16n }],
    ['lbf', multiply(pound, gravity)],
    ['gsm', rational('0.001')],
    ['g/m2', rational('0.001')],
    ['g/cm3', rational('1000')],
  ] as const)('%s', (name, definition) => {
    expect(same(factor(name), definition)).toBe(true)
  })

  test('a pound-force on a square inch is a psi, a thousand of them a ksi', () => {
    expect(same(multiply(factor('psi'), power(factor('in'), 2)), factor('lbf'))).toBe(true)
    expect(same(factor('lbf/in^2'), factor('psi'))).toBe(true)
    expect(same(factor('ksi'), multiply(factor('psi'), rational('1000')))).toBe(true)
    expect(same(factor('Msi'), multiply(factor('ksi'), rational('1000')))).toBe(true)
  })

  test('a slug is what a pound-force accelerates by a foot per second squared', () => {
    expect(same(multiply(factor('slug'), factor('ft')), factor('lbf'))).toBe(true)
  })

  test('no two units share a spelling', () => {
    const spellings = units.flatMap(({ name, also }) => [name, ...also])
    expect(new Set(spellings).size).toBe(spellings.length)
  })

  test('three is not a foot: the comparison can fail', () => {
    expect(same(factor('ft'), rational('0.3'))).toBe(false)
  })
})

describe('against mathjs', () => {
  createUnit('Msi', '1000000 psi')
  createUnit('ksi', '1000 psi')
  const cases = [
    ['0.75 in', '0.75 inch', 'm', 'length'],
    ['5.5 ft', '5.5 foot', 'm', 'length'],
    ['2 yd', '2 yard', 'm', 'length'],
    ['12 mil', '12 mil', 'm', 'length'],
    ['24.5 lb', '24.5 lbm', 'kg', 'mass'],
    ['7 oz', '7 ounce', 'kg', 'mass'],
    ['35 lbf', '35 lbf', 'N', 'force'],
    ['12000 psi', '12000 psi', 'Pa', 'pressure'],
    ['40 ksi', '40 ksi', 'Pa', 'pressure'],
    ['2.7 Msi', '2.7 Msi', 'Pa', 'pressure'],
    ['7.5 oz/yd^2', '7.5 ounce/yard^2', 'kg/m^2', 'arealMass'],
    ['0.098 lb/in^3', '0.098 lbm/inch^3', 'kg/m^3', 'density'],
    ['1116.45 ft/s', '1116.45 foot/s', 'm/s', 'speed'],
    ['98.6 degF', '98.6 degF', 'K', 'temperature'],
    ['21 degC', '21 degC', 'K', 'temperature'],
    ['33 deg', '33 deg', 'rad', 'angle'],
    ['720 deg/s', '720 deg/s', 'rad/s', 'angularRate'],
    ['90 min', '90 minute', 's', 'time'],
  ] as const satisfies readonly (readonly [string, string, string, QuantityName])[]

  // psi and lbf stand in mathjs with 11 to 16 digits, hence the relative 1e-10.
  test.each(cases)('%s', (ours, theirs, si, quantity) => {
    const read = parseQuantity(ours, quantity)
    const expected = mathUnit(theirs).toNumber(si)
    expect(read.ok && Math.abs(read.value / expected - 1)).toBeLessThan(1e-10)
  })
})
