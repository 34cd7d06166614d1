/** The boundary against the flight's path, the margin at every instant, and the figures behind both. */
import { boundaryChart, marginChart } from '@finwright/sheets/sheets/hold/boundary-page.ts'
import { curveCharts, curvesLine } from '@finwright/sheets/sheets/hold/curves-page.ts'
import { boundaryWhy, curvesWhy } from '@finwright/sheets/sheets/hold/whys.ts'
import { useCallback } from 'react'
import { Chart } from '../../parts/Chart.tsx'
import { Numbers } from '../../parts/Numbers.tsx'
import { Section, type Shown } from '../../parts/Page.tsx'
import { WhyWords } from '../../parts/WhyWords.tsx'
import { useFigures } from '../../state/use.ts'
import styles from './Hold.module.css'
import { boundaryRows } from './hold.results.ts'

export function Flutter({ assessment, stale }: Shown) {
  const figures = useFigures()
  const boundary = useCallback(
    (width: number) => boundaryChart({ assessment, figures }, { width, height: Math.min(104, 0.55 * width + 34) }),
    [assessment, figures],
  )
  const margin = useCallback(
    (width: number) => marginChart({ assessment, figures }, { width, height: Math.min(64, 0.3 * width + 30) }),
    [assessment, figures],
  )
  const frequency = useCallback(
    (width: number) =>
      curveCharts({ assessment, figures }, { width, height: 2 * Math.min(56, 0.4 * width + 30) })?.frequency ?? null,
    [assessment, figures],
  )
  const damping = useCallback(
    (width: number) => {
      const charts = curveCharts({ assessment, figures }, { width, height: 2 * Math.min(56, 0.4 * width + 30) })
      return charts === null ? null : { ...charts.damping, y: 0 }
    },
    [assessment, figures],
  )
  const { unit } = figures.axis('speed')
  return (
    <Section title="Flutter" id="flutter">
      <Chart
        input={boundary}
        label="Speed at which the fin goes, against the flight"
        stale={stale}
        unit={unit}
        decimals={0}
      />
      <Chart input={margin} label="Envelope over flight speed at every instant" stale={stale} />
      <Numbers rows={boundaryRows(assessment, figures)} stale={stale} />
      <div className={styles.why}>
        <WhyWords why={boundaryWhy(assessment)} sources={assessment.sources} />
      </div>
      <details className={styles.more}>
        <summary>How it would flutter: damping and frequency against speed</summary>
        <p className={styles.lead}>{curvesLine({ assessment, figures })}</p>
        <Chart input={frequency} label="Frequency of each root against speed" stale={stale} unit="Hz" decimals={0} />
        <Chart input={damping} label="Damping of each root against speed" stale={stale} decimals={3} />
        <WhyWords why={curvesWhy(assessment)} sources={assessment.sources} />
      </details>
    </Section>
  )
}
