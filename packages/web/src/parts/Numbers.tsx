/** Rows of name, figure and remark; a figure with a derivation can be asked why. */
import type { ReactNode } from 'react'
import { WhyLink } from '../features/why/WhyLink.tsx'
import styles from './Numbers.module.css'

export interface NumberRow {
  readonly label: string
  readonly value: string
  readonly note?: ReactNode
  /** Its derivation. */
  readonly why?: string
}

export function Numbers({ rows, stale = false }: { readonly rows: readonly NumberRow[]; readonly stale?: boolean }) {
  return (
    <dl className={styles.numbers} data-stale={stale || undefined}>
      {rows.map(({ label, value, note, why }) => (
        <div key={label} className={styles.row}>
          <dt>{label}</dt>
          <dd className={styles.value}>{why === undefined ? value : <WhyLink id={why}>{value}</WhyLink>}</dd>
          <dd className={styles.note}>{note}</dd>
        </div>
      ))}
    </dl>
  )
}

export interface TableColumn {
  readonly head: string
  readonly end?: boolean
}

interface TableProps {
  readonly caption: string
  readonly columns: readonly TableColumn[]
  readonly rows: readonly (readonly ReactNode[])[]
  readonly stale?: boolean
  readonly strong?: (row: number) => boolean
}

/** A table proper; wider ones scroll by themselves. */
export function Table({ caption, columns, rows, stale = false, strong }: TableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className={styles.scroll} aria-label={caption} tabIndex={0}>
      <table className={styles.table} data-stale={stale || undefined}>
        <caption className="unseen">{caption}</caption>
        <thead>
          <tr>
            {columns.map(({ head, end }) => (
              <th key={head} scope="col" data-end={end || undefined}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, i) => (
            <tr key={i.toString()} data-strong={strong?.(i) || undefined}>
              {cells.map((cell, k) => (
                <td key={columns[k]!.head} data-end={columns[k]!.end || undefined}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
