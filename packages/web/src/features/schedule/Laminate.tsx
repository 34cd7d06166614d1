/** Ply count, thickness, mass and stiffness, now and before the last change. */
import { useBefore, useFigures, usePart } from '../../state/use.ts'
import styles from './Schedule.module.css'
import { laminateFigures } from './schedule.results.ts'

export function Laminate() {
  const figures = useFigures()
  const fin = usePart('fin')
  const before = useBefore()
  const rows = laminateFigures(fin?.value, figures)
  const was = before?.parts.fin === undefined ? null : laminateFigures(before.parts.fin.value, figures)
  return (
    <section className={styles.laminateBox} aria-label="The laminate where all plies lie">
      <h2 className={styles.fieldsTitle}>Where all plies lie</h2>
      <dl className={styles.laminate} data-stale={fin?.stale || undefined}>
        {rows.map(({ id, label, value }, i) => {
          const changed = was !== null && was[i]!.value !== value && fin?.stale === false
          return (
            <div key={id} className={styles.figure} data-figure={id} data-changed={changed || undefined}>
              <dt>{label}</dt>
              <dd>
                {/* its line is there before anything changed, so that nothing moves under the hand */}
                <span className={styles.was}>
                  {changed && (
                    <>
                      <span className="unseen">before </span>
                      {was[i]!.value} <span aria-hidden="true">→</span>
                      <span className="unseen"> now </span>
                    </>
                  )}
                </span>
                {value}
              </dd>
            </div>
          )
        })}
      </dl>
    </section>
  )
}
