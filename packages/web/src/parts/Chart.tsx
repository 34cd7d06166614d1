/** A chart of the sheets on screen: what is under the cursor is read out, keys move it too, and its figures can be copied. */
import { type ChartInput, chart, plotOf } from '@finwright/sheets/layout/chart.ts'
import { chartCsv, type Reading, readAt } from '@finwright/sheets/layout/chart-values.ts'
import { type KeyboardEvent, type PointerEvent, useMemo, useState } from 'react'
import styles from './Chart.module.css'
import { CopyButton } from './CopyButton.tsx'
import { Svg } from './Picture.tsx'
import { useWidth } from './use-width.ts'

interface ChartProps {
  /** Its size follows from the width that there is, mm. Keep it with `useCallback`. */
  readonly input: (width: number) => ChartInput | null
  readonly label: string
  readonly stale?: boolean
  /** Of y, beside its value. */
  readonly unit?: string
  /** Decimals of the values read out. */
  readonly decimals?: number
}

export function Chart({ input, label, stale = false, unit = '', decimals = 2 }: ChartProps) {
  const [element, width] = useWidth<HTMLDivElement>()
  const made = useMemo(() => (width < 10 ? null : input(width)), [input, width])
  const shown = useMemo(() => (made === null ? null : onScreen(made)), [made])
  const drawn = useMemo(
    () => (shown === null ? null : { height: shown.y + shown.height, items: chart(shown) }),
    [shown],
  )
  const plot = useMemo(() => (shown === null ? null : plotOf(shown)), [shown])
  const [cursor, setCursor] = useState<number | null>(null)
  const readings = made === null || cursor === null ? [] : readAt(made, cursor)

  const fromPointer = (event: PointerEvent<HTMLElement>): void => {
    if (plot === null) return
    const frame = event.currentTarget.getBoundingClientRect()
    const share = (((event.clientX - frame.left) / frame.width) * width - plot.box.x) / plot.box.width
    const [from, to] = plot.xRange
    setCursor(Math.min(to, Math.max(from, from + share * (to - from))))
  }
  const fromKey = (event: KeyboardEvent): void => {
    if (plot === null) return
    const [from, to] = plot.xRange
    const stride = ((to - from) / 100) * (event.shiftKey ? 10 : 1)
    const next: Record<string, number | null> = {
      ArrowRight: Math.min(to, (cursor ?? from) + stride),
      ArrowLeft: Math.max(from, (cursor ?? to) - stride),
      Home: from,
      End: to,
      Escape: null,
    }
    if (!(event.key in next)) return
    event.preventDefault()
    setCursor(next[event.key]!)
  }

  const place = cursor === null || plot === null ? null : plot.at(cursor, 0)[0]
  const told = cursor === null ? 'no place chosen' : readout(made?.xLabel ?? '', cursor, readings, unit, decimals)
  return (
    <figure className={styles.chart} data-stale={stale || undefined}>
      {made !== null && shown?.title === '' && (
        <p className={styles.title}>
          {made.title} <span className={styles.unit}>{made.yLabel}</span>
        </p>
      )}
      <div
        ref={element}
        className={styles.plot}
        role="slider"
        tabIndex={0}
        aria-label={`${label}: read values with the arrow keys`}
        aria-valuemin={plot?.xRange[0] ?? 0}
        aria-valuemax={plot?.xRange[1] ?? 1}
        aria-valuenow={cursor ?? plot?.xRange[0] ?? 0}
        aria-valuetext={told}
        onPointerMove={fromPointer}
        onPointerDown={fromPointer}
        onPointerLeave={() => setCursor(null)}
        onBlur={() => setCursor(null)}
        onKeyDown={fromKey}
      >
        {drawn !== null && plot !== null && (
          <Svg label={label} width={width} drawn={drawn}>
            {place !== null && (
              <g className={styles.cursor}>
                <line x1={place} x2={place} y1={plot.box.y} y2={plot.box.y + plot.box.height} />
                {readings
                  .filter(({ y }) => plot.inside(cursor!, y))
                  .map(({ label: name, y }, i) => (
                    <circle key={`${name}-${i.toString()}`} cx={place} cy={plot.at(cursor!, y)[1]} r={0.9} />
                  ))}
              </g>
            )}
          </Svg>
        )}
      </div>
      {made !== null && isNarrow(made) && (
        <ol className={styles.names}>
          {made.series.map(
            ({ label: name }, i) =>
              name !== '' && (
                <li key={name} value={i + 1}>
                  {name}
                </li>
              ),
          )}
        </ol>
      )}
      <figcaption className={styles.foot}>
        <span className={styles.readout} aria-hidden="true">
          {cursor === null ? <span className={styles.hint}>Point at the curve to read it.</span> : told}
        </span>
        {made !== null && <CopyButton text={() => chartCsv(made)} label="Copy CSV" of={label} />}
      </figcaption>
    </figure>
  )
}

/** Narrower than this, names along the curves become numbers with a list, mm. */
const narrow = 110

const isNarrow = ({ width, series }: ChartInput): boolean => width < narrow && series.some(({ label }) => label !== '')

/** Its title stands above it as text, where nothing else of the chart stands at that height. */
function onScreen(input: ChartInput): ChartInput {
  const { uprights = [], namesAtEnds: _, ...rest } = input
  const named = isNarrow(input)
  const series = input.series.map((one, i) => (one.label === '' ? one : { ...one, label: '', tag: `${i + 1}` }))
  const bare = uprights.every(({ label }) => label === '')
  return {
    ...(named ? { ...rest, uprights, series } : input),
    ...(bare ? { title: '', yLabel: '' } : {}),
  }
}

function readout(xLabel: string, x: number, readings: readonly Reading[], unit: string, decimals: number): string {
  const number = (value: number): string => value.toFixed(decimals)
  const values = readings.map(
    ({ label, y }) => `${label === '' ? '' : `${label} `}${number(y)}${unit === '' ? '' : ` ${unit}`}`,
  )
  return `${xLabel} ${x.toFixed(2)}: ${values.length === 0 ? 'no value' : values.join(' · ')}`
}
