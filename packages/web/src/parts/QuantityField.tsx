/** A quantity in a row of a form, with a grip that a hand drags to change it. */
import { parseQuantity } from '@finwright/plan/quantity/parse.ts'
import type { QuantityName } from '@finwright/plan/quantity/quantities.data.ts'
import { limitsText, sentence } from '@finwright/plan/schema/judge.ts'
import type { Path } from '@finwright/plan/schema/locate.ts'
import { type PointerEvent, useRef } from 'react'
import { freshName } from '../state/names.ts'
import styles from './Field.module.css'
import { FieldRow } from './FieldRow.tsx'
import { type Standing, useQuantity } from './use-quantity.ts'

interface QuantityFieldProps {
  readonly path: Path
  /** Where the table's own name says too little. */
  readonly label?: string
  /** What holds where nothing was typed and the plan reader fills nothing in: the library's value. */
  readonly otherwise?: Standing | null
  /** Of the button that takes out what was typed. */
  readonly wayBack?: string
}

const isSame = (typed: unknown, other: unknown, quantity: QuantityName): boolean => {
  const [a, b] = [parseQuantity(typed, quantity), parseQuantity(other, quantity)]
  return a.ok && b.ok && Math.abs(a.value - b.value) <= 1e-9 * Math.abs(a.value)
}

/** Pixels of a drag to one step. */
const pixelsPerStep = 5

export function QuantityField({ path, label, otherwise = null, wayBack }: QuantityFieldProps) {
  const input = useQuantity(path, otherwise)
  const { field, text, gesture, step, state } = input
  const from = useRef<{ x: number; steps: number; text: string } | null>(null)
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
  return (
    <FieldRow
      path={path}
      label={label ?? sentence(field.label)}
      hint={limitsText(field)}
      note={
        state === 'typed' && otherwise !== null && !isSame(input.typed, otherwise.value, field.quantity)
          ? `${input.note === '' ? '' : `${input.note}; `}in place of ${String(otherwise.value)}, ${otherwise.source}`
          : input.note
      }
      source={input.standing?.source ?? ''}
      {...(otherwise === null ? {} : { standingWord: 'library' })}
      issues={input.issues}
      state={state}
      onClear={input.clear}
      {...(wayBack === undefined ? {} : { wayBack })}
    >
      {(described) => (
        <span className={styles.quantity}>
          <span className={styles.grip} aria-hidden="true" title="Drag to change" {...grip}>
            ↔
          </span>
          <input
            {...described}
            className={styles.input}
            data-standing={state === 'standing' || undefined}
            data-of-plan=""
            data-unsaved={input.unsaved ? '' : undefined}
            value={text}
            placeholder="not stated"
            spellCheck={false}
            autoComplete="off"
            {...input.handlers}
          />
        </span>
      )}
    </FieldRow>
  )
}
