/** A half-plane {p : n · p ≥ offset}, n of unit length, and what it leaves of a convex polygon. */
import { distance, type Point } from './point.ts'
import type { Polygon } from './polygon.ts'

export interface HalfPlane {
  readonly normal: Point
  readonly offset: number
}

/** Corners on the line stay as they are; corners closer together than a part in 1e12 of the polygon's reach become one. */
export function clipToHalfPlane(polygon: Polygon, { normal, offset }: HalfPlane): Polygon {
  const depths = polygon.map(([x, y]) => normal[0] * x + normal[1] * y - offset)
  const reach = polygon.reduce((most, [x, y]) => Math.max(most, Math.abs(x), Math.abs(y)), 0)
  const tolerance = 1e-12 * reach
  if (depths.every((depth) => depth >= -tolerance)) return polygon
  const kept: Point[] = []
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length]!
    const da = depths[i]!
    const db = depths[(i + 1) % polygon.length]!
    if (da >= -tolerance) kept.push(a)
    if ((da > tolerance && db < -tolerance) || (da < -tolerance && db > tolerance)) {
      const share = da / (da - db)
      kept.push([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])])
    }
  })
  const apart = kept.filter((p, i) => distance(p, kept[(i + 1) % kept.length]!) > tolerance)
  return apart.length >= 3 ? apart : []
}
