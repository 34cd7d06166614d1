import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { divide, multiply, rational, rationalOf, toDecimal, toFixed, toNumber } from '../../src/quantity/rational.ts'

const digits = fc.stringMatching(/^[0-9]{1,25}$/)
const decimal = fc
  .tuple(fc.constantFrom('', '-'), digits, digits, fc.integer({ min: -40, max: 40 }))
  .map(([sign, whole, part, e]) => `${sign}${whole}.${part}e${e}`)
const finite = fc.double({ noNaN: true, noDefaultInfinity: true })

describe('the double nearest to a fraction', () => {
  test('is the one that the language reads from the same decimals', () => {
    fc.assert(
      fc.property(decimal, (text) => toNumber(rational(text)) === Number(text)),
      { numRuns: 2000 },
    )
  })

  test('a double is exactly its own fraction', () => {
    fc.assert(fc.property(finite, (value) => Object.is(toNumber(rationalOf(value)), value === 0 ? 0 : value)))
  })

  test('division undoes multiplication', () => {
    fc.assert(
      fc.property(finite, finite, (a, b) => {
        fc.pre(b !== 0)
        const product = multiply(rationalOf(a), rationalOf(b))
        return toNumber(divide(product, rationalOf(b))) === (a === 0 ? 0 : a)
      }),
    )
  })
})

describe('decimal text', () => {
  test('has the digits that the language prints', () => {
    const value = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e14, max: 1e14 })
    fc.assert(
      fc.property(
        value,
        fc.integer({ min: 1, max: 17 }),
        (x, n) => Number(toDecimal(rationalOf(x), n)) === Number(x.toPrecision(n)),
      ),
      { numRuns: 2000 },
    )
  })

  test.each([
    ['1234.5', 2, '1200'],
    ['0.00001234', 3, '0.0000123'],
    ['-0.5', 1, '-0.5'],
    ['999.96', 4, '1000'],
    ['1e20', 3, '1e20'],
    ['12345678900000000', 3, '1.23e16'],
    ['0', 5, '0'],
  ])('%s to %d digits is %s', (text, n, printed) => {
    expect(toDecimal(rational(text), n)).toBe(printed)
  })

  test.each([
    ['0.125', 2, '0.13'],
    ['-0.125', 2, '-0.13'],
    ['-0.001', 2, '0.00'],
    ['12', 0, '12'],
    ['2.5', 0, '3'],
  ])('%s with %d decimals is %s', (text, n, printed) => {
    expect(toFixed(rational(text), n)).toBe(printed)
  })
})
