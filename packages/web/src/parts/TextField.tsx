/** Words: a name, a file. */
import type { Issue } from '@finwright/core/issue.ts'
import type { Path } from '@finwright/plan/schema/locate.ts'
import { isOptional } from '@finwright/plan/schema/optional.ts'
import { useState } from 'react'
import { useEnter } from '../state/use.ts'
import { useField } from '../state/use-field.ts'
import styles from './Field.module.css'
import { FieldRow } from './FieldRow.tsx'

interface TextFieldProps {
  readonly path: Path
  readonly label: string
  readonly hint?: string
}

export function TextField({ path, label, hint = '' }: TextFieldProps) {
  const enter = useEnter()
  const { typed, standing, issues } = useField(path)
  const [draft, setDraft] = useState<string | null>(null)
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const held = String(typed ?? standing?.value ?? '')
  const take = (): void => {
    if (draft === null || draft === held) {
      setDraft(null)
      return
    }
    const made = enter(
      draft.trim() === '' && isOptional(path)
        ? { name: 'field.clear', payload: { path: [...path] } }
        : { name: 'field.set', payload: { path: [...path], value: draft } },
    )
    setRefused(made.ok ? [] : made.issues)
    if (made.ok) setDraft(null)
  }
  return (
    <FieldRow
      path={path}
      label={label}
      hint={hint}
      issues={refused.length > 0 ? refused : issues}
      state={typed === undefined ? 'open' : 'typed'}
    >
      {(described) => (
        <input
          {...described}
          className={styles.input}
          data-of-plan=""
          data-unsaved={draft === null ? undefined : ''}
          value={draft ?? held}
          onChange={(event) => setDraft(event.target.value)}
          onBlur={take}
          onKeyDown={(event) => event.key === 'Enter' && take()}
        />
      )}
    </FieldRow>
  )
}
