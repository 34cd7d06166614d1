/** How the fin rings: each mode as lines of equal deflection, with its frequencies on the can and clamped. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { hertz, percent } from '@finwright/sheets/layout/figures.ts'
import { finFrame } from '@finwright/sheets/sheets/hold/fin-picture.ts'
import { modePicture, modesLine } from '@finwright/sheets/sheets/hold/modes-page.ts'
import { modesWhy } from '@finwright/sheets/sheets/hold/whys.ts'
import { useCallback } from 'react'
import { Numbers } from '../../parts/Numbers.tsx'
import { Section, type Shown } from '../../parts/Page.tsx'
import { Picture } from '../../parts/Picture.tsx'
import { WhyWords } from '../../parts/WhyWords.tsx'
import { useFigures } from '../../state/use.ts'
import styles from './Hold.module.css'
import { structureRows } from './hold.results.ts'

const most = 6

export function Modes({ assessment, stale }: Shown) {
  const figures = useFigures()
  const { modes, shapes, root } = assessment.structure
  return (
    <Section title="How it rings" lead={modesLine(assessment)} id="modes">
      {shapes !== null && (
        <ul className={styles.modes}>
          {modes.slice(0, Math.min(most, shapes.deflection.length)).map((mode, k) => (
            <li key={k.toString()}>
              <ModeShape assessment={assessment} k={k} stale={stale} />
              <p className={styles.mode}>
                <strong>
                  {k + 1} {mode.kind}
                </strong>
                <span>
                  {root?.modes_Hz[k] === undefined ? '' : `on its can ${hertz(root.modes_Hz[k])}, `}
                  clamped {hertz(mode.frequency_Hz)}
                  {assessment.structure.mesh?.frequencyError?.[k] === undefined
                    ? ''
                    : ` (mesh error ${percent(assessment.structure.mesh.frequencyError[k], 1)})`}
                </span>
              </p>
            </li>
          ))}
        </ul>
      )}
      <p className={styles.key}>
        Root at the bottom, nose to the left. Toned and hatched sides move against each other; the bold line stays
        still.
      </p>
      <Numbers rows={structureRows(assessment, figures)} stale={stale} />
      <div className={styles.why}>
        <WhyWords why={modesWhy(assessment)} sources={assessment.sources} />
      </div>
    </Section>
  )
}

function ModeShape({
  assessment,
  k,
  stale,
}: {
  readonly assessment: Assessment
  readonly k: number
  readonly stale: boolean
}) {
  const { structure, kind } = assessment
  const { shapes } = structure
  const draw = useCallback(
    (width: number) => {
      if (shapes === null) return null
      const { box } = finFrame(shapes.nodes_m, { x: 0, y: 0, width: width - 4, height: 60 })
      const room = { x: 2, y: 2, width: width - 4, height: box.height }
      return { height: box.height + 6, items: modePicture(shapes, k, room, kind === 'can') }
    },
    [shapes, k, kind],
  )
  return <Picture label={`Mode ${k + 1}, ${structure.modes[k]!.kind}`} draw={draw} stale={stale} />
}
