/** The flight: how it is known, and its tables. */

import type { Issue } from '@finwright/core/issue.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import { isObject, type JsonObject } from '@finwright/plan/protocol/record.ts'
import { useState } from 'react'
import { EditTable } from '../../../parts/EditTable.tsx'
import { Faults } from '../../../parts/Faults.tsx'
import { useEnter, useTyped } from '../../../state/use.ts'
import styles from './Flight.module.css'
import { FlightKind } from './FlightKind.tsx'
import { FlightTable } from './FlightTable.tsx'

export function FlightFields() {
  const kind = useTyped(['flight', 'kind'])
  return (
    <>
      <FlightKind />
      {kind === 'thrust' && (
        <>
          <FlightTable name="thrust" />
          <FlightTable name="drag" />
        </>
      )}
      {kind === 'history' && <FlightTable name="history" />}
      {kind === 'states' && <States />}
    </>
  )
}

/** Air at given speeds; each state by its temperature or by its speed of sound, as it was stated. */
function States() {
  const typed = useTyped(['flight', 'states'])
  const enter = useEnter()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const states = Array.isArray(typed) ? (typed as readonly JsonObject[]) : []
  const go = (intent: Intent): void => {
    const made = enter(intent)
    setRefused(made.ok ? [] : made.issues)
  }
  const warmth = (row: number): string =>
    isObject(states[row]) && 'soundSpeed' in states[row] ? 'soundSpeed' : 'temperature'
  const sound = states.some((state) => 'soundSpeed' in state)
  const warm = states.some((state) => !('soundSpeed' in state))
  const third = sound && warm ? 'Speed of sound or temperature' : sound ? 'Speed of sound' : 'Air temperature'
  return (
    <div className={styles.table} data-path="flight.states">
      <EditTable
        caption="Air states"
        one="state"
        count={states.length}
        least={1}
        most={200}
        columns={[
          { head: 'Mach number', at: (row) => ['flight', 'states', row, 'mach'] },
          { head: 'Air density', at: (row) => ['flight', 'states', row, 'density'] },
          { head: third, at: (row) => ['flight', 'states', row, warmth(row)] },
        ]}
        onInsert={(at) => go({ name: 'states.insert', payload: { at, entry: states[at - 1]! } })}
        onRemove={(at) => go({ name: 'states.remove', payload: { at } })}
      />
      {refused.length > 0 && <Faults issues={refused} then="Nothing was changed." />}
    </div>
  )
}
