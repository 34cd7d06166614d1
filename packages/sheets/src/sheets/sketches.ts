/** The two small pictures that settle every left and right: bay axes seen from outside, fins counted from the tail. */
import {
  arcVertices,
  circle,
  fill,
  line,
  type Primitive,
  path,
  pen,
  stroke,
  text,
  type XY,
} from '../drawing/drawing.ts'
import { arrow } from '../layout/dimension.ts'

/** Fins and bays of one can, seen from the tail looking forward; fin 1 on top. In a square of `size` mm at (x, y). */
export function finNumbering([x, y]: XY, size: number, finCount: number, bay: number | null = null): Primitive[] {
  const c: XY = [x + size / 2, y + size / 2]
  const R = size * 0.17
  const tip = size * 0.36
  const at = (turn: number, radius: number): XY => [c[0] + radius * Math.sin(turn), c[1] - radius * Math.cos(turn)]
  const step = (2 * Math.PI) / finCount
  const small = Math.min(3, size * 0.085)
  const items: Primitive[] = []
  if (bay !== null) items.push(baySector(c, R, tip, (bay - 1) * step, bay * step))
  items.push(circle(c, R, { stroke: stroke(pen.net), layer: 'mark' }))
  for (let i = 0; i < finCount; i++) {
    const turn = i * step
    items.push(line(at(turn, R), at(turn, tip), stroke(pen.heavy), 'mark'))
    const number = at(turn, tip + small * 0.95)
    items.push(
      text([number[0], number[1] + 0.35 * small], `${i + 1}`, { size: small * 1.15, face: 'title', anchor: 'middle' }),
    )
    const name = at(turn + step / 2, (R + tip) / 2 + size * 0.03)
    items.push(
      text([name[0], name[1] + 0.3 * small], finCount > 5 ? `b${i + 1}` : `bay ${i + 1}`, {
        size: finCount > 5 ? 0.85 * small : small,
        face: 'letter',
        anchor: 'middle',
      }),
    )
  }
  return [...items, ...turningArrow(c, R * 0.62)]
}

function baySector(c: XY, R: number, tip: number, from: number, to: number): Primitive {
  const quarter = Math.PI / 2
  const outer = arcVertices(c, tip, from - quarter, to - quarter)
  const inner = arcVertices(c, R, to - quarter, from - quarter)
  return path([...outer, ...inner], true, { fill: fill('saffron', 0.35), layer: 'fill' })
}

/** Clockwise as seen. */
function turningArrow(c: XY, radius: number): Primitive[] {
  const to = 0.35 * Math.PI
  const vertices = arcVertices(c, radius, -0.85 * Math.PI, to)
  const end: XY = [c[0] + radius * Math.cos(to), c[1] + radius * Math.sin(to)]
  const head = radius * 0.5
  const back: XY = [end[0] + Math.sin(to) * head, end[1] - Math.cos(to) * head]
  return [
    path(vertices, false, { stroke: stroke(pen.thin), layer: 'mark' }),
    ...arrow(back, end, { width: pen.thin, head: radius * 0.45 }),
  ]
}

/** Bay axes and the sense of a ply's angle, on a strip seen from outside. In a box of `size` mm at (x, y). */
export function bayAxes([x, y]: XY, size: number, names: readonly [string, string]): Primitive[] {
  const left = x + size * 0.14
  const right = x + size * 0.86
  const top = y + size * 0.14
  const bottom = y + size * 0.88
  const o: XY = [x + size / 2, y + size * 0.34]
  const reach = size * 0.3
  const theta = Math.PI / 4
  const small = Math.min(3, size * 0.085)
  const warp: XY = [o[0] + reach * 1.05 * Math.cos(theta), o[1] + reach * 1.05 * Math.sin(theta)]
  const arcTo: XY = [o[0] + reach * 0.55 * Math.cos(theta), o[1] + reach * 0.55 * Math.sin(theta)]
  return [
    line([left, top], [left, bottom], stroke(pen.heavy), 'mark'),
    line([right, top], [right, bottom], stroke(pen.heavy), 'mark'),
    text([left, top - 1.4], names[0], { size: small, face: 'title', anchor: 'middle' }),
    text([right, top - 1.4], names[1], { size: small, face: 'title', anchor: 'middle' }),
    ...arrow([o[0], top + small], [o[0], top - small * 1.6], { width: pen.fine, head: 2 }),
    text([o[0] + 1, top - small * 0.7], 'nose', { size: small * 0.9, face: 'letter' }),
    ...arrow(o, [o[0], o[1] + reach * 1.45], { width: pen.fine, head: 2 }),
    text([o[0] - 1, o[1] + reach * 1.45], 'X aft', { size: small, face: 'letter', anchor: 'end' }),
    ...arrow(o, [o[0] + reach, o[1]], { width: pen.fine, head: 2 }),
    text([o[0] + reach - 0.6, o[1] - 0.9], 'Y', { size: small, face: 'letter', anchor: 'end' }),
    ...arrow(o, warp, { width: pen.net, head: 2 }),
    text([warp[0] - 0.4, warp[1] + small], 'warp', { size: small, face: 'letter', anchor: 'middle' }),
    path(arcVertices(o, reach * 0.55, 0, theta), false, { stroke: stroke(pen.thin), layer: 'mark' }),
    ...arrow([arcTo[0] + 0.9, arcTo[1] - 0.9], arcTo, { width: pen.thin, head: 1.5 }),
    text([o[0] + reach * 0.63, o[1] + reach * 0.36], '+', { size: small * 1.2, face: 'title' }),
  ]
}
