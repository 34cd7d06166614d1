/** What is said and drawn of a table of the flight. */
import { type PlanTableName, planTables, rowsInSi, shownColumn } from '@finwright/plan/csv/plan-tables.ts'
import type { UnitSystem } from '@finwright/plan/quantity/format.ts'
import { sentence } from '@finwright/plan/schema/judge.ts'
import type { ChartInput } from '@finwright/sheets/layout/chart.ts'

export type Columns = readonly (readonly number[])[]

const titles: { readonly [name in PlanTableName]: readonly string[] } = {
  thrust: ['Time', 'Thrust'],
  drag: ['Mach number', 'Drag coefficient'],
  history: ['Time', 'Altitude above sea level', 'Speed'],
}

export const headings = (name: PlanTableName): readonly string[] => titles[name]

/** `12 points, 0 to 4 s; thrust up to 2130 N.` */
export function tableWords(name: PlanTableName, columns: Columns, system: UnitSystem): string {
  const shown = columns.map((values, j) => shownColumn(name, j, values, system))
  const [first, ...rest] = shown
  if (first === undefined || first.values.length === 0) return 'No points.'
  const unit = (text: string | null): string => (text === null ? '' : ` ${text}`)
  const along = `${number(first.values[0]!)} to ${number(first.values.at(-1)!)}${unit(first.unit)}`
  const of = name === 'drag' ? `Mach ${along}` : along
  const tops = rest.map(
    ({ unit: own, values }, j) =>
      `${titles[name][j + 1]!.toLowerCase()} ${number(values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY))} to ${number(values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY))}${unit(own)}`,
  )
  const count = first.values.length
  return `${count} ${count === 1 ? 'point' : 'points'}, ${of}; ${tops.join(', ')}.`
}

const number = (value: number): string => String(Number(value.toPrecision(4)))

/** Total impulse, N s, by the trapezoidal rule as the flight is flown with straight lines between points. */
export function impulse(columns: Columns): number {
  const [time, thrust] = columns
  if (time === undefined || thrust === undefined) return 0
  return time.slice(1).reduce((sum, t, i) => sum + 0.5 * (t - time[i]!) * (thrust[i]! + thrust[i + 1]!), 0)
}

/** One chart a column after the first. */
export function tableChart(
  name: PlanTableName,
  columns: Columns,
  j: number,
  { width, system }: { readonly width: number; readonly system: UnitSystem },
): ChartInput {
  const [x, y] = [0, j].map((k) => shownColumn(name, k, columns[k]!, system))
  const axis = (k: number, unit: string | null): string => `${titles[name][k]}${unit === null ? '' : `, ${unit}`}`
  const least = y!.values.reduce((a, b) => Math.min(a, b), 0)
  const most = y!.values.reduce((a, b) => Math.max(a, b), 0)
  return {
    ...{ x: 0, y: 0, width, height: Math.min(46, 0.45 * width + 14) },
    title: sentence(titles[name][j]!),
    xLabel: axis(0, x!.unit),
    yLabel: y!.unit ?? '',
    series: [{ x: x!.values, y: y!.values, label: '' }],
    ...(x!.values[0]! < 0 || least < 0
      ? {
          xRange: [Math.min(0, x!.values[0]!), x!.values.at(-1)!] as const,
          yRange: [1.05 * least, most === least ? least + 1 : 1.1 * most] as const,
        }
      : {}),
  }
}

/** Rows of the plan, where the table stands there. */
export const rowsOfPlan = (value: unknown): readonly (readonly (string | number)[])[] | null =>
  Array.isArray(value) ? (value as readonly (readonly (string | number)[])[]) : null

export const columnsOfPlan = (name: PlanTableName, value: unknown): Columns | null =>
  Array.isArray(value) ? rowsInSi(name, value) : null

export const tableName = (name: PlanTableName): string => sentence(planTables[name].name)
