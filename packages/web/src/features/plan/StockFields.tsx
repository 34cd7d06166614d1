/** Cloth on the shelf, a roll a row. */
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'
import { Button } from '../../parts/Button.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { SelectField } from '../../parts/SelectField.tsx'
import { TextField } from '../../parts/TextField.tsx'
import { useEnter, usePlan } from '../../state/use.ts'
import { materialOptions } from './materials.ts'
import styles from './PlanPage.module.css'

export function StockFields() {
  const plan = usePlan()
  const enter = useEnter()
  const rolls = listAt(plan, ['stock', 'rolls'])
  const clothUsed = listAt(plan, ['plies'])[0]?.cloth
  return (
    <>
      <div className={styles.beside}>
        {rolls.map((_, at) => (
          <div key={at.toString()} className={styles.group} data-path={`stock.rolls[${at}]`}>
            <h3 className={styles.groupTitle}>Roll {at + 1}</h3>
            <TextField path={['stock', 'rolls', at, 'id']} label="Written on it" />
            <SelectField
              path={['stock', 'rolls', at, 'cloth']}
              label="Cloth"
              options={materialOptions('cloth', plan.materials)}
            />
            <QuantityField path={['stock', 'rolls', at, 'width']} />
            <QuantityField path={['stock', 'rolls', at, 'length']} />
            <QuantityField path={['stock', 'rolls', at, 'selvedge']} />
            <div className={styles.under}>
              <Button kind="quiet" onPress={() => enter({ name: 'rolls.remove', payload: { at } })}>
                {`Take roll ${at + 1} off the shelf`}
              </Button>
            </div>
          </div>
        ))}
      </div>
      <Button
        onPress={() =>
          enter({
            name: 'rolls.insert',
            payload: {
              at: rolls.length,
              entry: { cloth: clothUsed ?? 'glass-plain-200', width: '1000 mm', length: '5 m' },
            },
          })
        }
      >
        Put a roll on the shelf
      </Button>
    </>
  )
}

function listAt(plan: unknown, path: readonly string[]): readonly JsonObject[] {
  const list = valueAt(plan, path)
  return Array.isArray(list) ? (list as readonly JsonObject[]) : []
}
