/**
 * A ply's angle as a dial: the warp turned by hand or by keys, drawn to 0, 45 and 90 degrees when it comes near (with Shift it goes
 * free). It turns as the bay map does: from across the bay (right) towards aft (down).
 */
import { type KeyboardEvent, type PointerEvent, useRef } from 'react'
import { freshName } from '../../state/names.ts'
import { useEnter } from '../../state/use.ts'
import styles from './Schedule.module.css'
import { halfTurn, setAngle, snapped } from './schedule.commands.ts'
import type { PlyRow } from './schedule.results.ts'
import { Weave } from './WeaveStrip.tsx'

const size = 188
const middle = size / 2
const radius = 66

const steps: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 15,
  PageDown: -15,
}

export function AngleDial({ row }: { readonly row: PlyRow }) {
  const enter = useEnter()
  const gesture = useRef<string | null>(null)
  const held = halfTurn(row.angle ?? 0)

  const put = (degrees: number, under: string): void => {
    if (degrees !== row.angle) enter(setAngle(row.at, degrees), under)
  }
  const turn = (event: PointerEvent<SVGSVGElement>): void => {
    if (gesture.current === null) return
    const box = event.currentTarget.getBoundingClientRect()
    const [x, y] = [event.clientX - box.left - box.width / 2, event.clientY - box.top - box.height / 2]
    if (Math.hypot(x, y) > 8) put(snapped((Math.atan2(y, x) * 180) / Math.PI, event.shiftKey), gesture.current)
  }
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = event.key === 'Home' ? -held : event.key === 'End' ? 90 - held : steps[event.key]
    if (by === undefined) return
    event.preventDefault()
    put(Number(halfTurn(held + by).toFixed(1)), freshName())
  }
  return (
    <div className={styles.dial}>
      <svg
        className={styles.dialFace}
        width={size}
        height={size}
        viewBox={`0 0 ${size} ${size}`}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a dial is drawn; it has name, focus and keys
        role="slider"
        tabIndex={0}
        aria-label={`Angle of ${row.id}`}
        aria-valuemin={-90}
        aria-valuemax={90}
        aria-valuenow={Math.round(held)}
        aria-valuetext={`${held} degrees`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          gesture.current = freshName()
          turn(event)
        }}
        onPointerMove={turn}
        onPointerUp={() => {
          gesture.current = null
        }}
        onPointerCancel={() => {
          gesture.current = null
        }}
        onKeyDown={onKeyDown}
      >
        <clipPath id="dial-cloth">
          <circle cx={middle} cy={middle} r={radius - 8} />
        </clipPath>
        <g clipPath="url(#dial-cloth)">
          <Weave angle={held} spacing={9} />
        </g>
        <circle className={styles.rim} cx={middle} cy={middle} r={radius} />
        {[0, 45, 90, 135, 180, 225, 270, 315].map((mark) => (
          <line
            key={mark}
            className={styles.tick}
            x1={radius - 4}
            x2={radius + 4}
            transform={`translate(${middle} ${middle}) rotate(${mark})`}
          />
        ))}
        <g transform={`translate(${middle} ${middle}) rotate(${held})`}>
          <line className={styles.needle} x1={-radius} x2={radius} />
          <circle className={styles.knob} cx={radius} r={9} />
        </g>
        <text className={styles.dialWord} x={middle - radius - 10} y={middle + 4} textAnchor="end">
          0
        </text>
        <text className={styles.dialWord} x={middle} y={size - 4} textAnchor="middle">
          90, aft
        </text>
      </svg>
      <div className={styles.snaps}>
        {[0, 45, -45, 90].map((angle) => (
          <button
            key={angle}
            type="button"
            className={styles.snap}
            aria-label={`${row.id} at ${angle} degrees`}
            aria-pressed={held === angle}
            onClick={() => put(angle, freshName())}
          >
            {angle < 0 ? `−${-angle}` : angle}°
          </button>
        ))}
      </div>
    </div>
  )
}
