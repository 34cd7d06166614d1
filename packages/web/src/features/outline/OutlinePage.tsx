/** What shape is it? The fin's outline, drawn and dragged, typed, or read from a drawing file. */
import { useState } from 'react'
import { PageHead, Section } from '../../parts/Page.tsx'
import { useFaults, useFigures, usePart, usePlan, useUnits } from '../../state/use.ts'
import { ImportPanel } from './ImportPanel.tsx'
import styles from './Outline.module.css'
import { OutlineDrawing } from './OutlineDrawing.tsx'
import { OutlineFields } from './OutlineFields.tsx'
import { answerInWords } from './outline.results.ts'
import { SnapChoice } from './SnapChoice.tsx'
import { shapeOf } from './shape.ts'

const question = 'What shape is it?'

export default function OutlinePage() {
  const plan = usePlan()
  const figures = useFigures()
  const units = useUnits()
  const fin = usePart('fin')
  const [grid, setGrid] = useState('1')
  const [rightAngles, setRightAngles] = useState(true)
  const shape = shapeOf(plan)
  const faults = useFaults().filter(({ path }) => path.startsWith('fins.outline'))
  if (plan.kind === 'study' || (shape === null && plan.fins === undefined))
    return (
      <PageHead question={question} answer="This plan is a study of a bare plate; its outline is in the plan file." />
    )
  return (
    <>
      <PageHead question={question} answer={answerInWords(shape, fin?.value, figures)} stale={fin?.stale ?? false} />
      {shape !== null && (
        <>
          <SnapChoice
            units={units}
            grid={grid}
            onGrid={setGrid}
            rightAngles={rightAngles}
            onRightAngles={setRightAngles}
          />
          <OutlineDrawing shape={shape} grid={grid} rightAngles={rightAngles} />
        </>
      )}
      {faults.length > 0 && (
        <ul className={styles.faults} role="alert">
          {faults.map(({ code, path, message, hint }) => (
            <li key={`${code} ${path}`}>
              {message} {hint}
            </li>
          ))}
        </ul>
      )}
      <Section title="Dimensions">
        <OutlineFields shape={shape} />
      </Section>
      <Section
        title="From a drawing"
        lead="A DXF or SVG file with the fin as one outline. You see what was read before anything changes."
      >
        <ImportPanel present={shape} />
      </Section>
    </>
  )
}
