/** The plan: what it comes to, and every field by section. A field named in the address is opened and has the focus. */
import { Link } from 'wouter'
import { Page, Section } from '../../parts/Page.tsx'
import { usePlan } from '../../state/use.ts'
import { Answers } from './Answers.tsx'
import { CanFields } from './CanFields.tsx'
import { FormSections } from './FormSections.tsx'
import { FlightFields } from './flight/FlightFields.tsx'
import { form } from './form.data.ts'
import { MaterialFields } from './MaterialFields.tsx'
import { OutlinePoints } from './OutlineFields.tsx'
import styles from './PlanPage.module.css'
import { PlyFields } from './PlyFields.tsx'
import { PrintFields } from './PrintFields.tsx'
import { StockFields } from './StockFields.tsx'
import { StudyPlan } from './StudyPlan.tsx'
import { useFieldInAddress } from './use-field-in-address.ts'
import { WindFields } from './WindFields.tsx'

export default function PlanPage() {
  const study = 'study' in usePlan()
  return (
    <>
      <Page question="What is it?" needs={['fin']}>
        {() => null}
      </Page>
      <Answers />
      {study ? <StudyPlan /> : <CanPlan />}
    </>
  )
}

function CanPlan() {
  useFieldInAddress()
  return (
    <>
      <nav className={styles.contents} aria-label="Sections of the plan">
        <a href="#plies">Plies</a>
        {form.map(({ id, title }) => (
          <a key={id} href={`#${id}`}>
            {title}
          </a>
        ))}
        <a href="#cans">Cans</a>
        <a href="#materials">Materials</a>
      </nav>
      <Section
        title="Plies, from the core outward"
        id="plies"
        lead={
          <>
            Each opens to its fields. To move plies and see every margin change, go to{' '}
            <Link href="/plies">Which plies, which way?</Link>
          </>
        }
      >
        <PlyFields />
      </Section>
      <FormSections
        before={{ flight: <FlightFields /> }}
        after={{ fins: <OutlinePoints />, flight: <WindFields />, stock: <StockFields />, print: <PrintFields /> }}
      />
      <Section title="Cans to make" id="cans" lead="Each can is laid up alike; cloth and resin are counted for all.">
        <CanFields />
      </Section>
      <Section
        title="Materials"
        id="materials"
        lead="Generic values of the library, each with its source. What your data sheet or your scale says takes its place when you type it."
      >
        <MaterialFields />
      </Section>
    </>
  )
}
