/** Dimensions around the bay map: along the root and the tip, and across the strip on the bare surface. */
import type { SectionFigures } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { type Primitive, text } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'
import { dimension } from '../layout/dimension.ts'
import type { Figures } from '../layout/figures.ts'
import type { BayFrame, Bounds } from './bay-frame.ts'

export interface DimensionInput {
  readonly section: SectionFigures
  readonly design: CanDesign
  readonly frame: BayFrame
  readonly bounds: Bounds
  readonly figures: Figures
  /** Page y of the line of the overall width, and of the line of its parts. */
  readonly rows: { readonly whole: number; readonly parts: number; readonly names: number }
}

export function bayDimensions(input: DimensionInput): Primitive[] {
  return [...acrossDimensions(input), ...rootDimensions(input), ...tipDimensions(input)]
}

function acrossDimensions({ section, frame, bounds, figures, rows }: DimensionInput): Primitive[] {
  const { filletFoot, filletTop, tip } = section.stations_m
  const from = frame.at([bounds.minX, 0])[1]
  const stations = [-tip, -filletTop, -filletFoot, filletFoot, filletTop, tip]
  const x = stations.map((y) => frame.at([0, y])[0])
  const names = ['fin k', 'fillet', 'body', 'fillet', 'fin k + 1']
  const row = (a: number, b: number, y: number, label: string): Primitive[] =>
    dimension([a, from], [b, from], label, { offset: from - y, from: 2, size: 2.7 })
  // a part too narrow for its words has neither: the legend gives the fillet's width
  const parts = names.flatMap((name, i) => {
    const width = x[i + 1] - x[i]
    const label = bare(figures.length(stations[i + 1] - stations[i]))
    const fits = width > 0.75 * textWidth(label, { size: 2.7, face: 'letter' }) + 0.6
    const named = width > textWidth(name, nameStyle) + 0.8
    return [
      ...row(x[i], x[i + 1], rows.parts, fits ? label : ''),
      ...(named ? [text([(x[i] + x[i + 1]) / 2, rows.names], name, { ...nameStyle, anchor: 'middle' })] : []),
    ]
  })
  return [...row(x[0], x[5], rows.whole, `${figures.length(2 * tip)} tip to tip`), ...parts]
}

const nameStyle = { size: 2.9, face: 'title', tracking: 0.03 } as const

function rootDimensions({ section, frame, bounds, figures }: DimensionInput): Primitive[] {
  const left = frame.at([0, bounds.minY])[0]
  const at = (x: number) => [left, frame.at([x, 0])[1]] as const
  const stations = [bounds.minX, 0, section.rootLength_m, bounds.maxX]
  return stations.slice(1).flatMap((x, i) => {
    if (x - stations[i] < 1e-4) return []
    const label = i === 1 ? `root ${figures.length(x - stations[i])}` : bare(figures.length(x - stations[i]))
    return dimension(at(x), at(stations[i]), label, { offset: 9, from: 2, size: 2.7 })
  })
}

/** Sweep and tip chord, where the outline has a tip. */
function tipDimensions({ section, design, frame, bounds, figures }: DimensionInput): Primitive[] {
  const { points } = design.fins.outline
  const tipX = points.filter(([, y]) => y > section.span_m - 1e-6).map(([x]) => x)
  if (tipX.length === 0) return []
  const right = frame.at([0, bounds.maxY])[0]
  const [first, last] = [Math.min(...tipX), Math.max(...tipX)]
  const at = (x: number) => [right, frame.at([x, 0])[1]] as const
  const spans: readonly (readonly [number, number, string])[] = [
    [0, first, 'sweep'],
    [first, last, 'tip'],
  ]
  return spans.flatMap(([a, b, name]) =>
    b - a < 1e-4 ? [] : dimension(at(b), at(a), `${name} ${figures.length(b - a)}`, { offset: -9, from: 2, size: 2.7 }),
  )
}

/** Without the unit: the row's first label says it. */
const bare = (figure: string): string => figure.replace(/ (mm|in)$/, '')
