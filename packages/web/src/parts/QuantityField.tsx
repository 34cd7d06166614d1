/**
 * A quantity as a person types it. It is taken in when the field is left or Enter is pressed; the arrow keys step it at once. What
 * cannot be read stays as typed, with what is allowed and what to do; Escape goes back to what the plan holds.
 */
import type { Issue } from '@finwright/core/issue.ts'
import type { Json } from '@finwright/plan/protocol/record.ts'
import { type Quantity, quantities } from '@finwright/plan/quantity/quantities.data.ts'
import { nudged, shownIn, unitOf } from '@finwright/plan/quantity/shown.ts'
import { mayBeLeftOut } from '@finwright/plan/schema/complete.ts'
import { limitsText, sentence } from '@finwright/plan/schema/judge.ts'
import { fieldAt, type Path } from '@finwright/plan/schema/locate.ts'
import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react'
import { freshName } from '../state/names.ts'
import { useEnter, useUnits } from '../state/use.ts'
import { useField } from '../state/use-field.ts'
import styles from './Field.module.css'
import { FieldRow } from './FieldRow.tsx'

interface QuantityFieldProps {
  readonly path: Path
  /** Where the table's own name says too little. */
  readonly label?: string
}

/** Pixels of a drag to one step. */
const pixelsPerStep = 5

export function QuantityField({ path, label }: QuantityFieldProps) {
  const field = fieldAt(path)
  if (field === null) throw new Error(`no field at ${path.join('.')}`)
  const quantity: Quantity = quantities[field.quantity]
  const units = useUnits()
  const enter = useEnter()
  const { typed, standing, issues: kept } = useField(path)
  const [draft, setDraft] = useState<string | null>(null)
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const gesture = useRef(freshName())
  const from = useRef<{ x: number; steps: number; text: string } | null>(null)
  const held = typed ?? standing?.value
  const shown = shownIn(held, field.quantity, units)
  const text = draft ?? shown.text

  function take(words: string): void {
    const whole = completed(words, shown.text)
    if (whole === shown.text && refused.length === 0) {
      setDraft(null)
      return
    }
    const value: Json = quantity.written.startsWith('as') ? asWritten(whole, quantity) : whole
    const made = enter({ name: 'field.set', payload: { path: [...path], value } }, gesture.current)
    setRefused(made.ok ? [] : made.issues)
    setDraft(made.ok ? null : whole)
  }

  function step(by: number, start = text): void {
    const next = nudged(start, by)
    if (next !== null) take(next)
  }

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') take(text)
    else if (event.key === 'Escape' && draft !== null) {
      setDraft(null)
      setRefused([])
    } else if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault()
      step((event.key === 'ArrowUp' ? 1 : -1) * (event.shiftKey ? 10 : 1))
    }
  }

  const grip = {
    onPointerDown: (event: PointerEvent<HTMLElement>): void => {
      event.preventDefault()
      event.currentTarget.setPointerCapture(event.pointerId)
      gesture.current = freshName()
      from.current = { x: event.clientX, steps: 0, text }
    },
    onPointerMove: (event: PointerEvent): void => {
      if (from.current === null) return
      const steps = Math.round((event.clientX - from.current.x) / pixelsPerStep)
      if (steps === from.current.steps) return
      from.current.steps = steps
      step(steps, from.current.text)
    },
    onPointerUp: (): void => {
      from.current = null
    },
  }

  const clear = (): void => {
    setDraft(null)
    setRefused([])
    enter({ name: 'field.clear', payload: { path: [...path] } })
  }

  const note = typed !== undefined && shown.converted && draft === null ? `in the plan: ${String(typed)}` : ''
  return (
    <FieldRow
      path={path}
      label={label ?? sentence(field.label)}
      hint={limitsText(field)}
      note={note}
      source={standing?.source ?? ''}
      issues={refused.length > 0 ? refused : kept}
      onClear={typed === undefined || !mayBeLeftOut(path) ? null : clear}
    >
      {(described) => (
        <span className={styles.quantity}>
          <span className={styles.grip} aria-hidden="true" title="Drag to change" {...grip}>
            ↔
          </span>
          <input
            {...described}
            className={styles.input}
            data-standing={(standing !== null && draft === null) || undefined}
            data-of-plan=""
            data-unsaved={draft === null ? undefined : ''}
            value={text}
            placeholder="not stated"
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => setDraft(event.target.value)}
            onFocus={(event) => {
              gesture.current = freshName()
              event.currentTarget.select()
            }}
            onBlur={() => draft !== null && take(draft)}
            onKeyDown={onKeyDown}
          />
        </span>
      )}
    </FieldRow>
  )
}

/** A number typed alone takes the unit that the field showed, in sight. */
function completed(words: string, shown: string): string {
  const text = words.trim()
  const unit = unitOf(shown)
  return unit !== null && unit !== '%' && /^[+-]?[\d.,\s/½¼¾⅛⅜⅝⅞-]+$/u.test(text) && /\d|[½¼¾⅛⅜⅝⅞]/u.test(text)
    ? `${text} ${unit}`
    : text
}

/** Numbers stand without quotes in the plan; shares as a percentage and ratios stand as text. */
function asWritten(text: string, { written }: Quantity): Json {
  const plain = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(text)
  return plain && written !== 'as ratio' ? Number(text) : text
}
