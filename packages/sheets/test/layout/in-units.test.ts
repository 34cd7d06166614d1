import { expect, test } from 'vitest'
import { figuresIn } from '../../src/layout/figures.ts'
import { unitIn, wordsIn } from '../../src/layout/in-units.ts'
import { afterLayup, beforeLayup } from '../../src/sheets/traveller-steps.data.ts'

const [us, metric] = [figuresIn('us'), figuresIn('metric')]

test('lengths, steps and temperatures in the builder’s units; metric words stay as they are written', () => {
  expect(wordsIn('edges meet within 0.5 mm.', us)).toBe('edges meet within 0.02 in.')
  expect(wordsIn('None over 3 mm in the root band and 10 mm from the edges', us)).toBe(
    'None over 0.12 in in the root band and 0.39 in from the edges',
  )
  expect(wordsIn('Surface 3 °C above the dew point.', us)).toBe('Surface 5 °F above the dew point.')
  expect(wordsIn('about 10 °C an hour', us)).toBe('about 18 °F an hour')
  expect(wordsIn('flashes at −18 °C and', us)).toBe('flashes at 0 °F and')
  expect(wordsIn('thickness, mm', us)).toBe('thickness, in')
  for (const words of ['within 0.5 mm', 'Surface 3 °C above', 'root, mm']) expect(wordsIn(words, metric)).toBe(words)
})

test('blanks: a plan in US units asks for inches and pounds-force, and for grams as its scale reads them', () => {
  expect(['mm', 'N', '°C / %', 'g', '°C, h'].map((unit) => unitIn(unit, us))).toEqual([
    'in',
    'lbf',
    '°F / %',
    'g',
    '°F, h',
  ])
  expect(unitIn('mm', metric)).toBe('mm')
})

test('no step of the traveller keeps a metric length or force under US units', () => {
  const steps = [...beforeLayup, ...afterLayup]
  const words = steps.flatMap(({ work, hold, cautions, perFin = [] }) => [...work, ...hold, ...cautions, ...perFin])
  expect(words.length).toBeGreaterThan(40)
  for (const one of words) expect(wordsIn(one, us)).not.toMatch(/\bmm\b|\d °C|\bN\b/)
  for (const { unit } of steps.flatMap(({ fields }) => fields))
    if (unit !== undefined) expect(['in', 'lbf', 'g', '%', 'h', '°F', '°F / %']).toContain(unitIn(unit, us))
})
