/**
 * A quantity as a person types it, for a row of a form or a cell of a table. It is taken in when the field is left or Enter is pressed;
 * the arrow keys step it at once. What cannot be read stays as typed, with what is allowed and what to do; Escape goes back to what the
 * plan holds.
 */
import type { Issue } from '@finwright/core/issue.ts'
import type { Json } from '@finwright/plan/protocol/record.ts'
import { type Quantity, quantities } from '@finwright/plan/quantity/quantities.data.ts'
import { nudged, shownIn, unitOf } from '@finwright/plan/quantity/shown.ts'
import type { Field } from '@finwright/plan/schema/fields.data.ts'
import { fieldAt, type Path } from '@finwright/plan/schema/locate.ts'
import { isOptional } from '@finwright/plan/schema/optional.ts'
import { type ChangeEvent, type FocusEvent, type KeyboardEvent, type RefObject, useRef, useState } from 'react'
import { freshName } from '../state/names.ts'
import { useEnter, useUnits } from '../state/use.ts'
import { useField } from '../state/use-field.ts'

/** What holds where the plan says nothing, for a field whose default the plan reader does not fill in. */
export interface Standing {
  readonly value: unknown
  readonly source: string
}

export interface QuantityInput {
  readonly field: Field
  readonly text: string
  readonly typed: unknown
  readonly standing: Standing | null
  readonly issues: readonly Issue[]
  /** In other units in the plan: how it stands there. */
  readonly note: string
  readonly state: 'typed' | 'standing' | 'open'
  readonly unsaved: boolean
  /** Takes out what was typed; null where nothing was, or where the plan needs it. */
  readonly clear: (() => void) | null
  /** Of one gesture: what is entered until the next is undone with it. */
  readonly gesture: RefObject<string>
  readonly step: (by: number, start?: string) => void
  readonly handlers: {
    readonly onChange: (event: ChangeEvent<HTMLInputElement>) => void
    readonly onFocus: (event: FocusEvent<HTMLInputElement>) => void
    readonly onBlur: () => void
    readonly onKeyDown: (event: KeyboardEvent) => void
  }
}

export function useQuantity(path: Path, otherwise: Standing | null = null): QuantityInput {
  const field = fieldAt(path)
  if (field === null) throw new Error(`no field at ${path.join('.')}`)
  const quantity: Quantity = quantities[field.quantity]
  const units = useUnits()
  const enter = useEnter()
  const { typed, standing: known, issues: kept } = useField(path)
  const [draft, setDraft] = useState<string | null>(null)
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const gesture = useRef(freshName())
  const standing = typed === undefined ? (known ?? otherwise) : null
  const shown = shownIn(typed ?? standing?.value, field.quantity, units)
  const text = draft ?? shown.text

  function take(words: string): void {
    const whole = completed(words, shown.text)
    if (whole === shown.text && refused.length === 0) {
      setDraft(null)
      return
    }
    if (whole === '' && isOptional(path)) {
      clear()
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

  function clear(): void {
    setDraft(null)
    if (typed === undefined) {
      setRefused([])
      return
    }
    const made = enter({ name: 'field.clear', payload: { path: [...path] } })
    setRefused(made.ok ? [] : made.issues)
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
  return {
    field,
    text,
    typed,
    standing,
    issues: refused.length > 0 ? refused : kept,
    note: typed !== undefined && shown.converted && draft === null ? `in the plan: ${String(typed)}` : '',
    state: typed !== undefined || draft !== null ? 'typed' : standing === null ? 'open' : 'standing',
    unsaved: draft !== null,
    clear: typed === undefined || !isOptional(path) ? null : clear,
    gesture,
    step,
    handlers: {
      onChange: (event) => setDraft(event.target.value),
      onFocus: (event) => {
        gesture.current = freshName()
        event.currentTarget.select()
      },
      onBlur: () => draft !== null && take(draft),
      onKeyDown,
    },
  }
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
