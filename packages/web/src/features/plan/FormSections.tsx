/** The sections of the form, each field by its kind. */
import { valueAt } from '@finwright/plan/schema/locate.ts'
import { memo, type ReactNode } from 'react'
import { Section } from '../../parts/Page.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { SelectField } from '../../parts/SelectField.tsx'
import { SwitchField } from '../../parts/SwitchField.tsx'
import { TextField } from '../../parts/TextField.tsx'
import { usePlan, useSelected, useSession, useTyped, useUnits } from '../../state/use.ts'
import { form, type Group, type Row } from './form.data.ts'
import { libraryValue } from './materials.results.ts'
import { materialOptions } from './materials.ts'
import styles from './PlanPage.module.css'

interface FormSectionsProps {
  /** What follows the fields of a section. */
  readonly after?: Readonly<Record<string, ReactNode>>
  /** What stands before them. */
  readonly before?: Readonly<Record<string, ReactNode>>
}

export function FormSections({ after = {}, before = {} }: FormSectionsProps) {
  const typed = usePlan()
  const complete = useSelected(useSession().answers, ({ document }) => document?.value.complete)
  return form.map(({ id, title, lead, groups }) => (
    <Section key={id} id={id} title={title} {...(lead === undefined ? {} : { lead })}>
      {before[id]}
      <div className={styles.groups}>
        {groups
          .filter(
            ({ when }) =>
              when === undefined || when(typed) || (complete !== undefined && when(merged(typed, complete))),
          )
          .map((group, i) => (
            <Fields key={`${id}-${i.toString()}`} {...group} />
          ))}
      </div>
      {after[id]}
    </Section>
  ))
}

/** What was typed decides; where nothing was, the default does. */
const merged = (typed: unknown, complete: unknown): unknown => ({
  ...(complete as object),
  ...Object.fromEntries(
    Object.entries(typed as object).filter(([name]) => valueAt(complete, [name]) === undefined || name === 'flight'),
  ),
})

function Fields({ title, rows }: Group) {
  return (
    <div className={styles.group}>
      {title !== undefined && <h3 className={styles.groupTitle}>{title}</h3>}
      {rows.map((row) => (
        <Field key={row.path.join('.')} row={row} />
      ))}
    </div>
  )
}

const Field = memo(function Field({ row }: { readonly row: Row }) {
  const materials = useTyped(['materials'])
  switch (row.kind) {
    case 'quantity':
      return row.path[0] === 'resin' ? <ResinField {...row} /> : <QuantityField {...row} />
    case 'switch':
      return <SwitchField {...row} />
    case 'text':
      return <TextField {...row} />
    case 'material':
      return <SelectField path={row.path} label={row.label} options={materialOptions(row.of, materials)} />
    case 'choice': {
      const writes = row.options.some(({ write }) => write !== undefined)
      const make = (value: string) =>
        row.options.find((option) => option.value === value)?.write ?? { path: row.path, value }
      return <SelectField path={row.path} label={row.label} options={row.options} {...(writes ? { make } : {})} />
    }
  }
})

/** Where the data sheet's value is not stated, the library's holds, with its source. */
function ResinField(row: Extract<Row, { kind: 'quantity' }>) {
  const plan = usePlan()
  const units = useUnits()
  return <QuantityField {...row} otherwise={libraryValue(row.path, plan, units)} />
}
