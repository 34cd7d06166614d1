/** What an input shows of what was typed: other units are converted and said to be, the rest stays as it is. */
import { describe, expect, test } from 'vitest'
import { nudged, shownIn, unitOf } from '../../src/quantity/shown.ts'

describe('shown in a system of units', () => {
  test.each([
    ['3.2 mm', 'length', 'metric', '3.2 mm', false],
    ['3.2 mm', 'length', 'us', '0.12598 in', true],
    ['3/4 in', 'length', 'us', '3/4 in', false],
    ['3/4 in', 'length', 'metric', '19.05 mm', true],
    ['5\' 6"', 'length', 'metric', '1676.4 mm', true],
    ['300 mm', 'length', 'metric', '300 mm', false],
    ['12 m', 'length', 'us', '472.44 in', true],
    ['7.5 oz/yd^2', 'arealMass', 'metric', '254.29 g/m2', true],
    ['200 g/m2', 'arealMass', 'us', '5.8987 oz/yd^2', true],
    ['18.6 GPa', 'pressure', 'us', '2.6977 Msi', true],
    ['22 degC', 'temperature', 'us', '71.6 degF', true],
    ['45 deg', 'angle', 'us', '45 deg', false],
    ['60 min', 'time', 'us', '60 min', false],
    ['100:28.4', 'ratio', 'us', '100:28.4', false],
    ['30 %', 'fraction', 'us', '30 %', false],
    ['three', 'length', 'us', 'three', false],
  ] as const)('%s as %s in %s units', (written, name, system, text, converted) => {
    expect(shownIn(written, name, system)).toEqual({ text, converted })
  })
})

describe('stepped by a key', () => {
  test.each([
    ['3.2 mm', 1, '3.3 mm'],
    ['45 deg', -1, '44 deg'],
    ['-5 deg', 1, '-4 deg'],
    ['0.75 in', 10, '0.85 in'],
    ['100:28.4', 1, '100:28.5'],
    ['200 g/m2', 1, '201 g/m2'],
    ['7.5 oz/yd^2', -1, '7.4 oz/yd^2'],
    ['30 %', 1, '31 %'],
    ['4', 1, '5'],
  ] as const)('%s by %i', (text, steps, next) => {
    expect(nudged(text, steps)).toBe(next)
  })

  test('a fraction is left alone', () => {
    expect(nudged('3/4 in', 1)).toBeNull()
  })
})

test('the unit of a text', () => {
  const texts = ['3.2 mm', '7.5 oz/yd^2', '200 g/m2', '3/4 in', '5\' 6"', '12', '30 %']
  expect(texts.map(unitOf)).toEqual(['mm', 'oz/yd^2', 'g/m2', 'in', '"', null, '%'])
})
