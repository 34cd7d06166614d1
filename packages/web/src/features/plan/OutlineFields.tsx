/** The outline's points as typed, where it is made of points; the page on the shape is the place to draw. */
import { Link } from 'wouter'
import { EditTable } from '../../parts/EditTable.tsx'
import { useTyped } from '../../state/use.ts'
import styles from './PlanPage.module.css'

export function OutlinePoints() {
  const points = useTyped(['fins', 'outline', 'points'])
  return (
    <div className={styles.group} data-path="fins.outline">
      {Array.isArray(points) && (
        <EditTable
          caption="Points of the outline, from the root’s leading end round the tip"
          one="point"
          count={points.length}
          columns={[
            { head: 'Aft', at: (row) => ['fins', 'outline', 'points', row, 0] },
            { head: 'Outboard', at: (row) => ['fins', 'outline', 'points', row, 1] },
          ]}
        />
      )}
      <p className={styles.hint}>
        {Array.isArray(points)
          ? 'Put points in, take them out or drag them'
          : 'Drag the outline, or read one from a drawing,'}{' '}
        on the page <Link href="/shape">What shape is it?</Link>
      </p>
    </div>
  )
}
