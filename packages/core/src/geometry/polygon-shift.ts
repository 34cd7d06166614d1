/**
 * A fin's outline with each edge moved square to itself: inward by a step-back, outward by an overhang.
 *
 * A shift is positive inward. On a convex outline the result is the polygon bounded by the shifted lines themselves, with
 * exact corners. On any other outline, and where two edges with different shifts run into each other almost straight, the
 * strip between each side and its shifted line is taken off (or added) by polygon clipping in steps of 0.1 µm.
 *
 * A corner that points outward between two overhangs is cut off square where its tip would lie further out than twice the
 * overhang, as scissors do.
 */
import {
  type EdgeName,
  edgeNames,
  type FinOutline,
  finPolygon,
  finSides,
  type NamedSide,
  outlineSize,
} from './fin-outline.ts'
import { clipToHalfPlane, type HalfPlane } from './half-plane.ts'
import { distance, distanceToSegment, type Point } from './point.ts'
import { bounds, isConvex, type Polygon, signedArea } from './polygon.ts'
import { mitreReach, shiftByClipping, smoothTurn } from './polygon-strips.ts'

export type EdgeShifts = { readonly [edge in EdgeName]: number }

/**
 * What is left of the outline at y ≥ `root`: counter-clockwise polygons, none when nothing is left, several when the
 * steps part it. Overhangs never part it and their holes are closed.
 */
export function shiftedOutline(outline: FinOutline, shifts: EdgeShifts, root = 0): readonly Polygon[] {
  const moved = finSides(outline)
  const shift = moved.map(({ name }) => (name === 'root' ? 0 : shifts[name]))
  if (moved.length < 3) return []
  if (root === 0 && shift.every((d) => d === 0)) return [finPolygon(outline)]
  const exact = isConvex(finPolygon(outline)) && !hasSmoothJoin(moved, shift)
  return exact ? convexShift(moved, shift, root) : shiftByClipping(moved, shift, root)
}

/** Sides of a shifted outline that lie inside the fin: where the edge runs. Neither on the fin's own edges nor on y ≤ `root`. */
export function insideSides(region: Polygon, outline: FinOutline, root = 0): readonly (readonly [Point, Point])[] {
  const around = finSides(outline)
  const tolerance = 1e-6 * outlineSize(outline.points)
  const onEdge = (a: Point, b: Point) => {
    const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
    return around.some((side) => [a, middle, b].every((p) => distanceToSegment(p, side.a, side.b) <= tolerance))
  }
  return region
    .map((a, i) => [a, region[(i + 1) % region.length]!] as const)
    .filter(([a, b]) => !(a[1] <= root + tolerance && b[1] <= root + tolerance) && !onEdge(a, b))
}

export const noShift: EdgeShifts = { leading: 0, tip: 0, trailing: 0 }

/** The same shifts, each edge that has none moved outward by `overhang`. */
export const withOverhang = (shifts: EdgeShifts, overhang: number): EdgeShifts =>
  Object.fromEntries(edgeNames.map((edge) => [edge, shifts[edge] === 0 ? -overhang : shifts[edge]])) as EdgeShifts

function hasSmoothJoin(sides: readonly NamedSide[], shift: readonly number[]): boolean {
  return sides.some((side, i) => {
    const next = (i + 1) % sides.length
    return shift[i] !== shift[next] && Math.abs(turnBetween(side, sides[next]!)) < smoothTurn
  })
}

function turnBetween(first: NamedSide, second: NamedSide): number {
  const ux = first.b[0] - first.a[0]
  const uy = first.b[1] - first.a[1]
  const vx = second.b[0] - second.a[0]
  const vy = second.b[1] - second.a[1]
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
}

/** The intersection of the half-planes inside the shifted lines. */
function convexShift(sides: readonly NamedSide[], shift: readonly number[], root: number): readonly Polygon[] {
  const outward = shift.some((d) => d < 0)
  const planes = sides
    .map(({ a, b, name }, i) => halfPlane(a, b, name === 'root' ? root : shift[i]!))
    .filter((_, i) => outward || sides[i]!.name === 'root' || shift[i] !== 0)
  const bevels = outward ? cornerBevels(sides, shift) : []
  const start = outward ? around(sides, shift) : sides.map(({ a }) => a)
  let polygon: Polygon = start
  for (const plane of [...planes, ...bevels]) polygon = clipToHalfPlane(polygon, plane)
  return polygon.length >= 3 && signedArea(polygon) > 0 ? [polygon] : []
}

/** Everything at least `inward` to the left of the line from a to b. */
function halfPlane(a: Point, b: Point, inward: number): HalfPlane {
  const length = distance(a, b)
  const normal: Point = [-(b[1] - a[1]) / length, (b[0] - a[0]) / length]
  return { normal, offset: normal[0] * a[0] + normal[1] * a[1] + inward }
}

/** Cuts a mitre longer than twice the overhang, square to the line that halves the corner. */
function cornerBevels(sides: readonly NamedSide[], shift: readonly number[]): readonly HalfPlane[] {
  const bevels: HalfPlane[] = []
  sides.forEach((side, i) => {
    const next = (i + 1) % sides.length
    const overhang = -Math.max(shift[i]!, shift[next]!)
    const length = distance(side.a, side.b)
    if (!(shift[i]! < 0 && shift[next]! < 0) || turnBetween(side, sides[next]!) <= (2 * Math.PI) / 3) return
    const first = halfPlane(side.a, side.b, 0).normal
    const second = halfPlane(sides[next]!.a, sides[next]!.b, 0).normal
    const sum: Point = [first[0] + second[0], first[1] + second[1]]
    const size = Math.hypot(sum[0], sum[1])
    const normal: Point = [sum[0] / size, sum[1] / size]
    const end: Point = [0, 1].map(
      (k) => side.b[k]! - overhang * first[k]! + (mitreReach * overhang * (side.b[k]! - side.a[k]!)) / length,
    ) as [number, number]
    bevels.push({ normal, offset: normal[0] * end[0] + normal[1] * end[1] })
  })
  return bevels
}

/** A box that holds every mitre. */
function around(sides: readonly NamedSide[], shift: readonly number[]): Polygon {
  const { left, right, bottom, top } = bounds(sides.map(({ a }) => a))
  const most = Math.max(...shift.map(Math.abs))
  const margin = right - left + (top - bottom) + 100 * most
  return [
    [left - margin, bottom - margin],
    [right + margin, bottom - margin],
    [right + margin, top + margin],
    [left - margin, top + margin],
  ]
}
