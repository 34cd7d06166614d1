/** A table of the flight as it stands: rows of the plan, or the file that the plan names. */
import { type PlanTableName, planTables, readPlanTable } from '@finwright/plan/csv/plan-tables.ts'
import { useEffect, useMemo, useState } from 'react'
import { useRecord, useSession, useTyped } from '../../../state/use.ts'
import { type Columns, columnsOfPlan } from './flight.results.ts'

export interface StandingTable {
  readonly file: string | null
  /** Of the file; null while it is not here. */
  readonly text: string | null
  /** Null while it is not here, or cannot be read. */
  readonly columns: Columns | null
}

export function useTable(name: PlanTableName): StandingTable {
  const typed = useTyped(planTables[name].path)
  const file = typeof typed === 'string' ? typed : null
  const text = useFileText(file)
  return useMemo(() => {
    if (file === null) return { file, text: null, columns: columnsOfPlan(name, typed) }
    return { file, text, columns: text === null ? null : (readPlanTable(name, { name: file, text }).columns ?? null) }
  }, [name, typed, file, text])
}

function useFileText(name: string | null): string | null {
  const { files } = useRecord()
  const { readFile } = useSession()
  const reference = name === null ? undefined : files[name]
  const [known, setKnown] = useState<{ readonly sha256: string; readonly text: string } | null>(null)
  useEffect(() => {
    if (reference === undefined) return
    let wanted = true
    void readFile(reference).then((text) => {
      if (wanted && text !== null) setKnown({ sha256: reference.sha256, text })
    })
    return () => {
      wanted = false
    }
  }, [reference, readFile])
  return reference !== undefined && known?.sha256 === reference.sha256 ? known.text : null
}
