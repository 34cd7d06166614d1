/**
 * A table whose cells are fields of the plan: each is typed, stepped and refused as a field of a form is; rows are put in and taken out.
 * Long ones are shown a stretch at a time.
 */
import { limitsText } from '@finwright/plan/schema/judge.ts'
import { type Path, pathText } from '@finwright/plan/schema/locate.ts'
import { type ReactNode, useId, useState } from 'react'
import { Button } from './Button.tsx'
import styles from './EditTable.module.css'
import { type QuantityInput, useQuantity } from './use-quantity.ts'

export interface EditColumn {
  readonly head: string
  /** The field in a row. */
  readonly at: (row: number) => Path
  /** Another control than a quantity. */
  readonly cell?: (row: number) => ReactNode
}

interface EditTableProps {
  readonly caption: string
  readonly columns: readonly EditColumn[]
  readonly count: number
  /** What a row is called: `point`. */
  readonly one: string
  /** Its name in sight; its number where left out. */
  readonly name?: (row: number) => string
  readonly onInsert?: (at: number) => void
  readonly onRemove?: (at: number) => void
  /** Fewer than this there may not be. */
  readonly least?: number
  readonly most?: number
}

const stretch = 40

/** Room for `1234.5 N` in every cell; what is wider than the window scrolls. */
const leastRem = (columns: number, changes: boolean): number => 2.5 + 5.25 * columns + (changes ? 7.25 : 0)

export function EditTable(props: EditTableProps) {
  const { caption, columns, count, one, name, onInsert, onRemove, least = 0, most = Number.POSITIVE_INFINITY } = props
  const [from, setFrom] = useState(0)
  const first = Math.min(from, Math.max(0, count - 1))
  const shown = Array.from({ length: Math.min(stretch, count - first) }, (_, i) => first + i)
  return (
    <div className={styles.holder}>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys */}
      <section className={styles.scroll} aria-label={caption} tabIndex={0}>
        <table className={styles.table} style={{ minWidth: `${leastRem(columns.length, onRemove !== undefined)}rem` }}>
          <caption className="unseen">{caption}</caption>
          <thead>
            <tr>
              <th scope="col">
                <span className="unseen">{one}</span>
              </th>
              {columns.map(({ head }) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
              {onRemove !== undefined && (
                <th scope="col" className={styles.last}>
                  <span className="unseen">Change the list</span>
                </th>
              )}
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <tr key={row}>
                <th scope="row">{name?.(row) ?? row + 1}</th>
                {columns.map(({ head, at, cell }) => (
                  <td key={head}>
                    {cell === undefined ? (
                      <Cell path={at(row)} label={`${head}, ${one} ${name?.(row) ?? row + 1}`} />
                    ) : (
                      cell(row)
                    )}
                  </td>
                ))}
                {onRemove !== undefined && (
                  <td className={styles.acts}>
                    {onInsert !== undefined && (
                      <button
                        type="button"
                        className={styles.act}
                        disabled={count >= most}
                        onClick={() => onInsert(row + 1)}
                        aria-label={`Insert a ${one} after ${name?.(row) ?? row + 1}`}
                      >
                        insert
                      </button>
                    )}
                    <button
                      type="button"
                      className={styles.act}
                      disabled={count <= least}
                      onClick={() => onRemove(row)}
                      aria-label={`Take out ${one} ${name?.(row) ?? row + 1}`}
                    >
                      take out
                    </button>
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {count > stretch && (
        <div className={styles.stretches}>
          <Button kind="quiet" isDisabled={first === 0} onPress={() => setFrom(Math.max(0, first - stretch))}>
            Earlier rows
          </Button>
          <span>
            {first + 1} to {first + shown.length} of {count}
          </span>
          <Button kind="quiet" isDisabled={first + stretch >= count} onPress={() => setFrom(first + stretch)}>
            Later rows
          </Button>
        </div>
      )}
    </div>
  )
}

/** A quantity in a cell; its faults stand under it. */
export function Cell({ path, label }: { readonly path: Path; readonly label: string }) {
  const input = useQuantity(path)
  const notes = useId()
  const faulty = input.issues.length > 0
  return (
    <span className={styles.cell} data-path={pathText(path)} data-faulty={faulty || undefined}>
      <input
        className={styles.input}
        aria-label={label}
        aria-describedby={notes}
        aria-invalid={faulty || undefined}
        data-standing={input.state === 'standing' || undefined}
        data-of-plan=""
        data-unsaved={input.unsaved ? '' : undefined}
        value={input.text}
        placeholder="not stated"
        spellCheck={false}
        autoComplete="off"
        {...input.handlers}
      />
      <span id={notes} className={faulty ? styles.faults : 'unseen'}>
        {faulty ? faultWords(input) : limitsText(input.field)}
      </span>
    </span>
  )
}

const faultWords = ({ issues }: QuantityInput): string =>
  issues.map(({ message, hint }) => `${message} ${hint}`).join(' ')
