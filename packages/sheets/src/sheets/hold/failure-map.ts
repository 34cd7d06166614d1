/** Failure index on the fin: every triangle toned by steps of one ink, with the steps of the plies, the fillet and the worst place. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import {
  type Box,
  fill,
  group,
  line,
  type Primitive,
  path,
  pen,
  rectangle,
  stroke,
  text,
  type XY,
} from '../../drawing/drawing.ts'
import { textWidth } from '../../drawing/lettering.ts'
import { cellsAbove, outlineOf, withoutHoles } from '../../drawing/regions.ts'
import { ticksTo } from '../../layout/chart.ts'
import { plain } from '../../layout/figures.ts'
import { bestPlace, contains, edgesOf, turnedBox } from '../../layout/placing.ts'
import { stepsOf } from '../bay-strip.ts'
import { type FinFrame, finFrame, finOutline, type Shapes } from './fin-picture.ts'

/** Darkness of the highest step. */
const darkest = 0.62
const scaleHeight = 10
/** That a figure of the scale takes. */
const figureRoom = 6
/** Left of the fin: the figures of the charts under it stand there. */
const axisRoom = 12

export interface FailureMap {
  readonly frame: FinFrame
  readonly height: number
  readonly items: readonly Primitive[]
}

/** In a room that starts at (x, y): the scale above, the fin under it. */
export function failureMap(
  assessment: Assessment,
  shapes: Shapes,
  room: Omit<Box, 'height'>,
  mostHeight: number,
): FailureMap {
  const { strength } = assessment
  const values = strength.map ?? shapes.triangles.map(() => 0)
  const steps = stepLevels(Math.max(...values))
  const inner = { x: room.x + axisRoom, width: room.width - axisRoom - 2 }
  const fitted = finFrame(shapes.nodes_m, { ...inner, y: 0, height: mostHeight })
  const frame = finFrame(shapes.nodes_m, { ...inner, y: room.y + scaleHeight, height: fitted.box.height })
  const nodes = shapes.nodes_m.map(frame.at)
  const tone = darkest / steps.length
  const tones = steps.flatMap((level) =>
    withoutHoles(cellsAbove({ nodes, triangles: shapes.triangles }, values, level)).map((loop) =>
      path(loop, true, { layer: 'fill', fill: fill('ink', tone) }),
    ),
  )
  const failed = cellsAbove({ nodes, triangles: shapes.triangles }, values, 1).map((loop) =>
    path(loop, true, { layer: 'mark', stroke: stroke(pen.heavy, 'danger') }),
  )
  return {
    frame,
    height: scaleHeight + frame.box.height + 2,
    items: [
      ...toneScale(steps, tone, room),
      ...tones,
      ...plySteps(assessment, frame),
      ...failed,
      ...finOutline(shapes, frame, true),
      ...worstPlace(strength, frame, outlineOf({ nodes, triangles: shapes.triangles })[0], room),
    ],
  }
}

/** Lower ends of the toned steps; what lies under the first stays white. */
function stepLevels(most: number): number[] {
  if (!(most > 0)) return []
  return ticksTo(most, 8).filter((value) => value > 0 && value < most)
}

function toneScale(steps: readonly number[], tone: number, { x, y, width }: Omit<Box, 'height'>): Primitive[] {
  const title = text([x, y + 3.4], 'Failure index, 1 is failure', { size: 3.3, face: 'title' })
  if (steps.length === 0) return [title]
  const own = Math.min(9, (width - 50) / (steps.length + 1))
  const left = x + width - own * (steps.length + 1)
  const stride = Math.ceil(figureRoom / own)
  const decimals = Math.max(0, -Math.floor(Math.log10(steps[0]) + 1e-9))
  return [
    title,
    ...Array.from({ length: steps.length + 1 }, (_, i) =>
      rectangle(
        { x: left + i * own, y: y + 0.6, width: own, height: 3.4 },
        { layer: 'fill', stroke: stroke(pen.hair), fill: i === 0 ? null : fill('ink', 1 - (1 - tone) ** i) },
      ),
    ),
    ...steps.flatMap((value, i) =>
      i % stride > 0
        ? []
        : text([left + (i + 1) * own, y + 6.8], plain(value, decimals), {
            size: 2.4,
            face: 'letter',
            ink: 'dark',
            anchor: 'middle',
          }),
    ),
  ]
}

/** Where plies end on this face, as on the bay map, and where the fillet does. */
function plySteps({ pattern }: Assessment, { at, box }: FinFrame): Primitive[] {
  const { section, shapes } = pattern
  if (section === null) return []
  const foot = section.stations_m.tip - section.span_m
  const [, fillet] = at([0, section.filletHeight_m])
  const inner = stepsOf(shapes).slice(0, -1)
  const onFace = inner.map(({ outline, plies }) => ({
    name: plies.map(({ ply }) => ply).join(' '),
    points: outline.map(([x, y]) => at([x, y - foot])),
  }))
  return [
    group(
      onFace.map(({ points }) => path(points, true, { layer: 'mark', stroke: stroke(pen.thin, 'ink') })),
      { clip: { x: box.x, y: box.y, width: box.width, height: fillet - box.y } },
    ),
    line([box.x, fillet], [box.x + box.width, fillet], stroke(pen.thin, 'ink', [1.6, 1]), 'fold'),
    ...onFace.map(({ name, points }) => {
      const top = Math.min(...points.map(([, y]) => y))
      const edge = points.filter(([, y]) => y < top + 0.2).map(([x]) => x)
      const middle = (Math.min(...edge) + Math.max(...edge)) / 2
      return text([middle, top + 2.5], name, { size: 2.3, face: 'letter', anchor: 'middle' })
    }),
  ]
}

/** A ring with a cross, led to words that stand where they cover least. */
function worstPlace(
  { position_m, ply }: Assessment['strength'],
  { at, box }: FinFrame,
  outline: readonly XY[],
  room: Pick<Box, 'x' | 'width'>,
): Primitive[] {
  if (position_m === null) return []
  const [x, y] = at(position_m)
  const arm = 2.6
  const words = ply === null ? 'weakest' : `weakest: ${ply}`
  const lettering = { size: 2.7, face: 'title' } as const
  const width = textWidth(words, lettering)
  const candidates = Array.from({ length: 12 * 40 }, (_, n) => {
    const centre: XY = [
      room.x + width / 2 + ((n % 40) / 39) * (room.width - width),
      box.y + 2 + (Math.floor(n / 40) / 11) * (box.height - 4),
    ]
    const covers = contains(outline, centre) ? 30 : 0
    return {
      centre,
      box: turnedBox(centre, width + 1.5, 3.6, 0),
      cost: covers + 0.5 * Math.hypot(centre[0] - x, centre[1] - y),
    }
  })
  const best = bestPlace(candidates, { inside: null, lines: edgesOf(outline), boxes: [turnedBox([x, y], 8, 8, 0)] })
  const [wx, wy] = best?.place.centre ?? [x, y - 8]
  const from: XY = [wx + Math.sign(x - wx) * Math.min(width / 2 + 0.6, Math.abs(x - wx)), wy + (y > wy ? 1.4 : -1.4)]
  return [
    line(from, [x, y], stroke(pen.hair), 'mark'),
    path(
      [
        [x - 1.5, y, 1],
        [x + 1.5, y, 1],
      ],
      true,
      { fill: fill('paper'), stroke: stroke(pen.net), layer: 'mark' },
    ),
    line([x - arm, y], [x + arm, y], stroke(pen.fine), 'mark'),
    line([x, y - arm], [x, y + arm], stroke(pen.fine), 'mark'),
    text([wx, wy + 0.95], words, { ...lettering, anchor: 'middle' }),
  ]
}
