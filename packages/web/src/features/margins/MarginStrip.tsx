/** Every margin on every page, as in a drawing's title block: now, and before the last change. */

import { useBefore, useFigures, useSelected, useSession } from '../../state/use.ts'
import { WhyLink } from '../why/WhyLink.tsx'
import styles from './MarginStrip.module.css'
import { type Margin, margins, type Reading, readOf } from './margins.ts'

export function MarginStrip() {
  const [parts, key] = useSelected(useSession().answers, (answers) => [answers.parts, answers.key] as const)
  const before = useBefore()
  const figures = useFigures()
  const now = readOf(parts)
  const was = before === null ? null : readOf(before.parts)
  const rows = margins.map((margin) => ({
    margin,
    now: margin.read(now, figures),
    was: was === null ? null : margin.read(was, figures),
    stale: parts[margin.part]?.key !== key,
  }))
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: where it is narrow it scrolls, and what scrolls must be reached by keys
    <section className={styles.strip} aria-label="Margins" tabIndex={0}>
      {rows.map((row) => (
        <Cell key={row.margin.id} {...row} />
      ))}
    </section>
  )
}

interface CellProps {
  readonly margin: Margin
  readonly now: Reading | null
  readonly was: Reading | null
  readonly stale: boolean
}

function Cell({ margin, now, was, stale }: CellProps) {
  const changed = was !== null && now !== null && was.text !== now.text && !stale
  return (
    <div
      className={styles.cell}
      data-margin={margin.id}
      data-stale={stale || undefined}
      data-changed={changed || undefined}
      data-fault={now?.fault != null || undefined}
    >
      <span className={styles.label}>{margin.label}</span>
      <span className={styles.value}>
        {changed && (
          <>
            <span className={styles.before}>
              <span className="unseen">before </span>
              {was.text}
            </span>
            <span className={styles.arrow} aria-hidden="true">
              →
            </span>
          </>
        )}
        {now === null ? (
          <span className={styles.none}>…</span>
        ) : (
          <WhyLink id={margin.why}>
            {changed && <span className="unseen">now </span>}
            {now.text}
          </WhyLink>
        )}
      </span>
      <span className={styles.note}>{stale ? 'being worked out' : (now?.fault ?? now?.asked ?? '')}</span>
    </div>
  )
}
