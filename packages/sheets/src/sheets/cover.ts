/** The cover: the verdicts in words, the numbers a builder needs first, what to look at, and what this package is not. */
import type { Issue } from '@finwright/core/issue.ts'
import { answersIn } from '../answers.ts'
import { fill, line, type Primitive, pen, rectangle, stroke, text } from '../drawing/drawing.ts'
import { textWidth, wrapped } from '../drawing/lettering.ts'
import { type Block, paged } from '../layout/block.ts'
import { caution } from '../layout/controls.ts'
import { none, ratio } from '../layout/figures.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { cautions } from './cautions.data.ts'
import { holdAnswer } from './hold-answer.ts'

export type CoverInput = Pick<SheetInput, 'assessment' | 'figures' | 'paper' | 'identity'> & {
  readonly contents: readonly { readonly file: string; readonly what: string }[]
}

export function cover(input: CoverInput): Leaf[] {
  const area = content(input.paper)
  const { width } = area
  const { assessment } = input
  const blocks: Block[] = [
    nameBlock(input, width),
    ...(assessment.note === '' ? [] : [paragraph(assessment.note, width, { size: 3.6, ink: 'dark' })]),
    verdict(input, width),
    ...answers(input, width),
    caution(assessment.kind === 'study' ? cautions.record : `${cautions.record} ${cautions.order}`, width, 4),
    ...keyNumbers(input, width),
    ...toLookAt(assessment.warnings, assessment.pattern.rules, width),
    ...(assessment.kind === 'study' ? [] : beforeYouStart(width)),
    ...contentsList(input, width),
  ]
  const title = assessment.kind === 'study' ? 'Study' : 'Build package'
  return paged(blocks, area).map((items) => ({ title, subject: '', items }))
}

const beforeYouStart = (width: number): Block[] => [
  heading('Before you start', width),
  caution(cautions.health, width, 1.5),
  caution(cautions.resin, width),
  caution(cautions.flight, width),
]

function nameBlock({ assessment, identity }: CoverInput, width: number): Block {
  const size = Math.min(9, (9 * width) / textWidth(assessment.name, { size: 9, face: 'title' }))
  const { hash, date } = identity.revision
  return {
    height: size + 7,
    gap: 0,
    draw: ([x, y]) => [
      text([x, y + size * 0.8], assessment.name, { size, face: 'title' }),
      text([x, y + size + 4.6], `revision ${hash} · ${date}`, { size: 3.6, face: 'letter', ink: 'dark' }),
    ],
  }
}

/** The hardest question first, in large letters over a rule of the accent, or of the colour of danger when it fails. */
function verdict(input: CoverInput, width: number): Block {
  const words = holdAnswer(input)
  const lettering = { size: 5, face: 'strong' } as const
  const lines = wrapped(words, width - 8, lettering)
  const height = lines.length * 6.6 + 6
  const ink = input.assessment.flutter.margin.verdict === 'does not hold' ? 'danger' : 'saffron'
  return {
    height,
    gap: 4,
    draw: ([x, y]) => [
      rectangle({ x, y, width: 2, height }, { fill: fill(ink), layer: 'fill' }),
      ...lines.map((row, i) => text([x + 6, y + 7 + i * 6.6], row, lettering)),
    ],
  }
}

function answers({ assessment, figures }: CoverInput, width: number): Block[] {
  const others = answersIn(assessment, figures.units).filter(({ question }) => question !== 'Will it hold?')
  return others.map(({ question, answer }): Block => {
    const label = 46
    const name = wrapped(question, label - 3, { size: 3.5, face: 'strong' })
    const body = paragraph(answer, width - label, { size: 3.7 })
    return {
      height: Math.max(body.height, name.length * 4.6) + 2,
      gap: 1.2,
      draw: ([x, y]) => [
        line([x, y], [x + width, y], stroke(pen.hair, 'light')),
        ...name.map((row, i) => text([x, y + 4.6 + i * 4.6], row, { size: 3.5, face: 'strong' })),
        ...body.draw([x + label, y + 1.2]),
      ],
    }
  })
}

/** A grid of figures, each with its name. */
function keyNumbers({ assessment, figures }: CoverInput, width: number): Block[] {
  const { flight, fin, flutter, pattern, nest, resin, bond } = assessment
  const cells: (readonly [string, string])[] = [
    ['greatest Mach', ratio(flight.maximumMach)],
    ['dynamic pressure', figures.pressure(flight.maximumDynamicPressure_Pa)],
    ['flutter margin', flutter.margin.speedRatio === null ? 'not determined' : ratio(flutter.margin.speedRatio)],
    ['screening number', ratio(flutter.screening?.speedRatio)],
    [assessment.kind === 'study' ? 'plate' : 'fin, one', figures.grams(fin.mass_kg)],
    ['thickness, root', figures.length(fin.thickness_m.root, 1e-5)],
    ['strip, tip to tip', figures.length(pattern.bay?.width_m)],
    ['pieces', pattern.pieces.length === 0 ? none : `${pattern.pieces.length}`],
    ['dry cloth, a bay', figures.grams(resin.cloth_kg)],
    ['resin, a bay', figures.grams(resin.resin_kg)],
    ['hardener, a bay', figures.grams(resin.hardener_kg)],
    ['adhesive, a can', figures.grams(bond.fillet?.mixMass_kg)],
    ...nest.rolls
      .filter(({ placements }) => placements.length > 0)
      .map((roll) => [`of ${roll.clothName}`, figures.length(roll.usedLength_m, 1e-3)] as const),
  ].filter((cell): cell is [string, string] => cell[1] !== none)
  const columns = 4
  const own = width / columns
  const height = 13
  const rows = Math.ceil(cells.length / columns)
  return [
    heading('Numbers', width),
    {
      height: rows * height,
      gap: 1.5,
      draw: ([x, y]) =>
        cells.flatMap(([label, value], i): Primitive[] => {
          const left = x + (i % columns) * own
          const top = y + Math.floor(i / columns) * height
          const size = Math.min(5.2, (5.2 * (own - 3)) / textWidth(value, { size: 5.2, face: 'letter' }))
          return [
            text([left, top + 3.4], label, { size: 2.9, ink: 'dark' }),
            text([left, top + 9.4], value, { size, face: 'letter' }),
          ]
        }),
    },
  ]
}

/** Warnings and broken rules, each with what to do. */
export function toLookAt(warnings: readonly Issue[], rules: readonly Issue[], width: number): Block[] {
  const codes = new Set(warnings.map(({ code, message }) => code + message))
  const all = [...warnings, ...rules.filter(({ code, message }) => !codes.has(code + message))]
  if (all.length === 0) return [heading('To look at', width), paragraph('No warning.', width)]
  return [
    heading(`To look at: ${all.length} ${all.length === 1 ? 'warning' : 'warnings'}`, width),
    ...all.map(({ message, hint }): Block => {
      const said = paragraph(message, width - 6, { size: 3.5, face: 'strong' })
      const todo = paragraph(hint, width - 6, { size: 3.4, ink: 'dark' })
      return {
        height: said.height + todo.height + 0.6,
        gap: 1.8,
        draw: ([x, y]) => [
          rectangle({ x: x + 0.4, y: y + 1.2, width: 2.2, height: 2.2 }, { stroke: stroke(pen.fine) }),
          ...said.draw([x + 6, y]),
          ...todo.draw([x + 6, y + said.height + 0.4]),
        ],
      }
    }),
  ]
}

function contentsList({ contents }: CoverInput, width: number): Block[] {
  return [
    heading('In this package', width),
    ...contents.map(
      ({ file, what }): Block => ({
        height: 4.9,
        gap: 0,
        draw: ([x, y]) => [
          text([x, y + 3.6], file, { size: 3.3, face: 'letter' }),
          text([x + 62, y + 3.6], what, { size: 3.3, ink: 'dark' }),
        ],
      }),
    ),
  ]
}
