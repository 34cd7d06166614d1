/**
 * Ticks by which a ply lands in place: short full lines where the piece crosses the lines of the wrap that marked out the tube.
 *
 * The wrap has, in every bay, the centre line and the two fillet feet, and across them the root's ends and the end of every ply.
 * Where they cross, both the wrap and the piece carry a tick, so that tick falls on tick: a cross at the root's ends, a stroke
 * from the piece's own end inward. All on the body, where a ply is laid down first; taken from the lines that the piece carries, so
 * that they hold for any development.
 */
import { between, distance, type Point } from '../geometry/point.ts'
import type { Polygon } from '../geometry/polygon.ts'
import { rangeAt } from './label.ts'
import type { PlyMark } from './marks.ts'

export interface LandedPiece {
  readonly netOutline: Polygon
  readonly marks: readonly Pick<PlyMark, 'kind' | 'points' | 'label'>[]
}

/** Length of a tick from the crossing. */
const reach = 0.005

export function landingTicks({ netOutline, marks }: LandedPiece): readonly PlyMark[] {
  const roots = marks.filter(({ kind }) => kind === 'root')
  const feet = marks.filter(({ kind, label }) => kind === 'fillet' && label === 'fillet foot')
  const centre = marks.some(({ kind }) => kind === 'centre') ? rangeAt(netOutline, 0) : null
  const crosses = roots.flatMap(({ points }) => {
    const [first, last] = [points[0]!, points.at(-1)!]
    return [first, last, ...(centre === null ? [] : [between(first, last, 0.5)])].flatMap(cross)
  })
  const own = feet.flatMap(({ points }) => [inward(points[0]!, points[1]!), inward(points.at(-1)!, points.at(-2)!)])
  const middles =
    centre === null ? [] : [inward([centre[0], 0], [centre[1], 0]), inward([centre[1], 0], [centre[0], 0])]
  return [...crosses, ...own, ...middles].map((points): PlyMark => ({ kind: 'tick', points, label: '' }))
}

const cross = ([X, Y]: Point): (readonly Point[])[] => [
  [
    [X - reach, Y],
    [X + reach, Y],
  ],
  [
    [X, Y - reach],
    [X, Y + reach],
  ],
]

function inward(from: Point, towards: Point): readonly Point[] {
  const length = distance(from, towards)
  return [from, between(from, towards, Math.min(1, reach / length))]
}
