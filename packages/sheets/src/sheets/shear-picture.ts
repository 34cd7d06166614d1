/**
 * The shear of one ply on its flat piece: squares of its net darker where warp and weft turn further, red past the limit, with
 * the lines that help to lay it and the cuts that relieve it.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { circle, fill, line, type Primitive, path, pen, stroke, text } from '../drawing/drawing.ts'
import { bayFrame, boundsOf } from './bay-frame.ts'

type Pattern = Assessment['pattern']

export interface ShearOf {
  readonly pattern: Pattern
  readonly shear: Pattern['shear'][number]
  readonly shape: Pattern['shapes'][number]
}

/** Ink of a square by its share of the limit: full at the limit and beyond, which is drawn in red. */
export const opacityOf = (shear: number, limit: number): number => 0.1 + 0.6 * Math.min(1, Math.abs(shear) / limit)

/** As large as fits, mm. */
export function shearPicture(
  { pattern, shear, shape }: ShearOf,
  width: number,
  tallest: number,
): { readonly height: number; readonly items: readonly Primitive[] } {
  const bounds = boundsOf(shape.netOutline_m)
  const [long, wide] = [(bounds.maxX - bounds.minX) * 1e3, (bounds.maxY - bounds.minY) * 1e3]
  const size = Math.min(tallest / long, (width - 2) / wide)
  const { at } = bayFrame(size, [
    width / 2 - ((bounds.maxY + bounds.minY) / 2) * 1e3 * size,
    2 - bounds.minX * 1e3 * size,
  ])
  const turned = (shape.angle_deg * Math.PI) / 180
  const [c, s] = [(Math.cos(turned) * shear.cell_m) / 2, (Math.sin(turned) * shear.cell_m) / 2]
  const square = ([X, Y]: readonly [number, number]) =>
    [
      [X + s + c, Y + c - s],
      [X + s - c, Y + c + s],
      [X - s - c, Y - c + s],
      [X - s + c, Y - c - s],
    ].map(([u, v]) => at([u!, v!]))
  const items: Primitive[] = shear.field.map(({ at_m, shear_deg }) => {
    const past = Math.abs(shear_deg) > shear.limit_deg
    return path(square(at_m), true, {
      fill: fill(past ? 'danger' : 'ink', past ? 0.8 : opacityOf(shear_deg, shear.limit_deg)),
      layer: 'fill',
    })
  })
  items.push(path(shape.netOutline_m.map(at), true, { stroke: stroke(pen.net), layer: 'net' }))
  for (const { kind, points_m } of shape.marks)
    if (kind === 'fillet' || kind === 'root' || kind === 'bevel')
      items.push(path(points_m.map(at), false, { stroke: stroke(pen.hair, 'ink', [2, 1.2]), layer: 'mark' }))
  items.push(circle(at(shear.at_m), 2, { stroke: stroke(pen.fine), layer: 'mark' }))
  pattern.relief
    .filter(({ ply }) => ply === shear.ply)
    .forEach(({ from_m, to_m }, i) => {
      const [a, b] = [at(from_m), at(to_m)]
      const long = Math.hypot(a[0] - b[0], a[1] - b[1]) || 1
      const out = (k: 0 | 1): number => a[k] + ((a[k] - b[k]) / long) * 3.4
      items.push(line(a, b, stroke(pen.bold, 'danger'), 'mark'))
      items.push(text([out(0), out(1) + 1], `${i + 1}`, { size: 2.8, face: 'letter', anchor: 'middle' }))
    })
  return { height: long * size + 6, items }
}
