/** One table of the flight: what it says, its curves, its rows to edit, its file to attach and to download. */
import type { Issue } from '@finwright/core/issue.ts'
import { type PlanTableName, planTables, tableCsv } from '@finwright/plan/csv/plan-tables.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import { mostRowsInPlan } from '@finwright/plan/schema/can.ts'
import { pathText } from '@finwright/plan/schema/locate.ts'
import { useState } from 'react'
import { Button } from '../../../parts/Button.tsx'
import { EditTable } from '../../../parts/EditTable.tsx'
import { Faults } from '../../../parts/Faults.tsx'
import { save } from '../../../parts/save.ts'
import { useEnter, useRecord, useTyped, useUnits } from '../../../state/use.ts'
import { useField } from '../../../state/use-field.ts'
import styles from './Flight.module.css'
import { attachIntents, fileNameFor, rowBetween, rowsIntent } from './flight.commands.ts'
import { headings, impulse, rowsOfPlan, tableName, tableWords } from './flight.results.ts'
import { TableCharts } from './TableCharts.tsx'
import { TableFile } from './TableFile.tsx'
import { useAttach } from './use-attach.ts'
import { type StandingTable, useTable } from './use-table.ts'

export function FlightTable({ name }: { readonly name: PlanTableName }) {
  const table = useTable(name)
  const record = useRecord()
  const attach = useAttach()
  const units = useUnits()
  const { issues } = useField(planTables[name].path)
  const [open, setOpen] = useState(false)
  return (
    <div className={styles.table} data-path={pathText(planTables[name].path)}>
      <div className={styles.head}>
        <h3>{tableName(name)}</h3>
        <p className={styles.words}>
          {table.file !== null && <strong>{table.file}: </strong>}
          {table.columns === null ? notHere(table) : tableWords(name, table.columns, units)}
          {name === 'thrust' && table.columns !== null && ` Total impulse ${impulse(table.columns).toFixed(0)} N s.`}
        </p>
      </div>
      {issues.length > 0 && <Faults issues={issues} />}
      <div className={styles.both}>
        <div className={styles.charts}>
          {table.columns !== null && <TableCharts name={name} columns={table.columns} />}
        </div>
        <Rows name={name} table={table} />
      </div>
      <div className={styles.acts}>
        <Button
          onPress={() => setOpen(!open)}
          aria-expanded={open}
          aria-label={`${tableName(name)}: attach a CSV file`}
        >
          Attach a CSV file
        </Button>
        {table.columns !== null && (
          <Button
            kind="quiet"
            aria-label={`${tableName(name)}: download as CSV`}
            onPress={() =>
              save(
                table.file ?? `${name}.csv`,
                table.text ?? tableCsv(name, table.columns!, units),
                'text/csv;charset=utf-8',
              )
            }
          >
            Download as CSV
          </Button>
        )}
      </div>
      {open && (
        <TableFile
          name={name}
          takeLabel="Take it into the plan"
          onTake={({ file, text }) =>
            attach(text, (reference) => attachIntents(name, fileNameFor(name, file, record), reference))
          }
        />
      )}
    </div>
  )
}

const notHere = ({ file, text }: StandingTable): string =>
  file === null ? 'cannot be read as it stands.' : text === null ? 'not here yet …' : 'cannot be read.'

/** Rows of the plan as fields; of a file, the way to get them there. */
function Rows({ name, table }: { readonly name: PlanTableName; readonly table: StandingTable }) {
  const typed = useTyped(planTables[name].path)
  const enter = useEnter()
  const units = useUnits()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const rows = rowsOfPlan(typed)
  const go = (intent: Intent): void => {
    const made = enter(intent)
    setRefused(made.ok ? [] : made.issues)
  }
  if (rows === null) {
    const count = table.columns?.[0]?.length ?? 0
    const fits = table.text !== null && table.columns !== null && count <= mostRowsInPlan
    return (
      <div className={styles.rows}>
        <p className={styles.hint}>
          {count > mostRowsInPlan
            ? `A table of more than ${mostRowsInPlan} points stays beside the plan as a file: download it, change it in a spreadsheet and attach it again.`
            : 'The points stand in a file beside the plan. Taken into the plan they can be changed one by one, here.'}
        </p>
        {fits && (
          <Button
            onPress={() => {
              const intent = rowsIntent(name, table.text!, units)
              if (intent !== null) go(intent)
            }}
          >
            Edit the points here
          </Button>
        )}
      </div>
    )
  }
  const { path } = planTables[name]
  return (
    <div className={styles.rows}>
      <EditTable
        caption={`${tableName(name)}, point by point`}
        one="point"
        count={rows.length}
        least={name === 'drag' ? 1 : 2}
        most={mostRowsInPlan}
        columns={headings(name).map((head, j) => ({ head, at: (row) => [...path, row, j] }))}
        onInsert={(at) => go({ name: `${name}.insert`, payload: { at, entry: rowBetween(rows, at) } })}
        onRemove={(at) => go({ name: `${name}.remove`, payload: { at } })}
      />
      {refused.length > 0 && <Faults issues={refused} then="Nothing was changed." />}
    </div>
  )
}
