/** What the hand is drawn to while it drags. */
import type { UnitSystem } from '@finwright/plan/quantity/format.ts'
import { Choice } from '../../parts/Choice.tsx'
import styles from './Outline.module.css'
import { grids } from './outline.commands.ts'

interface SnapChoiceProps {
  readonly units: UnitSystem
  readonly grid: string
  readonly onGrid: (grid: string) => void
  readonly rightAngles: boolean
  readonly onRightAngles: (on: boolean) => void
}

export function SnapChoice({ units, grid, onGrid, rightAngles, onRightAngles }: SnapChoiceProps) {
  return (
    <div className={styles.tools}>
      <Choice label="Grid" value={grid} options={grids[units]} onChange={onGrid} />
      <Choice
        label="Right angles"
        value={rightAngles ? 'on' : 'off'}
        options={[
          { value: 'on', label: 'draw to' },
          { value: 'off', label: 'leave' },
        ]}
        onChange={(value) => onRightAngles(value === 'on')}
      />
      <p className={styles.hint}>
        Drag a point or the tip; arrow keys move what has the focus, with Shift ten times as far. Alt: free of grid and
        angles.
      </p>
    </div>
  )
}
