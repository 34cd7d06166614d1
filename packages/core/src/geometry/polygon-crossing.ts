/**
 * Where a polygon crosses or touches itself. Two sides that are not neighbours may not come closer than a billionth of
 * the polygon's size, and neighbours may not fold back on each other: such an outline has no inside to cut.
 */
import { distance, distanceToSegment, type Point, turn } from './point.ts'
import { bounds, type Polygon, sides } from './polygon.ts'

export interface Crossing {
  /** Numbers of the two sides, from 0; side i runs from corner i to corner i + 1. */
  readonly first: number
  readonly second: number
  readonly at: Point
}

/** The first crossing met, or null for a simple polygon. */
export function selfCrossing(polygon: Polygon): Crossing | null {
  const n = polygon.length
  const { left, right, bottom, top } = bounds(polygon)
  const tolerance = 1e-9 * Math.hypot(right - left, top - bottom)
  const all = sides(polygon)
  for (let first = 0; first < n; first++) {
    for (let second = first + 1; second < n; second++) {
      const neighbours = second === first + 1 || (first === 0 && second === n - 1)
      const at = neighbours
        ? foldBack(all[first]!, all[second]!, tolerance)
        : meeting(all[first]!, all[second]!, tolerance)
      if (at !== null) return { first, second, at }
    }
  }
  return null
}

type Side = readonly [Point, Point]

/** A point that both segments have, or null. */
function meeting([a, b]: Side, [c, d]: Side, tolerance: number): Point | null {
  const c1 = turn(a, b, c)
  const d1 = turn(a, b, d)
  const a1 = turn(c, d, a)
  const b1 = turn(c, d, b)
  if (c1 > 0 !== d1 > 0 && a1 > 0 !== b1 > 0) {
    const share = c1 / (c1 - d1)
    return [c[0] + share * (d[0] - c[0]), c[1] + share * (d[1] - c[1])]
  }
  if (distanceToSegment(c, a, b) <= tolerance) return c
  if (distanceToSegment(d, a, b) <= tolerance) return d
  if (distanceToSegment(a, c, d) <= tolerance) return a
  if (distanceToSegment(b, c, d) <= tolerance) return b
  return null
}

/** Neighbours share a corner; they fold back when the far end of one lies on the other, or when one has no length. */
function foldBack([a, b]: Side, [c, d]: Side, tolerance: number): Point | null {
  if (distance(a, b) <= tolerance) return a
  if (distance(c, d) <= tolerance) return c
  const [far, other] = b === c ? [a, d] : [b, c]
  if (distanceToSegment(far, c, d) <= tolerance) return far
  if (distanceToSegment(other, a, b) <= tolerance) return other
  return null
}
