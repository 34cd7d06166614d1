/**
 * The outline of a fin as named sides. Fin axes: x aft along the root from the root leading edge, y outboard from the body.
 *
 * `points` run from the root leading edge over the tip to the root trailing edge; the root closes them along y = 0. The
 * sides come counter-clockwise, so that a side's inside lies to its left; sides without length are left out.
 */
import { distance, type Point } from './point.ts'
import { bounds, type Polygon, signedArea } from './polygon.ts'

export type EdgeName = 'leading' | 'tip' | 'trailing'

export const edgeNames: readonly EdgeName[] = ['leading', 'tip', 'trailing']

export interface FinOutline {
  readonly points: readonly Point[]
  /** One name a segment, `points.length - 1` of them. */
  readonly edges: readonly EdgeName[]
}

export interface NamedSide {
  readonly a: Point
  readonly b: Point
  readonly name: EdgeName | 'root'
}

export function finSides({ points, edges }: FinOutline): readonly NamedSide[] {
  const forward = points.map((a, i): NamedSide => {
    const last = i === points.length - 1
    return { a, b: last ? points[0]! : points[i + 1]!, name: last ? 'root' : edges[i]! }
  })
  const turned = signedArea(points) < 0 ? forward.map(({ a, b, name }) => ({ a: b, b: a, name })).reverse() : forward
  const shortest = 1e-9 * outlineSize(points)
  return turned.filter(({ a, b }) => distance(a, b) > shortest)
}

/** The outline counter-clockwise, root side included. */
export const finPolygon = (outline: FinOutline): Polygon => finSides(outline).map(({ a }) => a)

export const finSpan = ({ points }: FinOutline): number => bounds(points).top

export const rootLength = ({ points }: FinOutline): number => points.at(-1)![0] - points[0]![0]

/** Middle of the tip: of the points of greatest span. */
export function tipMiddle({ points }: FinOutline): Point {
  const span = bounds(points).top
  const tip = points.filter(([, y]) => y > span * (1 - 1e-9)).map(([x]) => x)
  return [(Math.min(...tip) + Math.max(...tip)) / 2, span]
}

/** Diagonal of the box around the points: the scale of tolerances. */
export function outlineSize(points: Polygon): number {
  const { left, right, bottom, top } = bounds(points)
  return Math.hypot(right - left, top - bottom)
}
