/** Label, control, note and faults of one field, in one place for all kinds of control. */
import type { Issue } from '@finwright/core/issue.ts'
import { type Path, pathText } from '@finwright/plan/schema/locate.ts'
import { type ReactNode, useId } from 'react'
import styles from './Field.module.css'

interface FieldRowProps {
  readonly path: Path
  readonly label: string
  /** What is allowed; read out, and shown while the field has the focus. */
  readonly hint?: string
  /** In sight at all times. */
  readonly note?: string
  /** Where the value comes from that holds because nothing was typed; shown while the field has the focus. */
  readonly source?: string
  readonly issues?: readonly Issue[]
  /** Takes out what was typed, so that the default holds; null where nothing was typed. */
  readonly onClear?: (() => void) | null
  readonly children: (described: Described) => ReactNode
}

export interface Described {
  readonly id: string
  readonly 'aria-describedby': string
  readonly 'aria-invalid'?: true
}

export function FieldRow({
  path,
  label,
  hint = '',
  note = '',
  source = '',
  issues = [],
  onClear = null,
  children,
}: FieldRowProps) {
  const id = useId()
  const notes = `${id}-notes`
  const faulty = issues.length > 0
  return (
    <div className={styles.row} data-path={pathText(path)} data-faulty={faulty || undefined}>
      <label className={styles.label} htmlFor={id}>
        {label}
      </label>
      <span className={styles.control}>
        {children({ id, 'aria-describedby': notes, ...(faulty ? { 'aria-invalid': true } : {}) })}
      </span>
      <span className={styles.notes} id={notes}>
        {faulty ? (
          issues.map(({ code, message, hint: todo }) => (
            <span key={code} className={styles.issue}>
              {message} {todo}
            </span>
          ))
        ) : (
          <>
            {hint !== '' && <span className={styles.hint}>{hint}</span>}
            {note !== '' && <span>{note}</span>}
            {source !== '' && <span className={styles.source}>Not stated; taken: {source}.</span>}
          </>
        )}
      </span>
      {onClear !== null && (
        <button
          type="button"
          className={styles.clear}
          onClick={onClear}
          aria-label={`Leave out: ${label}`}
          title="Leave out"
        >
          ×
        </button>
      )}
    </div>
  )
}
