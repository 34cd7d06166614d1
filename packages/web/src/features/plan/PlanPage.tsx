/** The plan: what it comes to, and every field by section. A field named in the address is opened and has the focus. */
import { Page, Section } from '../../parts/Page.tsx'
import { Answers } from './Answers.tsx'
import { FormSections } from './FormSections.tsx'
import { form } from './form.data.ts'
import { MaterialFields } from './MaterialFields.tsx'
import styles from './PlanPage.module.css'
import { PlyFields } from './PlyFields.tsx'
import { StockFields } from './StockFields.tsx'
import { useFieldInAddress } from './use-field-in-address.ts'

export default function PlanPage() {
  useFieldInAddress()
  return (
    <>
      <Page question="What is it?" needs={['fin']}>
        {() => null}
      </Page>
      <Answers />
      <nav className={styles.contents} aria-label="Sections of the plan">
        <a href="#plies">Plies</a>
        {form.map(({ id, title }) => (
          <a key={id} href={`#${id}`}>
            {title}
          </a>
        ))}
        <a href="#materials">Materials</a>
      </nav>
      <Section title="Plies, from the core outward" id="plies">
        <PlyFields />
      </Section>
      <FormSections after={{ stock: <StockFields /> }} />
      <Section
        title="Materials as your data sheets state them"
        id="materials"
        lead="What stands here takes the place of the catalogue’s generic value."
      >
        <MaterialFields />
      </Section>
    </>
  )
}
