/**
 * Writes an SI value in a unit: the shortest decimal that reads back as exactly the same value (0.01905 m is `0.75 in`), or
 * with a stated number of digits, or with the decimals that its uncertainty allows.
 */
import { invariant } from '@finwright/core/issue.ts'
import { type MeasuredName, type MeasuredQuantity, quantities } from './quantities.data.ts'
import {
  add,
  divide,
  magnitudeOf,
  multiply,
  negative,
  type Rational,
  rational,
  rationalOf,
  toDecimal,
  toFixed,
  toNumber,
} from './rational.ts'
import { findUnit, type WrittenUnit } from './unit.ts'

export type UnitSystem = 'metric' | 'us'

export interface FormatOptions {
  /** Significant digits. */
  readonly significant?: number
  /** SI; the text ends at the uncertainty's leading digit. */
  readonly uncertainty?: number
  /** Another unit than the quantity's usual one. */
  readonly unit?: string
}

/** `12.3 mm`; as many digits as the value holds when neither option is given. */
export function formatQuantity(
  value: number,
  name: MeasuredName,
  system: UnitSystem,
  { significant, uncertainty, unit: wanted }: FormatOptions = {},
): string {
  const quantity: MeasuredQuantity = quantities[name]
  const unit = findUnit(wanted ?? quantity[system])
  invariant(unit !== null, `'${wanted}' is a unit`)
  const exact = inUnit(value, unit, quantity.absolute)
  if (uncertainty !== undefined && uncertainty > 0)
    return `${roundedTo(exact, difference(uncertainty, unit))} ${unit.name}`
  if (significant !== undefined) return `${toDecimal(exact, significant)} ${unit.name}`
  return `${shortest(value, exact, unit, quantity.absolute)} ${unit.name}`
}

/** The quantity's usual unit, or a larger one of which the value holds one or more. */
export function fittingUnit(value: number, name: MeasuredName, system: UnitSystem): string {
  const quantity: MeasuredQuantity = quantities[name]
  const reached = (quantity.larger?.[system] ?? []).filter((unit) => Math.abs(numberIn(value, name, unit)) >= 1)
  return reached.at(-1) ?? quantity[system]
}

/** The number alone, in the unit. */
export function numberIn(value: number, name: MeasuredName, unitName: string): number {
  const quantity: MeasuredQuantity = quantities[name]
  const unit = findUnit(unitName)
  invariant(unit !== null, `'${unitName}' is a unit`)
  return Number(shortest(value, inUnit(value, unit, quantity.absolute), unit, quantity.absolute))
}

function inUnit(value: number, unit: WrittenUnit, absolute: boolean): Rational {
  const exact = rationalOf(value)
  return divide(absolute ? add(exact, negative(unit.offset)) : exact, unit.factor)
}

const difference = (value: number, unit: WrittenUnit): Rational => inUnit(value, unit, false)

/** 17 digits tell any two doubles apart; a temperature near absolute zero needs more in a unit with an offset. */
const mostDigits = 22

function shortest(value: number, exact: Rational, unit: WrittenUnit, absolute: boolean): string {
  for (let digits = 1; digits < mostDigits; digits += 1) {
    const text = toDecimal(exact, digits)
    const si = multiply(rational(text), unit.factor)
    if (toNumber(absolute ? add(si, unit.offset) : si) === value) return text
  }
  return toDecimal(exact, mostDigits)
}

function roundedTo(exact: Rational, uncertainty: Rational): string {
  const decimals = -magnitudeOf(uncertainty)
  if (decimals >= 0) return toFixed(exact, decimals)
  const step = rational(`1e${-decimals}`)
  return toDecimal(multiply(rational(toFixed(divide(exact, step), 0)), step), mostDigits)
}
