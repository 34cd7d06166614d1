/** The present schedule beside a kept one: plies, margins and laminate; either is adopted with one press, and undone with one. */
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { sameJson } from '@finwright/plan/protocol/record.ts'
import { Button } from '../../parts/Button.tsx'
import { Table } from '../../parts/Numbers.tsx'
import { useAnswers, useFigures, usePlan, useSession, useStore } from '../../state/use.ts'
import { type Kept, marginsKnown, type Other, otherOf } from './other.ts'
import styles from './Schedule.module.css'
import { pliesOf } from './schedule.commands.ts'
import { compared, type PlyRow, plyRows } from './schedule.results.ts'
import { Weave } from './WeaveStrip.tsx'

export function TwoSchedules({ rows }: { readonly rows: readonly PlyRow[] }) {
  const other = otherOf(useSession())
  const kept = useStore(other)
  if (kept === null) return <Button onPress={other.keep}>Keep a copy to compare with</Button>
  return <Compared rows={rows} other={other} kept={kept} />
}

interface ComparedProps {
  readonly rows: readonly PlyRow[]
  readonly other: Other
  readonly kept: Kept
}

function Compared({ rows, other, kept }: ComparedProps) {
  const theirs = useStore(other.answers)
  const mine = useAnswers()
  const plan = usePlan()
  const figures = useFigures()
  const same = sameJson(kept.plies, pliesOf(plan))
  const otherRows = plyRows({
    plies: kept.plies,
    materials: plan.materials,
    halfWidth: null,
    cured: theirs.parts.fin?.value.plies ?? [],
  })
  const stale = !marginsKnown(mine) || !marginsKnown(theirs)
  const table = compared(mine.parts, theirs.parts, figures)
  return (
    <>
      <div className={styles.pair}>
        <Small title="Present" rows={rows} />
        <Small title="Other" rows={otherRows} />
      </div>
      <div className={styles.acts}>
        <Button isDisabled={same} onPress={other.switchOver}>
          Adopt the other
        </Button>
        <Button kind="quiet" isDisabled={same} onPress={other.keep}>
          Keep the present one instead
        </Button>
        <Button kind="quiet" onPress={other.drop}>
          Put the copy away
        </Button>
      </div>
      <p className={styles.state} role="status">
        {same
          ? 'Both are the same so far. Change the present one.'
          : theirs.issues !== null && theirs.issues.key === theirs.key
            ? `The other schedule has faults: ${theirs.issues.value[0]?.message ?? ''}`
            : stale
              ? 'Being worked out …'
              : 'After adopting, the present one is kept as the other; undo turns them round again.'}
      </p>
      <Table
        caption="Two schedules compared"
        columns={[{ head: 'Number' }, { head: 'Present', end: true }, { head: 'Other', end: true }]}
        rows={table.map(({ label, present, other: theirs, differs, fault }) => [
          label,
          <Figure key="p" text={present} fault={fault.present} />,
          <Figure key="o" text={theirs} fault={fault.other} differs={differs} />,
        ])}
        stale={stale}
      />
    </>
  )
}

function Figure({ text, fault, differs = false }: { text: string; fault: boolean; differs?: boolean }) {
  return (
    <span className={styles.compared} data-fault={fault || undefined} data-differs={differs || undefined}>
      {text}
      {fault && <span className="unseen"> not enough</span>}
    </span>
  )
}

/** The whole schedule as small squares of cloth, core outward. */
function Small({ title, rows }: { readonly title: string; readonly rows: readonly PlyRow[] }) {
  const figures = useFigures()
  return (
    <div>
      <h3 className={styles.fieldsTitle}>{title}</h3>
      <ol className={styles.small} aria-label={`${title}: plies from the core outward`}>
        {rows.map((row) => (
          <li key={row.at} title={row.cloth}>
            <svg className={styles.square} width="34" height="34" data-role={row.role} aria-hidden="true">
              <Weave angle={row.angle ?? 0} spacing={5} />
            </svg>
            <span>{row.id}</span>
            <span>{comesOff(row.role) ? row.role : figures.ply(row.angle ?? 0)}</span>
          </li>
        ))}
      </ol>
    </div>
  )
}
