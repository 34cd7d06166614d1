/** The tables of a plan's flight that stand in the plan as rows or beside it as a file: their columns, and the way between the two. */
import { formatQuantity, type UnitSystem } from '../quantity/format.ts'
import { type MeasuredName, quantities } from '../quantity/quantities.data.ts'
import { findUnit } from '../quantity/unit.ts'
import { type Field, fields } from '../schema/fields.data.ts'
import { siValue } from '../schema/judge.ts'
import { type Column, headingAdvice } from './heading.ts'
import { readTable, type Table, type TableSource } from './table.ts'

export type PlanTableName = 'thrust' | 'drag' | 'history'

export interface PlanTable {
  readonly path: readonly ['flight', PlanTableName]
  /** What a message calls it. */
  readonly name: string
  readonly columns: readonly Column[]
}

const seconds = { metric: 's', us: 's' }

export const planTables: { readonly [name in PlanTableName]: PlanTable } = {
  thrust: {
    path: ['flight', 'thrust'],
    name: 'thrust curve',
    columns: [
      { field: 'flight.thrust[][0]', headings: ['time', 't'], rising: true, units: seconds },
      { field: 'flight.thrust[][1]', headings: ['thrust', 'force'] },
    ],
  },
  drag: {
    path: ['flight', 'drag'],
    name: 'drag table',
    columns: [
      { field: 'flight.drag[][0]', headings: ['mach', 'mach number'], rising: true },
      { field: 'flight.drag[][1]', headings: ['drag coefficient', 'cd', 'coefficient'] },
    ],
  },
  history: {
    path: ['flight', 'history'],
    name: 'flown history',
    columns: [
      { field: 'flight.history[][0]', headings: ['time', 't'], rising: true, units: seconds },
      { field: 'flight.history[][1]', headings: ['altitude'], units: { metric: 'm', us: 'ft' } },
      { field: 'flight.history[][2]', headings: ['speed', 'velocity'] },
    ],
  },
}

/** A file read as one of the plan's tables. */
export const readPlanTable = (name: PlanTableName, source: Pick<TableSource, 'name' | 'text'>): Table =>
  readTable({ ...source, path: planTables[name].path.join('.') }, planTables[name].columns)

/** `The first line must be like 'time (s), thrust (N)'.` */
export const tableAdvice = (name: PlanTableName): string => headingAdvice(planTables[name].columns)

type Cell = string | number

/** Columns of SI values as rows of the plan: in the file's own units where they are given, else in the usual ones. */
export function planRows(
  name: PlanTableName,
  columns: readonly (readonly number[])[],
  units: UnitSystem | readonly (string | null)[],
): readonly (readonly Cell[])[] {
  const write = planTables[name].columns.map((column, j) => (value: number): Cell => {
    const unit = unitOfColumn(column, units, j)
    return unit === null ? significant(value) : `${numberOf(column, value, unit)} ${unit}`
  })
  return (columns[0] ?? []).map((_, i) => write.map((cell, j) => cell(columns[j]![i]!)))
}

/** Rows of the plan as columns of SI values; null where a cell cannot be read. */
export function rowsInSi(name: PlanTableName, rows: unknown): readonly (readonly number[])[] | null {
  if (!Array.isArray(rows)) return null
  const columns = planTables[name].columns.map(({ field }, j) =>
    rows.map((row: unknown) => siValue(field, Array.isArray(row) ? row[j] : undefined)),
  )
  return columns.every((column) => column.every((value) => value !== undefined))
    ? (columns as readonly (readonly number[])[])
    : null
}

/** As a CSV file that is read back as the same table, in the usual units of the system. */
export function tableCsv(name: PlanTableName, columns: readonly (readonly number[])[], system: UnitSystem): string {
  const described = planTables[name].columns
  const units = described.map((column, j) => unitOfColumn(column, system, j))
  const heading = described.map(({ headings }, j) => (units[j] === null ? headings[0] : `${headings[0]} (${units[j]})`))
  const rows = (columns[0] ?? []).map((_, i) =>
    described.map((column, j) => {
      const value = columns[j]![i]!
      const unit = units[j]
      return unit == null ? `${significant(value)}` : numberOf(column, value, unit)
    }),
  )
  return `${[heading, ...rows].map((cells) => cells.join(',')).join('\n')}\n`
}

/** One column in the usual unit of the system; without one for a plain number. */
export function shownColumn(name: PlanTableName, j: number, values: readonly number[], system: UnitSystem) {
  const column = planTables[name].columns[j]!
  const unit = unitOfColumn(column, system, j)
  return { unit, values: unit === null ? values : values.map((value) => Number(numberOf(column, value, unit))) }
}

function unitOfColumn(
  { field, units: own }: Column,
  units: UnitSystem | readonly (string | null)[],
  j: number,
): string | null {
  const { quantity: name }: Field = fields[field]
  const quantity = quantities[name]
  if (quantity.written !== 'with unit') return null
  const wanted = typeof units === 'string' ? (own ?? quantity)[units] : units[j]
  return wanted != null && findUnit(wanted) !== null ? wanted : (own ?? quantity).metric
}

/** Nine digits: more than any instrument gives, and the reading of a number typed comes back as it was typed. */
const digits = 9

const significant = (value: number): number => Number(value.toPrecision(digits))

function numberOf({ field }: Column, value: number, unit: string): string {
  const name = fields[field].quantity as MeasuredName
  return formatQuantity(value, name, 'metric', { significant: digits, unit }).slice(0, -unit.length - 1)
}
