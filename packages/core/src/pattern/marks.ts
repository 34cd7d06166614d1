/**
 * Lines drawn on a piece: what it is laid by. All in bay axes, at the piece's true, unsheared shape.
 */

import { millimetres } from '../geometry/dimension-text.ts'
import type { EdgeProfiles } from '../geometry/edge-profile.ts'
import { type EdgeName, edgeNames, type FinOutline, rootLength } from '../geometry/fin-outline.ts'
import { between, type Point } from '../geometry/point.ts'
import { bounds, centroid, distanceToBoundary, type Polygon, sides } from '../geometry/polygon.ts'
import { type EdgeShifts, insideSides, noShift, shiftedOutline } from '../geometry/polygon-shift.ts'
import { joined, type Polyline, polylineInside } from '../geometry/polyline-clip.ts'
import type { BayMap, MapSide } from './bay-map.ts'
import { type LabelPlace, rangeAt } from './label.ts'
import type { PlyOutlines } from './outlines.ts'
import type { ScheduledPly } from './schedule.ts'
import { creaseDepth } from './unfold.ts'

export type MarkKind = 'centre' | 'fillet' | 'root' | 'step' | 'pull-back' | 'warp' | 'forward' | 'bevel' | 'tick'

/** A line to draw; `label` stands beside it. Arrows point from their first to their last point. */
export interface PlyMark {
  readonly kind: MarkKind
  readonly points: readonly Point[]
  readonly label: string
}

export interface MarkInput {
  readonly outline: FinOutline
  readonly edges: EdgeProfiles
  readonly coreThickness: number
  readonly map: BayMap
  /** Of the ply's mid-surface from the bare surface. */
  readonly z: number
  readonly ply: Pick<ScheduledPly, 'role' | 'cover' | 'wrap' | 'stepBack'>
  readonly outlines: PlyOutlines
  /** The plies that this one lies on and under, on this ply's own development. */
  readonly neighbours: readonly { readonly id: string; readonly net: Polygon; readonly beneath: boolean }[]
  readonly angle: number
  readonly bias: boolean
  readonly label: LabelPlace
}

export function plyMarks(input: MarkInput): readonly PlyMark[] {
  const { outlines, bias } = input
  return [
    ...(input.ply.cover === 'bay' ? centreLine(outlines.cut) : []),
    ...filletLines(input),
    ...rootEnds(input),
    ...bevelLines(input),
    ...input.neighbours.flatMap((neighbour) => stepLines(neighbour, outlines)),
    ...(bias ? [pullBack(outlines.net)] : []),
    ...arrows(input),
  ]
}

/** The warp of the other bays, where alternate bays are mirrored. */
export const mirroredMark = (mark: PlyMark): PlyMark => ({
  ...mark,
  points: mark.points.map(([X, Y]): Point => [X, -Y]),
})

function centreLine(cut: Polygon): readonly PlyMark[] {
  const range = rangeAt(cut, 0)
  return range === null ? [] : [{ kind: 'centre', points: range.map((X): Point => [X, 0]), label: 'centre line' }]
}

const sidesOf = ({ cover }: MarkInput['ply']): readonly MapSide[] =>
  cover === 'bay' ? [1, -1] : cover === 'next' ? [1] : [-1]

function filletLines(input: MarkInput): readonly PlyMark[] {
  const { map, outlines, ply } = input
  const lines = [
    { tau: 1, label: 'fillet foot' },
    { tau: 0, label: 'fillet top' },
  ]
  return lines.flatMap(({ tau, label }) =>
    sidesOf(ply).flatMap((side) => {
      const points = map.mirrored ? straightLine(input, side, tau) : curvedLine(input, side, tau)
      return points.flatMap((line): PlyMark[] =>
        polylineLength(line) > 0 ? [{ kind: 'fillet', points: line, label }] : [],
      )
    }),
  )

  function straightLine({ map: { inFillet } }: MarkInput, side: MapSide, share: number): readonly Polyline[] {
    const Y = inFillet(side, 0, share)[1]
    const range = rangeAt(outlines.net, Y * (1 - 1e-9))
    return range === null ? [] : [range.map((X): Point => [X, Y])]
  }
}

function curvedLine({ map, outlines }: MarkInput, side: MapSide, tau: number): readonly Polyline[] {
  const { forward, aft } = outlines.bodyEnds
  const count = 60
  const line = Array.from({ length: count + 1 }, (_, k) =>
    map.inFillet(side, forward + ((aft - forward) * k) / count, tau),
  )
  return polylineInside(outlines.cut, line)
}

const polylineLength = (line: Polyline): number =>
  line.slice(1).reduce((sum, [X, Y], i) => sum + Math.hypot(X - line[i]![0], Y - line[i]![1]), 0)

/** The root's ends across the body, where the piece lies on it. Their ticks: landing.ts. */
function rootEnds({ outline, map, outlines, ply }: MarkInput): readonly PlyMark[] {
  const forward = outline.points[0]![0]
  const ends = [
    { X: forward, label: 'root, forward end' },
    { X: forward + rootLength(outline), label: 'root, aft end' },
  ]
  const { bodyEnds } = outlines
  return ends
    .filter(({ X }) => X >= bodyEnds.forward - 1e-9 && X <= bodyEnds.aft + 1e-9)
    .flatMap(({ X, label }): PlyMark[] => {
      const across = map.acrossBody(X)
      if (ply.cover !== 'bay')
        return polylineInside(outlines.cut, across).map((points): PlyMark => ({ kind: 'root', points, label }))
      return [{ kind: 'root', points: across, label }]
    })
}

/** Where the core's bevels or rounded edges begin, and where a ply folds over an edge: down to the fillet's top. */
function bevelLines(input: MarkInput): readonly PlyMark[] {
  const { edges, coreThickness, z, ply } = input
  const creases = byEdge((edge) => creaseDepth(edges[edge], coreThickness, z))
  return [
    ...faceLines(input, creases, 'edge shaping begins'),
    ...(ply.wrap > 0 ? faceLines(input, noShift, 'fold over the edge') : []),
  ]
}

const byEdge = (value: (edge: EdgeName) => number): EdgeShifts =>
  Object.fromEntries(edgeNames.map((edge) => [edge, value(edge)])) as EdgeShifts

/** The outline moved in by `shifts`, as lines on the faces that the piece covers. */
function faceLines({ outline, map, outlines, ply }: MarkInput, shifts: EdgeShifts, label: string): readonly PlyMark[] {
  const whole = edgeNames.every((edge) => shifts[edge] === 0)
  const half = shiftedOutline(outline, shifts)
    .flatMap((region) => (whole ? [overTip(outline)] : joined(insideSides(region, outline))))
    .flatMap((line) => aboveFillet(map.greatestTop, line))
  return half.flatMap((line) =>
    sidesOf(ply).flatMap((side) =>
      polylineInside(
        outlines.cut,
        line.map((p): Point => map.onFace(side, p)),
      ).map((points): PlyMark => ({ kind: 'bevel', points, label })),
    ),
  )
}

const overTip = ({ points }: FinOutline): Polyline => points

/** The parts of a line that lie on the flat of the face. */
function aboveFillet(topHeight: number, line: Polyline): readonly Polyline[] {
  const kept = line.slice(1).flatMap((b, i) => {
    const a = line[i]!
    if (a[1] < topHeight && b[1] < topHeight) return []
    if (a[1] >= topHeight && b[1] >= topHeight) return [[a, b] as const]
    const cross = between(a, b, (topHeight - a[1]) / (b[1] - a[1]))
    return [a[1] < topHeight ? ([cross, b] as const) : ([a, cross] as const)]
  })
  return joined(kept)
}

/** The neighbour's net line wherever it lies within this piece and is not this piece's own net line. */
function stepLines(
  { id, net, beneath }: MarkInput['neighbours'][number],
  { net: own, cut }: PlyOutlines,
): readonly PlyMark[] {
  const onOwn = (p: Point) => distanceToBoundary(own, p) < sameLine
  const apart = sides(net).filter(([a, b]) => !(onOwn(between(a, b, 0.5)) && onOwn(a) && onOwn(b)))
  const label = beneath ? `edge of ${id}, beneath` : `edge of ${id}, to come`
  return joined(apart)
    .flatMap((line) => polylineInside(cut, line))
    .map((points): PlyMark => ({ kind: 'step', points, label }))
}

/** Lines closer than this are one line on a pattern. */
const sameLine = 5e-4

function pullBack(net: Polygon): PlyMark {
  const { left, right, bottom, top } = bounds(net)
  const size = `${millimetres(right - left, 0)} × ${millimetres(top - bottom, 0)}`
  const corners: Point[] = [
    [left, bottom],
    [right, bottom],
    [right, top],
    [left, top],
    [left, bottom],
  ]
  return { kind: 'pull-back', points: corners, label: `pull back to this rectangle, ${size}` }
}

/** Forward along the centre line, the warp at its true angle (a film has none); both near the middle of the body, on a patch of the patch. */
function arrows({ outlines, map, angle, label, ply }: MarkInput): readonly PlyMark[] {
  const { forward, aft } = outlines.bodyEnds
  const length = aft - forward
  const foot = map.acrossBody((forward + aft) / 2).at(-1)![1]
  const reach = Math.min(0.03, Math.max(0.004, 0.45 * foot + 0.2 * label.width), 0.2 * length)
  const [X, Y] = ply.cover === 'bay' ? [forward, 0] : centroid(outlines.net)
  const [tail, head, centre] = ply.cover === 'bay' ? [0.3, 0.15, 0.72] : [-0.03, -0.13, 0.05]
  const along: Point = [Math.sin(angle) * reach, Math.cos(angle) * reach]
  const middle = X + centre * length
  return [
    {
      kind: 'forward',
      points: [
        [X + tail * length, Y],
        [X + head * length, Y],
      ],
      label: 'forward',
    },
    ...(ply.role === 'film'
      ? []
      : [
          {
            kind: 'warp' as const,
            points: [[middle - along[0], Y - along[1]] as const, [middle + along[0], Y + along[1]] as const],
            label: 'warp',
          },
        ]),
  ]
}
