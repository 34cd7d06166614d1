/**
 * How two pieces lie best against each other: of the places where they touch at a corner of their no-fit region, those
 * with the least convex hull around both. For a trapezoid and the same one turned by half it is head to tail, for swept bays
 * one in the other's hollow.
 */

import { convexHull, type GridPoint, type Loop } from './convex.ts'
import type { PairTable } from './crowd.ts'
import type { Outline } from './outline.ts'
import type { Random } from './random.ts'

/** Places kept of a pair. */
const most = 3

/** One of the best places of the moving variant of a pair, by its origin, with that of the placed one at zero. */
export function mateOf(pairs: PairTable, pair: number, random: Random): GridPoint {
  const mates = pairs.mates[pair] ?? findMates(pairs, pair)
  return mates[Math.floor(random() * mates.length)]
}

function findMates(pairs: PairTable, pair: number): readonly GridPoint[] {
  const placed = Math.floor(pair / pairs.size)
  const moving = pair % pairs.size
  const mates = bestMates(pairs.noFit(placed, moving), pairs.hulls(placed), pairs.hulls(moving))
  pairs.mates[pair] = mates
  return mates
}

/** The corners of a no-fit region at which the hull around both is least, at most `most`, rounded to the grid. */
export function bestMates({ count, X, Y }: Outline, placed: Loop, moving: Loop): GridPoint[] {
  const corners = Array.from({ length: count }, (_, e) => ({ x: Math.round(X[e]), y: Math.round(Y[e]) }))
  const ranked = corners.map((corner) => ({ corner, area: hullArea(placed, moving, corner) }))
  ranked.sort((a, b) => a.area - b.area || a.corner.x - b.corner.x || a.corner.y - b.corner.y)
  return ranked.slice(0, most).map(({ corner }) => corner)
}

function hullArea(placed: Loop, moving: Loop, { x, y }: GridPoint): number {
  const hull = convexHull([...placed, ...moving.map((point) => ({ x: point.x + x, y: point.y + y }))])
  let twice = 0
  hull.forEach((a, i) => {
    const b = hull[(i + 1) % hull.length]
    twice += a.x * b.y - b.x * a.y
  })
  return twice / 2
}
