/**
 * Exact fractions of whole numbers, so that a conversion rounds once, at the end.
 *
 * 0.75 in is 3/4 · 127/5000 m exactly; the number handed on is the double nearest to that fraction.
 */
import { invariant } from '@finwright/core/issue.ts'

/** `n / d`, `d` above zero; not necessarily in lowest terms. */
export interface Rational {
  readonly n: bigint
  readonly d: bigint
}

export const one: Rational = { n: 1n, d: 1n }

/** Reads `12`, `-0.75`, `.5` or `1.2e-3` exactly. */
export function rational(text: string): Rational {
  const match = /^([+-]?)(\d*)\.?(\d*)(?:[eE]([+-]?\d+))?$/.exec(text)
  invariant(match !== null && `${match[2]}${match[3]}` !== '', `'${text}' is a decimal number`)
  const digits = BigInt(`${match[2]}${match[3]}`)
  const power = Number(match[4] ?? '0') - match[3]!.length
  const n = match[1] === '-' ? -digits : digits
  return power >= 0 ? { n: n * 10n ** BigInt(power), d: 1n } : { n, d: 10n ** BigInt(-power) }
}

/** The fraction that a finite double is. */
export function rationalOf(value: number): Rational {
  invariant(Number.isFinite(value), `${value} is finite`)
  let n = value
  let twos = 0
  while (!Number.isInteger(n)) {
    n *= 2
    twos += 1
  }
  return { n: BigInt(n), d: 1n << BigInt(twos) }
}

export const add = (a: Rational, b: Rational): Rational => ({ n: a.n * b.d + b.n * a.d, d: a.d * b.d })
export const negative = (a: Rational): Rational => ({ n: -a.n, d: a.d })
export const multiply = (a: Rational, b: Rational): Rational => ({ n: a.n * b.n, d: a.d * b.d })

export function divide(a: Rational, b: Rational): Rational {
  invariant(b.n !== 0n, 'no division by zero')
  return b.n > 0n ? { n: a.n * b.d, d: a.d * b.n } : { n: -a.n * b.d, d: -a.d * b.n }
}

export function power(a: Rational, exponent: number): Rational {
  const e = BigInt(Math.abs(exponent))
  const raised = { n: a.n ** e, d: a.d ** e }
  return exponent >= 0 ? raised : divide(one, raised)
}

/** The double nearest to the fraction, ties to even; infinite when too large. Below 2.2e-308 it may be one place off. */
export function toNumber({ n, d }: Rational): number {
  const magnitude = n < 0n ? -n : n
  if (magnitude === 0n) return 0
  const shift = keptBits - (bitLength(magnitude) - bitLength(d))
  const above = magnitude << BigInt(Math.max(shift, 0))
  const below = d << BigInt(Math.max(-shift, 0))
  const sticky = above % below === 0n ? 0n : 1n
  const rounded = scaledBy(Number(((above / below) << 1n) | sticky), -(shift + 1))
  return n < 0n ? -rounded : rounded
}

/** More than the 53 of a double, so that the sticky bit below them decides the ties. */
const keptBits = 70

/** x · 2^e, in two steps where 2^e itself is no double. */
const scaledBy = (x: number, e: number): number => (e < -1000 ? x * 2 ** -1000 * 2 ** (e + 1000) : x * 2 ** e)

/** Decimal text with `digits` significant digits, rounded half away from zero, without trailing zeros. */
export function toDecimal(value: Rational, digits: number): string {
  const { significand, exponent } = decimalDigits(value, digits)
  return plain(significand.replace(/0+$/, ''), exponent, value.n < 0n)
}

/** Decimal text with exactly `decimals` digits after the point. */
export function toFixed({ n, d }: Rational, decimals: number): string {
  const magnitude = n < 0n ? -n : n
  const scale = 10n ** BigInt(Math.max(0, decimals))
  const rounded = (2n * magnitude * scale + d) / (2n * d)
  const text = rounded.toString().padStart(decimals + 1, '0')
  const whole = decimals > 0 ? `${text.slice(0, -decimals)}.${text.slice(-decimals)}` : text
  return n < 0n && rounded !== 0n ? `-${whole}` : whole
}

/** Power of ten of the leading digit. */
export function magnitudeOf(value: Rational): number {
  return value.n === 0n ? 0 : decimalDigits(value, 1).exponent
}

function decimalDigits({ n, d }: Rational, digits: number): { significand: string; exponent: number } {
  const magnitude = n < 0n ? -n : n
  if (magnitude === 0n) return { significand: '0', exponent: 0 }
  let exponent = magnitude.toString().length - d.toString().length
  if (magnitude * tenTo(-exponent) < d * tenTo(exponent)) exponent -= 1
  const shift = digits - 1 - exponent
  const rounded = (2n * magnitude * tenTo(shift) + d * tenTo(-shift)) / (2n * d * tenTo(-shift))
  const significand = rounded.toString()
  return significand.length > digits
    ? { significand: significand.slice(0, digits), exponent: exponent + 1 }
    : { significand, exponent }
}

const tenTo = (exponent: number): bigint => (exponent > 0 ? 10n ** BigInt(exponent) : 1n)

const bitLength = (value: bigint): number => value.toString(2).length

function plain(significand: string, exponent: number, negative: boolean): string {
  const digits = significand === '' ? '0' : significand
  const sign = negative && digits !== '0' ? '-' : ''
  if (exponent < -7 || exponent > 14) {
    const rest = digits.slice(1)
    return `${sign}${digits[0]}${rest === '' ? '' : `.${rest}`}e${exponent}`
  }
  if (exponent < 0) return `${sign}0.${'0'.repeat(-exponent - 1)}${digits}`
  if (digits.length <= exponent + 1) return `${sign}${digits.padEnd(exponent + 1, '0')}`
  return `${sign}${digits.slice(0, exponent + 1)}.${digits.slice(exponent + 1)}`
}
