/**
 * What was typed, as an input shows it: as typed where its unit is of the system asked for or of both, else converted, and then it
 * says so. The plan itself keeps what was typed.
 */
import { fittingUnit, formatQuantity, numberIn, type UnitSystem } from './format.ts'
import { parseQuantity } from './parse.ts'
import { type MeasuredName, type Quantity, type QuantityName, quantities } from './quantities.data.ts'

export interface ShownQuantity {
  readonly text: string
  /** It stands in other units in the plan. */
  readonly converted: boolean
}

/** Spellings of every US unit of the table; what is in none of the two lists is of both systems: seconds, degrees, shares. */
const us =
  /(^|[\s\d./])(mils?|thou|in|inch|inches|ft|foot|feet|yd|yards?|oz|ounces?|lbs?|lbm|pounds?|slugs?|mph|lbf|psi|ksi|Msi|degF|°F|℉|F)(?![a-z])|["″”'′’]/
const metric =
  /(^|[\s\d./])([uµμ]m|microns?|[mck]?m|m?g|grams?|kg|kN|N|h?k?Pa|mbar|MPa|GPa|gsm|degC|°C|℃|C)(?![a-zA-Z])/

/** Five digits: what a converted number is shown with. */
const digits = 5

export function shownIn(written: unknown, name: QuantityName, system: UnitSystem): ShownQuantity {
  const text = typeof written === 'string' ? written : String(written ?? '')
  const quantity: Quantity = quantities[name]
  if (quantity.written !== 'with unit' || quantity.metric === quantity.us) return { text, converted: false }
  const other = system === 'us' ? metric : us
  const read = parseQuantity(written, name)
  if (!read.ok || !other.test(text)) return { text, converted: false }
  const measured = name as MeasuredName
  const unit = largeEnough(read.value, measured, system)
  return { text: formatQuantity(read.value, measured, system, { significant: digits, unit }), converted: true }
}

/** Lengths stay in the small unit up to a hundred of the larger one's tenth: 300 mm is no 0.3 m. */
function largeEnough(value: number, name: MeasuredName, system: UnitSystem): string {
  const quantity = quantities[name]
  const small = quantity[system]
  return Math.abs(numberIn(value, name, small)) < 2000 ? small : fittingUnit(value, name, system)
}

/** The unit that stands at the end of a text, for a number typed without one: `mm` of `3.2 mm`. */
export function unitOf(text: string): string | null {
  return (
    /[\d½¼¾⅛⅜⅝⅞]\s*([^\d\s.,:½¼¾⅛⅜⅝⅞][^\d]*(?:\/[^\d]+[23]?)?)\s*$/u.exec(text)?.[1]?.trim() ??
    /\s([a-zA-Z]+\/[a-zA-Z]+\^?[23]?)\s*$/.exec(text)?.[1] ??
    null
  )
}

/**
 * The text with its last number one step up or down; a step is one of its last digit as typed, or ten. Null where the text has
 * no plain number.
 */
export function nudged(text: string, steps: number): string | null {
  const match = /^(.*?)([+-]?\d+(?:\.\d+)?)(?!.*\d)(.*)$/su.exec(/[/⁄]\s*\d/.test(text) ? '' : withoutPowers(text))
  if (match === null) return null
  const [, before, number, after] = match
  const decimals = number!.split('.')[1]?.length ?? 0
  const next = Number(number) + steps * 10 ** -decimals
  return restored(text, `${before}${next.toFixed(decimals)}${after}`)
}

/** The 2 of `m2` and `yd^2` is no number to step. */
const withoutPowers = (text: string): string =>
  text.replace(/([a-zA-Z^])([23])(?!\d)/g, (_, unit, power) => `${unit}${power === '2' ? '²' : '³'}`)

const restored = (typed: string, changed: string): string =>
  /[²³]/.test(typed) ? changed : changed.replace('²', '2').replace('³', '3')
