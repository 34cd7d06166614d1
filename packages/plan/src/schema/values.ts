/**
 * Validators of single values, made from the table of fields, so that a value is judged and described in one place. The
 * extra keys of `meta` go into the JSON Schema as they are.
 */
import { z } from 'zod'
import { patternOf } from '../quantity/notation.ts'
import { type Quantity, type QuantityName, quantities } from '../quantity/quantities.data.ts'
import { defaultText } from './defaults.data.ts'
import { type Field, type FieldKey, fields } from './fields.data.ts'
import { judge, limitsText } from './judge.ts'

type KeyOf<Q extends QuantityName> = { [K in FieldKey]: (typeof fields)[K]['quantity'] extends Q ? K : never }[FieldKey]
type NumberKey = KeyOf<'number' | 'count'>
type ShareKey = KeyOf<'fraction'>
type ProportionKey = KeyOf<'proportion'>
type TextKey = Exclude<FieldKey, NumberKey | ShareKey | ProportionKey>

const ratioPattern = '^\\s*(?:\\d+\\.?\\d*|\\.\\d+)\\s*:\\s*(?:\\d+\\.?\\d*|\\.\\d+)\\s*$'
const percentPattern = '^\\s*[+\\-−–]?(?:\\d+\\.?\\d*|\\.\\d+)\\s*%\\s*$'

/** A quantity with its unit, or a ratio: text. */
export function text(key: TextKey) {
  const field: Field = fields[key]
  const quantity: Quantity = quantities[field.quantity]
  const pattern = quantity.written === 'with unit' ? patternOf(quantity) : ratioPattern
  return z
    .string()
    .refine((value) => judge(field, value) === null)
    .meta({ ...described(key, field), pattern, examples: [...quantity.examples] })
}

/** A plain number. */
export function num(key: NumberKey) {
  const field: Field = fields[key]
  const whole = field.quantity === 'count' ? { multipleOf: 1 } : {}
  return z
    .number()
    .refine((value) => judge(field, value) === null)
    .meta({ ...described(key, field), minimum: field.least, maximum: field.most, ...whole })
}

/** A share: a number, or a percentage as text. */
export function share(key: ShareKey) {
  const field: Field = fields[key]
  return z
    .union([
      z.number().meta({ minimum: field.least, maximum: field.most }),
      z.string().meta({ pattern: percentPattern }),
    ])
    .refine((value) => judge(field, value) === null)
    .meta(described(key, field))
}

/** A ratio as text, or a number. */
export function proportion(key: ProportionKey) {
  const field: Field = fields[key]
  return z
    .union([z.number().meta({ minimum: field.least, maximum: field.most }), z.string().meta({ pattern: ratioPattern })])
    .refine((value) => judge(field, value) === null)
    .meta(described(key, field))
}

function described(key: FieldKey, field: Field): Record<string, unknown> {
  const standing = defaultText(key)
  const description = `${field.label}. ${limitsText(field)}`
  return standing === undefined ? { description } : { description, default: standing }
}
