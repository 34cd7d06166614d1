/** The same margin under other assumptions and with one input changed: ratios on one scale. They follow the answer itself. */
import { ratio } from '@finwright/sheets/layout/figures.ts'
import { Section, type Shown } from '../../parts/Page.tsx'
import { asidesStale } from '../../state/answers.ts'
import { useSelected, useSession } from '../../state/use.ts'
import styles from './Hold.module.css'
import { ratioScale } from './hold.results.ts'

interface RatioRow {
  readonly words: string
  readonly change?: string
  readonly value: number | null
}

export function Drivers({ assessment }: Shown) {
  const { beside, drivers, margin } = assessment.flutter
  const stale = useSelected(useSession().answers, asidesStale)
  const moves = drivers.map(({ input, change, speedRatio }) => ({ words: input, change, value: speedRatio }))
  const other = beside.map(({ assumption, speedRatio }) => ({ words: `if ${assumption}`, value: speedRatio }))
  if (moves.length + other.length === 0 && !stale) return null
  const values = [...moves, ...other].map(({ value }) => value)
  const place = ratioScale([...values, margin.speedRatio, margin.requiredRatio])
  const lines = { now: margin.speedRatio, required: margin.requiredRatio }
  return (
    <Section title="What moves it" id="moves">
      {stale && (
        <p className={styles.follows}>
          Worked out after the margins themselves;{' '}
          {moves.length === 0 ? 'not there yet.' : 'these are of the plan before.'}
        </p>
      )}
      <div className={styles.drivers} data-stale={stale || undefined}>
        <Ratios title="One input changed" rows={moves} place={place} lines={lines} />
        <Ratios title="Other assumptions" rows={other} place={place} lines={lines} />
      </div>
      <p className={styles.key}>
        Dot: flutter speed over flight speed. Solid line: as it stands, {ratio(margin.speedRatio)}. Dashes: asked for,{' '}
        {ratio(margin.requiredRatio)}.
      </p>
    </Section>
  )
}

interface RatiosProps {
  readonly title: string
  readonly rows: readonly RatioRow[]
  readonly place: (value: number) => number
  readonly lines: { readonly now: number | null; readonly required: number }
}

function Ratios({ title, rows, place, lines }: RatiosProps) {
  if (rows.length === 0) return null
  return (
    <table className={styles.ratios}>
      <caption>{title}</caption>
      <tbody>
        {rows.map(({ words, change, value }) => (
          <tr key={`${words} ${change ?? ''}`}>
            <th scope="row">
              {words} {change !== undefined && <span className={styles.change}>{change}</span>}
            </th>
            <td className={styles.scale}>
              <Scale value={value} place={place} {...lines} />
            </td>
            <td className={styles.ratio}>{value === null ? 'not determined' : ratio(value)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

interface ScaleProps {
  readonly value: number | null
  readonly place: (value: number) => number
  readonly now: number | null
  readonly required: number
}

function Scale({ value, place, now, required }: ScaleProps) {
  return (
    <svg viewBox="0 0 100 20" preserveAspectRatio="none" aria-hidden="true">
      <line className={styles.ground} x1="0" x2="100" y1="10" y2="10" />
      <line className={styles.required} x1={place(required)} x2={place(required)} y1="0" y2="20" />
      {now !== null && <line className={styles.now} x1={place(now)} x2={place(now)} y1="0" y2="20" />}
      {value !== null && now !== null && (
        <line className={styles.moved} x1={place(now)} x2={place(value)} y1="10" y2="10" />
      )}
      {value !== null && <line className={styles.dot} x1={place(value)} x2={place(value)} y1="10" y2="10" />}
    </svg>
  )
}
