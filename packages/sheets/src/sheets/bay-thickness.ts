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
  return [...stackPicture({ layers, page, figures, middle: 0 }), ...bareSurface(assessment, frame, base)]
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
