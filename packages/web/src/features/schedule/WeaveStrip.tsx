/** One ply seen flat: as far as it reaches, as thick as it cures (drawn larger), its warp and weft at their true angle. */
import { useId } from 'react'
import styles from './Schedule.module.css'
import type { PlyRow } from './schedule.results.ts'

/** Screen pixels to a millimetre of cured thickness. */
const pixelsPerThickness = 95
const least = 7
const most = 30

export function WeaveStrip({ row }: { readonly row: PlyRow }) {
  const height = row.thickness === null ? least : row.thickness * 1e3 * pixelsPerThickness
  return (
    <svg
      className={styles.weave}
      height={Math.round(Math.min(most, Math.max(least, height)))}
      style={{ marginLeft: `${100 * row.setBack}%`, width: `${100 * (1 - row.setBack)}%` }}
      data-role={row.role}
      aria-hidden="true"
    >
      <Weave angle={row.angle ?? 0} spacing={5} />
    </svg>
  )
}

/** Fills the drawing it stands in. The angle is the bay map's: from across the bay towards aft, clockwise as seen. */
export function Weave({ angle, spacing }: { readonly angle: number; readonly spacing: number }) {
  const id = useId()
  return (
    <>
      <defs>
        <pattern
          id={id}
          width={spacing}
          height={spacing}
          patternUnits="userSpaceOnUse"
          patternTransform={`rotate(${angle})`}
        >
          <path className={styles.weft} d={`M${spacing / 2} 0V${spacing}`} />
          <path className={styles.warp} d={`M0 ${spacing / 2}H${spacing}`} />
        </pattern>
      </defs>
      <rect width="100%" height="100%" fill={`url(#${id})`} />
    </>
  )
}
