/**
 * The stack across the bay map along one line X = constant, with thicknesses drawn larger than widths. Each ply lies on
 * those below it, wherever they are.
 */
import type { Assessment, Point } from '@finwright/core/assess/assessment.ts'
import { line, type Primitive, pen, stroke, type XY } from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import type { Figures } from '../layout/figures.ts'
import type { BayFrame } from './bay-frame.ts'
import { type Layer, layersAlong, spansAlong, stackPicture } from './stack-section.ts'

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

/** Wider than any bay, m. */
const beyond = 10

const across = (X: number) => ({ from: [X, -beyond], to: [X, beyond] }) as const

/** Spans from and to Y, m. */
export const layersAt = ({ shapes }: Assessment['pattern'], plies: Assessment['fin']['plies'], X: number): Layer[] =>
  layersAlong(shapes, plies, across(X)).map((layer) => ({
    ...layer,
    spans: layer.spans.map(([a, b]) => [a - beyond, b - beyond] as const),
  }))

/** Where the line X = const lies inside the outline, m across. */
export const spansAt = (outline: readonly Point[], X: number): [number, number][] =>
  spansAlong(outline, across(X)).map(([a, b]) => [a - beyond, b - beyond])

export function baySectionPicture(input: ThicknessInput): Primitive[] {
  const { assessment, frame, X, base, thicknessScale, figures } = input
  const layers = layersAt(assessment.pattern, assessment.fin.plies, X)
  const page = (y: number, height: number): XY => [frame.at([0, y])[0], base - height * 1e3 * thicknessScale]
  return [...stackPicture({ layers, page, figures, middle: 0 }), ...bareSurface(assessment, { frame, base, X })]
}

/** The bare fin face, fillet and body below the stack, where the line X = const cuts them. */
function bareSurface(
  { pattern }: Assessment,
  { frame, base, X }: Pick<ThicknessInput, 'frame' | 'base' | 'X'>,
): Primitive[] {
  const { feet_m, tops_m, core_m } = pattern.bay!
  const [foot0, foot1] = feet_m.map((points) => crossing(points, X))
  const [top0, top1] = tops_m.map((points) => crossing(points, X))
  const faces = core_m.map((points) => points.flatMap((p, i) => crossings(points[i - 1], p, X)))
  const [tip0, tip1] = [Math.min(top0, ...faces[0]), Math.max(top1, ...faces[1])]
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
    hatch(tip0, top0, down, 1.2),
    hatch(top1, tip1, down, 1.2),
    hatch(top0, foot0, -down, 0.7),
    hatch(foot1, top1, -down, 0.7),
    hatch(foot0, foot1, -down, 1.8),
    line([x(tip0), base], [x(tip1), base], stroke(pen.net)),
    ...[top0, foot0, foot1, top1].map((y) => line([x(y), base], [x(y), base + depth], stroke(pen.hair))),
  ]
}

/** Y at which a stretch crosses X, if it does. */
function crossings(a: Point | undefined, b: Point, X: number): number[] {
  if (a === undefined || a[0] <= X === b[0] <= X) return []
  return [a[1] + ((X - a[0]) / (b[0] - a[0])) * (b[1] - a[1])]
}

/** Of a line along the bay; taken on to X where it ends before. */
function crossing(points: readonly Point[], X: number): number {
  const found = points.flatMap((p, i) => crossings(points[i - 1], p, X))
  return found[0] ?? (X < points[0][0] ? points[0][1] : points[points.length - 1][1])
}
