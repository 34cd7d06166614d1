/**
 * A table read from CSV: named columns in any order, each with its unit in the heading, `time (s), thrust [N]`. Lines that
 * start with # are remarks. Whatever is wrong is told with its line.
 */
import type { Issue } from '@finwright/core/issue.ts'
import Papa from 'papaparse'
import { formatQuantity } from '../quantity/format.ts'
import type { MeasuredName } from '../quantity/quantities.data.ts'
import type { WrittenUnit } from '../quantity/unit.ts'
import type { Field } from '../schema/fields.data.ts'
import { limit, limitsText } from '../schema/judge.ts'
import { type Column, type Found, findColumns, headingAdvice, type Row, type Tell } from './heading.ts'

export interface TableSource {
  /** Of the file. */
  readonly name: string
  /** Of the plan's field that names it. */
  readonly path: string
  readonly text: string
}

/** One list of SI values a column, in the order asked for; undefined when anything is wrong. */
export interface Table {
  readonly columns: readonly (readonly number[])[] | undefined
  /** Of each column's heading; null where it has none. */
  readonly units: readonly (string | null)[]
  readonly issues: readonly Issue[]
}

/** Told one by one up to this many a file; the rest are counted. */
const mostIssues = 20
const mostRows = 200_000
const fewestRows = 2

export function readTable(source: TableSource, columns: readonly Column[]): Table {
  const issues: Issue[] = []
  const tell: Tell = (code, value, message, hint) =>
    void issues.push({ code: `csv/${code}`, path: source.path, value, message: `${source.name}: ${message}`, hint })
  const rows = rowsOf(source.text)
  if (rows.length === 0) {
    tell('empty', '', 'the file is empty; it must have a heading and rows of numbers.', headingAdvice(columns))
    return { columns: undefined, units: [], issues }
  }
  const found = findColumns(rows[0]!, columns, tell)
  const body = rows.slice(1)
  if (body.length < fewestRows) {
    tell(
      'too-few-rows',
      body.length,
      `the table has ${body.length} rows; it must have at least ${fewestRows}.`,
      'Add the rows that are missing.',
    )
  }
  if (body.length > mostRows) {
    tell('too-long', body.length, `the table has ${body.length} rows; at most ${mostRows} are read.`, 'Thin it out.')
    return { columns: undefined, units: [], issues }
  }
  const values = found.map((one) => (one === null ? [] : readColumn(one, body, tell)))
  tellExtraCells(rows[0]!, body, tell)
  const units = found.map((one) => one?.unit?.name ?? null)
  return { columns: issues.length === 0 ? values : undefined, units, issues: capped(issues, source) }
}

/** Rows with the line they start on; blank lines and remarks left out. */
function rowsOf(text: string): readonly Row[] {
  const plain = text
    .replace(/^\uFEFF/, '')
    .replace(/\r\n?/g, '\n')
    .replace(/^[^\S\n]*#.*$/gm, '')
  const { data } = Papa.parse<string[]>(plain, { delimiter: delimiterOf(plain) })
  const rows: Row[] = []
  let line = 1
  for (const cells of data) {
    if (cells.some((cell) => cell.trim() !== '')) rows.push({ line, cells: cells.map((cell) => cell.trim()) })
    line += 1 + cells.reduce((breaks, cell) => breaks + cell.split('\n').length - 1, 0)
  }
  return rows
}

/** By the first line that says anything: a heading has no semicolon or tab of its own. */
function delimiterOf(text: string): string {
  const heading = /\S.*/.exec(text)?.[0] ?? ''
  return [';', '\t'].find((delimiter) => heading.includes(delimiter)) ?? ','
}

const numberText = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/

function readColumn({ column, field, at, heading, factor, unit }: Found, rows: readonly Row[], tell: Tell): number[] {
  const least = limit(field, 'least')
  const most = limit(field, 'most')
  const values: number[] = []
  let before: number | null = null
  for (const { line, cells } of rows) {
    const cell = cells[at] ?? ''
    const place = `line ${line}, column '${heading}'`
    const value = numberText.test(cell) ? Number(cell) * factor : Number.NaN
    if (cell === '')
      tell('gap', cell, `${place} is empty; every row must have a number there.`, 'Fill the gap or remove the row.')
    else if (!Number.isFinite(value))
      tell('not-a-number', cell, `${place} is '${cell}'; it must be a finite number.`, numberAdvice(cell))
    else if (!(value >= least && value <= most)) {
      tell(
        'out-of-range',
        cell,
        `${place} is ${cell}; it must lie ${rangeIn(field, unit)}.`,
        `Check the unit in the heading. ${limitsText(field)}`,
      )
    } else if (column.rising === true && before !== null && !(value > before)) {
      tell(
        'not-rising',
        cell,
        `${place} is ${cell}, not above the row before; it must rise from row to row.`,
        'Sort the rows and remove repeated ones.',
      )
    }
    if (Number.isFinite(value)) before = value
    values.push(value)
  }
  return values
}

function rangeIn(field: Field, unit: WrittenUnit | null): string {
  if (unit === null) return `between ${field.least} and ${field.most}`
  const inUnit = (which: 'least' | 'most'): string =>
    formatQuantity(limit(field, which), field.quantity as MeasuredName, 'metric', { significant: 3, unit: unit.name })
  return `between ${inUnit('least')} and ${inUnit('most')}`
}

const numberAdvice = (cell: string): string =>
  /^[+-]?\d+,\d+$/.test(cell)
    ? 'Use a point for decimals.'
    : 'Write plain numbers such as 12.5 or 1.2e3; the unit belongs in the heading.'

function tellExtraCells(header: Row, rows: readonly Row[], tell: Tell): void {
  for (const { line, cells } of rows) {
    if (cells.length <= header.cells.length) continue
    const message = `line ${line} has ${cells.length} cells; the heading has ${header.cells.length}.`
    tell('extra-cell', cells.join(','), message, 'Use a point for decimals, and one cell a column.')
  }
}

function capped(issues: readonly Issue[], { name, path }: TableSource): readonly Issue[] {
  if (issues.length <= mostIssues) return issues
  const more = issues.length - mostIssues
  const message = `${name}: ${more} more faults of this kind follow.`
  const rest: Issue = { code: 'csv/more', path, value: more, message, hint: 'Correct the first ones and look again.' }
  return [...issues.slice(0, mostIssues), rest]
}
