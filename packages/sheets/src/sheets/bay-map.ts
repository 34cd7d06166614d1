/** The bay map: one bay unrolled from fin tip to fin tip, its plies, its thickness, and which way round it all is. */

import type { PieceShape } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { circle, fill, line, type Primitive, pen, rectangle, stroke, text, type XY } from '../drawing/drawing.ts'
import { shortened } from '../drawing/lettering.ts'
import { arrow } from '../layout/dimension.ts'
import type { Figures } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { bayDimensions } from './bay-dimensions.ts'
import { type BayFrame, bayFrame, boundsOf, warpTurn } from './bay-frame.ts'
import { bayStrip, stepsOf } from './bay-strip.ts'
import { baySectionPicture, layersAt, spansAt } from './bay-thickness.ts'
import { bayAxes, finNumbering } from './sketches.ts'
import { fullThickness } from './stack-section.ts'
import { warpWords } from './warp-words.ts'
import { weave } from './weave.ts'

const legendWidth = 44
const sketchHeight = 44
const sectionHeight = 40
const greatestExaggeration = 60

/** One page, or none for a design without plies. */
export function bayMap(input: SheetInput): Leaf[] {
  const { assessment, design, paper, figures } = input
  const { bay, section, shapes } = assessment.pattern
  const staying = shapes.filter(({ role }) => !comesOff(role))
  if (bay === null || section === null || staying.length === 0) return []
  const area = content(paper)
  const bounds = boundsOf(staying.flatMap(({ netOutline_m }) => netOutline_m))
  const top = area.y + 29
  const room = {
    width: area.width - legendWidth - 14 - 14,
    height: area.height - 29 - sectionHeight - sketchHeight - 10,
  }
  const scale = Math.min(
    room.width / ((bounds.maxY - bounds.minY) * 1e3),
    room.height / ((bounds.maxX - bounds.minX) * 1e3),
  )
  const middle = area.x + 14 + room.width / 2
  const frame = bayFrame(scale, [middle, top - bounds.minX * 1e3 * scale])
  const bottom = frame.at([bounds.maxX, 0])[1]
  const X = sectionStation(input)
  const layers = layersAt(assessment.pattern, assessment.fin.plies, X)
  const sketchTop = area.y + area.height - sketchHeight
  const full = fullThickness(layers) * 1e3
  const exaggeration = roundDown(Math.min(greatestExaggeration, Math.min(28, sketchTop - bottom - 30) / full / scale))
  const thicknessScale = exaggeration * scale
  const base = bottom + 12 + full * thicknessScale + (sketchTop - bottom - 26 - full * thicknessScale) / 2
  return [
    {
      title: 'Bay map',
      subject: 'one bay, unrolled from fin tip to fin tip',
      items: [
        ...paragraph(firstLine(input), area.width, { size: 3.6 }).draw([area.x, area.y]),
        ...bayStrip({ shapes, bay, design, frame }),
        ...plyCounts(staying, frame),
        ...bayDimensions({
          bay,
          section,
          design,
          frame,
          bounds,
          figures,
          rows: { whole: top - 14, parts: top - 8, names: top - 3 },
        }),
        ...sectionLine(frame, X, bounds),
        ...baySectionPicture({ assessment, frame, X, base, thicknessScale, figures }),
        text(
          [middle, base + 7.4],
          `A–A, ${figures.length(X)} aft of the root's forward end. Thickness drawn ${exaggeration} times larger than width.`,
          { size: 2.8, anchor: 'middle', ink: 'dark' },
        ),
        ...legend(input, [area.x + area.width - legendWidth, top - 17], sketchTop - top + 10),
        ...sketches(section.finCount, [area.x, sketchTop], area.width),
      ],
    },
  ]
}

function firstLine({ assessment, figures }: SheetInput): string {
  const { shapes, bay } = assessment.pattern
  const count = (role: PieceShape['role']): number => shapes.filter((shape) => shape.role === role).length
  const patched = shapes.some(({ cover }) => cover !== 'bay')
  // patches of the two sides do not meet: the thicker side counts
  const thick = (side: 'next' | 'previous'): number =>
    assessment.fin.plies
      .filter(({ id }) => shapes.some(({ ply, cover }) => ply === id && (cover === 'bay' || cover === side)))
      .reduce((sum, { thickness_m }) => sum + thickness_m, 0)
  const thickness = Math.max(thick('next'), thick('previous'))
  const veils = count('surface') > 0 ? ` and ${count('surface')} surface` : ''
  return (
    `${count('structural')} structural${veils} plies to a bay, ${figures.length(thickness, 1e-5)} where ${patched ? 'most' : 'all'} of them lie; ` +
    `${figures.length(bay!.width_m)} from tip to tip on the bare surface. Darker where thicker; the lines lie as the cloth lies.`
  )
}

/** Where the innermost ply is widest; through the middle of the tip where that is as good. */
function sectionStation({ assessment, design }: SheetInput): number {
  const { section, shapes } = assessment.pattern
  const tip = design.fins.outline.points.filter(([, y]) => y > section!.span_m - 1e-6).map(([x]) => x)
  const middle = (Math.min(...tip) + Math.max(...tip)) / 2
  const outline = shapes[0].netOutline_m
  const { minX, maxX } = boundsOf(outline)
  const width = (X: number): number => spansAt(outline, X).reduce((sum, [from, to]) => sum + to - from, 0)
  const others = Array.from({ length: 40 }, (_, i) => minX + ((i + 0.5) / 40) * (maxX - minX))
  return others.reduce((best, X) => (width(X) > width(best) * 1.02 ? X : best), middle)
}

/** In every step on fin k's face, how many plies lie there; on one line across. */
export function plyCounts(shapes: readonly PieceShape[], frame: BayFrame): Primitive[] {
  const widest = boundsOf(shapes[0].netOutline_m)
  const X = widest.minX + 0.36 * (widest.maxX - widest.minX)
  const steps = stepsOf(shapes)
    .map(({ outline }) => ({ edge: Math.min(...spansAt(outline, X).flat()) }))
    // a patch on the other side ends beyond the middle
    .filter(({ edge }) => edge < 0)
    .sort((a, b) => a.edge - b.edge)
  const inner = (steps.at(-1)?.edge ?? 0) + 0.02
  return steps.flatMap(({ edge }, i) => {
    const next = steps[i + 1]?.edge ?? inner
    const middle = (edge + next) / 2
    const lies = ({ netOutline_m }: PieceShape): boolean =>
      spansAt(netOutline_m, X).some(([from, to]) => from < middle && middle < to)
    const count = shapes.filter(lies).length
    const [x, y] = frame.at([X, middle])
    if (frame.at([X, next])[0] - frame.at([X, edge])[0] < 4.4) return []
    return [
      circle([x, y], 2, { fill: fill('paper'), stroke: stroke(pen.hair), layer: 'mark' }),
      text([x, y + 1], `${count}`, { size: 2.9, face: 'title', anchor: 'middle' }),
    ]
  })
}

function sectionLine(frame: BayFrame, X: number, { minY, maxY }: { minY: number; maxY: number }): Primitive[] {
  const [left, y] = frame.at([X, minY])
  const [right] = frame.at([X, maxY])
  const end = (x: number, outward: number): Primitive[] => [
    line([x + outward * 1, y], [x + outward * 3.6, y], stroke(pen.bold)),
    ...arrow([x + outward * 3.6, y], [x + outward * 3.6, y + 3.4], { width: pen.fine, head: 1.8 }),
    text([x + outward * 3.6, y - 1], 'A', { size: 3.2, face: 'title', anchor: 'middle' }),
  ]
  return [
    line([left - 1, y], [right + 1, y], stroke(pen.hair, 'ink', [6, 1, 1, 1])),
    ...end(left, -1),
    ...end(right, 1),
  ]
}

/** To a whole number, fives above ten and tens above fifty. */
function roundDown(value: number): number {
  const step = value > 50 ? 10 : value > 10 ? 5 : 1
  return Math.max(1, Math.floor(value / step) * step)
}

function legend({ assessment, design, figures }: SheetInput, [x, y]: XY, height: number): Primitive[] {
  const [forward, aft] = assessment.pattern.bay!.ends.map(({ nextFillet_m }) => figures.length(nextFillet_m))
  const filletWords =
    forward === aft ? `fillet, ${forward} across` : `fillet, ${forward.replace(/ (mm|in)$/, '')} to ${aft}`
  const items: Primitive[] = [
    text([x, y], 'PLIES', { size: 3.4, face: 'title', tracking: 0.06 }),
    text([x + legendWidth, y], 'core outward ↓', { size: 2.8, anchor: 'end', ink: 'dark' }),
    line([x, y + 1.6], [x + legendWidth, y + 1.6], stroke(pen.fine)),
  ]
  const angles = new Map(design.plies.map(({ id, angle }) => [id, angle]))
  const thickness = new Map(assessment.fin.plies.map(({ id, thickness_m }) => [id, thickness_m]))
  const shapes = assessment.pattern.shapes
  const row = Math.min(13, (height - 34) / shapes.length)
  const side = Math.max(3, Math.min(10, row - 2))
  const lines = row >= 11 ? 3 : row >= 7.4 ? 2 : 1
  shapes.forEach((shape, i) => {
    const top = y + 3.4 + i * row
    items.push(...plySwatch(shape, angles.get(shape.ply) ?? 0, [x, top], side))
    const left = x + side + 2.4
    const degrees = ((angles.get(shape.ply) ?? 0) * 180) / Math.PI
    items.push(
      text([left, top + 3], shape.ply, { size: 3.4, face: 'title' }),
      text([x + legendWidth, top + 3], warpWords(shape.role, degrees, figures), {
        size: 3.4,
        face: 'letter',
        anchor: 'end',
      }),
      ...swatchLines(shape, thickness.get(shape.ply), figures, lines).map((words, k) =>
        text([left, top + 6.4 + 3.1 * k], shortened(words, legendWidth - side - 2.4, swatchLettering), {
          ...swatchLettering,
          ink: 'dark',
        }),
      ),
    )
  })
  return [...items, ...lineLegend([x, y + 3.4 + shapes.length * row + 3], filletWords)]
}

const swatchLettering = { size: 2.5, face: 'text' } as const

/** Cloth and thickness on two lines, on one where the rows are low, on none where they are lower still. */
function swatchLines(shape: PieceShape, thickness: number | undefined, figures: Figures, lines: number): string[] {
  const note = swatchNote(shape, thickness, figures)
  if (lines === 3) return [shape.clothName, note]
  return lines === 2 ? [`${figures.length(thickness, 1e-5)}  ${shape.clothName}`] : []
}

function swatchNote(shape: PieceShape, thickness: number | undefined, figures: Figures): string {
  if (comesOff(shape.role)) return 'comes off after cure'
  const where = shape.cover === 'bay' ? '' : `, on ${shape.cover === 'next' ? 'fin k + 1' : 'fin k'}`
  return `${figures.length(thickness, 1e-5)} cured${shape.role === 'surface' ? ', surface' : ''}${where}`
}

function plySwatch(shape: PieceShape, angle: number, [x, y]: XY, side: number): Primitive[] {
  const square: XY[] = [
    [x, y],
    [x + side, y],
    [x + side, y + side],
    [x, y + side],
  ]
  const dashed = comesOff(shape.role) ? { ...stroke(pen.thin), dash: [1, 0.7] } : stroke(pen.thin)
  return [
    ...(shape.role === 'film'
      ? []
      : weave([square], { turn: warpTurn(angle), spacing: 1.25, origin: [x + side / 2, y + side / 2] })),
    rectangle({ x, y, width: side, height: side }, { stroke: dashed }),
  ]
}

function lineLegend([x, y]: XY, filletWords: string): Primitive[] {
  const rows: readonly (readonly [string, number, readonly number[] | undefined])[] = [
    ['fin core', pen.bold, undefined],
    ['net edge of the plies', pen.net, undefined],
    [filletWords, pen.thin, [1.6, 1]],
    ['centre line of the bay', pen.thin, [5, 1, 1, 1]],
    ['ends of the root', pen.thin, [3, 0.8, 0.5, 0.8]],
  ]
  const count = y + rows.length * 4.2
  return [
    circle([x + 5, count], 1.8, { stroke: stroke(pen.hair) }),
    text([x + 5, count + 0.9], '3', { size: 2.6, face: 'title', anchor: 'middle' }),
    text([x + 12.4, count + 0.9], 'plies that lie there', { size: 2.7 }),
    ...lineRows(rows, [x, y]),
  ]
}

function lineRows(
  rows: readonly (readonly [string, number, readonly number[] | undefined])[],
  [x, y]: XY,
): Primitive[] {
  return rows.flatMap(([words, width, dash], i) => [
    line([x, y + i * 4.2], [x + 10, y + i * 4.2], dash === undefined ? stroke(width) : stroke(width, 'ink', dash)),
    text([x + 12.4, y + i * 4.2 + 0.9], words, { size: 2.7 }),
  ])
}

function sketches(finCount: number, [x, y]: XY, width: number): Primitive[] {
  const size = sketchHeight - 5
  const second = x + width / 2
  const words = (left: number, lines: readonly string[]): Primitive[] =>
    lines.map((row, i) => text([left, y + 11 + i * 4.3], row, { size: 3 }))
  return [
    line([x, y], [x + width, y], stroke(pen.hair, 'mid')),
    ...bayAxes([x, y + 4], size, ['fin k', 'fin k + 1']),
    text([x + size + 5, y + 6.4], 'Bay k, seen from outside', { size: 3.2, face: 'title' }),
    ...words(x + size + 5, [
      'X runs aft from the root’s',
      'forward end, Y from fin k to',
      'fin k + 1. A ply’s angle is its',
      'warp’s, from +Y towards +X.',
      'The last bay closes to fin 1.',
    ]),
    ...finNumbering([second, y + 4], size, finCount),
    text([second + size + 2, y + 6.4], 'The can, seen from the tail', { size: 3.2, face: 'title' }),
    ...words(second + size + 2, [
      'Looking forward. Fins count',
      'clockwise from the datum;',
      'bay k lies between fin k',
      'and the next. Positive cant',
      'rolls the rocket clockwise.',
    ]),
  ]
}
