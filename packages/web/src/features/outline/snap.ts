/** Where a dragged point comes to rest: on the grid, square to the root over a neighbour, level with one, or at a right angle. */
import type { Point } from '@finwright/core/assess/design.ts'

export interface SnapRules {
  /** m; 0 for none. */
  readonly grid: number
  readonly rightAngles: boolean
  /** How near the hand must come, m. */
  readonly reach: number
}

export interface Snapped {
  readonly point: Point
  /** What it was drawn to, for the eye. */
  readonly to: readonly ('square' | 'level' | 'right angle')[]
}

/** `neighbours`: the points before and after it; what is missing is left out. */
export function snapped([x, y]: Point, neighbours: readonly Point[], { grid, rightAngles, reach }: SnapRules): Snapped {
  const on = (value: number): number => (grid > 0 ? Math.round(value / grid) * grid : value)
  if (!rightAngles) return { point: [on(x), on(y)], to: [] }
  const square = nearest(
    x,
    neighbours.map(([nx]) => nx),
    reach,
  )
  const level = nearest(
    y,
    neighbours.map(([, ny]) => ny).filter((ny) => ny > 0),
    reach,
  )
  if (square !== null || level !== null)
    return {
      point: [square ?? on(x), level ?? on(y)],
      to: [...(square === null ? [] : (['square'] as const)), ...(level === null ? [] : (['level'] as const))],
    }
  const corner = neighbours.length === 2 ? onCircle([x, y], neighbours[0]!, neighbours[1]!, reach) : null
  return corner === null ? { point: [on(x), on(y)], to: [] } : { point: corner, to: ['right angle'] }
}

function nearest(value: number, others: readonly number[], reach: number): number | null {
  const near = others.filter((other) => Math.abs(other - value) <= reach)
  return near.length === 0 ? null : near.reduce((a, b) => (Math.abs(a - value) <= Math.abs(b - value) ? a : b))
}

/** Thales: the corner is right where it lies on the circle over the line between its neighbours (Euclid III.31). */
function onCircle([x, y]: Point, a: Point, b: Point, reach: number): Point | null {
  const [cx, cy] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  const radius = Math.hypot(b[0] - a[0], b[1] - a[1]) / 2
  const out = Math.hypot(x - cx, y - cy)
  if (radius < 4 * reach || out === 0 || Math.abs(out - radius) > reach) return null
  if (Math.min(Math.hypot(x - a[0], y - a[1]), Math.hypot(x - b[0], y - b[1])) < 4 * reach) return null
  return [cx + ((x - cx) * radius) / out, cy + ((y - cy) * radius) / out]
}
