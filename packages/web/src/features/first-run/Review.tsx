/** The plan before it is made: what was chosen for the builder, and why; what the plan takes by itself. */
import { readPlan } from '@finwright/plan/read-plan.ts'
import { planText } from '@finwright/plan/text/write-plan.ts'
import { useMemo } from 'react'
import { Table } from '../../parts/Numbers.tsx'
import { Section } from '../../parts/Page.tsx'
import type { MadePlan } from './make-plan.ts'
import styles from './StartPage.module.css'

export function Review({ made }: { readonly made: MadePlan }) {
  const read = useMemo(
    () =>
      readPlan({
        text: planText(made.plan),
        readAttachment: () => ({ ok: false, reason: 'a plan of the start names no file' }),
      }),
    [made],
  )
  return (
    <>
      {!read.ok && (
        <ul className={styles.faults} role="alert">
          {read.issues.map(({ code, path, message, hint }) => (
            <li key={`${code} ${path}`}>
              {message} {hint}
            </li>
          ))}
        </ul>
      )}
      <Section
        title="Chosen for you"
        lead="None of this was answered. Every line is a field of the plan and can be changed there."
      >
        <Table
          caption="What was chosen and why"
          columns={[{ head: 'What' }, { head: 'Chosen' }, { head: 'Why' }]}
          rows={made.chosen.map(({ what, value, why }) => [what, value, why])}
        />
      </Section>
      {read.ok && (
        <details className={styles.defaults}>
          <summary>{read.value.defaulted.length} defaults of the plan, each with its source</summary>
          <Table
            caption="Defaults of the plan"
            columns={[{ head: 'Field' }, { head: 'Default' }, { head: 'Source' }]}
            rows={read.value.defaulted.map(({ path, value, source }) => [
              path,
              typeof value === 'string' ? value : JSON.stringify(value),
              source,
            ])}
          />
        </details>
      )}
    </>
  )
}
