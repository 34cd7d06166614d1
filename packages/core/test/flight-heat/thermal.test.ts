/** Thermal properties: every material of the catalogue has them, with a source; laminates lie between their parts. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { adhesives, fibres, sheets } from '../../src/material/catalogue.ts'
import {
  epoxyThermal,
  fibreThermal,
  sheetThermal as sheetTable,
  unknownSheetThermal,
} from '../../src/material/thermal.data.ts'
import { adhesiveThermal, laminateThermal, sheetThermal, type ThermalProperties } from '../../src/material/thermal.ts'

const every: [string, ThermalProperties][] = [
  ...Object.values(sheets).map((sheet): [string, ThermalProperties] => [sheet.id, sheetThermal(sheet)]),
  ...Object.values(adhesives).map((adhesive): [string, ThermalProperties] => [adhesive.id, adhesiveThermal(adhesive)]),
  ...Object.entries(fibreThermal),
  ['epoxy', epoxyThermal],
]

test.each(every)('%s: plausible, with a source and its mark', (_, { conductivity, specificHeat }) => {
  expect(conductivity.value).toBeGreaterThan(0.1)
  expect(conductivity.value).toBeLessThan(250)
  expect(specificHeat.value).toBeGreaterThan(700)
  expect(specificHeat.value).toBeLessThan(1700)
  for (const { source, confidence } of [conductivity, specificHeat]) {
    expect(source.length).toBeGreaterThan(10)
    if (confidence === 'practice') expect(source).toContain('no source')
    if (confidence === 'recalled') expect(source).toContain('recalled')
  }
})

test('every sheet and every fibre that stays in a laminate is in the table; another sheet gets a stated guess', () => {
  expect(Object.keys(sheetTable).sort()).toEqual(Object.keys(sheets).sort())
  expect(Object.keys(fibres).filter((id) => !(id in fibreThermal))).toEqual(['polyamide', 'polyethylene'])
  expect(sheetThermal({ id: 'my own' })).toBe(unknownSheetThermal)
  expect(adhesiveThermal({ id: 'my own' })).toBe(epoxyThermal)
})

describe('laminates', () => {
  const mix = (id: 'e-glass' | 'carbon-standard', fibreFraction: number) =>
    laminateThermal({ fibre: fibres[id], resinDensity: 1150, fibreFraction })
  test('lie between resin and fibre, more fibre conducts more and holds less', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('e-glass' as const, 'carbon-standard' as const),
        fc.double({ min: 0, max: 0.7, noNaN: true }),
        (id, Vf) => {
          const [less, more] = [mix(id, Vf), mix(id, Vf + 0.05)]
          expect(more.conductivity.value).toBeGreaterThan(less.conductivity.value)
          expect(more.specificHeat.value).toBeLessThan(less.specificHeat.value)
          const { low, high } = less.conductivityRange
          expect(low).toBeLessThanOrEqual(less.conductivity.value)
          expect(high).toBeGreaterThanOrEqual(less.conductivity.value)
        },
      ),
    )
  })
  test('without fibre they are resin', () => {
    expect(mix('e-glass', 0).conductivity.value).toBeCloseTo(epoxyThermal.conductivity.value, 12)
    expect(mix('e-glass', 0).specificHeat.value).toBe(epoxyThermal.specificHeat.value)
  })
  test('the sheets estimated by the rule are what it gives, rounded', () => {
    const rounded = (value: number): number => Math.round(value * 20) / 20
    expect(rounded(mix('e-glass', 0.5).conductivity.value)).toBe(
      sheetThermal({ id: 'glass-epoxy-tube' }).conductivity.value,
    )
    expect(rounded(mix('carbon-standard', 0.5).conductivity.value)).toBe(
      sheetThermal({ id: 'carbon-plate' }).conductivity.value,
    )
    for (const id of ['e-glass', 'carbon-standard'] as const) {
      const sheet = sheetThermal({ id: id === 'e-glass' ? 'glass-epoxy-tube' : 'carbon-plate' })
      expect(Math.abs(mix(id, 0.5).specificHeat.value / sheet.specificHeat.value - 1)).toBeLessThan(0.01)
    }
  })
})
