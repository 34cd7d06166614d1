/** A table of the flight as curves, one a column after the first. */
import type { PlanTableName } from '@finwright/plan/csv/plan-tables.ts'
import { useCallback } from 'react'
import { Chart } from '../../../parts/Chart.tsx'
import { useUnits } from '../../../state/use.ts'
import styles from './Flight.module.css'
import { type Columns, headings, tableChart } from './flight.results.ts'

interface TableChartsProps {
  readonly name: PlanTableName
  readonly columns: Columns
}

export function TableCharts({ name, columns }: TableChartsProps) {
  if ((columns[0]?.length ?? 0) < 2) return null
  return (
    <div className={styles.charts}>
      {columns.slice(1).map((_, k) => (
        <OneChart key={headings(name)[k + 1]} name={name} columns={columns} j={k + 1} />
      ))}
    </div>
  )
}

function OneChart({ name, columns, j }: TableChartsProps & { readonly j: number }) {
  const units = useUnits()
  const input = useCallback(
    (width: number) => tableChart(name, columns, j, { width, system: units }),
    [name, columns, j, units],
  )
  const [first, own] = [headings(name)[0]!, headings(name)[j]!]
  return <Chart input={input} label={`${own} against ${first.toLowerCase()}`} decimals={name === 'drag' ? 2 : 0} />
}
