/** Yes or no. */
import type { Path } from '@finwright/plan/schema/locate.ts'
import { isOptional } from '@finwright/plan/schema/optional.ts'
import { useEnter } from '../state/use.ts'
import { useField } from '../state/use-field.ts'
import styles from './Field.module.css'
import { FieldRow } from './FieldRow.tsx'

interface SwitchFieldProps {
  readonly path: Path
  readonly label: string
  /** What holds where nothing was typed and the plan reader fills nothing in. */
  readonly otherwise?: boolean
  readonly wayBack?: string
}

export function SwitchField({ path, label, otherwise, wayBack }: SwitchFieldProps) {
  const enter = useEnter()
  const { typed, standing, issues } = useField(path)
  const clear = (): void => void enter({ name: 'field.clear', payload: { path: [...path] } })
  return (
    <FieldRow
      path={path}
      label={label}
      source={standing?.source ?? ''}
      issues={issues}
      state={typed === undefined ? 'standing' : 'typed'}
      {...(otherwise === undefined ? {} : { standingWord: 'library' })}
      onClear={typed === undefined || !isOptional(path) ? null : clear}
      {...(wayBack === undefined ? {} : { wayBack })}
    >
      {(described) => (
        <input
          {...described}
          type="checkbox"
          className={styles.switch}
          checked={(typed ?? standing?.value ?? otherwise) === true}
          onChange={(event) => enter({ name: 'field.set', payload: { path: [...path], value: event.target.checked } })}
        />
      )}
    </FieldRow>
  )
}
