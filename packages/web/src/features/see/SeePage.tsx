/** What will it see? Flight, its worst points, and the heat it brings. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { type FlightCharts, flightCharts } from '@finwright/sheets/sheets/hold/flight-page.ts'
import { flightWhy } from '@finwright/sheets/sheets/hold/whys.ts'
import { useCallback } from 'react'
import { Chart } from '../../parts/Chart.tsx'
import { Columns } from '../../parts/Columns.tsx'
import { Numbers, Table } from '../../parts/Numbers.tsx'
import { Page, Section, type Shown } from '../../parts/Page.tsx'
import { WhyWords } from '../../parts/WhyWords.tsx'
import { useFigures } from '../../state/use.ts'
import { flightRows, heatRows } from './see.results.ts'

export default function SeePage() {
  return (
    <Page question="What will it see?" needs={['flight']}>
      {(shown) => <Seen {...shown} />}
    </Page>
  )
}

function Seen({ assessment, stale }: Shown) {
  const figures = useFigures()
  const heat = heatRows(assessment, figures)
  return (
    <>
      {assessment.flight.history !== null && (
        <Columns>
          <FlightChart of="mach" label="Mach number against time" assessment={assessment} stale={stale} />
          <FlightChart
            of="dynamicPressure"
            label="Dynamic pressure against time"
            assessment={assessment}
            stale={stale}
          />
          <FlightChart of="altitude" label="Altitude against time" assessment={assessment} stale={stale} />
        </Columns>
      )}
      <Section title="Numbers">
        <Numbers rows={flightRows(assessment, figures)} stale={stale} />
      </Section>
      {heat.rows.length > 0 && (
        <Section title="Heat" lead="Where the skins get how warm, by the end of the flight's hot part.">
          <Table
            caption="Temperatures of the skins"
            columns={[
              { head: 'Where' },
              { head: 'Surface', end: true },
              { head: 'Skin meets core', end: true },
              { head: 'Middle', end: true },
              { head: 'Above glass transition', end: true },
            ]}
            rows={heat.rows}
            strong={(row) => row === heat.hottest}
            stale={stale}
          />
        </Section>
      )}
      <Section title="Why">
        <WhyWords why={flightWhy(assessment)} sources={assessment.sources} />
      </Section>
    </>
  )
}

interface FlightChartProps {
  readonly of: keyof FlightCharts
  readonly label: string
  readonly assessment: Assessment
  readonly stale: boolean
}

function FlightChart({ of, label, assessment, stale }: FlightChartProps) {
  const figures = useFigures()
  const { flight } = assessment
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn from the flight alone
  const input = useCallback(
    (width: number) =>
      flightCharts({ assessment, figures }, { width, height: Math.min(62, 0.5 * width + 18) })?.[of] ?? null,
    [flight, figures, of],
  )
  const unit = { mach: '', dynamicPressure: figures.axis('pressure').unit, altitude: figures.axis('distance').unit }[of]
  return (
    <Chart
      input={input}
      label={label}
      stale={stale}
      unit={unit}
      decimals={of === 'mach' ? 2 : of === 'altitude' ? 0 : 1}
    />
  )
}
