/** The stack taken apart: every ply above the one it lies on, in order from the core, each with its weave as it lies. */

import type { BayFigures, PieceShape, Point } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { fill, type Lines, line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { shortened } from '../drawing/lettering.ts'
import { arrow } from '../layout/dimension.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { boundsOf, warpTurn } from './bay-frame.ts'
import { warpWords } from './warp-words.ts'
import { weave } from './weave.ts'

/** Seen from above and behind: across stays level, aft runs down and to the left. */
const slant = { x: -0.34, y: 0.3 } as const
const labels = 46
const head = 14

export function stackSheet({ assessment, paper, figures }: SheetInput): Leaf[] {
  const { bay, shapes } = assessment.pattern
  if (bay === null || shapes.length === 0) return []
  const area = content(paper)
  const bounds = boundsOf(shapes.flatMap(({ netOutline_m }) => netOutline_m))
  const [wide, long] = [(bounds.maxY - bounds.minY) * 1e3, (bounds.maxX - bounds.minX) * 1e3]
  const scale = (area.width - labels - 4) / (wide - slant.x * long)
  const flat = long * slant.y * scale
  const count = shapes.length + 1
  const pitch = Math.min(flat * 0.9, (area.height - head - flat - 6) / (count - 1))
  const left = area.x - slant.x * long * scale + (wide / 2) * scale
  const at =
    (level: number) =>
    ([X, Y]: Point): XY => {
      const aft = (X - bounds.minX) * 1e3
      const top = area.y + head + (count - 1 - level) * pitch
      return [left + (Y * 1e3 + aft * slant.x) * scale, top + aft * slant.y * scale]
    }
  const words = area.x + area.width - labels
  const thickness = new Map(assessment.fin.plies.map(({ id, thickness_m }) => [id, thickness_m]))
  const items: Primitive[] = [
    ...paragraph(
      'Core outward from the bottom up, as they are laid. Lines are warp (dark) and weft (light) as the cloth lies on bay 1.',
      area.width,
      { size: 3.4 },
    ).draw([area.x, area.y]),
    ...bareBay(bay, bounds, at(0)),
    ...label(words, at(0)([(bounds.minX + bounds.maxX) / 2, bounds.maxY]), [
      'bare bay',
      'fin, fillet, body, fillet, fin',
      '',
    ]),
    ...shapes.flatMap((shape, k) => {
      const place = at(k + 1)
      const edge = place([(bounds.minX + bounds.maxX) / 2, reachAt(shape, (bounds.minX + bounds.maxX) / 2)])
      return [
        ...sheet(shape, place),
        ...label(words, edge, [
          `${shape.ply}   ${warpWords(shape.role, shape.angle_deg, figures)}`,
          shape.clothName,
          comesOff(shape.role) ? 'comes off after cure' : `${figures.length(thickness.get(shape.ply), 1e-5)} cured`,
        ]),
      ]
    }),
    ...directions(at(0), bounds),
  ]
  return [{ title: 'The stack', subject: 'one bay, taken apart', items }]
}

/** Half width of the outline at X. */
function reachAt({ netOutline_m: outline }: PieceShape, X: number): number {
  return Math.max(
    ...outline.flatMap(([x0, y0], i) => {
      const [x1, y1] = outline[(i + 1) % outline.length]
      return x0 <= X !== x1 <= X ? [y0 + ((X - x0) / (x1 - x0)) * (y1 - y0)] : []
    }),
  )
}

/** White over what lies below it, with the weave made flat and slanted with it. */
function sheet(shape: PieceShape, place: (point: Point) => XY): Primitive[] {
  const outline = shape.netOutline_m.map(place)
  const inPlan = shape.netOutline_m.map(([X, Y]): XY => [Y * 1e3, X * 1e3])
  const turn = warpTurn((shape.angle_deg * Math.PI) / 180)
  const lines = shape.role === 'film' ? [] : weave([inPlan], { turn, spacing: 9, origin: [0, 0] })
  const laid = lines.map(
    (one, i): Lines => ({
      ...one,
      stroke: i === 0 ? { ink: 'light', width: pen.thin } : { ink: 'dark', width: pen.thin },
      pairs: one.pairs.map(([a, b]) => [flat(a, place), flat(b, place)] as const),
    }),
  )
  const edge = comesOff(shape.role) ? stroke(pen.fine, 'ink', [1.6, 0.9]) : stroke(pen.fine)
  return [
    path(outline, true, { layer: 'fill', fill: fill('paper') }),
    ...laid,
    path(outline, true, { layer: 'net', stroke: edge }),
  ]
}

const flat = ([x, y]: XY, place: (point: Point) => XY): XY => place([y * 1e-3, x * 1e-3])

function label(x: number, edge: XY, [name, cloth, note]: readonly [string, string, string]): Primitive[] {
  const small = { size: 2.7, face: 'text' } as const
  return [
    line([edge[0] + 0.8, edge[1]], [x - 1.5, edge[1]], stroke(pen.hair, 'mid')),
    text([x, edge[1] + 0.6], name, { size: 3.6, face: 'title' }),
    text([x, edge[1] + 4.2], shortened(cloth, labels, small), { ...small, ink: 'dark' }),
    text([x, edge[1] + 7.5], note, { ...small, ink: 'dark' }),
  ]
}

function bareBay(
  bay: BayFigures,
  { minX, maxX }: { readonly minX: number; readonly maxX: number },
  place: (point: Point) => XY,
): Primitive[] {
  const Y = bay.core_m.flat().map(([, y]) => y)
  const [left, right] = [Math.min(...Y), Math.max(...Y)]
  const drawn = (points: readonly Point[], dash: readonly number[]): Primitive =>
    path(points.map(place), false, { layer: 'fold', stroke: stroke(pen.thin, 'ink', dash) })
  const frame = [place([minX, left]), place([minX, right]), place([maxX, right]), place([maxX, left])]
  return [
    path(frame, true, { layer: 'net', stroke: stroke(pen.fine), fill: fill('paper') }),
    drawn(
      [
        [minX, 0],
        [maxX, 0],
      ],
      [5, 1, 1, 1],
    ),
    ...[...bay.feet_m, ...bay.tops_m].map((points) => drawn(points, [1.6, 1])),
  ]
}

/** Forward and the next fin, beside the bare bay. */
function directions(
  place: (point: Point) => XY,
  { minX, maxX, minY }: { readonly minX: number; readonly maxX: number; readonly minY: number },
): Primitive[] {
  const from = place([maxX, minY])
  const towards = place([minX, minY])
  const along = Math.hypot(towards[0] - from[0], towards[1] - from[1])
  const unit: XY = [(towards[0] - from[0]) / along, (towards[1] - from[1]) / along]
  const foot: XY = [from[0] - 2, from[1] - 14]
  const tip: XY = [foot[0] + unit[0] * 14, foot[1] + unit[1] * 14]
  return [
    ...arrow(foot, tip, { width: pen.net, head: 2.4 }),
    text([tip[0] - 0.5, tip[1] - 1.2], 'forward', { size: 2.8, face: 'letter', anchor: 'middle' }),
  ]
}
