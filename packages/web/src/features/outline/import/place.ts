/** A read outline laid into fin axes: one of its straight pieces becomes the root, the rest lies outboard of it. */
import type { Point } from '@finwright/core/assess/design.ts'
import { area, centroid } from '@finwright/core/geometry/polygon.ts'
import { selfCrossing } from '@finwright/core/geometry/polygon-crossing.ts'
import { fields } from '@finwright/plan/schema/fields.data.ts'
import { limit } from '@finwright/plan/schema/judge.ts'
import type { FreePoints } from '../shape.ts'
import type { Chain, Unreadable, XY } from './path.ts'

export interface Placing {
  /** Piece that is the root: from this point to the next. */
  readonly root: number
  /** Leading and trailing end changed over. */
  readonly turned: boolean
  /** m to a file unit. */
  readonly scale: number
}

export interface RootChoice {
  readonly piece: number
  /** In file units. */
  readonly length: number
}

/** Pieces that may be the root: all of the outline lies to one side. The longest first; an open chain's is what closes it. */
export function rootChoices({ points }: Chain): readonly RootChoice[] {
  const n = points.length
  return points
    .map((a, piece) => ({ piece, a, b: points[(piece + 1) % n]! }))
    .map(({ piece, a, b }) => ({ piece, length: Math.hypot(b[0] - a[0], b[1] - a[1]), sides: heights(points, a, b) }))
    .filter(({ length, sides }) => {
      const strays = length * 1e-3
      return length > 0 && (sides.every((h) => h > -strays) || sides.every((h) => h < strays))
    })
    .map(({ piece, length }) => ({ piece, length }))
    .sort((p, q) => q.length - p.length)
}

const heights = (points: readonly XY[], a: XY, b: XY): number[] => {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  return points.map(([x, y]) => ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length)
}

/** From the root's leading edge over the tip to its trailing edge; swept aft, unless it is turned. */
export function placed({ points }: Chain, { root, turned, scale }: Placing): FreePoints {
  const n = points.length
  const [a, b] = [points[root]!, points[(root + 1) % n]!]
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
  // from the root's second end round to its first: the root itself is left out
  const round = Array.from({ length: n }, (_, i) => points[(root + 1 + i) % n]!)
  const laid = round.map(([x, y]): Point => {
    const along = (x - a[0]) * ux + (y - a[1]) * uy
    const across = Math.abs(-(x - a[0]) * uy + (y - a[1]) * ux)
    return [along, across]
  })
  const aft = centroid(laid)[0] >= length / 2
  const forwards = aft !== turned
  const fin = forwards ? [...laid].reverse() : laid.map(([x, y]): Point => [length - x, y])
  const last = fin.length - 1
  const scaled = fin.map(([x, y], i): Point => {
    if (i === 0) return [0, 0]
    return [x * scale, i === last ? 0 : y * scale]
  })
  return { kind: 'points', points: scaled, edges: null }
}

/** Why such an outline cannot be taken; null where it can. */
export function faultOf({ points }: FreePoints): Unreadable | null {
  if (points.length > 500)
    return {
      message: `The outline has ${points.length} points; a plan takes 500 at most.`,
      hint: 'Export it with coarser curves.',
    }
  const most = limit(fields['fins.outline.root'], 'most')
  const least = limit(fields['fins.outline.root'], 'least')
  const size = Math.max(...points.map(([x, y]) => Math.max(Math.abs(x), y)))
  if (size > most || points.at(-1)![0] < least)
    return {
      message: `At this scale the root is ${(points.at(-1)![0] * 1e3).toPrecision(3)} mm and the outline reaches ${(size * 1e3).toPrecision(3)} mm; a root is ${least * 1e3} mm to ${most * 1e3} mm.`,
      hint: 'Choose another unit for the file.',
    }
  if (points.some(([, y], i) => i > 0 && i < points.length - 1 && y <= 0))
    return { message: 'Part of the outline lies on the root line.', hint: 'Choose another piece as the root.' }
  if (selfCrossing(points) !== null)
    return { message: 'The outline crosses itself.', hint: 'Draw the fin as one simple shape and export it again.' }
  return area(points) > 0
    ? null
    : { message: 'The outline encloses no area.', hint: 'Choose another outline of the file.' }
}
