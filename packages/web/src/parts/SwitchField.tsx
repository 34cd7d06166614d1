/** Yes or no. */
import type { Path } from '@finwright/plan/schema/locate.ts'
import { useEnter } from '../state/use.ts'
import { useField } from '../state/use-field.ts'
import styles from './Field.module.css'
import { FieldRow } from './FieldRow.tsx'

interface SwitchFieldProps {
  readonly path: Path
  readonly label: string
}

export function SwitchField({ path, label }: SwitchFieldProps) {
  const enter = useEnter()
  const { typed, standing, issues } = useField(path)
  return (
    <FieldRow path={path} label={label} source={standing?.source ?? ''} issues={issues}>
      {(described) => (
        <input
          {...described}
          type="checkbox"
          className={styles.switch}
          checked={(typed ?? standing?.value) === true}
          onChange={(event) => enter({ name: 'field.set', payload: { path: [...path], value: event.target.checked } })}
        />
      )}
    </FieldRow>
  )
}
