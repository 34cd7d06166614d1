/** The fin as drawn on these sheets: nose to the left, root at the bottom, seen on its previous face. */
import type { Assessment, Point } from '@finwright/core/assess/assessment.ts'
import { type Box, line, type Primitive, path, pen, stroke, type XY } from '../../drawing/drawing.ts'
import { hatched } from '../../drawing/hatch.ts'
import { outlineOf } from '../../drawing/regions.ts'

export type Shapes = NonNullable<Assessment['structure']['shapes']>

export interface FinFrame {
  /** Page mm over fin mm. */
  readonly scale: number
  readonly at: (point: Point) => XY
  readonly box: Box
}

/** As large as fits the room, its lower left corner at the room's. */
export function finFrame(nodes: readonly Point[], room: Box): FinFrame {
  const X = nodes.map(([x]) => x)
  const Y = nodes.map(([, y]) => y)
  const [x0, y0] = [Math.min(...X), Math.min(...Y)]
  const [length, span] = [Math.max(...X) - x0, Math.max(...Y) - y0]
  const scale = Math.min(room.width / (length * 1e3), room.height / (span * 1e3))
  const [width, height] = [length * 1e3 * scale, span * 1e3 * scale]
  const left = room.x + (room.width - width) / 2
  const bottom = room.y + room.height
  return {
    scale,
    at: ([x, y]) => [left + (x - x0) * 1e3 * scale, bottom - (y - y0) * 1e3 * scale],
    box: { x: left, y: bottom - height, width, height },
  }
}

/** Outline, and the ground under a root on y = 0. */
export function finOutline(shapes: Shapes, frame: FinFrame, held: boolean): Primitive[] {
  const nodes = shapes.nodes_m.map(frame.at)
  const loops = outlineOf({ nodes, triangles: shapes.triangles })
  return [
    ...loops.map((loop) => path(loop, true, { layer: 'net', stroke: stroke(pen.bold) })),
    ...(held ? ground(shapes, frame) : []),
  ]
}

function ground({ nodes_m }: Shapes, { at }: FinFrame): Primitive[] {
  const root = nodes_m.filter(([, y]) => Math.abs(y) < 1e-9).map(([x]) => x)
  if (root.length < 2) return []
  const [a, b] = [at([Math.min(...root), 0]), at([Math.max(...root), 0])]
  const depth = 1.8
  const strip: XY[] = [a, b, [b[0], b[1] + depth], [a[0], a[1] + depth]]
  return [
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched([strip], { angle: -Math.PI / 4, spacing: 1.1 }),
      stroke: stroke(pen.hair, 'mid'),
    },
    line(a, b, stroke(pen.heavy)),
  ]
}
