/** From bay axes (X aft, Y across, m) to the page (right, down, mm): the nose up, the next fin to the right. */
import type { Point } from '@finwright/core/assess/assessment.ts'
import type { XY } from '../drawing/drawing.ts'

export interface BayFrame {
  /** Page mm over bay mm. */
  readonly scale: number
  /** Page position of the bay's origin: centre line, root's forward end. */
  readonly origin: XY
  readonly at: (point: Point) => XY
}

export function bayFrame(scale: number, origin: XY): BayFrame {
  return { scale, origin, at: ([x, y]) => [origin[0] + y * 1e3 * scale, origin[1] + x * 1e3 * scale] }
}

/** A ply's warp on the page: from +Y (right) towards +X (down), so the angle runs clockwise as seen. */
export const warpTurn = (angle: number): number => angle

export interface Bounds {
  readonly minX: number
  readonly maxX: number
  readonly minY: number
  readonly maxY: number
}

export function boundsOf(points: readonly Point[]): Bounds {
  let bounds = { minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity }
  for (const [x, y] of points) {
    bounds = {
      minX: Math.min(bounds.minX, x),
      maxX: Math.max(bounds.maxX, x),
      minY: Math.min(bounds.minY, y),
      maxY: Math.max(bounds.maxY, y),
    }
  }
  return bounds
}
