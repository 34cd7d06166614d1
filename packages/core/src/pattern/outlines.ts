/**
 * Outlines of a ply on the bay map: the net line it must reach, and the line it is cut along.
 *
 * On the fin's face a ply is the fin's outline stepped back square to each edge, the same on both faces, mirrored in the
 * bay's centre line. On the body it runs from the lay-up's forward end to its aft end. In the fillet, between the two, a
 * ply's end is where the plane through the (stepped-back) edge, square to the fin, meets the ply: at the place x along the
 * root and the share tau of the fillet's arc from its top,
 *
 *   X = (1 − tau) x + tau A(x),        A linear, from the ends of the ply at the root to its ends on the body
 *
 * so that the ply's end runs on smoothly from the face and reaches the body's end at the fillet's foot. That is a trimmed
 * edge; the shear of cloth drawn round a fillet's run-out is not in it. The cut line adds the overhang, square to each edge
 * that the ply reaches, and the bias allowance: the whole piece widened about the centre line by 1 / lambda (trellis.ts).
 */

import type { FinOutline } from '../geometry/fin-outline.ts'
import { rootLength } from '../geometry/fin-outline.ts'
import { between, distance, type Point } from '../geometry/point.ts'
import { area, type Polygon } from '../geometry/polygon.ts'
import type { EdgeShifts } from '../geometry/polygon-shift.ts'
import { noShift, shiftedOutline, withOverhang } from '../geometry/polygon-shift.ts'
import { acrossAt, type Development, filletShare } from './development.ts'
import type { ScheduledPly } from './schedule.ts'
import { widthKept } from './trellis.ts'

export interface PlyOutlines {
  /** Counter-clockwise, closed by its first point. */
  readonly net: Polygon
  readonly cut: Polygon
  /** What the net outline spans on the body, in X. */
  readonly bodyEnds: Ends
  /** Area that the steps part from the rest, on one face; 0 for a ply in one piece. */
  readonly lost: number
}

export interface Ends {
  readonly forward: number
  readonly aft: number
}

/** A ply that cannot be cut: nothing is left of it on the fin, or on the body. */
export type NoOutline = { readonly none: 'face' | 'chord' | 'body' }

export interface OutlineInput {
  readonly outline: FinOutline
  readonly dev: Development
  readonly ply: Pick<ScheduledPly, 'stepBack' | 'overhang' | 'angle'>
  readonly overrun: Ends
  readonly biasShear: number
}

/** Least that is a ply at all: one square millimetre on a face, one millimetre along the body. */
const leastArea = 1e-6
const leastLength = 1e-3

export function plyOutlines({ outline, dev, ply, overrun, biasShear }: OutlineInput): PlyOutlines | NoOutline {
  const { stepBack, overhang } = ply
  const bodyEnds = {
    forward: outline.points[0]![0] - (overrun.forward - stepBack.bodyForward),
    aft: outline.points[0]![0] + rootLength(outline) + (overrun.aft - stepBack.bodyAft),
  }
  if (!(bodyEnds.aft - bodyEnds.forward >= leastLength)) return { none: 'body' }
  const cutEnds = {
    forward: bodyEnds.forward - (stepBack.bodyForward === 0 ? overhang.bodyEnds : 0),
    aft: bodyEnds.aft + (stepBack.bodyAft === 0 ? overhang.bodyEnds : 0),
  }
  const net = mapOutline({ outline, dev, shifts: stepBack, ends: bodyEnds })
  if ('none' in net) return net
  const cut = mapOutline({ outline, dev, shifts: withOverhang(stepBack, overhang.edges), ends: cutEnds })
  if ('none' in cut) return cut
  const widen = 1 / widthKept(ply.angle, biasShear)
  return {
    net: net.polygon,
    cut: widen === 1 ? cut.polygon : cut.polygon.map(([X, Y]): Point => [X, widen * Y]),
    bodyEnds,
    lost: net.lost,
  }
}

/** The bare bay: the fin's whole outline, without overrun. */
export const bareOutline = (outline: FinOutline, dev: Development): Polygon => {
  const ends = { forward: outline.points[0]![0], aft: outline.points[0]![0] + rootLength(outline) }
  const made = mapOutline({ outline, dev, shifts: noShift, ends })
  return 'none' in made ? [] : made.polygon
}

function mapOutline({
  outline,
  dev,
  shifts,
  ends,
}: {
  readonly outline: FinOutline
  readonly dev: Development
  readonly shifts: EdgeShifts
  readonly ends: Ends
}): { readonly polygon: Polygon; readonly lost: number } | NoOutline {
  const root = Math.max(0, dev.footHeight)
  const parts = shiftedOutline(outline, shifts, root)
  if (parts.reduce((sum, part) => sum + area(part), 0) < leastArea) return { none: 'face' }
  const rooted = parts.flatMap((part) => chainOverTip(part, root) ?? [])
  if (rooted.length === 0) return { none: 'chord' }
  const main = rooted.reduce((best, next) => (next.area > best.area ? next : best))
  const lost = parts.reduce((sum, part) => sum + area(part), 0) - main.area
  const upper = unrolled(dev, main.chain, ends)
  return { polygon: withMirror(upper), lost: lost < leastArea ? 0 : lost }
}

interface Chain {
  /** From the ply's aft end at the root over the tip to its forward end. */
  readonly chain: readonly Point[]
  readonly area: number
}

/** The counter-clockwise run from the aftmost to the foremost corner on the root; null for a part that does not reach it. */
function chainOverTip(part: Polygon, root: number): readonly Chain[] | null {
  const onRoot = part.flatMap(([x, y], i) => (Math.abs(y - root) < 1e-7 ? [{ x, i }] : []))
  if (onRoot.length < 2) return null
  const aft = onRoot.reduce((a, b) => (b.x > a.x ? b : a))
  const forward = onRoot.reduce((a, b) => (b.x < a.x ? b : a))
  if (!(aft.x - forward.x >= leastLength)) return null
  const count = ((forward.i - aft.i + part.length) % part.length) + 1
  const chain = Array.from({ length: count }, (_, k) => part[(aft.i + k) % part.length]!)
  return [{ chain, area: area(part) }]
}

/** The chain on the map, on the next fin's side, from the body's aft end to its forward end. */
function unrolled(dev: Development, chain: readonly Point[], ends: Ends): readonly Point[] {
  const aft = chain[0]![0]
  const forward = chain.at(-1)![0]
  const stretch = (ends.aft - ends.forward) / (aft - forward)
  const onMap = ([x, y]: Point): Point => {
    const tau = filletShare(dev, y)
    return [(1 - tau) * x + tau * (ends.forward + stretch * (x - forward)), acrossAt(dev, y)]
  }
  const points: Point[] = [[ends.aft, dev.foot]]
  const push = (p: Point) => {
    if (distance(p, points.at(-1)!) > 1e-9) points.push(p)
  }
  chain.forEach((p, i) => {
    push(onMap(p))
    const next = chain[i + 1]
    if (next !== undefined) for (const q of bendsBetween(dev, p, next, stretch)) push(onMap(q))
  })
  push([ends.forward, dev.foot])
  return points
}

/** Largest distance of an outline from the curve it stands for. 0.02 mm, finer than a pencil line. */
const chordError = 2e-5

/** Points to put between two corners: where the fillet begins, and along it, so that chords stay close to the curve. */
export function bendsBetween(dev: Development, p: Point, q: Point, stretch = 1): readonly Point[] {
  const { topHeight, filletRadius } = dev
  const [low, high] = p[1] < q[1] ? [p, q] : [q, p]
  const rise = high[1] - low[1]
  if (low[1] >= topHeight || rise < 1e-9) return []
  const fromTop = dev.section.phi * filletShare(dev, low[1])
  const toTop = dev.section.phi * filletShare(dev, high[1])
  const slope = (Math.abs(high[0] - low[0]) / rise) * Math.max(1, stretch)
  const step = Math.sqrt((8 * chordError) / (filletRadius * Math.max(slope, 1e-6)))
  const count = Math.min(200, Math.max(1, Math.ceil((fromTop - toTop) / step)))
  const bends: Point[] = []
  for (let k = 1; k < count; k++) {
    const height = topHeight - filletRadius * Math.sin(fromTop + (k / count) * (toTop - fromTop))
    bends.push(between(low, high, (height - low[1]) / rise))
  }
  if (high[1] > topHeight) bends.push(between(low, high, (topHeight - low[1]) / rise))
  return low === p ? bends : bends.reverse()
}

const withMirror = (upper: readonly Point[]): Polygon => [
  ...upper,
  ...[...upper].reverse().map(([X, Y]): Point => [X, -Y]),
]
