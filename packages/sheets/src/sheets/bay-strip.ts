/**
 * The bay map's picture: the unrolled strip from one fin's tip to the next. Every ply that stays is laid on in one ink, so
 * that it is darker where it is thicker, and each step shows the weave of the ply that ends there, at its true angle.
 */

import type { PieceShape, Point, SectionFigures } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { fill, line, type Primitive, path, pen, stroke, type XY } from '../drawing/drawing.ts'
import { type BayFrame, boundsOf, warpTurn } from './bay-frame.ts'
import { weave } from './weave.ts'

export interface StripInput {
  readonly shapes: readonly PieceShape[]
  readonly section: SectionFigures
  readonly design: CanDesign
  readonly frame: BayFrame
}

/** Plies whose net outlines are the same to the eye. */
export interface Step {
  readonly outline: readonly Point[]
  readonly plies: readonly PieceShape[]
}

/** Outlines closer than this to one another are drawn as one, m. */
const sameOutline = 1.5e-3

/** Smallest outline first; peel plies, which come off again, are left out. */
export function stepsOf(shapes: readonly PieceShape[]): Step[] {
  const steps: { outline: readonly Point[]; plies: PieceShape[] }[] = []
  for (const shape of shapes.filter(({ role }) => !comesOff(role))) {
    const bounds = boundsOf(shape.netOutline_m)
    const twin = steps.find(({ outline }) => {
      const other = boundsOf(outline)
      return (['minX', 'maxX', 'minY', 'maxY'] as const).every(
        (side) => Math.abs(other[side] - bounds[side]) < sameOutline,
      )
    })
    if (twin === undefined) steps.push({ outline: shape.netOutline_m, plies: [shape] })
    else twin.plies.push(shape)
  }
  return steps.sort((a, b) => a.plies[0].netArea_m2 - b.plies[0].netArea_m2)
}

/** Darkness of the full stack. */
const darkest = 0.5

export function bayStrip({ shapes, section, design, frame }: StripInput): Primitive[] {
  const steps = stepsOf(shapes)
  const staying = shapes.filter(({ role }) => !comesOff(role))
  const outlines = steps.map(({ outline }) => outline.map(frame.at))
  const angles = new Map(design.plies.map(({ id, angle }) => [id, angle]))
  const tints = [...staying]
    .reverse()
    .map((shape) =>
      path(shape.netOutline_m.map(frame.at), true, { layer: 'fill', fill: fill('ink', darkest / staying.length) }),
    )
  const rings = steps.flatMap(({ plies }, i) => {
    const outermost = plies.filter(({ role }) => role === 'structural').at(-1) ?? plies[0]
    const within = i === 0 ? [outlines[i]] : [outlines[i], outlines[i - 1]]
    return weave(within, { turn: warpTurn(angles.get(outermost.ply) ?? 0), spacing: 1.7, origin: frame.origin })
  })
  const edges = outlines.map((outline, i) =>
    path(outline, true, { layer: 'net', stroke: stroke(i === outlines.length - 1 ? pen.net : pen.thin) }),
  )
  return [...tints, ...rings, ...edges, ...foldLines(section, shapes, frame), ...finOutlines(section, design, frame)]
}

/** Fillet feet and tops, centre line and root ends. */
function foldLines(section: SectionFigures, shapes: readonly PieceShape[], { at }: BayFrame): Primitive[] {
  const { minX, maxX } = boundsOf(shapes.flatMap(({ netOutline_m }) => netOutline_m))
  const beyond = 6e-3
  const { filletFoot, filletTop } = section.stations_m
  const along = (y: number, dash: number[], width: number): Primitive =>
    line(at([minX - beyond, y]), at([maxX + beyond, y]), stroke(width, 'ink', dash), 'fold')
  const across = (x: number): Primitive =>
    line(at([x, -filletTop]), at([x, filletTop]), stroke(pen.thin, 'ink', [3, 0.8, 0.5, 0.8]), 'fold')
  return [
    along(0, [5, 1, 1, 1], pen.thin),
    ...[-1, 1].flatMap((side) => [
      along(side * filletFoot, [1.6, 1], pen.thin),
      along(side * filletTop, [1.6, 1], pen.thin),
    ]),
    across(0),
    across(section.rootLength_m),
  ]
}

/** The core's outline on both faces, outboard of the fillets. */
function finOutlines(section: SectionFigures, design: CanDesign, { at }: BayFrame): Primitive[] {
  const inner = section.span_m - (section.stations_m.tip - section.stations_m.filletTop)
  const face = outboardOf(design.fins.outline.points, inner)
  const onFace = (side: number): XY[] =>
    face.map(([x, y]) => at([x, side * (section.stations_m.tip - (section.span_m - y))]))
  return [-1, 1].map((side) => path(onFace(side), false, { layer: 'mark', stroke: stroke(pen.bold) }))
}

/** The part of the outline from the root leading edge to the root trailing edge that lies outboard of `inner`. */
export function outboardOf(points: readonly Point[], inner: number): Point[] {
  const kept: Point[] = []
  points.forEach((point, i) => {
    const before = points[i - 1]
    if (before !== undefined && before[1] < inner !== point[1] < inner) {
      const share = (inner - before[1]) / (point[1] - before[1])
      kept.push([before[0] + share * (point[0] - before[0]), inner])
    }
    if (point[1] >= inner) kept.push(point)
  })
  return kept
}
