/** The plies as a table of fields: cloth, angle, role, step-backs; put in, taken out, doubled, moved. */
import { plyNames } from '@finwright/plan/protocol/commands/names.ts'
import { isObject, type JsonObject } from '@finwright/plan/protocol/record.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { SelectField } from '../../parts/SelectField.tsx'
import { useEnter, usePlan, useSession } from '../../state/use.ts'
import { materialOptions } from './materials.ts'
import styles from './PlanPage.module.css'

const roles = [
  { value: 'structural', label: 'structural' },
  { value: 'surface', label: 'surface' },
  { value: 'peel', label: 'peel ply' },
  { value: 'film', label: 'film' },
]

const covers = [
  { value: 'bay', label: 'the whole bay' },
  { value: 'next', label: 'the next fin’s side alone' },
  { value: 'previous', label: 'the previous fin’s side alone' },
]

export function PlyFields() {
  const plan = usePlan()
  const enter = useEnter()
  const plies = Array.isArray(plan.plies) ? (plan.plies as readonly JsonObject[]) : []
  const last = plies.length - 1
  const names = plyNames(plies)
  const nameOf = (at: number): string => names[at] ?? `ply ${at + 1}`
  return (
    <ol className={styles.plies}>
      {plies.map((ply, at) => (
        <li key={at.toString()}>
          <Ply ply={ply} at={at} id={nameOf(at)} materials={plan.materials}>
            <Button
              kind="quiet"
              aria-label={`${nameOf(at)}: double`}
              onPress={() => enter({ name: 'plies.duplicate', payload: { at } })}
            >
              Double
            </Button>
            <Button
              kind="quiet"
              isDisabled={at === 0}
              aria-label={`${nameOf(at)}: inward, towards the core`}
              onPress={() => enter({ name: 'plies.move', payload: { from: at, to: at - 1 } })}
            >
              Inward
            </Button>
            <Button
              kind="quiet"
              isDisabled={at === last}
              aria-label={`${nameOf(at)}: outward, away from the core`}
              onPress={() => enter({ name: 'plies.move', payload: { from: at, to: at + 1 } })}
            >
              Outward
            </Button>
            <Button
              kind="quiet"
              isDisabled={last === 0}
              aria-label={`${nameOf(at)}: take out`}
              onPress={() => enter({ name: 'plies.remove', payload: { at } })}
            >
              Take out
            </Button>
          </Ply>
        </li>
      ))}
    </ol>
  )
}

interface PlyProps {
  readonly ply: JsonObject
  readonly at: number
  /** As every sheet names it: `P3`, `V1`. */
  readonly id: string
  readonly materials: unknown
  readonly children: React.ReactNode
}

function Ply({ ply, at, id, materials, children }: PlyProps) {
  const { hand } = useSession()
  const peel = ply.role === 'peel' || ply.role === 'film'
  const [open, setOpen] = useState(false)
  const short = isObject(ply.stepBack)
  return (
    <details
      className={styles.ply}
      data-path={`plies[${at}]`}
      onToggle={(event) => setOpen(event.currentTarget.open)}
      onPointerEnter={() => hand.set({ kind: 'ply', id })}
      onPointerLeave={() => hand.set(null)}
    >
      <summary className={styles.plyHead}>
        <span className={styles.plyName}>{id}</span>
        <span className={styles.plyAngle}>{typeof ply.angle === 'string' ? ply.angle : ''}</span>
        <span className={styles.plyCloth}>{clothName(String(ply.cloth), materials)}</span>
        <span className={styles.plyNote}>
          {ply.role === 'surface' ? 'surface' : peel ? 'comes off after cure' : short ? 'stepped back' : 'full size'}
        </span>
      </summary>
      {open && (
        <div className={styles.plyFields}>
          <SelectField path={['plies', at, 'cloth']} label="Cloth" options={materialOptions('cloth', materials)} />
          <QuantityField path={['plies', at, 'angle']} />
          <SelectField path={['plies', at, 'role']} label="Role" options={roles} />
          <SelectField path={['plies', at, 'cover']} label="Lies on" options={covers} />
          <QuantityField path={['plies', at, 'onBody']} />
          <QuantityField path={['plies', at, 'wrap']} />
          {(['tip', 'leading', 'trailing', 'bodyForward', 'bodyAft'] as const).map((side) => (
            <StepBack key={side} ply={ply} at={at} side={side} />
          ))}
          <QuantityField path={['plies', at, 'overhang', 'edges']} />
          <QuantityField path={['plies', at, 'overhang', 'bodyEnds']} />
          <div className={styles.plyActs}>{children}</div>
        </div>
      )}
    </details>
  )
}

/** Where the plan states `chord` or `body`, that is the field shown. */
function StepBack({ ply, at, side }: { readonly ply: JsonObject; readonly at: number; readonly side: string }) {
  const stated = isObject(ply.stepBack) ? ply.stepBack : {}
  const both = { leading: 'chord', trailing: 'chord', bodyForward: 'body', bodyAft: 'body' }[side]
  const name = both !== undefined && both in stated && !(side in stated) ? both : side
  if (name !== side && (side === 'trailing' || side === 'bodyAft')) return null
  return <QuantityField path={['plies', at, 'stepBack', name]} />
}

const clothName = (id: string, own: unknown): string =>
  materialOptions('cloth', own).find(({ value }) => value === id)?.label ?? id
