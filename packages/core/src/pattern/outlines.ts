/**
 * Outlines of a ply on the bay map: the net line it must reach, and the line it is cut along.
 *
 * On the fin's face a ply is the fin's outline stepped back square to each edge, laid flat over the core's shaped edges
 * (unfold.ts), the same on both faces; a bay whose map is mirrored has one half the other's mirror image. On the body it runs
 * from the lay-up's forward end to its aft end, or to the can's where that ends sooner. In the fillet, between the two, a
 * ply's end is where the plane through the (stepped-back) edge, square to the fin, meets the ply: at the place x along the
 * root and the share tau of the fillet's arc from its top,
 *
 *   X = (1 − tau) x + tau A(x),        A linear, from the ends of the ply at the root to its ends on the body
 *
 * so that the ply's end runs on smoothly from the face and reaches the body's end at the fillet's foot. That is a trimmed
 * edge; the shear of cloth drawn round a fillet's run-out is computed apart (built/ply-shear.ts). Where the root runs on past
 * the can's end the face does too, parted from the fillet by a slit. The cut line adds the overhang, square to each edge
 * that the ply reaches, and the bias allowance: the whole piece widened about the centre line by 1 / lambda (trellis.ts). A ply
 * wrapped over the edges runs on round the land on to the other face, net line and cut line alike.
 *
 * A patch covers one side: that face, its fillet, and the body to a line parallel to the fillet's foot.
 */
import type { EdgeProfiles } from '../geometry/edge-profile.ts'
import { edgeNames, type FinOutline, rootLength } from '../geometry/fin-outline.ts'
import { between, distance, type Point } from '../geometry/point.ts'
import { area, type Polygon } from '../geometry/polygon.ts'
import type { EdgeShifts } from '../geometry/polygon-shift.ts'
import { noShift, shiftedOutline, withOverhang } from '../geometry/polygon-shift.ts'
import type { BayMap, MapSide } from './bay-map.ts'
import type { ScheduledPly } from './schedule.ts'
import { widthKept } from './trellis.ts'
import { roundTheLand, type Unfolding, unfoldedShifts } from './unfold.ts'

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
  readonly edges: EdgeProfiles
  readonly coreThickness: number
  readonly map: BayMap
  /** Of the ply's mid-surface from the bare surface. */
  readonly z: number
  readonly ply: Pick<ScheduledPly, 'stepBack' | 'overhang' | 'angle' | 'cover' | 'onBody' | 'wrap'>
  /** How far the largest ply reaches past the root's ends; negative where the can ends before the root. */
  readonly overrun: Ends
  readonly biasShear: number
}

/** Least that is a ply at all: one square millimetre on a face, one millimetre along the body. */
const leastArea = 1e-6
const leastLength = 1e-3
/** Between a face that runs on past the can's end and the fillet: a scissors' cut. */
const slit = 1e-3

export function plyOutlines(input: OutlineInput): PlyOutlines | NoOutline {
  const { outline, ply, overrun, biasShear, edges, coreThickness, z } = input
  const { stepBack, overhang } = ply
  const bodyEnds = {
    forward: outline.points[0]![0] - (overrun.forward - stepBack.bodyForward),
    aft: outline.points[0]![0] + rootLength(outline) + (overrun.aft - stepBack.bodyAft),
  }
  if (!(bodyEnds.aft - bodyEnds.forward >= leastLength)) return { none: 'body' }
  // Where the root runs on past the can the face does too, and leaves the body no room to hang over.
  const hangs = (back: number, past: number) => (back === 0 && past >= 0 ? overhang.bodyEnds : 0)
  const cutEnds = {
    forward: bodyEnds.forward - hangs(stepBack.bodyForward, overrun.forward),
    aft: bodyEnds.aft + hangs(stepBack.bodyAft, overrun.aft),
  }
  const unfolding: Unfolding = { edges, coreThickness, z }
  const flat = unfoldedShifts(stepBack, unfolding)
  const wraps = ply.wrap > 0
  const netShifts = wraps ? wrapped(flat, stepBack, { ...unfolding, wrap: ply.wrap }) : flat
  const cutShifts = wraps ? netShifts : unfoldedShifts(withOverhang(stepBack, overhang.edges), unfolding)
  const net = mapOutline(input, netShifts, bodyEnds)
  if ('none' in net) return net
  const cut = mapOutline(input, cutShifts, cutEnds)
  if ('none' in cut) return cut
  const widen = 1 / widthKept(ply.angle, biasShear)
  return {
    net: net.polygon,
    cut: widen === 1 ? cut.polygon : cut.polygon.map(([X, Y]): Point => [X, widen * Y]),
    bodyEnds,
    lost: net.lost,
  }
}

/** The edges that a ply reaches moved out to where it ends on the other face. */
function wrapped(
  flat: EdgeShifts,
  stepBack: EdgeShifts,
  { edges, coreThickness, z, wrap }: Unfolding & { readonly wrap: number },
): EdgeShifts {
  const past = (edge: (typeof edgeNames)[number]) =>
    roundTheLand(edges[edge].kind === 'square' ? coreThickness : edges[edge].land, z) + wrap
  return Object.fromEntries(
    edgeNames.map((edge) => [edge, stepBack[edge] === 0 ? flat[edge] - past(edge) : flat[edge]]),
  ) as EdgeShifts
}

/** The bare bay: the fin's whole outline, without overrun. */
export const bareOutline = (input: Pick<OutlineInput, 'outline' | 'map'>): Polygon => {
  const { outline } = input
  const ends = { forward: outline.points[0]![0], aft: outline.points[0]![0] + rootLength(outline) }
  const made = mapOutline({ ...input, ply: wholeBay, overrun: { forward: 0, aft: 0 } }, noShift, ends)
  return 'none' in made ? [] : made.polygon
}

const wholeBay = { cover: 'bay', onBody: 0 } as const

interface MapOutlineInput {
  readonly outline: FinOutline
  readonly map: BayMap
  readonly overrun: Ends
  readonly ply: Pick<ScheduledPly, 'cover' | 'onBody'>
}

function mapOutline(
  { outline, map, ply, overrun }: MapOutlineInput,
  shifts: EdgeShifts,
  ends: Ends,
): { readonly polygon: Polygon; readonly lost: number } | NoOutline {
  const root = Math.max(0, map.footHeight)
  const parts = shiftedOutline(outline, shifts, root)
  if (parts.reduce((sum, part) => sum + area(part), 0) < leastArea) return { none: 'face' }
  const rooted = parts.flatMap((part) => chainOverTip(part, root) ?? [])
  if (rooted.length === 0) return { none: 'chord' }
  const main = rooted.reduce((best, next) => (next.area > best.area ? next : best))
  const lost = parts.reduce((sum, part) => sum + area(part), 0) - main.area
  const canEnds = {
    forward: overrun.forward < 0 ? outline.points[0]![0] - overrun.forward : null,
    aft: overrun.aft < 0 ? outline.points[0]![0] + rootLength(outline) + overrun.aft : null,
  }
  const half = (side: MapSide) => unrolled({ map, side, chain: main.chain, ends, canEnds })
  return { polygon: closed(map, half, ply, ends), lost: lost < leastArea ? 0 : lost }
}

/** The halves put together over the body, counter-clockwise from the aft end of the next fin's side. */
function closed(
  map: BayMap,
  half: (side: MapSide) => readonly Point[],
  { cover, onBody }: MapOutlineInput['ply'],
  ends: Ends,
): Polygon {
  const inner = (line: readonly Point[]) => line.slice(1, -1)
  if (cover === 'bay') {
    const next = half(1)
    const previous = map.mirrored ? next.map(([X, Y]): Point => [X, -Y]) : half(-1)
    return [
      ...next,
      ...inner(map.acrossBody(ends.forward)).reverse(),
      ...[...previous].reverse(),
      ...inner(map.acrossBody(ends.aft)),
    ]
  }
  const side: MapSide = cover === 'next' ? 1 : -1
  const stop = (station: number) => onBodyAt(map, side, station, onBody)
  const line = half(side)
  const patch = [...line, ...stop(ends.forward), ...[...stop(ends.aft)].reverse()]
  return side === 1 ? patch : patch.reverse()
}

/** Along the body from a fillet's foot to the patch's stop, the foot left out. */
function onBodyAt(map: BayMap, side: MapSide, station: number, reach: number): readonly Point[] {
  const across = map.acrossBody(station)
  const line = side === 1 ? [...across].reverse() : across
  const points: Point[] = []
  let left = reach
  for (let k = 1; k < line.length && left > 0; k++) {
    const [p, q] = [line[k - 1]!, line[k]!]
    const length = distance(p, q)
    points.push(length <= left ? q : between(p, q, left / length))
    left -= length
  }
  return points
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

/** The chain on the map, on one side, from the body's aft end to its forward end. */
function unrolled({
  map,
  side,
  chain,
  ends,
  canEnds,
}: {
  readonly map: BayMap
  readonly side: MapSide
  readonly chain: readonly Point[]
  readonly ends: Ends
  /** Where the can ends before the root does. */
  readonly canEnds: { readonly forward: number | null; readonly aft: number | null }
}): readonly Point[] {
  const first = chain[0]!
  const last = chain.at(-1)!
  const past = {
    aft: canEnds.aft !== null && first[0] > canEnds.aft + slit,
    forward: canEnds.forward !== null && last[0] < canEnds.forward - slit,
  }
  const aft = past.aft ? ends.aft : map.station(side, first)
  const forward = past.forward ? ends.forward : map.station(side, last)
  const stretch = (ends.aft - ends.forward) / (aft - forward)
  const free = ([x]: Point) =>
    (past.aft && x > canEnds.aft! + slit / 2) || (past.forward && x < canEnds.forward! - slit / 2)
  const onMap = (p: Point): Point => {
    const tau = free(p) ? 0 : map.share(side, p)
    if (tau === 0) return map.onFace(side, p)
    const station = map.station(side, p)
    return map.inFillet(side, (1 - tau) * station + tau * (ends.forward + stretch * (station - forward)), tau)
  }
  /** On a face that is moved as it is a line stays straight and needs no points between its ends. */
  const bends = (p: Point) => !free(p) && map.share(side, p) > 0
  const points: Point[] = [map.inFillet(side, ends.aft, 1)]
  const push = (p: Point) => {
    if (distance(p, points.at(-1)!) > 1e-9) points.push(p)
  }
  const upFillet = (station: number): readonly Point[] =>
    Array.from({ length: 9 }, (_, k) => map.inFillet(side, station, 1 - k / 8))
  const downFace = (x: number): readonly Point[] => [
    map.onFace(side, [x, map.topHeight(side, x)]),
    map.onFace(side, [x, first[1]]),
  ]
  if (past.aft) for (const p of [...upFillet(ends.aft), ...downFace(canEnds.aft! + slit)]) push(p)
  chain.forEach((p, i) => {
    push(onMap(p))
    const next = chain[i + 1]
    if (next === undefined) return
    for (const q of bendsBetween(map, p, next, stretch)) if (map.hollow !== null || bends(q)) push(onMap(q))
  })
  if (past.forward)
    for (const p of [...[...downFace(canEnds.forward! - slit)].reverse(), ...[...upFillet(ends.forward)].reverse()])
      push(p)
  push(map.inFillet(side, ends.forward, 1))
  return points
}

/** Largest distance of an outline from the curve it stands for. 0.02 mm, finer than a pencil line. */
const chordError = 2e-5

/** Points to put between two corners: where the fillet begins, and along it, so that chords stay close to the curve. */
export function bendsBetween({ greatestTop, hollow }: BayMap, p: Point, q: Point, stretch = 1): readonly Point[] {
  const [low, high] = p[1] < q[1] ? [p, q] : [q, p]
  const rise = high[1] - low[1]
  if (low[1] >= greatestTop || rise < 1e-9) return []
  const upTo = Math.min(high[1], greatestTop)
  const turned = (y: number) => (hollow === null ? 0 : Math.asin(Math.min(1, (greatestTop - y) / hollow.radius)))
  const fromTop = Math.min(turned(low[1]), hollow?.phi ?? 0)
  const toTop = turned(upTo)
  const slope = (Math.abs(high[0] - low[0]) / rise) * Math.max(1, stretch)
  const step = hollow === null ? 0 : Math.sqrt((8 * chordError) / (hollow.radius * Math.max(slope, 1e-6)))
  const count = hollow === null ? 32 : Math.min(200, Math.max(1, Math.ceil((fromTop - toTop) / step)))
  const heightAt = (share: number) =>
    hollow === null
      ? low[1] + share * (upTo - low[1])
      : greatestTop - hollow.radius * Math.sin(fromTop + share * (toTop - fromTop))
  const bends: Point[] = []
  for (let k = 1; k < count; k++) bends.push(between(low, high, (heightAt(k / count) - low[1]) / rise))
  if (high[1] > greatestTop) bends.push(between(low, high, (greatestTop - low[1]) / rise))
  return low === p ? bends : bends.reverse()
}
