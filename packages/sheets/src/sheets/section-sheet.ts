/**
 * Sections through the lay-up: along the body, through a finished fin along its chord, through the fillet at its true shape, and
 * along every line that the plan asks for. Where thickness is drawn larger than width the page says by how much.
 */

import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { coreThickness } from '@finwright/core/geometry/edge-profile.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import { type Block, paged, picture } from '../layout/block.ts'
import { dimension } from '../layout/dimension.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { boundsOf } from './bay-frame.ts'
import { filletSection } from './fillet-section.ts'
import { type CutLine, fullThickness, layersAlong, spansAlong, stackPicture } from './stack-section.ts'

export function sectionSheets(input: SheetInput): Leaf[] {
  const { assessment, design, paper } = input
  const { section, shapes } = assessment.pattern
  if (section === null || shapes.every(({ role }) => comesOff(role))) return []
  const area = content(paper)
  const blocks = [
    paragraph(
      'The line A–A across the bay stands on the bay map. Plies are counted from the surface outward; steps are drawn as sharp edges, cloth rounds them.',
      area.width,
      { size: 3.4 },
    ),
    ...alongBody(input, area.width),
    ...throughFin(input, area.width),
    ...filletSection(input, area.width, Math.max(50, area.height - 158)),
    ...design.printing.sections.flatMap((cut, i) => asked(input, cut, i, area.width)),
  ]
  return paged(blocks, area).map((items) => ({ title: 'Sections', subject: 'through the lay-up', items }))
}

const staying = ({ pattern }: Assessment) => pattern.shapes.filter(({ role }) => !comesOff(role))

/** To a whole number, fives above ten and tens above fifty. */
const rounded = (value: number): number => {
  const step = value > 50 ? 10 : value > 10 ? 5 : 1
  return Math.max(1, Math.floor(value / step) * step)
}

interface CutView {
  readonly title: string
  readonly cut: CutLine
  /** Names at the two ends. */
  readonly ends: readonly [string, string]
  readonly note: string
  /** Places along the line that are marked, m, with what is there. */
  readonly marks: readonly { readonly at: number; readonly words: string }[]
}

/** The stack on a level surface, as wide as the page allows. */
function cutBlocks(input: SheetInput, { title, cut, ends, note, marks }: CutView, width: number): Block[] {
  const { assessment, figures } = input
  const layers = layersAlong(staying(assessment), assessment.fin.plies, cut)
  const spans = layers.flatMap(({ spans: own }) => own.flat())
  if (spans.length === 0) return [heading(title, width), paragraph('No ply lies on this line.', width, { size: 3.2 })]
  const [first, last] = [Math.min(...spans), Math.max(...spans)]
  const left = 20
  const scale = (width - 2 * left) / ((last - first) * 1e3)
  const full = fullThickness(layers) * 1e3
  const times = rounded(Math.min(60, 24 / full / scale))
  const x = (along: number): number => left + (along - first) * 1e3 * scale
  const high = full * times * scale
  const base = high + 5
  const ground: Primitive = {
    kind: 'lines',
    layer: 'weave',
    pairs: hatched([box(x(first) - 4, base, x(last) - x(first) + 8, 3)], { angle: Math.PI / 4, spacing: 1.4 }),
    stroke: { ink: 'mid', width: pen.hair },
  }
  const items: Primitive[] = [
    ...stackPicture({
      layers,
      page: (along, height) => [x(along), base - height * 1e3 * times * scale],
      figures,
      middle: (first + last) / 2,
    }),
    ground,
    line([x(first) - 4, base], [x(last) + 4, base], stroke(pen.net)),
    text([x(first) - 5, base - 1], ends[0], { size: 2.8, anchor: 'end', ink: 'dark' }),
    text([x(last) + 5, base - 1], ends[1], { size: 2.8, ink: 'dark' }),
    ...marks
      .filter(({ at }) => at > first && at < last)
      .flatMap(({ at, words }) => [
        line([x(at), base - high - 3], [x(at), base + 4.5], stroke(pen.hair, 'ink', [3, 0.8, 0.5, 0.8])),
        text([x(at), base + 7.4], words, { size: 2.6, anchor: 'middle', ink: 'dark' }),
      ]),
    ...dimension([x(first), base + 9], [x(last), base + 9], figures.length(last - first), {
      offset: -1.5,
      from: 0,
      size: 2.8,
      under: true,
    }),
  ]
  return [
    { ...heading(title, width), keep: true },
    { ...paragraph(`${note} Thickness drawn ${times} times larger than length.`, width, { size: 3 }), keep: true },
    picture(base + 16, items, 2),
  ]
}

const box = (x: number, y: number, width: number, height: number): XY[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
]

function alongBody(input: SheetInput, width: number): Block[] {
  const { minX, maxX } = boundsOf(staying(input.assessment).flatMap(({ netOutline_m }) => netOutline_m))
  const root = input.assessment.pattern.section!.rootLength_m
  return cutBlocks(
    input,
    {
      title: 'B–B along the body',
      cut: { from: [minX, 0], to: [maxX, 0] },
      ends: ['forward', 'aft'],
      note: 'On the centre line of the bay.',
      marks: [
        { at: -minX, words: 'root, forward end' },
        { at: root - minX, words: 'root, aft end' },
      ],
    },
    width,
  )
}

/** A line that the plan asks for, in bay axes. */
function asked(input: SheetInput, cut: CutLine, index: number, width: number): Block[] {
  const { figures } = input
  const place = ([x, y]: readonly [number, number]) => `(${figures.length(x)}, ${figures.length(y)})`
  const name = `S${index + 1}`
  return cutBlocks(
    input,
    {
      title: `${name}–${name} as asked`,
      cut,
      ends: ['from', 'to'],
      note: `From ${place(cut.from)} to ${place(cut.to)}: aft of the root's forward end, across towards the next fin.`,
      marks: [],
    },
    width,
  )
}

/** Half way between the fillet's top and the tip: core with its shaped edges, and the plies on both faces. */
function throughFin({ assessment, design, figures }: SheetInput, width: number): Block[] {
  const { stations_m, span_m } = assessment.pattern.section!
  const across = (stations_m.filletTop + stations_m.tip) / 2
  const up = span_m - (stations_m.tip - across)
  const { minX, maxX } = boundsOf(staying(assessment).flatMap(({ netOutline_m }) => netOutline_m))
  // the fin's two faces are the far side of one bay and the near side of the next
  const onFace = (side: 1 | -1) =>
    layersAlong(staying(assessment), assessment.fin.plies, { from: [minX, side * across], to: [maxX, side * across] })
  const [previous, next] = [onFace(1), onFace(-1)]
  const thickest = (layers: typeof previous): number => fullThickness(layers.filter(({ spans }) => spans.length > 0))
  const outline = design.fins.outline.points.map(([x, y]): [number, number] => [x, y])
  const chord = spansAlong(outline, { from: [minX, up], to: [maxX, up] })
  if (chord.length === 0) return []
  const [first, last] = [chord[0][0], chord[chord.length - 1][1]]
  const thick = coreThickness({
    outline: design.fins.outline,
    thickness: design.fins.core.thickness,
    edges: design.fins.edges,
  })
  const half = (along: number): number => thick([minX + Math.min(Math.max(along, first), last), up]) / 2
  const samples = Array.from({ length: 161 }, (_, i) => first + ((last - first) * i) / 160)
  const left = 16
  const scale = (width - 2 * left) / ((last - first) * 1e3)
  const whole = (design.fins.core.thickness + thickest(previous) + thickest(next)) * 1e3
  const times = rounded(Math.min(20, 34 / whole / scale))
  const middle = (whole * times * scale) / 2 + 3
  const page = (along: number, height: number): XY => [
    left + (along - first) * 1e3 * scale,
    middle - height * 1e3 * times * scale,
  ]
  const core = [...samples.map((s) => page(s, half(s))), ...samples.toReversed().map((s) => page(s, -half(s)))]
  const ground = { at: half, bends: samples }
  const view = { page, figures, ground, middle: null }
  const items: Primitive[] = [
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched([core], { angle: Math.PI / 4, spacing: 1.6 }),
      stroke: { ink: 'mid', width: pen.hair },
    },
    ...stackPicture({ ...view, layers: previous }),
    ...stackPicture({ ...view, layers: next, under: true }),
    path(core, true, { stroke: stroke(pen.net), layer: 'mark' }),
    text([left - 2, middle + 1], 'leading', { size: 2.8, anchor: 'end', ink: 'dark' }),
    text([width - left + 2, middle + 1], 'trailing', { size: 2.8, ink: 'dark' }),
    ...dimension([left, 2 * middle], [width - left, 2 * middle], figures.length(last - first), {
      offset: -1.5,
      from: 0,
      size: 2.8,
      under: true,
    }),
  ]
  return [
    { ...heading('C–C through a finished fin', width), keep: true },
    {
      ...paragraph(
        `Along the chord, ${figures.length(up)} above the body. Core ${figures.length(design.fins.core.thickness)} hatched; ${figures.length(whole * 1e-3, 1e-5)} where all plies lie. Thickness drawn ${times} times larger than length.`,
        width,
        { size: 3 },
      ),
      keep: true,
    },
    picture(2 * middle + 7, items, 2),
  ]
}
