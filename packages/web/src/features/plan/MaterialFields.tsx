/** Every material that the plan uses, with the library's values and their sources; one typed takes the library's place. */
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { SwitchField } from '../../parts/SwitchField.tsx'
import { useEnter, usePlan, useUnits } from '../../state/use.ts'
import { libraryValue, materialsUsed, type UsedMaterial } from './materials.results.ts'
import styles from './PlanPage.module.css'

const back = 'back to the library’s'

export function MaterialFields() {
  const plan = usePlan()
  return (
    <div className={styles.materials}>
      {materialsUsed(plan).map((used) => (
        <One key={used.id} used={used} plan={plan} />
      ))}
    </div>
  )
}

function One({ used, plan }: { readonly used: UsedMaterial; readonly plan: JsonObject }) {
  const enter = useEnter()
  const units = useUnits()
  const [open, setOpen] = useState(false)
  const { id, name, as, stated, properties, reversible, like } = used
  return (
    <details
      className={styles.ply}
      data-path={`materials.${id}`}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary className={styles.materialHead}>
        <span className={styles.plyCloth}>{name}</span>
        <span className={styles.plyNote}>{as}</span>
        <span className={styles.plyNote} data-own={stated > 0 || undefined}>
          {stated === 0 ? 'all from the library' : `${stated} of ${properties.length} your own`}
        </span>
      </summary>
      {open && (
        <div className={styles.plyFields}>
          <div className={styles.groups}>
            {properties.map((inside) => {
              const path = ['materials', id, ...inside]
              return (
                <QuantityField
                  key={inside.join('.')}
                  path={path}
                  otherwise={libraryValue(path, plan, units)}
                  wayBack={back}
                />
              )
            })}
            {reversible !== null && (
              <SwitchField
                path={['materials', id, 'reversible']}
                label="May lie face down"
                otherwise={reversible}
                wayBack={back}
              />
            )}
          </div>
          <div className={styles.plyActs}>
            {stated > 0 && like === null && (
              <Button kind="quiet" onPress={() => enter({ name: 'field.clear', payload: { path: ['materials', id] } })}>
                All back to the library’s
              </Button>
            )}
          </div>
        </div>
      )}
    </details>
  )
}
