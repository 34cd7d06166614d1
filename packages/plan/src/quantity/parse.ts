/**
 * Reads a quantity as a person writes it: `0.75 in`, `3/4 in`, `1-1/2 in`, `1' 2 1/4"`, `5 ft 6 in`, `7.5 oz/yd^2`, `20 degC`,
 * `100:28.4`, `30 %`. The arithmetic is exact; the value handed back is the double nearest to what was written, in SI base
 * units and radians.
 */
import { nearest } from '../text/nearest.ts'
import { glyphFractions, numberSource, plainSigns, unitSource } from './notation.ts'
import {
  type MeasuredQuantity,
  type PureQuantity,
  type Quantity,
  type QuantityName,
  quantities,
} from './quantities.data.ts'
import { add, divide, multiply, negative, type Rational, rational, toNumber } from './rational.ts'
import { dimensionOf, everySpelling, findUnit, sameDimension, type WrittenUnit } from './unit.ts'
import type { Dimension } from './units.data.ts'

export type QuantityCode =
  | 'quantity/not-text'
  | 'quantity/not-a-number'
  | 'quantity/not-finite'
  | 'quantity/empty'
  | 'quantity/syntax'
  | 'quantity/missing-unit'
  | 'quantity/unknown-unit'
  | 'quantity/wrong-dimension'

/** What is wrong with a text; `reason` continues a sentence that has named the field and the text. */
export interface QuantityProblem {
  readonly code: QuantityCode
  readonly reason: string
  readonly hint: string
}

export type ReadQuantity =
  | { readonly ok: true; readonly value: number; readonly unit: string }
  | { readonly ok: false; readonly problem: QuantityProblem }

/** The value in SI base units and radians, shares from 0 to 1, ratios as first over second; `unit` is the last unit written. */
export function parseQuantity(written: unknown, name: QuantityName): ReadQuantity {
  const quantity: Quantity = quantities[name]
  switch (quantity.written) {
    case 'with unit':
      return parseMeasured(written, quantity)
    case 'as fraction':
      return parseShare(written, quantity)
    case 'as ratio':
      return parseRatio(written, quantity)
    case 'as proportion':
      return typeof written === 'number' ? parsePure(written, quantity) : parseRatio(written, quantity)
    case 'as number':
    case 'as whole number':
      return parsePure(written, quantity)
  }
}

/** The two numbers of a ratio as written, or null. */
export function ratioParts(written: string): readonly [first: number, second: number] | null {
  const match = /^\s*(\d+\.?\d*|\.\d+)\s*:\s*(\d+\.?\d*|\.\d+)\s*$/.exec(written)
  return match === null ? null : [Number(match[1]), Number(match[2])]
}

/** What to write instead. */
export function writeLike(quantity: Quantity): string {
  const [metric, us] = quantity.examples
  const quote = quantity.written === 'with unit' || quantity.written === 'as ratio' ? '"' : ''
  const advice = quantity.written === 'with unit' && quantity.advice !== undefined ? ` ${quantity.advice}` : ''
  return `Write ${quantity.name} like ${quote}${metric}${quote} or ${quote}${us}${quote}.${advice}`
}

type Fail = (code: QuantityCode, reason: string, hint?: string) => ReadQuantity

const failing =
  (quantity: Quantity): Fail =>
  (code, reason, hint = '') => {
    const first = hint === '' ? '' : `${hint} `
    return { ok: false, problem: { code, reason, hint: `${first}${writeLike(quantity)}` } }
  }

/** Characters; nothing a person writes is longer, and it bounds the work. */
const longest = 80

function parseMeasured(written: unknown, quantity: MeasuredQuantity): ReadQuantity {
  const wanted = `it must be ${quantity.name} with its unit (${quantity.offered})`
  const fail = failing(quantity)
  if (typeof written === 'number') return fail('quantity/missing-unit', `has no unit; ${wanted}, in quotes`)
  if (typeof written !== 'string') return fail('quantity/not-text', `is no text in quotes; ${wanted}`)
  const text = plainSigns(written.trim())
  if (text === '') return fail('quantity/empty', `is empty; ${wanted}`)
  if (text.length > longest) return fail('quantity/syntax', `is longer than ${longest} characters; ${wanted}`)
  if (/^[+-]?\s*nan\b/i.test(text)) return fail('quantity/not-a-number', `is not a number; ${wanted}`)
  if (/^[+-]?\s*(inf(inity)?\b|∞)/i.test(text)) return fail('quantity/not-finite', `is not finite; ${wanted}`)
  const terms = splitTerms(text)
  if (terms === null) return fail('quantity/syntax', `cannot be read; ${wanted}`, syntaxHint(text))
  if (terms === 'too large') return fail('quantity/not-finite', `is larger than any number that can be held; ${wanted}`)
  return sumTerms(terms, quantity, fail, wanted)
}

interface Term {
  readonly number: Rational
  readonly unit: string
}

const numberAt = new RegExp(numberSource, 'y')
const unitAt = new RegExp(`\\s*(${unitSource})`, 'uy')
/** A dash may stand between feet and inches, `5'-6"`. */
const gapAt = /(?<=['′’])\s*-\s*(?=[\d.])|\s*/uy
const largestPower = 400

/** `-1' 2 1/4"` into numbers and units, the sign on each; null when something in it is neither. */
function splitTerms(text: string): readonly Term[] | 'too large' | null {
  const sign = /^[+-]?\s*/.exec(text)![0]
  const terms: Term[] = []
  let at = sign.length
  while (at < text.length) {
    const match = matchAt(numberAt, text, at)
    if (match === null) return null
    if (Math.abs(Number(/[eE](.+)$/.exec(match[6] ?? '')?.[1] ?? 0)) > largestPower) return 'too large'
    const number = numberOf(match)
    if (number === null) return null
    at += match[0].length
    const unit = matchAt(unitAt, text, at)
    terms.push({ number: sign.startsWith('-') ? negative(number) : number, unit: unit?.[1] ?? '' })
    at += unit?.[0].length ?? 0
    at += matchAt(gapAt, text, at)?.[0].length ?? 0
  }
  return terms.length > 0 ? terms : null
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at
  return pattern.exec(text)
}

/** Null for a fraction over zero. */
function numberOf(match: RegExpExecArray): Rational | null {
  const [, whole = '0', above, below, glyphWhole = '', glyph, decimal] = match
  if (decimal !== undefined) return rational(decimal)
  const [n, d] = glyph === undefined ? [BigInt(above!), BigInt(below!)] : glyphFractions[glyph]!.map(BigInt)
  if (d === 0n) return null
  const integer = glyph === undefined ? whole : glyphWhole === '' ? '0' : glyphWhole
  return { n: BigInt(integer) * d! + n!, d: d! }
}

function sumTerms(terms: readonly Term[], quantity: MeasuredQuantity, fail: Fail, wanted: string): ReadQuantity {
  let total = rational('0')
  let last: WrittenUnit | null = null
  for (const { number, unit: written } of terms) {
    if (written === '') return fail('quantity/missing-unit', `has no unit; ${wanted}`)
    const unit = findUnit(written)
    if (unit === null)
      return fail('quantity/unknown-unit', `has the unknown unit '${written}'; ${wanted}`, unitHint(written))
    if (!quantity.forms.some((form) => sameDimension(dimensionOf(form), unit.dimension))) {
      return fail('quantity/wrong-dimension', `is ${dimensionName(unit.dimension)}; ${wanted}`)
    }
    if (terms.length > 1 && (!quantity.sums || unit.compound))
      return fail('quantity/syntax', `cannot be read; ${wanted}`)
    total = add(total, multiply(number, unit.factor))
    last = unit
  }
  const value = toNumber(quantity.absolute ? add(total, last!.offset) : total)
  if (!Number.isFinite(value))
    return fail('quantity/not-finite', `is larger than any number that can be held; ${wanted}`)
  return { ok: true, value, unit: last!.name }
}

/** `a mass`, for the message that says what was written instead. */
function dimensionName(dimension: Dimension): string {
  for (const quantity of Object.values(quantities) as readonly Quantity[]) {
    if (quantity.written !== 'with unit') continue
    if (quantity.forms.some((form) => sameDimension(dimensionOf(form), dimension))) return quantity.name
  }
  return 'of another kind'
}

function unitHint(written: string): string {
  const word = written.split('/').find((part) => findUnit(part) === null) ?? written
  const near = nearest(word.trim().replace(/\s*\^?\s*[23²³]$/, ''), everySpelling)
  return near === null ? '' : `Did you mean '${near}'?`
}

const syntaxHint = (text: string): string =>
  /\d,\d/.test(text) ? 'Use a point for decimals and nothing between thousands.' : ''

function parseShare(written: unknown, quantity: PureQuantity): ReadQuantity {
  const fail = failing(quantity)
  if (typeof written === 'number') return finite(written, fail, quantity)
  if (typeof written !== 'string') return fail('quantity/not-text', `is no share; it must be ${quantity.offered}`)
  if (written.trim() === '') return fail('quantity/empty', `is empty; it must be ${quantity.offered}`)
  const match = /^\s*([+-]?(?:\d+\.?\d*|\.\d+))\s*(%?)\s*$/.exec(plainSigns(written).slice(0, longest))
  if (match === null) return fail('quantity/syntax', `cannot be read; it must be ${quantity.offered}`)
  if (match[2] === '')
    return fail('quantity/missing-unit', `stands in quotes without a %; it must be ${quantity.offered}`)
  return { ok: true, value: toNumber(divide(rational(match[1]!), rational('100'))), unit: '%' }
}

function parseRatio(written: unknown, quantity: PureQuantity): ReadQuantity {
  const fail = failing(quantity)
  if (typeof written !== 'string') return fail('quantity/not-text', `is no ratio; it must be ${quantity.offered}`)
  if (written.trim() === '') return fail('quantity/empty', `is empty; it must be ${quantity.offered}`)
  const parts = written.length > longest ? null : ratioParts(written)
  if (parts === null) return fail('quantity/syntax', `cannot be read; it must be ${quantity.offered}`)
  if (!(parts[0] > 0 && parts[1] > 0)) return fail('quantity/syntax', 'has a zero; both numbers must be above zero')
  return { ok: true, value: parts[0] / parts[1], unit: ':' }
}

function parsePure(written: unknown, quantity: PureQuantity): ReadQuantity {
  const fail = failing(quantity)
  if (typeof written !== 'number')
    return fail('quantity/not-a-number', `is not a number; it must be ${quantity.offered}`)
  if (quantity.written === 'as whole number' && Number.isFinite(written) && !Number.isInteger(written)) {
    return fail('quantity/syntax', `is not whole; it must be ${quantity.offered}`)
  }
  return finite(written, fail, quantity)
}

const finite = (value: number, fail: Fail, { offered }: PureQuantity): ReadQuantity =>
  Number.isFinite(value)
    ? { ok: true, value, unit: '' }
    : fail('quantity/not-finite', `is not finite; it must be ${offered}`)
