/** The chosen ply's cloth, angle, role and extent. */
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { isObject, type JsonObject } from '@finwright/plan/protocol/record.ts'
import { Button } from '../../parts/Button.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { SelectField } from '../../parts/SelectField.tsx'
import { useEnter, usePlan } from '../../state/use.ts'
import { materialOptions } from '../plan/materials.ts'
import { AngleDial } from './AngleDial.tsx'
import styles from './Schedule.module.css'
import { duplicate, moveTo, pliesOf, remove } from './schedule.commands.ts'
import type { PlyRow } from './schedule.results.ts'

const roles = [
  { value: 'structural', label: 'structural' },
  { value: 'surface', label: 'surface veil' },
  { value: 'peel', label: 'peel ply, comes off' },
  { value: 'film', label: 'film, comes off' },
]

const covers = [
  { value: 'bay', label: 'the whole bay' },
  { value: 'next', label: 'the higher-numbered fin’s side' },
  { value: 'previous', label: 'the lower-numbered fin’s side' },
]

interface EditorProps {
  readonly rows: readonly PlyRow[]
  readonly at: number
  readonly onChoose: (at: number) => void
}

export function PlyEditor({ rows, at, onChoose }: EditorProps) {
  const plan = usePlan()
  const enter = useEnter()
  const row = rows[at]!
  const ply = pliesOf(plan)[at]!
  const shift = (by: number) => {
    const intent = moveTo(at, at + by, rows.length)
    if (intent !== null && enter(intent).ok) onChoose(at + by)
  }
  return (
    <section className={styles.editor} aria-label={`Ply ${row.id}`}>
      <div className={styles.editorHead}>
        <h2 className={styles.editorTitle}>
          {row.id}
          <span className={styles.editorPlace}>
            ply {at + 1} of {rows.length} from the core
          </span>
        </h2>
        <div className={styles.acts}>
          <Button kind="quiet" isDisabled={at === 0} onPress={() => shift(-1)}>
            Towards the core
          </Button>
          <Button kind="quiet" isDisabled={at === rows.length - 1} onPress={() => shift(1)}>
            Outward
          </Button>
          <Button kind="quiet" onPress={() => enter(duplicate(at)).ok && onChoose(at + 1)}>
            Duplicate
          </Button>
          <Button
            kind="quiet"
            isDisabled={rows.length === 1}
            onPress={() => {
              const intent = remove(at, rows.length)
              if (intent !== null && enter(intent).ok) onChoose(Math.max(0, at - 1))
            }}
          >
            Take out
          </Button>
        </div>
      </div>
      <div className={styles.editorBody} key={`${row.id}-${at}`}>
        {!comesOff(row.role) && <AngleDial row={row} />}
        <div className={styles.fields}>
          <SelectField path={['plies', at, 'cloth']} label="Cloth" options={materialOptions('cloth', plan.materials)} />
          {!comesOff(row.role) && <QuantityField path={['plies', at, 'angle']} label="Angle of the warp" />}
          <SelectField path={['plies', at, 'role']} label="Role" options={roles} />
          {row.role === 'structural' && <SelectField path={['plies', at, 'cover']} label="Covers" options={covers} />}
          <StepBacks ply={ply} at={at} />
        </div>
      </div>
    </section>
  )
}

/** One field an edge; where the plan states two edges together, one field for both. */
function StepBacks({ ply, at }: { readonly ply: JsonObject; readonly at: number }) {
  const stated = isObject(ply.stepBack) ? ply.stepBack : {}
  const names = [
    'tip',
    ...('chord' in stated ? ['chord'] : ['leading', 'trailing']),
    ...('body' in stated ? ['body'] : ['bodyForward', 'bodyAft']),
  ]
  return (
    <>
      <h3 className={styles.fieldsTitle}>Steps back from</h3>
      {names.map((name) => (
        <QuantityField key={name} path={['plies', at, 'stepBack', name]} label={edgeWords[name]!} />
      ))}
    </>
  )
}

const edgeWords: Readonly<Record<string, string>> = {
  tip: 'the tip',
  chord: 'leading and trailing edge',
  leading: 'the leading edge',
  trailing: 'the trailing edge',
  body: 'both ends on the body',
  bodyForward: 'the forward end on the body',
  bodyAft: 'the aft end on the body',
}
