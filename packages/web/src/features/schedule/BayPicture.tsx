/** The bay map beside the stack: what is under the hand on one lights up on the other. */

import type { Assessment, Point } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { path as drawnPath } from '@finwright/sheets/drawing/drawing.ts'
import { pathData } from '@finwright/sheets/drawing/svg.ts'
import { type BayFrame, bayFrame, boundsOf } from '@finwright/sheets/sheets/bay-frame.ts'
import { bayStrip } from '@finwright/sheets/sheets/bay-strip.ts'
import { type PointerEvent, useCallback } from 'react'
import { type Drawn, Picture } from '../../parts/Picture.tsx'
import { useFigures, useReadPlan, useSession, useStore } from '../../state/use.ts'
import styles from './Schedule.module.css'
import { type PlyRow, pliesAt, plyShownAt } from './schedule.results.ts'

interface BayPictureProps {
  readonly assessment: Assessment
  readonly stale: boolean
  readonly rows: readonly PlyRow[]
  readonly chosen: number
  readonly onChoose: (at: number) => void
}

interface Framed extends Drawn {
  readonly frame: BayFrame
}

/** mm of page round the strip. */
const rim = 4

export function BayPicture({ assessment, stale, rows, chosen, onChoose }: BayPictureProps) {
  const session = useSession()
  const figures = useFigures()
  const hand = useStore(session.hand)
  const design = useReadPlan()?.design
  const { bay, shapes } = assessment.pattern
  const draw = useCallback(
    (width: number): Framed | null => {
      if (bay === null || shapes.length === 0 || design?.kind !== 'can') return null
      const bounds = boundsOf(shapes.flatMap(({ netOutline_m }) => netOutline_m))
      const scale = (width - 2 * rim) / ((bounds.maxY - bounds.minY) * 1e3)
      const frame = bayFrame(scale, [width / 2, rim + 4 - bounds.minX * 1e3 * scale])
      return {
        frame,
        height: frame.at([bounds.maxX, 0])[1] + rim + 4,
        items: bayStrip({ shapes, bay, design, frame }),
      }
    },
    [bay, shapes, design],
  )
  const shown = hand?.kind === 'ply' ? hand.id : rows[chosen]?.id
  const shape = shapes.find(({ ply }) => ply === shown)
  const row = rows.find(({ id }) => id === shown)
  return (
    <Picture
      label="Bay map: one bay unrolled from fin tip to fin tip, seen from outside, the nose up"
      draw={draw}
      stale={stale}
      caption={
        row === undefined
          ? 'Move over a ply.'
          : `${row.id}: ${comesOff(row.role) ? 'comes off after cure' : `${figures.ply(row.angle ?? 0)}, ${figures.length(row.thickness, 1e-5)} cured`}. One bay from fin tip to fin tip, seen from outside, the nose up; darker where thicker.`
      }
      over={(width, drawn) => {
        const { frame } = drawn as Framed
        const at = (event: PointerEvent<SVGRectElement>): Point => {
          const box = event.currentTarget.getBoundingClientRect()
          const mm = width / box.width
          const [x, y] = [(event.clientX - box.left) * mm, (event.clientY - box.top) * mm]
          return [(y - frame.origin[1]) / frame.scale / 1e3, (x - frame.origin[0]) / frame.scale / 1e3]
        }
        return (
          <>
            {shape !== undefined && (
              <path
                className={styles.inHand}
                d={pathData(drawnPath(shape.netOutline_m.map(frame.at), true, {}))}
                data-testid="ply-in-hand"
              />
            )}
            {/* biome-ignore lint/a11y/noStaticElementInteractions: the stack beside it does the same for keys */}
            <rect
              className={styles.over}
              width={width}
              height={drawn.height}
              onPointerMove={(event) => {
                const id = plyShownAt(shapes, at(event))
                session.hand.set(id === null ? null : { kind: 'ply', id })
              }}
              onPointerLeave={() => session.hand.set(null)}
              onClick={(event) => {
                const id = plyShownAt(shapes, at(event as never)) ?? pliesAt(shapes, at(event as never)).at(-1)?.ply
                const found = rows.find((one) => one.id === id)
                if (found !== undefined) onChoose(found.at)
              }}
            />
          </>
        )
      }}
    />
  )
}
