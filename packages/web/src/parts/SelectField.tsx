/** One of several named values of the plan. */
import type { Json } from '@finwright/plan/protocol/record.ts'
import type { Path } from '@finwright/plan/schema/locate.ts'
import { isOptional } from '@finwright/plan/schema/optional.ts'
import { useEnter } from '../state/use.ts'
import { useField } from '../state/use-field.ts'
import styles from './Field.module.css'
import { FieldRow } from './FieldRow.tsx'

export interface Option {
  /** As the plan writes it. */
  readonly value: string
  readonly label: string
}

interface SelectFieldProps {
  readonly path: Path
  readonly label: string
  readonly options: readonly Option[]
  /** What is written instead of the value alone: a choice that brings fields of its own. */
  readonly make?: (value: string) => { readonly path: Path; readonly value: Json }
}

export function SelectField({ path, label, options, make }: SelectFieldProps) {
  const enter = useEnter()
  const { typed, standing, issues } = useField(path)
  const held = String(typed ?? standing?.value ?? '')
  const known = options.some(({ value }) => value === held)
  const all = known || held === '' ? options : [...options, { value: held, label: `${held} (not known)` }]
  const choose = (value: string): void => {
    const written = make?.(value) ?? { path, value }
    enter({ name: 'field.set', payload: { path: [...written.path], value: written.value } })
  }
  const clear = (): void => void enter({ name: 'field.clear', payload: { path: [...path] } })
  return (
    <FieldRow
      path={path}
      label={label}
      source={standing?.source ?? ''}
      issues={issues}
      {...(make === undefined
        ? { state: typed !== undefined ? 'typed' : standing === null ? 'open' : 'standing' }
        : {})}
      onClear={typed === undefined || make !== undefined || !isOptional(path) ? null : clear}
    >
      {(described) => (
        <select
          {...described}
          className={styles.select}
          data-standing={standing !== null || undefined}
          value={held}
          onChange={(event) => choose(event.target.value)}
        >
          {held === '' && <option value="">choose</option>}
          {all.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      )}
    </FieldRow>
  )
}
