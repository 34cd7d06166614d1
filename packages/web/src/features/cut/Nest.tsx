/** A roll with its pieces in true proportion; a piece in the hand is moved as far as it may go, by pointer or keys. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { NestRoll } from '@finwright/core/assess/nest-section.ts'
import { plain } from '@finwright/sheets/layout/figures.ts'
import { nestHeight, nestPicture, nestScale, placedPieces } from '@finwright/sheets/sheets/nest-picture.ts'
import { type KeyboardEvent, type PointerEvent, type ReactNode, useCallback, useMemo, useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { Choice } from '../../parts/Choice.tsx'
import { Picture } from '../../parts/Picture.tsx'
import { useFigures } from '../../state/use.ts'
import styles from './Cut.module.css'
import { linear } from './cut.results.ts'
import { useNudge } from './use-nudge.ts'

interface NestProps {
  readonly roll: NestRoll
  readonly assessment: Assessment
  readonly stale: boolean
}

/** Of the picture: where the cloth begins, mm. */
const gutter = 9
const steps = { fine: 1e-3, coarse: 1e-2, far: 0.1 } as const
const ways = [
  { key: 'ArrowUp', label: '↑', said: 'towards the cut end', x: -1, y: 0 },
  { key: 'ArrowDown', label: '↓', said: 'along the roll', x: 1, y: 0 },
  { key: 'ArrowLeft', label: '←', said: 'to the left edge', x: 0, y: -1 },
  { key: 'ArrowRight', label: '→', said: 'to the right edge', x: 0, y: 1 },
] as const

export function Nest({ roll: given, assessment, stale }: NestProps) {
  const figures = useFigures()
  const { pieces } = assessment.pattern
  const { roll, move, drag, said } = useNudge(assessment, given)
  const placed = useMemo(() => placedPieces(roll, pieces), [roll, pieces])
  const [chosen, setChosen] = useState('')
  const [step, setStep] = useState<keyof typeof steps>('coarse')
  const piece = placed.some((one) => one.piece.id === chosen) ? chosen : (placed[0]?.piece.id ?? '')
  const space = (width: number) => ({ width: Math.min(width, 130), height: 400 })
  const draw = useCallback(
    (width: number) => {
      const room = { width: Math.min(width, 130), height: 400 }
      return { height: nestHeight(roll, room), items: nestPicture({ roll, placed, figures, at: [0, 0], ...room }) }
    },
    [roll, placed, figures],
  )
  const over = (width: number): ReactNode => {
    const scale = nestScale(roll, space(width)) * 1e3
    const down = (id: string) => (event: PointerEvent<SVGPolygonElement>) => {
      setChosen(id)
      if (event.button !== 0) return
      const target = event.currentTarget
      target.setPointerCapture(event.pointerId)
      const perPixel = 1 / (target.ownerSVGElement!.getScreenCTM()!.a * scale)
      const from = { x: event.clientX, y: event.clientY }
      const hand = drag(id)
      target.onpointermove = ({ clientX, clientY }) =>
        hand.to((clientY - from.y) * perPixel, (clientX - from.x) * perPixel)
      target.onpointerup = target.onpointercancel = () => {
        target.onpointermove = target.onpointerup = target.onpointercancel = null
        hand.end()
      }
    }
    return placed.map(({ piece: { id }, outline }) => (
      <polygon
        key={id}
        className={styles.piece}
        data-piece={id}
        data-held={id === chosen || undefined}
        points={outline.map(([x, y]) => `${gutter + y * scale},${gutter + x * scale}`).join(' ')}
        onPointerDown={down(id)}
      />
    ))
  }
  const keys = (event: KeyboardEvent): void => {
    const way = ways.find(({ key }) => key === event.key)
    if (way === undefined && event.key !== 'r') return
    event.preventDefault()
    if (way === undefined) move(piece, { x: 0, y: 0, quarters: 1 })
    else move(piece, { x: way.x * steps[step], y: way.y * steps[step], quarters: 0 })
  }
  const stock =
    roll.availableLength_m === null ? 'to be bought' : `of ${linear(roll.availableLength_m, figures)} in stock`
  return (
    <div>
      <Picture
        label={`Roll ${roll.roll}: ${placed.length} pieces on ${linear(roll.usedLength_m, figures)}`}
        draw={draw}
        stale={stale}
        over={over}
        caption={`${placed.length} pieces on ${linear(roll.usedLength_m, figures)} ${stock}; ${plain(100 * roll.density, 0)} % of that cloth becomes pieces. Numbers give the order of cutting. Drag a piece to move it: it stops at the cutting gap, the selvedge and any flaw.`}
      />
      <fieldset className={styles.nudge} onKeyDown={keys}>
        <legend className="unseen">Move a piece</legend>
        <label className={styles.pick}>
          Piece to move
          <select
            value={piece}
            onChange={(event) => setChosen(event.target.value)}
            onKeyDown={(e) => e.stopPropagation()}
          >
            {placed.map(({ piece: { id } }) => (
              <option key={id}>{id}</option>
            ))}
          </select>
        </label>
        <Choice
          label="By"
          value={step}
          options={[
            { value: 'fine', label: figures.length(steps.fine) },
            { value: 'coarse', label: figures.length(steps.coarse) },
            { value: 'far', label: figures.length(steps.far) },
          ]}
          onChange={setStep}
        />
        <div className={styles.ways}>
          {ways.map(({ label, said: where, x, y }) => (
            <Button
              key={label}
              kind="quiet"
              aria-label={`Move ${piece} ${where}`}
              onPress={() => move(piece, { x: x * steps[step], y: y * steps[step], quarters: 0 })}
            >
              {label}
            </Button>
          ))}
          <Button kind="quiet" aria-label={`Turn ${piece}`} onPress={() => move(piece, { x: 0, y: 0, quarters: 1 })}>
            turn
          </Button>
        </div>
        <p role="status" className={styles.told}>
          {said === '' ? 'Arrow keys move it, r turns it.' : said}
        </p>
      </fieldset>
    </div>
  )
}
