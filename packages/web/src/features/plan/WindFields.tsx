/** Wind over the rail, stated or not. */
import { Button } from '../../parts/Button.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { useEnter, useTyped, useUnits } from '../../state/use.ts'
import styles from './PlanPage.module.css'

export function WindFields() {
  const wind = useTyped(['loads', 'wind'])
  const enter = useEnter()
  const units = useUnits()
  return (
    <div className={styles.beside}>
      <div className={styles.group} data-path="loads.wind">
        <h3 className={styles.groupTitle}>Wind</h3>
        {wind === undefined ? (
          <>
            <p className={styles.hint}>
              None stated: the angle of attack above holds all the way up. With a wind, the angle follows from wind and
              speed at every instant, and the greater of the two counts.
            </p>
            <Button
              onPress={() =>
                enter({
                  name: 'field.set',
                  payload: { path: ['loads', 'wind'], value: { steady: units === 'us' ? '15 mph' : '6 m/s' } },
                })
              }
            >
              State a wind
            </Button>
          </>
        ) : (
          <>
            <QuantityField path={['loads', 'wind', 'steady']} />
            <QuantityField path={['loads', 'wind', 'gust']} />
            <QuantityField path={['loads', 'wind', 'railLength']} />
            <div className={styles.under}>
              <Button kind="quiet" onPress={() => enter({ name: 'field.clear', payload: { path: ['loads', 'wind'] } })}>
                Leave the wind out
              </Button>
            </div>
          </>
        )}
      </div>
    </div>
  )
}
