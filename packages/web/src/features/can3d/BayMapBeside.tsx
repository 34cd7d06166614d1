/** One bay unrolled, ply over ply; each is also a button for those who do not point. */

import styles from './CanPage.module.css'
import type { CanModel } from './model.ts'

interface BayMapBesideProps {
  readonly model: CanModel
  readonly laid: number
  readonly hand: string | null
  readonly onHand: (ply: string | null) => void
}

export function BayMapBeside({ model, laid, hand, onHand }: BayMapBesideProps) {
  const { plies } = model
  const points = plies.flatMap(({ outline }) => outline)
  if (points.length === 0) return null
  const xs = points.map(([x]) => 1e3 * x)
  const ys = points.map(([, y]) => 1e3 * y)
  const [left, top] = [Math.min(...ys) - 4, Math.min(...xs) - 4]
  return (
    <div className={styles.beside}>
      <svg
        viewBox={`${left} ${top} ${Math.max(...ys) - left + 4} ${Math.max(...xs) - top + 4}`}
        role="img"
        aria-label="The bay map: one bay unrolled from fin tip to fin tip, forward up"
        onPointerLeave={() => onHand(null)}
      >
        {plies
          .slice(0, laid)
          .reverse()
          .map(({ id, outline }) => (
            <path
              key={id}
              className={styles.ply}
              data-hand={id === hand || undefined}
              d={`M${outline.map(([x, y]) => `${(1e3 * y).toFixed(2)} ${(1e3 * x).toFixed(2)}`).join('L')}Z`}
              onPointerEnter={() => onHand(id)}
            />
          ))}
        {plies
          .filter(({ id }) => id === hand)
          .map(({ id, outline }) => (
            <path
              key={id}
              className={styles.held}
              d={`M${outline.map(([x, y]) => `${(1e3 * y).toFixed(2)} ${(1e3 * x).toFixed(2)}`).join('L')}Z`}
            />
          ))}
      </svg>
      <ul className={styles.plies} aria-label="Plies, from the core outward">
        {plies.map(({ id }) => (
          <li key={id}>
            <button
              type="button"
              data-hand={id === hand || undefined}
              aria-pressed={id === hand}
              onPointerEnter={() => onHand(id)}
              onPointerLeave={() => onHand(null)}
              onFocus={() => onHand(id)}
              onBlur={() => onHand(null)}
              onClick={() => onHand(id)}
            >
              {id}
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}
