/** Check squares as they were measured on prints, and lines along which the stack of plies is drawn. */
import type { Issue } from '@finwright/core/issue.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import type { Json } from '@finwright/plan/protocol/record.ts'
import { useState } from 'react'
import { Link } from 'wouter'
import { Button } from '../../parts/Button.tsx'
import { EditTable } from '../../parts/EditTable.tsx'
import { Faults } from '../../parts/Faults.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { useCanDesign, useEnter, useTyped, useUnits } from '../../state/use.ts'
import { lengthText } from '../outline/outline.commands.ts'
import styles from './PlanPage.module.css'

const squares = [
  { name: 'checkSquare', title: 'Check square on a print of yours' },
  { name: 'rollSquare', title: 'Check square on the roll print' },
  { name: 'cutterSquare', title: 'Check square of the cutter or plotter' },
] as const

export function PrintFields() {
  return (
    <>
      <p className={styles.hint}>
        Every page carries a square of 100 mm. Measure it on a print and state what you read: patterns are then drawn so
        that they come out true. The page <Link href="/print">What do I print?</Link> keeps one for each printer.
      </p>
      <div className={styles.beside}>
        {squares.map((square) => (
          <Square key={square.name} {...square} />
        ))}
      </div>
      <Sections />
    </>
  )
}

function Square({ name, title }: (typeof squares)[number]) {
  const path = ['printing', name]
  const typed = useTyped(path)
  const enter = useEnter()
  return (
    <div className={styles.group} data-path={path.join('.')}>
      <h3 className={styles.groupTitle}>{title}</h3>
      {typed === undefined ? (
        <div className={styles.under}>
          <Button
            kind="quiet"
            onPress={() =>
              enter({ name: 'field.set', payload: { path, value: { across: '100 mm', along: '100 mm' } } })
            }
          >
            Not measured: state it
          </Button>
        </div>
      ) : (
        <>
          <QuantityField path={[...path, 'across']} label="Across the feed" />
          <QuantityField path={[...path, 'along']} label="Along the feed" />
          <div className={styles.under}>
            <Button kind="quiet" onPress={() => enter({ name: 'field.clear', payload: { path } })}>
              Leave it out
            </Button>
          </div>
        </>
      )}
    </div>
  )
}

const list = ['printing', 'sections']
const most = 20

function Sections() {
  const typed = useTyped(list)
  const enter = useEnter()
  const units = useUnits()
  const design = useCanDesign()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const count = Array.isArray(typed) ? typed.length : 0
  const go = (intent: Intent): void => {
    const made = enter(intent)
    setRefused(made.ok ? [] : made.issues)
  }
  /** Across the bay at mid root, as far as the fins' middles. */
  const usual = (): Json & object => {
    const xs = design?.fins.outline.points.map(([x]) => x) ?? [0, 0.1]
    const half = (Math.max(...xs) - Math.min(0, ...xs)) / 2
    const [x, y] = [lengthText(half, units), (side: number) => lengthText(side * half, units)]
    return { from: [x, y(-1)], to: [x, y(1)] }
  }
  return (
    <div className={styles.group} data-path="printing.sections">
      <h3 className={styles.groupTitle}>Sections through the plies, besides the standard ones</h3>
      {count > 0 && (
        <EditTable
          caption="Lines along which the stack of plies is drawn"
          one="section"
          count={count}
          columns={[
            { head: 'From, aft', at: (row) => [...list, row, 'from', 0] },
            { head: 'From, across', at: (row) => [...list, row, 'from', 1] },
            { head: 'To, aft', at: (row) => [...list, row, 'to', 0] },
            { head: 'To, across', at: (row) => [...list, row, 'to', 1] },
          ]}
          onRemove={(at) => go({ name: 'sections.remove', payload: { at } })}
        />
      )}
      {refused.length > 0 && <Faults issues={refused} then="Nothing was changed." />}
      <p className={styles.hint}>
        Aft of the root’s forward end; across from the bay’s centre line, towards the next fin.
      </p>
      <Button
        isDisabled={count >= most}
        onPress={() =>
          go({ name: 'sections.insert', payload: { at: count, entry: usual() as { from: Json; to: Json } } })
        }
      >
        Add a section
      </Button>
    </div>
  )
}
