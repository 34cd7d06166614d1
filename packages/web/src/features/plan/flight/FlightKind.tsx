/** How the flight is known, and the way to another: nothing changes until what that one needs is there. */
import type { Issue } from '@finwright/core/issue.ts'
import { fields } from '@finwright/plan/schema/fields.data.ts'
import { judge, limitsText, sentence } from '@finwright/plan/schema/judge.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'
import { useState } from 'react'
import { Button } from '../../../parts/Button.tsx'
import { Choice } from '../../../parts/Choice.tsx'
import fieldStyles from '../../../parts/Field.module.css'
import { FieldRow } from '../../../parts/FieldRow.tsx'
import { useEnter, useRecord, useUnits } from '../../../state/use.ts'
import styles from './Flight.module.css'
import {
  fileNameFor,
  historyFlight,
  type FlightKind as Kind,
  statesFlight,
  type ThrustParts,
  thrustFlight,
} from './flight.commands.ts'
import { TableFile } from './TableFile.tsx'
import { useAttach } from './use-attach.ts'

const ways: readonly { readonly value: Kind; readonly label: string; readonly words: string }[] = [
  {
    value: 'thrust',
    label: 'thrust curve, flown here',
    words: 'The flight is computed from the thrust curve, the masses and the drag, straight up in still air.',
  },
  {
    value: 'history',
    label: 'flown elsewhere',
    words: 'Time, altitude and speed come from a table: a flight logged, or computed with another tool.',
  },
  {
    value: 'states',
    label: 'air at given speeds',
    words: 'Only speeds and the air at each are known: margins at those, without times and heights.',
  },
]

export function FlightKind() {
  const { plan } = useRecord()
  const kind = String(valueAt(plan, ['flight', 'kind'])) as Kind
  const [open, setOpen] = useState(false)
  const [wanted, setWanted] = useState<Kind | null>(null)
  const close = (): void => {
    setOpen(false)
    setWanted(null)
  }
  const other = wanted !== null && wanted !== kind ? wanted : null
  return (
    <div className={styles.kind} data-path="flight.kind">
      <p>
        {ways.find(({ value }) => value === kind)?.words}{' '}
        <Button kind="quiet" onPress={() => (open ? close() : setOpen(true))} aria-expanded={open}>
          {open ? 'Leave it so' : 'Change how the flight is known'}
        </Button>
      </p>
      {open && (
        <div className={styles.ways}>
          <Choice
            label="The flight is known by"
            value={wanted ?? kind}
            options={ways.map(({ value, label }) => ({ value, label }))}
            onChange={setWanted}
          />
          {other !== null && <p>{ways.find(({ value }) => value === other)?.words}</p>}
          {other === 'thrust' && <ByThrust onDone={close} />}
          {other === 'history' && <ByHistory onDone={close} />}
          {other === 'states' && <ByStates onDone={close} />}
        </div>
      )}
    </div>
  )
}

function ByHistory({ onDone }: { readonly onDone: () => void }) {
  const record = useRecord()
  const attach = useAttach()
  return (
    <TableFile
      name="history"
      takeLabel="Take this flight"
      onTake={async ({ file, text }) => {
        const name = fileNameFor('history', file, record)
        const issues = await attach(text, (reference) => [
          { name: 'files.attach', payload: { name, file: reference } },
          historyFlight(name, record.plan),
        ])
        if (issues.length === 0) onDone()
        return issues
      }}
    />
  )
}

function ByStates({ onDone }: { readonly onDone: () => void }) {
  const enter = useEnter()
  return (
    <div>
      <Button
        onPress={() => {
          if (enter(statesFlight()).ok) onDone()
        }}
      >
        Begin with Mach 1 at sea level
      </Button>
    </div>
  )
}

const asked = [
  { key: 'liftOffMass', field: 'flight.liftOffMass', metric: '10 kg', us: '22 lb' },
  { key: 'propellantMass', field: 'flight.propellantMass', metric: '2.5 kg', us: '5.5 lb' },
  { key: 'drag', field: 'flight.drag[][1]', metric: '0.6', us: '0.6' },
] as const

function ByThrust({ onDone }: { readonly onDone: () => void }) {
  const record = useRecord()
  const attach = useAttach()
  const units = useUnits()
  const [given, setGiven] = useState<ThrustParts>({ liftOffMass: '', propellantMass: '', drag: '' })
  const faultOf = ({ key, field }: (typeof asked)[number]): readonly Issue[] => {
    const written = key === 'drag' && /^[\d.]+$/.test(given.drag) ? Number(given.drag) : given[key]
    const verdict = judge(fields[field], written)
    return verdict === null ? [] : [{ ...verdict, path: key, value: written }]
  }
  const faults = asked.flatMap(faultOf)
  return (
    <>
      <div className={styles.asked}>
        {asked.map((one) => (
          <FieldRow
            key={one.key}
            path={['flight', one.key]}
            label={one.key === 'drag' ? 'Drag coefficient, one for all speeds' : sentence(fields[one.field].label)}
            note={
              one.key === 'drag'
                ? 'A table against Mach number can take its place afterwards; near Mach 1 it is half as much again.'
                : ''
            }
            hint={limitsText(fields[one.field])}
            state={given[one.key] === '' ? 'open' : 'typed'}
            issues={given[one.key] === '' ? [] : faultOf(one)}
          >
            {(described) => (
              <input
                {...described}
                className={fieldStyles.input}
                value={given[one.key]}
                placeholder={`such as ${one[units]}`}
                spellCheck={false}
                autoComplete="off"
                onChange={(event) => setGiven({ ...given, [one.key]: event.target.value })}
              />
            )}
          </FieldRow>
        ))}
      </div>
      <TableFile
        name="thrust"
        takeLabel="Fly this"
        onTake={async ({ file, text }) => {
          if (faults.length > 0) return faults
          const name = fileNameFor('thrust', file, record)
          const issues = await attach(text, (reference) => [
            { name: 'files.attach', payload: { name, file: reference } },
            thrustFlight(name, given, record.plan),
          ])
          if (issues.length === 0) onDone()
          return issues
        }}
      />
    </>
  )
}
