/** The plies as they lie: the core first, every ply as far as it reaches from tip to the bay's centre line, its weave at its angle. */

import type { SectionFigures } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { freshName } from '../../state/names.ts'
import { useEnter, useFigures, usePlan, useSession, useStore } from '../../state/use.ts'
import styles from './Schedule.module.css'
import { addOutermost, moveTo, pliesOf } from './schedule.commands.ts'
import type { PlyRow } from './schedule.results.ts'
import { WeaveStrip } from './WeaveStrip.tsx'

interface StackProps {
  readonly rows: readonly PlyRow[]
  readonly chosen: number
  readonly onChoose: (at: number) => void
  readonly section: SectionFigures | null
}

export function Stack({ rows, chosen, onChoose, section }: StackProps) {
  const enter = useEnter()
  const plan = usePlan()
  const session = useSession()
  const hand = useStore(session.hand)
  const list = useRef<HTMLOListElement>(null)
  const drag = useRef<{ at: number; gesture: string } | null>(null)
  const [dragged, setDragged] = useState<number | null>(null)
  const [said, say] = useState('')

  function move(from: number, to: number, gesture = freshName()): number {
    const intent = moveTo(from, to, rows.length)
    if (intent === null || intent.name !== 'plies.move' || !enter(intent, gesture).ok) return from
    const place = intent.payload.to
    say(`${rows[from]!.id} is now ply ${place + 1} of ${rows.length} from the core.`)
    onChoose(place)
    return place
  }

  const onPointerDown = (event: PointerEvent, at: number): void => {
    if (event.button !== 0) return
    list.current?.setPointerCapture(event.pointerId)
    drag.current = { at, gesture: freshName() }
    setDragged(at)
    onChoose(at)
  }
  const onPointerMove = (event: PointerEvent): void => {
    if (drag.current === null || list.current === null) return
    const to = [...list.current.children].findIndex((row) => event.clientY < row.getBoundingClientRect().bottom)
    drag.current.at = move(drag.current.at, to < 0 ? rows.length - 1 : to, drag.current.gesture)
    setDragged(drag.current.at)
  }
  const letGo = (): void => {
    drag.current = null
    setDragged(null)
  }
  const onKeyDown = (event: KeyboardEvent<HTMLElement>, at: number): void => {
    const by = { ArrowUp: -1, ArrowDown: 1 }[event.key]
    if (by === undefined) return
    event.preventDefault()
    const to = move(at, at + by)
    const grip = list.current?.children[to]?.querySelector<HTMLElement>('[data-grip]')
    grip?.focus()
  }

  return (
    <div className={styles.stack}>
      <StackHead section={section} />
      <div className={styles.core}>core</div>
      <ol
        ref={list}
        className={styles.rows}
        aria-label="Plies from the core outward"
        onPointerMove={onPointerMove}
        onPointerUp={letGo}
        onPointerCancel={letGo}
      >
        {rows.map((row) => (
          <li
            key={row.at}
            className={styles.row}
            data-ply={row.id}
            data-chosen={row.at === chosen || undefined}
            data-hand={hand?.id === row.id || undefined}
            data-dragged={row.at === dragged || undefined}
            onPointerEnter={() => session.hand.set({ kind: 'ply', id: row.id })}
            onPointerLeave={() => session.hand.set(null)}
          >
            <button
              type="button"
              className={styles.grip}
              data-grip=""
              aria-label={`Move ${row.id}, ply ${row.at + 1} of ${rows.length}: drag, or up and down arrow`}
              title="Drag, or use the arrow keys"
              onPointerDown={(event) => onPointerDown(event, row.at)}
              onKeyDown={(event) => onKeyDown(event, row.at)}
            >
              <GripMarks />
            </button>
            <PlyButton row={row} chosen={row.at === chosen} onChoose={() => onChoose(row.at)} />
          </li>
        ))}
      </ol>
      <p className="unseen" role="status">
        {said}
      </p>
      <div className={styles.below}>
        <Button
          onPress={() => {
            const intent = addOutermost(pliesOf(plan))
            if (enter(intent).ok && intent.name === 'plies.insert') onChoose(intent.payload.at)
          }}
        >
          Add a ply
        </Button>
        <span className={styles.hint}>Outermost structural ply; drag it where it belongs.</span>
      </div>
    </div>
  )
}

function PlyButton({ row, chosen, onChoose }: { row: PlyRow; chosen: boolean; onChoose: () => void }) {
  const session = useSession()
  const figures = useFigures()
  return (
    <button
      type="button"
      className={styles.pick}
      aria-pressed={chosen}
      onClick={onChoose}
      onFocus={() => session.hand.set({ kind: 'ply', id: row.id })}
      onBlur={() => session.hand.set(null)}
    >
      <span className={styles.id}>{row.id}</span>
      <span className={styles.strip}>
        <WeaveStrip row={row} />
      </span>
      <span className={styles.angle}>
        {comesOff(row.role) ? row.role : row.angle === null ? row.angleText : figures.ply(row.angle)}
      </span>
      <span className={styles.cloth}>{row.cloth}</span>
    </button>
  )
}

/** Where fin face, fillet and body lie along the strips. */
function StackHead({ section }: { readonly section: SectionFigures | null }) {
  if (section === null) return null
  const half = section.width_m / 2
  const from = (y: number): string => `${(100 * (half - y)) / half}%`
  const { filletTop, filletFoot } = section.stations_m
  return (
    <div className={styles.scale} aria-hidden="true">
      <span className={styles.scaleBox}>
        <span style={{ left: 0, width: from(filletTop) }}>fin face, from the tip</span>
        <span style={{ left: from(filletTop), width: `${(100 * (filletTop - filletFoot)) / half}%` }}>fillet</span>
        <span style={{ left: from(filletFoot), right: 0 }}>body</span>
      </span>
    </div>
  )
}

const GripMarks = () => (
  <svg width="12" height="18" viewBox="0 0 12 18" aria-hidden="true">
    <path d="M2 4h8M2 9h8M2 14h8" stroke="currentColor" strokeWidth="1.25" fill="none" />
  </svg>
)
