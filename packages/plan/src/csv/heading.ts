/** The heading of a table: which column is which, and in what unit. */
import { type MeasuredQuantity, quantities } from '../quantity/quantities.data.ts'
import { toNumber } from '../quantity/rational.ts'
import { dimensionOf, findUnit, sameDimension, type WrittenUnit } from '../quantity/unit.ts'
import { type Field, type FieldKey, fields } from '../schema/fields.data.ts'

export interface Column {
  readonly field: FieldKey
  /** Accepted headings, the first is the one to advise. */
  readonly headings: readonly string[]
  readonly rising?: boolean
  /** To advise and to write, where the quantity's usual ones do not fit: seconds of a flight, not minutes. */
  readonly units?: { readonly metric: string; readonly us: string }
}

export interface Row {
  readonly line: number
  readonly cells: readonly string[]
}

/** A column asked for, where it stands, and its unit's factor to SI. */
export interface Found {
  readonly column: Column
  readonly field: Field
  readonly at: number
  readonly heading: string
  readonly factor: number
  readonly unit: WrittenUnit | null
}

/** Says what is wrong, without the file's name. */
export type Tell = (code: string, value: unknown, message: string, hint: string) => void

/** Null for a column that is not there or has no fitting unit, which has been told. */
export function findColumns(header: Row, columns: readonly Column[], tell: Tell): readonly (Found | null)[] {
  const headings = header.cells.map(splitHeading)
  return columns.map((column) => {
    const places = headings.flatMap(({ name }, at) => (column.headings.includes(name) ? [at] : []))
    const wanted = column.headings[0]!
    if (places.length === 0) {
      const message = `line ${header.line}: there is no column '${wanted}'; the headings are ${header.cells.map((cell) => `'${cell}'`).join(', ')}.`
      tell('missing-column', header.cells.join(', '), message, headingAdvice(columns))
      return null
    }
    if (places.length > 1) {
      const message = `line ${header.line}: the column '${wanted}' stands ${places.length} times; it may stand once.`
      tell('repeated-column', wanted, message, 'Remove or rename the others.')
      return null
    }
    return withUnit(column, places[0]!, header, headings[places[0]!]!, tell)
  })
}

interface Heading {
  readonly name: string
  readonly unit: string
}

function splitHeading(cell: string): Heading {
  const match = /^(.*?)\s*(?:\(([^()]*)\)|\[([^[\]]*)\])?\s*$/s.exec(cell)!
  return {
    name: match[1]!
      .toLowerCase()
      .replace(/[\s_]+/g, ' ')
      .trim(),
    unit: (match[2] ?? match[3] ?? '').trim(),
  }
}

function withUnit(column: Column, at: number, header: Row, heading: Heading, tell: Tell): Found | null {
  const field: Field = fields[column.field]
  const quantity = quantities[field.quantity]
  const cell = header.cells[at]!
  if (quantity.written !== 'with unit') return { column, field, at, heading: cell, factor: 1, unit: null }
  const measured: MeasuredQuantity = quantity
  const wanted = `it must be ${measured.name} (${measured.offered})`
  const advised = column.units?.metric ?? measured.metric
  const unit = findUnit(heading.unit)
  const place = `line ${header.line}: the column '${cell}'`
  if (heading.unit === '')
    tell('missing-unit', cell, `${place} has no unit; ${wanted}.`, `Write '${heading.name} (${advised})'.`)
  else if (unit === null)
    tell(
      'unknown-unit',
      cell,
      `${place} has the unknown unit '${heading.unit}'; ${wanted}.`,
      `Write '${heading.name} (${advised})'.`,
    )
  else if (!measured.forms.some((form) => sameDimension(dimensionOf(form), unit.dimension))) {
    tell(
      'wrong-dimension',
      cell,
      `${place} is in '${heading.unit}'; ${wanted}.`,
      `Write '${heading.name} (${advised})'.`,
    )
  } else return { column, field, at, heading: cell, factor: toNumber(unit.factor), unit }
  return null
}

/** What the first line should be like. */
export function headingAdvice(columns: readonly Column[]): string {
  const heading = columns.map(({ field, headings, units }) => {
    const quantity = quantities[fields[field].quantity]
    return quantity.written === 'with unit' ? `${headings[0]} (${units?.metric ?? quantity.metric})` : headings[0]
  })
  return `The first line must be like '${heading.join(', ')}'.`
}
