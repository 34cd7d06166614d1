/** One value against its field: quantity first, then the limits, which are shown in the unit that was written. */
import { invariant } from '@finwright/core/issue.ts'
import { fittingUnit, formatQuantity, type UnitSystem } from '../quantity/format.ts'
import { parseQuantity, type QuantityCode, type ReadQuantity, writeLike } from '../quantity/parse.ts'
import { type MeasuredName, type Quantity, type QuantityName, quantities } from '../quantity/quantities.data.ts'
import type { Field, FieldKey } from './fields.data.ts'
import { fields } from './fields.data.ts'

export interface Verdict {
  readonly code: QuantityCode | 'value/out-of-range'
  readonly message: string
  readonly hint: string
}

/** Null when the value is allowed. */
export function judge(field: Field, written: unknown): Verdict | null {
  const quantity: Quantity = quantities[field.quantity]
  const read = parseQuantity(written, field.quantity)
  const subject = `${sentence(field.label)} is ${shown(written)}`
  if (!read.ok) {
    const { code, reason, hint } = read.problem
    return { code, message: `${subject}, which ${reason}. ${limitsText(field)}`, hint }
  }
  if (read.value >= limit(field, 'least') && read.value <= limit(field, 'most')) return null
  const slip = quantity.written === 'with unit' ? 'Check the unit and the point.' : 'Check the point.'
  const hint = `${slip} ${writeLike(quantity)}`
  return { code: 'value/out-of-range', message: `${subject}; it must lie ${range(field, read)}.`, hint }
}

/** The value in SI, or undefined when it is not allowed. */
export function siValue(key: FieldKey, written: unknown): number | undefined {
  const field: Field = fields[key]
  const read = parseQuantity(written, field.quantity)
  return read.ok && judge(field, written) === null ? read.value : undefined
}

/** A limit in SI. */
export function limit(field: Field, which: 'least' | 'most'): number {
  const written = field[which]
  return typeof written === 'number' ? written : limitIn(field.quantity, written)
}

const limits = new Map<string, number>()

/** Every limit is read once. */
function limitIn(quantity: QuantityName, written: string): number {
  const key = `${quantity} ${written}`
  const known = limits.get(key)
  if (known !== undefined) return known
  const read = parseQuantity(written, quantity)
  invariant(read.ok, `the limit '${written}' is a ${quantity}`)
  limits.set(key, read.value)
  return read.value
}

/** `Allowed: 0.2 mm to 60 mm (0.0079 in to 2.4 in).` */
export function limitsText(field: Field): string {
  const metric = `${field.least} to ${field.most}`
  const us = usLimits(field)
  return `Allowed: ${metric}${us === null ? '' : ` (${us})`}.`
}

/** The limits in US units, or null where these are the same. */
export function usLimits(field: Field): string | null {
  const quantity: Quantity = quantities[field.quantity]
  if (quantity.written !== 'with unit' || quantity.us === quantity.metric) return null
  return `${inSystem(field, 'least', 'us')} to ${inSystem(field, 'most', 'us')}`
}

function inSystem(field: Field, which: 'least' | 'most', system: UnitSystem): string {
  const value = limit(field, which)
  const name = field.quantity as MeasuredName
  return formatQuantity(value, name, system, { significant: 3, unit: fittingUnit(value, name, system) })
}

/** With a capital. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function range(field: Field, read: ReadQuantity & { readonly ok: true }): string {
  if (quantities[field.quantity].written !== 'with unit') {
    const percent =
      read.unit === '%' ? (limitValue: number) => `${100 * limitValue} %` : (limitValue: number) => `${limitValue}`
    return `between ${percent(limit(field, 'least'))} and ${percent(limit(field, 'most'))}`
  }
  const inUnit = (which: 'least' | 'most'): string =>
    formatQuantity(limit(field, which), field.quantity as MeasuredName, 'metric', { significant: 3, unit: read.unit })
  return `between ${inUnit('least')} and ${inUnit('most')}`
}

/** A value as it stands in the plan, shortened. */
export function shown(value: unknown): string {
  if (value === undefined) return 'missing'
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? String(value))
  return text.length > 60 ? `${text.slice(0, 57)}...` : text
}
