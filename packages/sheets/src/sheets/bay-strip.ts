/**
 * The bay map's picture: the unrolled strip from one fin's tip to the next. Every ply that stays is laid on in one ink, so
 * that it is darker where it is thicker, and each step shows the weave of the ply that ends there, at its true angle.
 */

import type { BayFigures, PieceShape, Point } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { fill, line, type Primitive, path, pen, stroke } from '../drawing/drawing.ts'
import { type BayFrame, boundsOf, warpTurn } from './bay-frame.ts'
import { weave } from './weave.ts'

export interface StripInput {
  readonly shapes: readonly PieceShape[]
  readonly bay: BayFigures
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

export function bayStrip({ shapes, bay, design, frame }: StripInput): Primitive[] {
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
  return [...tints, ...rings, ...edges, ...foldLines(bay, shapes, frame), ...finOutlines(bay, frame)]
}

/** Fillet feet and tops, centre line and root ends. */
function foldLines(bay: BayFigures, shapes: readonly PieceShape[], { at }: BayFrame): Primitive[] {
  const { minX, maxX } = boundsOf(shapes.flatMap(({ netOutline_m }) => netOutline_m))
  const beyond = 6e-3
  const drawn = (points: readonly Point[], dash: number[]): Primitive =>
    path(points.map(at), false, { stroke: stroke(pen.thin, 'ink', dash), layer: 'fold' })
  return [
    line(at([minX - beyond, 0]), at([maxX + beyond, 0]), stroke(pen.thin, 'ink', [5, 1, 1, 1]), 'fold'),
    ...[...bay.feet_m, ...bay.tops_m].map((points) => drawn(points, [1.6, 1])),
    ...bay.rootEnds_m.map((points) => drawn(points, [3, 0.8, 0.5, 0.8])),
  ]
}

/** The core's outline on both faces, outboard of the fillets. */
const finOutlines = (bay: BayFigures, { at }: BayFrame): Primitive[] =>
  bay.core_m.map((points) => path(points.map(at), false, { layer: 'mark', stroke: stroke(pen.bold) }))
