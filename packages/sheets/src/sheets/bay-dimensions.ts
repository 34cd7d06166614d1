/** Dimensions around the bay map: along the root and the tip, and across the strip on the bare surface. */
import type { BayFigures, SectionFigures } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { type Primitive, text } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'
import { dimension } from '../layout/dimension.ts'
import type { Figures } from '../layout/figures.ts'
import type { BayFrame, Bounds } from './bay-frame.ts'

export interface DimensionInput {
  readonly bay: BayFigures
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

function acrossDimensions({ bay, frame, bounds, figures, rows }: DimensionInput): Primitive[] {
  const Y = bay.core_m.flat().map(([, y]) => y)
  const [left, right] = [Math.min(...Y), Math.max(...Y)]
  const page = (y: number): number => frame.at([0, y])[0]
  const row = (end: BayFigures['ends'][number], where: PartRow): Primitive[] => {
    const x = [left, ...end.at_m.map(([, y]) => y), right].map(page)
    const face = bay.straight ? figures.length(right - end.at_m[3][1]) : ''
    const labels = [
      face,
      ...[end.previousFillet_m, end.body_m, end.nextFillet_m].map((one) => figures.length(one)),
      face,
    ]
    return partRow(x, labels, where)
  }
  const [forward, aft] = bay.ends
  const foot = frame.at([bounds.maxX, 0])[1]
  const from = frame.at([bounds.minX, 0])[1]
  return [
    ...dimension([page(left), from], [page(right), from], `${figures.length(right - left)} tip to tip`, {
      offset: from - rows.whole,
      from: 2,
      size: 2.7,
    }),
    ...row(forward, { from, line: rows.parts, names: rows.names }),
    ...(bay.straight ? [] : row(aft, { from: foot, line: foot + 5.2, names: null })),
  ]
}

interface PartRow {
  /** Page y of the measured edge, of the dimension's line, and of the names of the parts. */
  readonly from: number
  readonly line: number
  readonly names: number | null
}

/** A part too narrow for its words has neither: the legend gives the fillet's width. A part without a label has its name alone. */
function partRow(x: readonly number[], labels: readonly string[], { from, line, names }: PartRow): Primitive[] {
  return ['fin k', 'fillet', 'body', 'fillet', 'fin k + 1'].flatMap((name, i) => {
    const width = x[i + 1] - x[i]
    const label = bare(labels[i])
    const fits = width > 0.75 * textWidth(label, { size: 2.7, face: 'letter' }) + 0.6
    const named = names !== null && width > textWidth(name, nameStyle) + 0.8
    const style = { offset: from - line, from: 2, size: 2.7 }
    return [
      ...(label === '' ? [] : dimension([x[i], from], [x[i + 1], from], fits ? label : '', style)),
      ...(named ? [text([(x[i] + x[i + 1]) / 2, names], name, { ...nameStyle, anchor: 'middle' })] : []),
    ]
  })
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

/** Sweep and tip chord, where the outline has a tip; on a bay that is not straight the tip alone, along the face as it lies. */
function tipDimensions({ bay, section, design, frame, bounds, figures }: DimensionInput): Primitive[] {
  const { points } = design.fins.outline
  const onTip = points.flatMap(([, y], i) => (y > section.span_m - 1e-6 ? [i] : []))
  if (onTip.length === 0) return []
  const style = { offset: -9, from: 2, size: 2.7 }
  const [i, k] = [onTip[0], onTip[onTip.length - 1]]
  const [first, last] = [points[i][0], points[k][0]]
  const tip = `tip ${figures.length(last - first)}`
  if (!bay.straight) {
    const core = bay.core_m[1]
    if (core.length !== points.length || last - first < 1e-4) return []
    return dimension(frame.at(core[k]), frame.at(core[i]), tip, {
      ...style,
      offset: frame.at(core[i])[0] - frame.at([0, bounds.maxY])[0] - 5,
    })
  }
  const right = frame.at([0, bounds.maxY])[0]
  const at = (x: number) => [right, frame.at([x, 0])[1]] as const
  return [
    ...(first < 1e-4 ? [] : dimension(at(first), at(0), `sweep ${figures.length(first)}`, style)),
    ...(last - first < 1e-4 ? [] : dimension(at(last), at(first), tip, style)),
  ]
}

/** Without the unit: the row's first label says it. */
const bare = (figure: string): string => figure.replace(/ (mm|in)$/, '')
