/**
 * Lines drawn on a piece: what it is laid by. All in bay axes, at the piece's true, unsheared shape.
 */

import { millimetres } from '../geometry/dimension-text.ts'
import type { EdgeProfiles } from '../geometry/edge-profile.ts'
import { shapedWidths } from '../geometry/edge-profile.ts'
import type { FinOutline } from '../geometry/fin-outline.ts'
import { rootLength } from '../geometry/fin-outline.ts'
import { between, type Point } from '../geometry/point.ts'
import { bounds, distanceToBoundary, type Polygon, sides } from '../geometry/polygon.ts'
import { insideSides, shiftedOutline } from '../geometry/polygon-shift.ts'
import { joined, type Polyline, polylineInside } from '../geometry/polyline-clip.ts'
import { acrossAt, type Development } from './development.ts'
import { type LabelPlace, rangeAt } from './label.ts'
import type { PlyOutlines } from './outlines.ts'

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
  readonly dev: Development
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
    centreLine(outlines.cut),
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

function centreLine(cut: Polygon): PlyMark {
  const range = rangeAt(cut, 0) ?? [0, 0]
  return { kind: 'centre', points: range.map((X): Point => [X, 0]), label: 'centre line' }
}

function filletLines({ dev, outlines }: MarkInput): readonly PlyMark[] {
  const lines = [
    { Y: dev.foot, label: 'fillet foot' },
    { Y: dev.top, label: 'fillet top' },
  ]
  return lines.flatMap(({ Y, label }) => {
    const range = rangeAt(outlines.net, Y * (1 - 1e-9))
    if (range === null) return []
    return [1, -1].map((side): PlyMark => ({ kind: 'fillet', points: range.map((X): Point => [X, side * Y]), label }))
  })
}

/** Length of a tick to each side of the centre line. */
const tick = 0.004

/** The root's ends across the body, and a tick on the centre line at each. */
function rootEnds({ outline, dev, outlines }: MarkInput): readonly PlyMark[] {
  const forward = outline.points[0]![0]
  const ends = [
    { X: forward, label: 'root, forward end' },
    { X: forward + rootLength(outline), label: 'root, aft end' },
  ]
  const { left, right } = bounds(outlines.cut)
  return ends
    .filter(({ X }) => X >= left && X <= right)
    .flatMap(({ X, label }): PlyMark[] => [
      { kind: 'root', points: acrossBody(X, dev.foot), label },
      { kind: 'tick', points: acrossBody(X, Math.min(tick, dev.foot)), label: '' },
    ])
}

const acrossBody = (X: number, Y: number): readonly Point[] => [
  [X, -Y],
  [X, Y],
]

/** Where the core's bevels or rounded edges begin, on both faces, down to the fillet's top. */
function bevelLines({ outline, edges, dev, outlines }: MarkInput): readonly PlyMark[] {
  const regions = shiftedOutline(outline, shapedWidths(edges))
  const half = regions
    .flatMap((region) => joined(insideSides(region, outline)))
    .flatMap((line) => aboveFillet(dev, line))
  const onMap = half.map((line) => line.map(([x, y]): Point => [x, acrossAt(dev, y)]))
  return onMap
    .flatMap((line) => polylineInside(outlines.cut, line))
    .flatMap((points): PlyMark[] => {
      const mark: PlyMark = { kind: 'bevel', points, label: 'edge shaping begins' }
      return [mark, mirroredMark(mark)]
    })
}

/** The parts of a line that lie on the flat of the face. */
function aboveFillet({ topHeight }: Development, line: Polyline): readonly Polyline[] {
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

/** Forward along the centre line, the warp at its true angle; both near the middle of the body. */
function arrows({ outlines, dev, angle, label }: MarkInput): readonly PlyMark[] {
  const { forward, aft } = outlines.bodyEnds
  const length = aft - forward
  const reach = Math.min(0.03, Math.max(0.004, 0.45 * dev.foot + 0.2 * label.width), 0.2 * length)
  const centre = forward + 0.72 * length
  const along: Point = [Math.sin(angle) * reach, Math.cos(angle) * reach]
  return [
    {
      kind: 'forward',
      points: [
        [forward + 0.3 * length, 0],
        [forward + 0.15 * length, 0],
      ],
      label: 'forward',
    },
    {
      kind: 'warp',
      points: [
        [centre - along[0], -along[1]],
        [centre + along[0], along[1]],
      ],
      label: 'warp',
    },
  ]
}
