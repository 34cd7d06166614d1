/** A printer set right: its check square of 100 mm measured both ways, kept under its name, and put into the plan. */
import type { Issue } from '@finwright/core/issue.ts'
import { fields } from '@finwright/plan/schema/fields.data.ts'
import { judge } from '@finwright/plan/schema/judge.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import field from '../../parts/Field.module.css'
import { FieldRow } from '../../parts/FieldRow.tsx'
import { Section } from '../../parts/Page.tsx'
import { useEnter, useStore, useTyped } from '../../state/use.ts'
import styles from './PrintPage.module.css'
import { forgetPrinter, keepPrinter, type PaperChoice, type Printer, printers } from './print.results.ts'

interface CalibrationProps {
  readonly size: PaperChoice
  /** What is wrong with the measures that stand in the plan. */
  readonly refused: readonly Issue[]
}

export function Calibration({ size, refused }: CalibrationProps) {
  const square = size === 'roll' ? 'rollSquare' : 'checkSquare'
  const standing = useTyped(['printing', square]) as { readonly across?: string; readonly along?: string } | undefined
  const known = useStore(printers)
  const [draft, setDraft] = useState<Printer>({
    name: '',
    across: standing?.across ?? '',
    along: standing?.along ?? '',
  })
  const enter = useEnter()
  const [notTaken, setNotTaken] = useState<readonly Issue[]>([])

  const put = ({ across, along }: Printer): void => {
    const value = { across: inMillimetres(across), along: inMillimetres(along) }
    const made = enter({ name: 'field.set', payload: { path: ['printing', square], value } })
    setNotTaken(made.ok ? [] : made.issues)
  }
  const faulty = [...refused, ...notTaken]
  const take = (): void => {
    const printer = { ...draft, name: draft.name.trim() || 'this printer' }
    keepPrinter(printer)
    put(printer)
  }
  const faults = (['across', 'along'] as const).flatMap((side) =>
    draft[side].trim() === '' ? [] : faultsOf(side, draft[side]),
  )
  const ready = faults.length === 0 && draft.across.trim() !== '' && draft.along.trim() !== ''
  return (
    <Section
      title={size === 'roll' ? 'The roll printer' : 'The printer'}
      lead="Print one sheet at 100 %. Measure its check square with a steel rule, across and along the way the paper went in. Every true-scale sheet is then drawn so that it comes out right on that printer."
    >
      <p className={styles.standing} role="status">
        {standing === undefined
          ? 'No measure stands in the plan: sheets are drawn as if the printer were true.'
          : `In the plan: ${standing.across ?? '?'} across, ${standing.along ?? '?'} along, in place of 100 mm.`}{' '}
        {standing !== undefined && (
          <Button kind="quiet" onPress={() => enter({ name: 'field.clear', payload: { path: ['printing', square] } })}>
            Take it out
          </Button>
        )}
      </p>
      {faulty.length > 0 && (
        <ul className={styles.faults} role="alert">
          {faulty.map(({ code, path, message, hint }) => (
            <li key={`${code} ${path}`}>
              {message} {hint}
            </li>
          ))}
        </ul>
      )}
      {known.length > 0 && (
        <ul className={styles.printers} aria-label="Printers measured before">
          {known.map((printer) => (
            <li key={printer.name}>
              <span>
                <strong>{printer.name}</strong> {inMillimetres(printer.across)} × {inMillimetres(printer.along)}
              </span>
              <Button kind="quiet" onPress={() => put(printer)}>
                Use it for this plan
              </Button>
              <Button kind="quiet" aria-label={`Forget ${printer.name}`} onPress={() => forgetPrinter(printer.name)}>
                Forget
              </Button>
            </li>
          ))}
        </ul>
      )}
      <details className={styles.measure} open={known.length === 0 ? undefined : false}>
        <summary>Measure a printer</summary>
        <form
          onSubmit={(event) => {
            event.preventDefault()
            if (ready) take()
          }}
        >
          <Typed
            label="Name of the printer"
            value={draft.name}
            onChange={(name) => setDraft({ ...draft, name })}
            note="Kept in this browser under this name."
          />
          {(['across', 'along'] as const).map((side) => (
            <Typed
              key={side}
              label={`Square, ${side} the feed`}
              value={draft[side]}
              onChange={(text) => setDraft({ ...draft, [side]: text })}
              note="To half a millimetre or better: 99.5 mm, or 3 15/16 in. A number alone is in mm."
              issues={draft[side].trim() === '' ? [] : faultsOf(side, draft[side])}
            />
          ))}
          <Button type="submit" isDisabled={!ready}>
            Keep it and put it into the plan
          </Button>
        </form>
      </details>
    </Section>
  )
}

const inMillimetres = (text: string): string => (/^[\d.]+$/.test(text.trim()) ? `${text.trim()} mm` : text.trim())

function faultsOf(side: 'across' | 'along', text: string): Issue[] {
  const verdict = judge(fields[`printing.checkSquare.${side}`], inMillimetres(text))
  return verdict === null ? [] : [{ ...verdict, path: side, value: text }]
}

interface TypedProps {
  readonly label: string
  readonly value: string
  readonly note: string
  readonly issues?: readonly Issue[]
  readonly onChange: (value: string) => void
}

function Typed({ label, value, note, issues = [], onChange }: TypedProps) {
  return (
    <FieldRow path={[label]} label={label} note={note} issues={issues}>
      {(described) => (
        <input
          {...described}
          className={field.input}
          value={value}
          spellCheck={false}
          autoComplete="off"
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </FieldRow>
  )
}
