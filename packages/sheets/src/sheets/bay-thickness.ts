/**
 * The stack across the bay map along one line X = constant, with thicknesses drawn larger than widths. Each ply lies on
 * those below it, wherever they are.
 */
import type { Assessment, PieceShape, Point } from '@finwright/core/assess/assessment.ts'
import { fill, line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import { leader } from '../layout/dimension.ts'
import type { Figures } from '../layout/figures.ts'
import type { BayFrame } from './bay-frame.ts'

export interface ThicknessInput {
  readonly assessment: Assessment
  readonly frame: BayFrame
  /** Where the section is taken, m. */
  readonly X: number
  /** Page y of the bare surface. */
  readonly base: number
  /** Page mm over mm of thickness. */
  readonly thicknessScale: number
  readonly figures: Figures
}

interface Layer {
  readonly shape: PieceShape
  readonly thickness: number
  /** Where it lies, from and to, m. */
  readonly spans: readonly (readonly [number, number])[]
}

export function layersAt({ shapes }: Assessment['pattern'], plies: Assessment['fin']['plies'], X: number): Layer[] {
  const thickness = new Map(plies.map(({ id, thickness_m }) => [id, thickness_m]))
  return shapes
    .filter(({ role, ply }) => role !== 'peel' && thickness.has(ply))
    .map((shape) => ({ shape, thickness: thickness.get(shape.ply)!, spans: spansAt(shape.netOutline_m, X) }))
}

/** Thickness of everything that stays, where all of it lies. */
export const fullThickness = (layers: readonly { readonly thickness: number }[]): number =>
  layers.reduce((sum, { thickness }) => sum + thickness, 0)

export function baySectionPicture({
  assessment,
  frame,
  X,
  base,
  thicknessScale,
  figures,
}: ThicknessInput): Primitive[] {
  const layers = layersAt(assessment.pattern, assessment.fin.plies, X)
  const cuts = [...new Set(layers.flatMap(({ spans }) => spans.flat()))].sort((a, b) => a - b)
  const stack = layers.map((layer, k) => ({ ...layer, bottom: heights(layers.slice(0, k), cuts) }))
  const page = (y: number, height: number): XY => [frame.at([0, y])[0], base - height * 1e3 * thicknessScale]
  const items: Primitive[] = []
  stack.forEach(({ thickness, spans, bottom }, k) => {
    for (const [from, to] of spans) {
      const inside = cuts.flatMap((cut, i) => (cut >= from && cuts[i + 1] <= to ? [i] : []))
      const lower = inside.flatMap((i) => [page(cuts[i], bottom[i]), page(cuts[i + 1], bottom[i])])
      const upper = inside.flatMap((i) => [
        page(cuts[i], bottom[i] + thickness),
        page(cuts[i + 1], bottom[i] + thickness),
      ])
      items.push(
        path([...lower, ...upper.reverse()], true, {
          fill: fill('ink', k % 2 === 0 ? 0.2 : 0.09),
          stroke: stroke(pen.hair),
          layer: 'fill',
        }),
      )
    }
  })
  return [...items, ...bareSurface(assessment, frame, base), ...plyLabels(stack, cuts, page, figures)]
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

/** The bare fin face, fillet and body below the stack. */
function bareSurface({ pattern }: Assessment, frame: BayFrame, base: number): Primitive[] {
  const { filletFoot, filletTop, tip } = pattern.section!.stations_m
  const x = (y: number): number => frame.at([0, y])[0]
  const depth = 3
  const strip = (a: number, b: number): XY[] => [
    [x(a), base],
    [x(b), base],
    [x(b), base + depth],
    [x(a), base + depth],
  ]
  const hatch = (a: number, b: number, angle: number, spacing: number): Primitive => ({
    kind: 'lines',
    layer: 'weave',
    pairs: hatched([strip(a, b)], { angle, spacing }),
    stroke: { ink: 'mid', width: pen.hair },
  })
  const down = Math.PI / 4
  return [
    hatch(-tip, -filletTop, down, 1.2),
    hatch(filletTop, tip, down, 1.2),
    hatch(-filletTop, -filletFoot, -down, 0.7),
    hatch(filletFoot, filletTop, -down, 0.7),
    hatch(-filletFoot, filletFoot, -down, 1.8),
    line([x(-tip), base], [x(tip), base], stroke(pen.net)),
    ...[-filletTop, -filletFoot, filletFoot, filletTop].map((y) =>
      line([x(y), base], [x(y), base + depth], stroke(pen.hair)),
    ),
  ]
}

/** More thin bands than this go unlabelled; the legend has every thickness. */
const mostLeaders = 3

/** In the band where it is high enough for words, else led out to the right from where the ply ends. */
function plyLabels(
  stack: readonly (Layer & { readonly bottom: readonly number[] })[],
  cuts: readonly number[],
  page: (y: number, height: number) => XY,
  figures: Figures,
): Primitive[] {
  const size = 2.5
  let above = Number.POSITIVE_INFINITY
  const heightOf = (thickness: number): number => page(0, 0)[1] - page(0, thickness)[1]
  const thin = stack.filter(({ thickness }) => heightOf(thickness) < 1.05 * size).length
  return stack.flatMap(({ shape, thickness, spans, bottom }) => {
    const words = `${shape.ply}  ${figures.length(thickness, 1e-5)}`
    const span = spans.find(([from, to]) => from < 0 && to > 0) ?? spans[0]
    if (span === undefined) return []
    const middle = span[0] < 0 && span[1] > 0 ? 0 : (span[0] + span[1]) / 2
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

/** Where the line X = const lies inside the outline, m across. */
export function spansAt(outline: readonly Point[], X: number): [number, number][] {
  const Y: number[] = []
  outline.forEach(([x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]
    if (x0 <= X !== x1 <= X) Y.push(y0 + ((X - x0) / (x1 - x0)) * (y1 - y0))
  })
  Y.sort((a, b) => a - b)
  const spans: [number, number][] = []
  for (let i = 0; i + 1 < Y.length; i += 2) spans.push([Y[i], Y[i + 1]])
  return spans
}
