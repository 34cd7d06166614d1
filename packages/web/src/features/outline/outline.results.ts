/** The outline in words and figures. */
import type { FinSection } from '@finwright/core/assess/assessment.ts'
import { area } from '@finwright/core/geometry/polygon.ts'
import { type Figures, plain } from '@finwright/sheets/layout/figures.ts'
import { edgesOf, pointsOf, rootOf, type Shape, spanOf } from './shape.ts'

export function answerInWords(shape: Shape | null, fin: FinSection | undefined, figures: Figures): string {
  if (shape === null) return 'The outline cannot be read; see its dimensions below.'
  const mass = fin === undefined ? '' : ` A finished fin weighs ${figures.grams(fin.mass_kg)}.`
  return (
    `${figures.length(rootOf(shape))} at the root, ${figures.length(spanOf(shape))} of span, ${figures.area(area(pointsOf(shape)))} a face.` +
    ` The leading edge is swept ${plain((sweepOf(shape) * 180) / Math.PI, 1)}°.${mass}`
  )
}

/** Of the straight line from the root's leading edge to the end of the leading edge; from square to the root, aft, rad. */
export function sweepOf(shape: Shape): number {
  const points = pointsOf(shape)
  const edges = edgesOf(shape)
  const last = edges.lastIndexOf('leading')
  const [x, y] = points[last < 0 ? 1 : last + 1]!
  return Math.atan2(x, y)
}

export const edgeWords = { leading: 'leading edge', tip: 'tip', trailing: 'trailing edge' } as const

export function pointName(shape: Shape, at: number): string {
  const last = pointsOf(shape).length - 1
  if (at === 0) return 'Root, leading end'
  if (at === last) return 'Root, trailing end'
  if (shape.kind === 'trapezoid') return at === 1 ? 'Tip, leading end' : 'Tip, trailing end'
  return `Point ${at + 1}`
}
