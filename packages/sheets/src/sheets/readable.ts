/** A value with its SI unit, as a builder reads it: 12000000000 Pa as 12 GPa, 331.15 K as 58 °C, or in US units. */
import { formatQuantity, type UnitSystem } from '@finwright/plan/quantity/format.ts'
import type { MeasuredName } from '@finwright/plan/quantity/quantities.data.ts'
import { typeset } from '../layout/figures.ts'

interface Reading {
  readonly name: MeasuredName
  readonly unit: (value: number, units: UnitSystem) => string
}

const stiffness = (value: number, units: UnitSystem): string => {
  if (units === 'us') return value >= 1e9 ? 'Msi' : value >= 1e6 ? 'ksi' : 'psi'
  return value >= 1e9 ? 'GPa' : value >= 1e6 ? 'MPa' : 'kPa'
}

const readings: { readonly [unit: string]: Reading } = {
  Pa: { name: 'pressure', unit: stiffness },
  K: { name: 'temperature', unit: (_, units) => (units === 'us' ? 'degF' : 'degC') },
  'kg/m²': { name: 'arealMass', unit: (_, units) => (units === 'us' ? 'oz/yd^2' : 'g/m2') },
  'kg/m³': { name: 'density', unit: (_, units) => (units === 'us' ? 'lb/in^3' : 'kg/m3') },
  kg: { name: 'mass', unit: () => 'g' },
  s: { name: 'time', unit: (value) => (value >= 600 ? 'min' : 's') },
  m: { name: 'length', unit: (_, units) => (units === 'us' ? 'in' : 'mm') },
  'J/mol': { name: 'molarEnergy', unit: () => 'kJ/mol' },
}

/** Multiples that the assessment writes. */
const multiples: { readonly [unit: string]: readonly [unit: string, factor: number] } = {
  kPa: ['Pa', 1e3],
  MPa: ['Pa', 1e6],
  GPa: ['Pa', 1e9],
  g: ['kg', 1e-3],
  mm: ['m', 1e-3],
  min: ['s', 60],
}

/** Anything that is not one number with one of these units stays as it is. */
export function readable(text: string, units: UnitSystem): string {
  const match = /^(-?[\d.]+(?:e[+-]?\d+)?) (\S+)$/.exec(text)
  if (match === null) return text
  const [base, factor] = multiples[match[2]] ?? [match[2], 1]
  const reading = readings[base]
  if (reading === undefined) return text
  const value = Number(match[1]) * factor
  const { name, unit } = reading
  return typeset(formatQuantity(value, name, units, { significant: 4, unit: unit(Math.abs(value), units) }))
}
