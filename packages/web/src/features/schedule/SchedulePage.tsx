/** Which plies, which way? The stack, the bay map beside it, the chosen ply's fields, and another schedule to compare with. */
import { useState } from 'react'
import { PageHead, Section } from '../../parts/Page.tsx'
import { useAssessment, useFigures, usePart, usePlan, useReadPlan } from '../../state/use.ts'
import { BayPicture } from './BayPicture.tsx'
import { Laminate } from './Laminate.tsx'
import { PlyEditor } from './PlyEditor.tsx'
import styles from './Schedule.module.css'
import { Stack } from './Stack.tsx'
import { pliesOf } from './schedule.commands.ts'
import { answerInWords, halfWidthOf, plyRows } from './schedule.results.ts'
import { TwoSchedules } from './TwoSchedules.tsx'

export default function SchedulePage() {
  const plan = usePlan()
  const figures = useFigures()
  const fin = usePart('fin')
  const pattern = usePart('pattern')
  const known = useAssessment(['pattern', 'fin'])
  const design = useReadPlan()?.design
  const [chosen, choose] = useState(0)
  const plies = pliesOf(plan)
  const at = Math.min(chosen, plies.length - 1)
  const section = pattern?.value.section ?? null
  const rows = plyRows({
    plies,
    materials: plan.materials,
    halfWidth: halfWidthOf(section, design),
    cured: fin?.value.plies ?? [],
  })
  if (plies.length === 0)
    return (
      <PageHead question="Which plies, which way?" answer="This plan is a study of a bare plate; it has no plies." />
    )
  return (
    <>
      <PageHead
        question="Which plies, which way?"
        answer={answerInWords(plies, fin?.value, figures)}
        stale={fin?.stale ?? false}
      />
      <div className={styles.beside}>
        <div>
          <Stack rows={rows} chosen={at} onChoose={choose} section={section} />
          <Laminate />
        </div>
        {known !== null && (
          <BayPicture assessment={known.value} stale={known.stale} rows={rows} onChoose={choose} chosen={at} />
        )}
      </div>
      <PlyEditor rows={rows} at={at} onChoose={choose} />
      <Section
        title="Two schedules"
        lead="Keep a copy of the schedule as it is now, change the present one, and compare. Every number of both belongs to the plan as it is now."
      >
        <TwoSchedules rows={rows} />
      </Section>
    </>
  )
}
