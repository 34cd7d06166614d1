/** Label, control, note and faults of one field, in one place for all kinds of control. */
import type { Issue } from '@finwright/core/issue.ts'
import { type Path, pathText } from '@finwright/plan/schema/locate.ts'
import { isOptional } from '@finwright/plan/schema/optional.ts'
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
  /** Whether it was typed, holds by default, or is open; said in a word beside the label. Left out where that says nothing. */
  readonly state?: 'typed' | 'standing' | 'open'
  /** Of what holds because nothing was typed. */
  readonly standingWord?: string
  /** Takes out what was typed, so that the default holds; null where nothing was typed. */
  readonly onClear?: (() => void) | null
  /** Words of that button; others than the usual ones stay in sight. */
  readonly wayBack?: string
  readonly children: (described: Described) => ReactNode
}

export interface Described {
  readonly id: string
  readonly 'aria-describedby': string
  readonly 'aria-invalid'?: true
  readonly 'aria-required'?: true
}

const leaveOut = 'leave out'

export function FieldRow({
  path,
  label,
  hint = '',
  note = '',
  source = '',
  issues = [],
  state,
  standingWord = 'default',
  onClear = null,
  wayBack = leaveOut,
  children,
}: FieldRowProps) {
  const id = useId()
  const notes = `${id}-notes`
  const faulty = issues.length > 0
  const required = state !== undefined && !isOptional(path)
  const word = required ? 'required' : state === 'standing' ? standingWord : state === 'open' ? 'may stay open' : ''
  return (
    <div className={styles.row} data-path={pathText(path)} data-faulty={faulty || undefined}>
      <span className={styles.name}>
        <label className={styles.label} htmlFor={id}>
          {label}
        </label>
        {word !== '' && <span className={styles.state}>{word}</span>}
        {onClear !== null && (
          <button
            type="button"
            className={styles.clear}
            data-always={wayBack === leaveOut ? undefined : ''}
            onClick={onClear}
            aria-label={`${label}: ${wayBack}`}
          >
            {wayBack}
          </button>
        )}
      </span>
      <span className={styles.control}>
        {children({
          id,
          'aria-describedby': notes,
          ...(faulty ? { 'aria-invalid': true } : {}),
          ...(required ? { 'aria-required': true } : {}),
        })}
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
    </div>
  )
}
