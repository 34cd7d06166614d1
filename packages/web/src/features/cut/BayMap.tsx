/** The bay map with its plies beside it; the one in the hand lights up on both. */
import type { PieceShape } from '@finwright/core/assess/assessment.ts'
import { bayPicture } from '@finwright/sheets/sheets/bay-picture.ts'
import { type ReactNode, useCallback } from 'react'
import type { Shown } from '../../parts/Page.tsx'
import { Picture } from '../../parts/Picture.tsx'
import { useCanDesign, useFigures, useSession, useStore } from '../../state/use.ts'
import styles from './Cut.module.css'

export function BayMap({ assessment, stale }: Shown) {
  const design = useCanDesign()
  const figures = useFigures()
  const { pattern } = assessment
  const { hand } = useSession()
  const held = useStore(hand)
  const picture = useCallback(
    (width: number) => (design === null ? null : bayPicture({ pattern, design, figures }, width, 150)),
    [pattern, design, figures],
  )
  const over = (width: number): ReactNode => {
    const shape = held?.kind === 'ply' ? pattern.shapes.find(({ ply }) => ply === held.id) : undefined
    const frame = picture(width)?.frame
    if (shape === undefined || frame === undefined) return null
    const points = shape.netOutline_m.map((point) => frame.at(point).join(' ')).join(' ')
    return <polygon className={styles.held} points={points} />
  }
  const angles = new Map(design?.plies.map(({ id, angle }) => [id, (angle * 180) / Math.PI]))
  return (
    <div className={styles.map}>
      <Picture
        label="Bay map: plies darker where more of them lie, their weave at its true angle"
        draw={picture}
        stale={stale}
        over={over}
        caption="Nose up, the next fin to the right. Darker where more plies lie; the lines lie as the cloth lies."
      />
      <ol className={styles.plies} aria-label="Plies, core outward">
        {pattern.shapes.map((shape) => (
          <PlyRow
            key={shape.ply}
            shape={shape}
            angle={figures.ply(angles.get(shape.ply) ?? 0)}
            held={held?.kind === 'ply' && held.id === shape.ply}
            onHold={(on) => hand.set(on ? { kind: 'ply', id: shape.ply } : null)}
          />
        ))}
      </ol>
    </div>
  )
}

interface PlyRowProps {
  readonly shape: PieceShape
  readonly angle: string
  readonly held: boolean
  readonly onHold: (on: boolean) => void
}

function PlyRow({ shape, angle, held, onHold }: PlyRowProps) {
  const at = shape.sequence - 1
  return (
    <li>
      <a
        className={styles.ply}
        href={`/?field=${encodeURIComponent(`plies[${at}]`)}`}
        data-held={held || undefined}
        onPointerEnter={() => onHold(true)}
        onPointerLeave={() => onHold(false)}
        onFocus={() => onHold(true)}
        onBlur={() => onHold(false)}
      >
        <span className={styles.name}>{shape.ply}</span>
        <span className={styles.angle}>{angle}</span>
        <span>{shape.clothName}</span>
      </a>
    </li>
  )
}
