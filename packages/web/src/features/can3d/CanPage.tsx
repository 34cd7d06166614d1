/** What does it look like? The can with its plies, beside the bay map that they are cut from; a hand on one lights up the other. */
import type { StructureSection } from '@finwright/core/assess/assessment.ts'
import { useMemo, useRef, useState } from 'react'
import { Choice } from '../../parts/Choice.tsx'
import { PageHead } from '../../parts/Page.tsx'
import { useAtRest, usePart, useReadPlan, useSession, useStore } from '../../state/use.ts'
import { BayMapBeside } from './BayMapBeside.tsx'
import styles from './CanPage.module.css'
import { CanPicture } from './CanPicture.tsx'
import { type CanModel, canModel } from './model.ts'

const question = 'What does it look like?'

export default function CanPage() {
  const model = useOnceAtRest(useCanModel())
  const pattern = usePart('pattern')
  if (model === null)
    return <PageHead question={question} answer="The can is drawn as soon as its patterns are known …" />
  return (
    <>
      <PageHead question={question} answer={answer(model)} stale={pattern?.stale ?? false} />
      <Can model={model} />
    </>
  )
}

function answer({ finCount, plies, leftOut }: CanModel): string {
  const count = plies.length === 1 ? 'one ply' : `${plies.length} plies`
  const missing = leftOut.length === 0 ? '' : ` Not drawn: ${leftOut.join('; ')}.`
  return `${finCount} fins, ${count} over every bay. Plies are drawn thicker than they are; all fins swing alike.${missing}`
}

/** Drawn anew when everything is worked out: where a browser draws without a graphics processor that takes the margins' time. */
function useOnceAtRest(model: CanModel | null): CanModel | null {
  const rest = useAtRest()
  const shown = useRef(model)
  if (rest || shown.current === null) shown.current = model
  return shown.current
}

/** Null before the first patterns, and for a study, which has no can. */
function useCanModel(): CanModel | null {
  const pattern = usePart('pattern')?.value
  const shapes = usePart('structure')?.value.shapes ?? null
  const design = useReadPlan()?.design
  return useMemo(() => {
    if (pattern === undefined || pattern.section === null || design?.kind !== 'can') return null
    return canModel(design, pattern, shapes)
  }, [pattern, shapes, design])
}

const modesShown = 3

interface Swing {
  readonly kind: string
  readonly frequency_Hz: number
  readonly deflection: readonly number[]
}

/** Of the fin as its can holds it, or clamped along the body without fillets. */
function swings(structure: StructureSection | undefined, clamped: boolean): Swing[] {
  if (structure === undefined || structure.shapes === null) return []
  const { modes, root, shapes } = structure
  if (clamped || root === null) return modes.map((mode, i) => ({ ...mode, deflection: shapes.deflection[i] ?? [] }))
  return root.modes_Hz.map((frequency_Hz, i) => ({
    frequency_Hz,
    kind: root.kinds[i] ?? '',
    deflection: root.deflection[i] ?? [],
  }))
}

function Can({ model }: { readonly model: CanModel }) {
  const { hand } = useSession()
  const held = useStore(hand)
  const structure = usePart('structure')?.value
  const [laid, setLaid] = useState<number | null>(null)
  const [mode, setMode] = useState('none')
  const [hold, setHold] = useState<'can' | 'clamp'>('can')
  const [moving, setMoving] = useState(() => !matchMedia('(prefers-reduced-motion: reduce)').matches)
  const count = Math.min(laid ?? model.plies.length, model.plies.length)
  const root = structure?.root ?? null
  const clamped = root === null || hold === 'clamp'
  const modes = swings(structure, clamped).slice(0, modesShown)
  const shown = mode === 'none' || model.shapes === null ? undefined : modes[Number(mode)]
  const ply = held?.kind === 'ply' ? held.id : null
  const touch = (id: string | null): void => hand.set(id === null ? null : { kind: 'ply', id })
  return (
    <>
      <div className={styles.bar}>
        <label className={styles.laid}>
          <span>
            {count} of {model.plies.length} plies laid
          </span>
          <input
            type="range"
            min={0}
            max={model.plies.length}
            value={count}
            disabled={shown !== undefined}
            onChange={(event) => setLaid(Number(event.target.value))}
          />
        </label>
        {modes.length > 0 && (
          <Choice
            label="Moving, much enlarged"
            value={shown === undefined ? 'none' : mode}
            options={[
              { value: 'none', label: 'Nothing' },
              ...modes.map(({ kind, frequency_Hz }, i) => ({
                value: String(i),
                label: `${kind}, ${frequency_Hz.toFixed(0)} Hz`,
              })),
            ]}
            onChange={setMode}
          />
        )}
        {shown !== undefined && root !== null && (
          <Choice
            label="Root"
            value={hold}
            options={[
              { value: 'can', label: 'On its can' },
              { value: 'clamp', label: 'Clamped' },
            ]}
            onChange={setHold}
          />
        )}
        {shown !== undefined && (
          <Choice
            label="Motion"
            value={moving ? 'on' : 'off'}
            options={[
              { value: 'on', label: 'Swing' },
              { value: 'off', label: 'Hold still' },
            ]}
            onChange={(next) => setMoving(next === 'on')}
          />
        )}
      </div>
      <div className={styles.both}>
        <CanPicture
          model={model}
          view={{ laid: count, hand: ply, swing: shown?.deflection ?? null, moving }}
          onHand={touch}
        />
        <BayMapBeside model={model} laid={count} hand={ply} onHand={touch} />
      </div>
    </>
  )
}
