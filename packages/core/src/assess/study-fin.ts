/**
 * A study's plate as a fin in its air stream: in axes along the stream and away from its root, as the lifting surfaces need it.
 *
 * It is one when it is held along a straight line in the direction of the stream and nowhere else, lies on one side of that line, and has
 * air on both faces. Anything else (a panel, a plate held across the stream) is not a lifting surface beside a wall.
 */
import type { Point } from '../geometry/point.ts'
import type { StudyDesign } from './design.ts'
import type { StreamAxes } from './surface-methods.ts'

export interface StudyFin {
  /** x along the stream, y away from the root. */
  readonly outline: readonly Point[]
  readonly axes: StreamAxes
}

/** Share of the plate's size within which its root is straight. */
const straight = 1e-6

export function studyFin({ outline, supports, air }: StudyDesign): StudyFin | null {
  if (air === null || air.faces !== 2 || !air.aerodynamicDamping) return null
  const [c, s] = [Math.cos(air.flowDirection), Math.sin(air.flowDirection)]
  const across = ([x, y]: Point): number => c * y - s * x
  const held = outline.filter((_, i) => supports[i] !== 'free' || supports.at(i - 1) !== 'free')
  if (held.length === 0) return null
  const root = across(held[0])
  const heights = outline.map((point) => across(point) - root)
  const size = Math.max(...heights.map(Math.abs))
  if (held.some((point) => Math.abs(across(point) - root) > straight * size)) return null
  if (heights.some((y) => y > straight * size) && heights.some((y) => y < -straight * size)) return null
  const side = Math.max(...heights) > straight * size ? 1 : -1
  const to = (x: number, y: number): Point => [c * x + s * y, side * (across([x, y]) - root)]
  const back = (u: number, v: number): Point => [c * u - s * (side * v + root), s * u + c * (side * v + root)]
  return { outline: outline.map(([x, y]) => to(x, y)), axes: { to, back } }
}
