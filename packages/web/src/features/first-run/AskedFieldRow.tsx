/** One field of a question: judged by the plan's own table as it is typed, with help in place. */

import { fields } from '@finwright/plan/schema/fields.data.ts'
import { limitsText } from '@finwright/plan/schema/judge.ts'
import styles from '../../parts/Field.module.css'
import { FieldRow } from '../../parts/FieldRow.tsx'
import { faultsOf, type Units } from './make-plan.ts'
import type { Answers, AskedField } from './questions.data.ts'
import { answer } from './start-state.ts'

interface AskedFieldRowProps {
  readonly asked: AskedField
  readonly answers: Answers
  readonly own: boolean
  readonly units: Units
}

export function AskedFieldRow({ asked, answers, own, units }: AskedFieldRowProps) {
  const value = answers[asked.key]
  if (asked.kind === 'choice')
    return (
      <FieldRow path={[asked.key]} label={asked.label} note={asked.help}>
        {(described) => (
          <select
            {...described}
            className={styles.select}
            data-standing={!own || undefined}
            value={value}
            onChange={(event) => answer({ [asked.key]: event.target.value })}
          >
            {asked.options.map((option) => (
              <option key={option.value} value={option.value}>
                {option.label}
              </option>
            ))}
          </select>
        )}
      </FieldRow>
    )
  return (
    <FieldRow
      path={[asked.key]}
      label={asked.label}
      hint={`${asked.help} ${limitsText(fields[asked.field])}`}
      note={asked.help}
      issues={faultsOf(asked, answers, units)}
    >
      {(described) => (
        <input
          {...described}
          className={styles.input}
          data-standing={!own || undefined}
          value={value}
          placeholder={asked.open === true ? 'not stated' : undefined}
          spellCheck={false}
          autoComplete="off"
          onChange={(event) => answer({ [asked.key]: event.target.value })}
          onFocus={(event) => event.currentTarget.select()}
        />
      )}
    </FieldRow>
  )
}
