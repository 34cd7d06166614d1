/**
 * How numbers and units are written, as regular expressions: the reader and the JSON Schema share them.
 *
 * A number is `12`, `.75`, `1.2e3`, `3/4`, `1 1/2`, `1-1/2` or `1½`; a unit is a word or a mark with an optional power, over at
 * most one other.
 */
import type { MeasuredQuantity, UnitForm } from './quantities.data.ts'
import { spellings } from './unit.ts'

const dash = '[\\-−–]'
const decimal = `(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE](?:\\+|${dash})?\\d+)?`
const glyphs = '½¼¾⅛⅜⅝⅞'

/** Whole part, numerator, denominator, glyph's whole part, glyph, decimal. */
export const numberSource = `(?:(?:(\\d+)(?:\\s*${dash}\\s*|\\s+))?(\\d+)\\s*[/⁄]\\s*(\\d+)|(\\d*)\\s*([${glyphs}])|(${decimal}))`

const degrees = '(?:deg|°)\\s+[CF](?![a-zA-Z])'
const word = '[a-zA-Zµμ°℃℉%]+'
const mark = `''|["'″′”’]`
const exponent = '(?:\\s*\\^\\s*[23](?!\\d)|[23](?!\\d)|[²³])?'
const part = `(?:${degrees}|${word}|${mark})${exponent}`

export const unitSource = `${part}(?:\\s*/\\s*${part})?`

export const glyphFractions: Readonly<Record<string, readonly [number, number]>> = {
  '½': [1, 2],
  '¼': [1, 4],
  '¾': [3, 4],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
}

/** A minus may be typed as such. */
export const plainSigns = (text: string): string => text.replace(/[−–]/g, '-')

/** A pattern that accepts whatever the reader accepts of this quantity, for the JSON Schema. */
export function patternOf(quantity: MeasuredQuantity): string {
  const plainNumber = numberSource.replace(/\((?=[\\[])/g, '(?:').replace(`(${decimal})`, `(?:${decimal})`)
  const unit = quantity.forms.map(formPattern).join('|')
  const term = `${plainNumber}\\s*(?:${unit})`
  const more = quantity.sums ? `(?:\\s*${dash}?\\s*${term})*` : ''
  return `^\\s*(?:\\+|${dash})?\\s*${term}${more}\\s*$`
}

function formPattern({ over, under, power }: UnitForm): string {
  const raised = power === undefined ? '' : `\\s*(?:\\^\\s*${power}|${power}|${power === 2 ? '²' : '³'})`
  const above = family(over)
  return under === undefined ? `${above}${raised}` : `${above}\\s*/\\s*${family(under)}${raised}`
}

function family(name: UnitForm['over']): string {
  const spelled = spellings(name).map(escaped)
  const spaced = name === 'temperature' ? ['(?:deg|°)\\s+[CF]'] : []
  return `(?:${[...spelled, ...spaced].join('|')})`
}

/** The characters that the `u` flag lets a pattern escape. */
const escaped = (text: string): string => text.replace(/[\^$\\.*+?()[\]{}|/]/g, '\\$&')
