/** Which ply fails first, where, and what the root hands over. */
import { failureMap } from '@finwright/sheets/sheets/hold/failure-map.ts'
import { rootCharts, strengthLine } from '@finwright/sheets/sheets/hold/strength-page.ts'
import { throughThickness } from '@finwright/sheets/sheets/hold/through-thickness.ts'
import { strengthWhy } from '@finwright/sheets/sheets/hold/whys.ts'
import { useCallback } from 'react'
import { Columns } from '../../parts/Columns.tsx'
import { Numbers } from '../../parts/Numbers.tsx'
import { Section, type Shown } from '../../parts/Page.tsx'
import { Picture } from '../../parts/Picture.tsx'
import { WhyWords } from '../../parts/WhyWords.tsx'
import { useFigures } from '../../state/use.ts'
import styles from './Hold.module.css'
import { strengthRows } from './hold.results.ts'

export function Strength({ assessment, stale }: Shown) {
  const figures = useFigures()
  const { strength, structure, pattern } = assessment
  const { shapes } = structure
  // biome-ignore lint/correctness/useExhaustiveDependencies: the map is drawn from these sections alone
  const map = useCallback(
    (width: number) => {
      if (shapes === null || strength.map === null) return null
      const drawn = failureMap(assessment, shapes, { x: 0, y: 0, width }, 64)
      if (strength.rootLine === null) return drawn
      const charts = rootCharts(strength.rootLine, shapes, drawn.frame, { y: drawn.height + 1, height: 70, figures })
      return { height: drawn.height + 71, items: [...drawn.items, ...charts] }
    },
    [strength, shapes, pattern, figures],
  )
  const through = useCallback(
    (width: number) => {
      const height = Math.max(84, 8 * strength.through.length + 24)
      return strength.through.length === 0
        ? null
        : {
            height,
            items: throughThickness(strength, { x: 3, y: 0, width: Math.min(width - 3, 100), height }, figures),
          }
    },
    [strength, figures],
  )
  if (strength.failureIndex === null) return null
  return (
    <Section title="Strength" lead={strengthLine({ assessment, figures })} id="strength">
      <Columns wide>
        <Picture label="Failure index over the fin, and what its root hands over" draw={map} stale={stale} />
        <Picture label="Stress through the thickness at the weakest place" draw={through} stale={stale} />
      </Columns>
      <Numbers rows={strengthRows(assessment, figures)} stale={stale} />
      <div className={styles.why}>
        <WhyWords why={strengthWhy(assessment)} sources={assessment.sources} />
      </div>
    </Section>
  )
}
