/** The derivation of one number, beside the page: formula, inputs, source, uncertainty, limits. */

import { shownIn } from '@finwright/plan/quantity/shown.ts'
import { sentence } from '@finwright/plan/schema/judge.ts'
import { fieldAt, parsePath, valueAt } from '@finwright/plan/schema/locate.ts'
import type { DerivationInput } from '@finwright/sheets/derivations/derivation.ts'
import { derivationOf } from '@finwright/sheets/derivations/derivations.ts'
import { useEffect, useRef } from 'react'
import { Link } from 'wouter'
import { Button } from '../../parts/Button.tsx'
import { useAssessment, useFigures, usePlan, useReadPlan, useUnits } from '../../state/use.ts'
import { fieldHref } from '../plan/field-place.ts'
import { useWhy } from './use-why.ts'
import { WhyLink } from './WhyLink.tsx'
import styles from './WhyPanel.module.css'

const needs = ['flight', 'fin', 'structure', 'flutter', 'strength', 'bond', 'resin', 'sources'] as const

export function WhyPanel() {
  const { id, close } = useWhy()
  const known = useAssessment(needs)
  const figures = useFigures()
  const field = useFieldInput()
  const panel = useRef<HTMLElement>(null)
  useEffect(() => {
    if (id !== null) panel.current?.focus({ preventScroll: true })
  }, [id])
  if (id === null) return null
  const why = known === null ? null : derivationOf(id, { assessment: known.value, figures, field })
  return (
    <aside
      ref={panel}
      className={styles.panel}
      aria-label="Why"
      tabIndex={-1}
      onKeyDown={(event) => event.key === 'Escape' && close()}
    >
      <div className={styles.head}>
        <span className={styles.tag}>Why</span>
        <Button kind="quiet" onPress={close}>
          Close
        </Button>
      </div>
      {why === null ? (
        <p>{known === null ? 'Being worked out …' : 'There is no derivation of that name.'}</p>
      ) : (
        <>
          <h2 className={styles.title}>{why.title}</h2>
          <p className={styles.value} data-stale={known?.stale || undefined}>
            {why.value}
          </p>
          <h3>How it is computed</h3>
          {why.formula.map((line, i) => (
            <p key={line} className={i === 0 ? styles.formula : styles.line}>
              {line}
            </p>
          ))}
          {why.inputs.length > 0 && <h3>What went in</h3>}
          <ul className={styles.inputs}>
            {why.inputs.map((input) => (
              <Input key={input.field ?? input.label} {...input} />
            ))}
          </ul>
          <List
            title="Source"
            items={why.sources.map(
              ({ quantity, source, confidence }) => `${sentence(quantity)}: ${source} (${confidence})`,
            )}
          />
          <List title="How uncertain" items={why.uncertainty} />
          <List title="Where it stops" items={why.limits} />
          <p className={styles.method}>In full: docs/methods/{why.method}.md</p>
        </>
      )}
    </aside>
  )
}

function Input({ label, value, field, why }: DerivationInput) {
  return (
    <li>
      <span>{field === undefined ? label : <Link href={fieldHref(field)}>{label}</Link>}</span>
      <span className={styles.inputValue}>
        {why === undefined ? value : <WhyLink id={why}>{value === '' ? 'see' : value}</WhyLink>}
      </span>
    </li>
  )
}

function List({ title, items }: { readonly title: string; readonly items: readonly string[] }) {
  if (items.length === 0) return null
  return (
    <>
      <h3>{title}</h3>
      {items.map((item) => (
        <p key={item} className={styles.line}>
          {item}
        </p>
      ))}
    </>
  )
}

/** What was typed there, or stands by default, in the display units. */
function useFieldInput(): (path: string) => DerivationInput {
  const plan = usePlan()
  const units = useUnits()
  const complete = useReadPlan()?.complete
  return (name) => {
    const path = parsePath(name)
    const found = fieldAt(path)
    const typed = valueAt(plan, path) ?? valueAt(complete, path)
    const plainValue = typeof typed === 'string' || typeof typed === 'number'
    const value = !plainValue
      ? listWords(typed)
      : found === null
        ? String(typed)
        : shownIn(typed, found.quantity, units).text
    return { label: found === null ? (words[name] ?? name) : sentence(found.label), value, field: name }
  }
}

const listWords = (value: unknown): string =>
  Array.isArray(value) ? `${value.length} entries` : typeof value === 'boolean' ? (value ? 'yes' : 'no') : ''

/** Places of the plan that hold no single quantity. */
const words: Readonly<Record<string, string>> = {
  plies: 'Plies',
  materials: 'Materials as stated',
  cans: 'Cans to make',
  'fins.outline': 'Outline',
  'fins.core.material': 'Core material',
  'fins.fillet.adhesive': 'Fillet adhesive',
  'resin.system': 'Resin system',
  'resin.postCure': 'Post-cured',
  'resin.ratio.by': 'The ratio is by',
}
