import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fittingUnit, formatQuantity, numberIn } from '../../src/quantity/format.ts'
import { patternOf } from '../../src/quantity/notation.ts'
import { parseQuantity } from '../../src/quantity/parse.ts'
import { type MeasuredName, type MeasuredQuantity, quantities } from '../../src/quantity/quantities.data.ts'

const measured = Object.keys(quantities).filter(
  (name) => quantities[name as MeasuredName].written === 'with unit',
) as MeasuredName[]

const unitsOf = (name: MeasuredName): readonly string[] => quantities[name].offered.split(', ')
const named = fc.constantFrom(...measured)
const withUnit = named.chain((name) => fc.tuple(fc.constant(name), fc.constantFrom(...unitsOf(name))))
const value = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 })

const si = (text: string, name: MeasuredName): number => {
  const read = parseQuantity(text, name)
  if (!read.ok) throw new Error(`${text}: ${read.problem.reason}`)
  return read.value
}

describe('writing and reading', () => {
  test('what is written in any unit reads back as the same double', () => {
    fc.assert(
      fc.property(withUnit, value, ([name, unit], x) => {
        fc.pre(name !== 'temperature' || x > 0.01)
        const text = formatQuantity(x, name, 'metric', { unit })
        return si(text, name) === (x === 0 ? 0 : x)
      }),
      { numRuns: 3000 },
    )
  })

  test('what a person wrote with a few digits is written the same way', () => {
    const few = fc.tuple(fc.integer({ min: 1, max: 99_999_999 }), fc.integer({ min: 0, max: 6 }))
    fc.assert(
      fc.property(withUnit, few, ([name, unit], [digits, decimals]) => {
        const typed = String(Number(`${digits}e-${decimals}`))
        fc.pre(!typed.includes('e'))
        return formatQuantity(si(`${typed} ${unit}`, name), name, 'metric', { unit }) === `${typed} ${unit}`
      }),
      { numRuns: 3000 },
    )
  })

  test('three quarters of an inch is 0.75 in', () => {
    expect(formatQuantity(si('3/4 in', 'length'), 'length', 'us')).toBe('0.75 in')
    expect(formatQuantity(0.01905, 'length', 'metric')).toBe('19.05 mm')
    expect(formatQuantity(si('68 degF', 'temperature'), 'temperature', 'metric')).toBe('20 degC')
    expect(formatQuantity(Math.PI / 4, 'angle', 'us')).toBe('45 deg')
  })

  test.each([
    [0.0123456, { significant: 3 }, '12.3 mm'],
    [0.0123456, { uncertainty: 0.0002 }, '12.3 mm'],
    [0.0123456, { uncertainty: 0.004 }, '12 mm'],
    [1.23456, { uncertainty: 0.03 }, '1230 mm'],
    [0.01, { uncertainty: 0.00001 }, '10.00 mm'],
    [0.01, { uncertainty: 0 }, '10 mm'],
  ])('%d with %j is %s', (x, options, text) => {
    expect(formatQuantity(x, 'length', 'metric', options)).toBe(text)
  })

  test('a temperature difference has no offset', () => {
    expect(formatQuantity(10, 'temperatureInterval', 'us')).toBe('18 degF')
    expect(formatQuantity(300, 'temperature', 'metric', { uncertainty: 2 })).toBe('27 degC')
  })

  test('every unit that a quantity is shown in is one of its own', () => {
    for (const name of measured) {
      const { metric, us, larger }: MeasuredQuantity = quantities[name]
      for (const unit of [metric, us, ...(larger?.metric ?? []), ...(larger?.us ?? []), ...unitsOf(name)]) {
        expect(parseQuantity(`1 ${unit}`, name).ok, `${unit} for ${name}`).toBe(true)
      }
    }
  })

  test('large values fit larger units', () => {
    expect(fittingUnit(4, 'mass', 'us')).toBe('lb')
    expect(fittingUnit(0.5, 'length', 'metric')).toBe('mm')
    expect(fittingUnit(2, 'length', 'us')).toBe('ft')
    expect(fittingUnit(20e9, 'pressure', 'us')).toBe('Msi')
    expect(numberIn(0.0254, 'length', 'in')).toBe(1)
  })
})

describe('the pattern of the JSON Schema', () => {
  const number = fc.oneof(
    fc.integer({ min: 0, max: 9999 }).map(String),
    fc.constantFrom('0.75', '.5', '1.', '1e3', '2.5E-2', '3/4', '1 1/2', '1-1/2', '1½', '¾', '-2', '+ 3', '−1.5'),
  )
  const words = fc.constantFrom(
    ...[...new Set(measured.flatMap(unitsOf))],
    ...['"', "'", '″', 'µm', '°', '°C', 'deg C', 'm²', 'in²', 'lb / ft ^ 3', 'g/m ²', 'kgs', 'ft-lb', ''],
  )
  const text = fc
    .array(fc.tuple(number, fc.constantFrom('', ' ', '  '), words), { minLength: 1, maxLength: 2 })
    .map((terms) => terms.map((term) => term.join('')).join(' '))

  test('accepts whatever the reader accepts', () => {
    const patterns = new Map(
      measured.map((name) => [name, new RegExp(patternOf(quantities[name] as MeasuredQuantity), 'u')]),
    )
    let accepted = 0
    fc.assert(
      fc.property(text, named, (written, name) => {
        if (!parseQuantity(written, name).ok) return true
        accepted += 1
        return patterns.get(name)!.test(written)
      }),
      { numRuns: 20_000 },
    )
    expect(accepted).toBeGreaterThan(500)
  })

  test.each([
    ['length', ['12', 'NaN mm', '3 kg', '', 'mm', '1e999', '5 ft 6', '1,5 mm']],
    ['arealMass', ['200', '200 g', '200 g/m3', '200 gms']],
    ['temperature', ['20', '20 deg', 'warm']],
    ['angle', ['45', '45 mm']],
  ] as const)('refuses for %s what has no unit or the wrong one', (name, texts) => {
    const pattern = new RegExp(patternOf(quantities[name]), 'u')
    for (const one of texts) expect(pattern.test(one), one).toBe(false)
  })
})
