/**
 * Measures of a plane polygon, given as its corners in order without repeating the first. Coordinates in m.
 *
 *   signed area  A = ½ Σ (xᵢ yᵢ₊₁ − xᵢ₊₁ yᵢ)                       m², positive when counter-clockwise (shoelace formula)
 *   centroid     x̄ = 1/(6A) Σ (xᵢ + xᵢ₊₁)(xᵢ yᵢ₊₁ − xᵢ₊₁ yᵢ)       m, likewise ȳ
 *
 * Both sums are taken about the first corner, which keeps the digits of a small polygon far from the origin.
 */
import { distance, distanceToSegment, type Point, turn } from './point.ts'

export type Polygon = readonly Point[]

export function signedArea(polygon: Polygon): number {
  let twice = 0
  for (let i = 1; i + 1 < polygon.length; i++) twice += turn(polygon[0]!, polygon[i]!, polygon[i + 1]!)
  return twice / 2
}

export const area = (polygon: Polygon): number => Math.abs(signedArea(polygon))

export function perimeter(polygon: Polygon): number {
  let sum = 0
  for (const [a, b] of sides(polygon)) sum += distance(a, b)
  return sum
}

export function centroid(polygon: Polygon): Point {
  const [x0, y0] = polygon[0]!
  let twice = 0
  let sx = 0
  let sy = 0
  for (let i = 1; i + 1 < polygon.length; i++) {
    const a = polygon[i]!
    const b = polygon[i + 1]!
    const weight = turn(polygon[0]!, a, b)
    twice += weight
    sx += weight * (a[0] + b[0] - 2 * x0)
    sy += weight * (a[1] + b[1] - 2 * y0)
  }
  return twice === 0 ? [x0, y0] : [x0 + sx / (3 * twice), y0 + sy / (3 * twice)]
}

export interface Bounds {
  readonly left: number
  readonly right: number
  readonly bottom: number
  readonly top: number
}

export function bounds(points: Polygon): Bounds {
  let left = Number.POSITIVE_INFINITY
  let right = Number.NEGATIVE_INFINITY
  let bottom = Number.POSITIVE_INFINITY
  let top = Number.NEGATIVE_INFINITY
  for (const [x, y] of points) {
    left = Math.min(left, x)
    right = Math.max(right, x)
    bottom = Math.min(bottom, y)
    top = Math.max(top, y)
  }
  return { left, right, bottom, top }
}

/** The sides in order, the last closing to the first corner. */
export const sides = (polygon: Polygon): (readonly [Point, Point])[] =>
  polygon.map((a, i) => [a, polygon[(i + 1) % polygon.length]!] as const)

export const counterClockwise = (polygon: Polygon): Polygon =>
  signedArea(polygon) < 0 ? [...polygon].reverse() : polygon

/** True for a counter-clockwise polygon without a corner that turns right by more than rounding. */
export function isConvex(polygon: Polygon): boolean {
  const n = polygon.length
  const tolerance = 1e-12 * squareSize(polygon)
  let turned = 0
  for (let i = 0; i < n; i++) {
    const a = polygon[i]!
    const b = polygon[(i + 1) % n]!
    const c = polygon[(i + 2) % n]!
    if (!(turn(a, b, c) >= -tolerance)) return false
    turned += Math.atan2(turn(a, b, c), (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]))
  }
  return n >= 3 && turned < 3 * Math.PI
}

/** Inside, or with a tolerance within it of the boundary, by the parity of the sides above the point (even-odd rule). */
export function contains(polygon: Polygon, point: Point, tolerance = 0): boolean {
  let inside = false
  const [x, y] = point
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i]!
    const b = polygon[i + 1 < polygon.length ? i + 1 : 0]!
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside
  }
  return inside || (tolerance > 0 && distanceToBoundary(polygon, point) <= tolerance)
}

export function distanceToBoundary(polygon: Polygon, point: Point): number {
  let least = Number.POSITIVE_INFINITY
  for (let i = 0; i < polygon.length; i++) {
    const b = polygon[i + 1 < polygon.length ? i + 1 : 0]!
    least = Math.min(least, distanceToSegment(point, polygon[i]!, b))
  }
  return least
}

function squareSize(polygon: Polygon): number {
  const { left, right, bottom, top } = bounds(polygon)
  return (right - left) ** 2 + (top - bottom) ** 2
}
