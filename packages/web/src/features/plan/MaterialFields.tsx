/** Properties that the plan states of materials, as fields; those it does not state are the catalogue's. */
import { isObject, type JsonObject } from '@finwright/plan/protocol/record.ts'
import { fieldAt, type Path } from '@finwright/plan/schema/locate.ts'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { usePlan } from '../../state/use.ts'
import styles from './PlanPage.module.css'

export function MaterialFields() {
  const { materials } = usePlan()
  const stated = isObject(materials) ? Object.entries(materials) : []
  if (stated.length === 0) return <p>None: every property is the catalogue’s, with its source under the numbers.</p>
  return stated.map(([id, properties]) => (
    <div key={id} className={styles.group}>
      <h3 className={styles.groupTitle}>
        {isObject(properties) && typeof properties.name === 'string' ? properties.name : id}
      </h3>
      {isObject(properties) &&
        measured(['materials', id], properties).map((path) => <QuantityField key={path.join('.')} path={path} />)}
    </div>
  ))
}

function measured(at: Path, stated: JsonObject): readonly Path[] {
  return Object.entries(stated).flatMap(([name, value]) => {
    const path = [...at, name]
    if (isObject(value)) return measured(path, value)
    return fieldAt(path) === null ? [] : [path]
  })
}
