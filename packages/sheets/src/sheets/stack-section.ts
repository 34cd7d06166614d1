/**
 * The stack of plies along any line of the bay map: each ply lies on those below it, wherever they are, on a bare surface that
 * may itself rise and fall. Thicknesses are drawn larger than widths by whatever the page maps them to.
 */

import type { Assessment, PieceShape, Point } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { fill, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { leader } from '../layout/dimension.ts'
import type { Figures } from '../layout/figures.ts'

/** In bay axes, m. */
export interface CutLine {
  readonly from: Point
  readonly to: Point
}

export interface Layer {
  readonly shape: PieceShape
  readonly thickness: number
  /** Where it lies, from and to along the line, m. */
  readonly spans: readonly (readonly [number, number])[]
}

export function layersAlong(shapes: readonly PieceShape[], plies: Assessment['fin']['plies'], cut: CutLine): Layer[] {
  const thickness = new Map(plies.map(({ id, thickness_m }) => [id, thickness_m]))
  return shapes
    .filter(({ role, ply }) => !comesOff(role) && thickness.has(ply))
    .map((shape) => ({ shape, thickness: thickness.get(shape.ply)!, spans: spansAlong(shape.netOutline_m, cut) }))
}

/** Where the line lies inside the outline, m from its beginning. */
export function spansAlong(outline: readonly Point[], { from, to }: CutLine): [number, number][] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length]
  // along the line and square to it
  const turned = outline.map(
    ([x, y]): Point => [(x - from[0]) * ux + (y - from[1]) * uy, -(x - from[0]) * uy + (y - from[1]) * ux],
  )
  const crossings = turned.flatMap(([s0, d0], i) => {
    const [s1, d1] = turned[(i + 1) % turned.length]
    return d0 <= 0 !== d1 <= 0 ? [s0 + (d0 / (d0 - d1)) * (s1 - s0)] : []
  })
  crossings.sort((a, b) => a - b)
  const spans: [number, number][] = []
  for (let i = 0; i + 1 < crossings.length; i += 2) {
    const [a, b] = [Math.max(0, crossings[i]), Math.min(length, crossings[i + 1])]
    if (b > a) spans.push([a, b])
  }
  return spans
}

/** Thickness of everything that stays, where all of it lies. */
export const fullThickness = (layers: readonly { readonly thickness: number }[]): number =>
  layers.reduce((sum, { thickness }) => sum + thickness, 0)

export interface StackView {
  readonly layers: readonly Layer[]
  /** Where a height above the datum stands at a distance along the line, m to mm of the page. */
  readonly page: (along: number, height: number) => XY
  readonly figures: Figures
  /** Labels stand near this place along the line; null for a stack without labels. */
  readonly middle: number | null
  /** Height of the bare surface along the line, with the places where it bends; level at the datum where left out. */
  readonly ground?: { readonly at: (along: number) => number; readonly bends: readonly number[] }
  /** The face seen from below: heights count downward. */
  readonly under?: boolean
}

export function stackPicture({ layers, page, figures, middle, ground, under = false }: StackView): Primitive[] {
  const bends = ground?.bends ?? []
  const surface = ground?.at ?? (() => 0)
  const cuts = [...new Set([...layers.flatMap(({ spans }) => spans.flat()), ...bends])].sort((a, b) => a - b)
  const stack = layers.map((layer, k) => ({ ...layer, bottom: heights(layers.slice(0, k), cuts) }))
  const place = (along: number, above: number): XY => {
    const height = surface(along) + above
    return page(along, under ? -height : height)
  }
  const items = stack.flatMap(({ thickness, spans, bottom }, k) =>
    spans.map(([from, to]) => {
      const inside = cuts.flatMap((cut, i) => (cut >= from && cuts[i + 1] <= to ? [i] : []))
      const lower = inside.flatMap((i) => [place(cuts[i], bottom[i]), place(cuts[i + 1], bottom[i])])
      const upper = inside.flatMap((i) => [
        place(cuts[i], bottom[i] + thickness),
        place(cuts[i + 1], bottom[i] + thickness),
      ])
      return path([...lower, ...upper.reverse()], true, {
        fill: fill('ink', k % 2 === 0 ? 0.2 : 0.09),
        stroke: stroke(pen.hair),
        layer: 'fill',
      })
    }),
  )
  return middle === null ? items : [...items, ...plyLabels(stack, { cuts, page: place, figures, middle })]
}

/** Height of the stack over each interval between cuts, m. */
function heights(layers: readonly Layer[], cuts: readonly number[]): number[] {
  return cuts.slice(0, -1).map((cut, i) => {
    const middle = (cut + cuts[i + 1]) / 2
    return layers
      .filter(({ spans }) => spans.some(([from, to]) => from < middle && middle < to))
      .reduce((sum, { thickness }) => sum + thickness, 0)
  })
}

/** More thin bands than this go unlabelled; the legend has every thickness. */
const mostLeaders = 3

/** In the band where it is high enough for words, else led out to the right from where the ply ends. */
function plyLabels(
  stack: readonly (Layer & { readonly bottom: readonly number[] })[],
  view: {
    readonly cuts: readonly number[]
    readonly page: (along: number, height: number) => XY
    readonly figures: Figures
    readonly middle: number
  },
): Primitive[] {
  const { cuts, page, figures } = view
  const size = 2.5
  let above = Number.POSITIVE_INFINITY
  const heightOf = (thickness: number): number => page(0, 0)[1] - page(0, thickness)[1]
  const thin = stack.filter(({ thickness }) => heightOf(thickness) < 1.05 * size).length
  return stack.flatMap(({ shape, thickness, spans, bottom }) => {
    const words = `${shape.ply}  ${figures.length(thickness, 1e-5)}`
    const span = spans.find(([from, to]) => from < view.middle && to > view.middle) ?? spans[0]
    if (span === undefined) return []
    const middle = span[0] < view.middle && span[1] > view.middle ? view.middle : (span[0] + span[1]) / 2
    const under = bottom[cuts.findLastIndex((cut) => cut <= middle)] ?? 0
    const [x, y] = page(middle, under + thickness / 2)
    if (heightOf(thickness) >= 1.05 * size) {
      return [text([x, y + 0.35 * size], words, { size, face: 'letter', anchor: 'middle' })]
    }
    if (thin > mostLeaders) return []
    const end = page(span[1], (bottom[cuts.lastIndexOf(span[1]) - 1] ?? 0) + thickness / 2)
    const at: XY = [end[0] + 5, Math.min(end[1] - 2, above - 3.2)]
    above = at[1]
    return leader(at, [end[0] - 0.4, end[1]], words, size)
  })
}
