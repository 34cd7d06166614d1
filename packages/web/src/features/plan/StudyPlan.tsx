/** A study in place of the form: what it is and what its source printed, in the plan's own words; then what is computed. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { Link } from 'wouter'
import { Table } from '../../parts/Numbers.tsx'
import { Section } from '../../parts/Page.tsx'
import { useAssessment, useFigures, usePlan, useReadPlan } from '../../state/use.ts'
import { modeRows, stateRows } from './study.results.ts'

export function StudyPlan() {
  const { note } = usePlan()
  const known = useAssessment(['structure', 'flutter'])
  return (
    <>
      <Section title="A study of a bare plate">
        <p>
          A plate with its supports and the air it stands in, to be held against a published case. It has no can, no
          cloth and no resin, so there is nothing to cut, to mix or to fly. It is changed in the plan file.
        </p>
      </Section>
      {typeof note === 'string' && note !== '' && (
        <Section title="What the case is, and what was published">
          <p>{note}</p>
        </Section>
      )}
      {known !== null && <Computed assessment={known.value} stale={known.stale} />}
    </>
  )
}

function Computed({ assessment, stale }: { readonly assessment: Assessment; readonly stale: boolean }) {
  const design = useReadPlan()?.design
  const figures = useFigures()
  if (design?.kind !== 'study') return null
  const states = stateRows(assessment, design, figures)
  return (
    <>
      <Section title="Natural frequencies" lead={imposedWords(design.imposedFrequencies !== null)}>
        <Table
          caption="Natural frequencies"
          stale={stale}
          columns={[
            { head: 'Mode' },
            { head: 'Shape' },
            { head: 'Computed', end: true },
            ...(design.imposedFrequencies === null ? [] : [{ head: 'Imposed', end: true }]),
          ]}
          rows={modeRows(assessment, design)}
        />
      </Section>
      {states.length > 0 && (
        <Section
          title="Flutter in each state of the air"
          lead={
            <>
              The speed at which the plate goes, divided by the speed of the state. The linear method is what a
              published test is held against; the envelope, which takes the least of several readings and a factor, is
              what a verdict uses. Curves and sources: <Link href="/hold">Will it hold?</Link>
            </>
          }
        >
          <Table
            caption="Flutter in each state of the air"
            stale={stale}
            columns={[
              { head: 'Mach number', end: true },
              { head: 'Speed of the state', end: true },
              { head: 'Linear method over it', end: true },
              { head: 'Envelope over it', end: true },
            ]}
            rows={states}
          />
        </Section>
      )}
    </>
  )
}

const imposedWords = (imposed: boolean): string =>
  imposed
    ? 'Clamped, simply held and free sides as the plan states them. Flutter is computed with the imposed ones, on the computed shapes.'
    : 'Clamped, simply held and free sides as the plan states them.'
