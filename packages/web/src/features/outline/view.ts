/** From fin axes (x aft, y outboard, m) to the screen (right, down, px), at rest while the hand drags. */
import type { Point } from '@finwright/core/assess/design.ts'

export interface View {
  readonly width: number
  readonly height: number
  /** px to a metre. */
  readonly scale: number
  /** Where the root's leading edge is, px. */
  readonly origin: Point
}

export const toScreen = ({ scale, origin }: View, [x, y]: Point): Point => [
  origin[0] + x * scale,
  origin[1] - y * scale,
]

export const toFin = ({ scale, origin }: View, [x, y]: Point): Point => [
  (x - origin[0]) / scale,
  (origin[1] - y) / scale,
]

/** Room round the fin for its dimensions, px: left, right, above, below. */
const room = { left: 34, right: 104, above: 56, below: 70 }

export function viewOf(points: readonly Point[], width: number): View {
  const [X, Y] = [points.map(([x]) => x), points.map(([, y]) => y)]
  const [minX, maxX, maxY] = [Math.min(...X, 0), Math.max(...X), Math.max(...Y)]
  const tallest = Math.min(460, Math.max(240, width * 0.75))
  const scale = Math.min((width - room.left - room.right) / (maxX - minX), (tallest - room.above - room.below) / maxY)
  const height = Math.ceil(maxY * scale + room.above + room.below)
  const slack = (width - room.left - room.right - (maxX - minX) * scale) / 2
  return { width, height, scale, origin: [room.left + slack - minX * scale, height - room.below] }
}

/** Lines of the grid that stand at least so many px apart. */
export function gridLines(step: number, { scale }: View, from: number, to: number): readonly number[] {
  if (step <= 0) return []
  const times = [1, 2, 5, 10, 20, 50, 100].find((n) => n * step * scale >= 9) ?? 200
  const apart = step * times
  const first = Math.ceil(from / apart)
  return Array.from({ length: Math.max(0, Math.floor(to / apart) - first + 1) }, (_, i) => (first + i) * apart)
}
