/** The traveller: one a can, from identity to sign-off, in a fixed order with points that may not be passed unsigned. */
import type { Can } from '@finwright/core/assess/design.ts'
import { type Block, paged, stacked } from '../layout/block.ts'
import { caution, fields, holdPoint, tickLines, writingBox } from '../layout/controls.ts'
import type { Figures } from '../layout/figures.ts'
import { unitIn, wordsIn } from '../layout/in-units.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table, write } from '../layout/table.ts'
import { bullets, heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { cautions } from './cautions.data.ts'
import { rangePage } from './range-page.ts'
import { afterLayup, beforeLayup, type TravellerStep } from './traveller-steps.data.ts'

export function traveller(can: Can, input: SheetInput): Leaf[] {
  const area = content(input.paper)
  const { width } = area
  const fins = input.design.fins.count
  const blocks: Block[] = [
    ...identity(can, input, width),
    ...materials(input, width),
    ...beforeLayup.flatMap((step, i) => stepBlocks(step, i + 1, fins, input, width)),
    ...bays(can, beforeLayup.length + 1, input, width),
    ...afterLayup.flatMap((step, i) => stepBlocks(step, beforeLayup.length + 2 + i, fins, input, width)),
    ...deviations(width),
    ...signOff(can, width),
  ]
  const subject = `can ${can.letter} (${can.purpose})`
  const pages = paged(blocks, area).map((items) => ({ title: 'Traveller', subject, items }))
  return [...pages, rangePage(can, input)]
}

function identity(can: Can, { assessment, identity, design }: SheetInput, width: number): Block[] {
  const { hash, date } = identity.revision
  return [
    paragraph(
      `Follows can ${can.letter} from the first core to the launch site. No step is skipped; a HOLD is passed only signed.`,
      width,
      { size: 4 },
    ),
    fields(
      [
        { label: 'can', value: can.letter, share: 0.5 },
        { label: 'purpose', value: can.purpose, share: 0.8 },
        { label: 'revision', value: hash, share: 1.2 },
        { label: 'dated', value: date },
        { label: 'serial number' },
      ],
      width,
      12,
      3,
    ),
    fields(
      [
        { label: 'project', value: assessment.name, share: 2 },
        { label: 'fins', value: `${design.fins.count}`, share: 0.5 },
        { label: 'builder' },
        { label: 'checker' },
      ],
      width,
      12,
      0,
    ),
    caution(cautions.order, width, 3),
  ]
}

/** Everything that goes in, with room for its lot. */
function materials({ design, assessment, figures }: SheetInput, width: number): Block[] {
  const cloths = [...new Map(design.plies.map(({ cloth }) => [cloth.id, cloth])).values()]
  const { fillet } = assessment.bond
  const rows: Cell[][] = [
    ['core', `${design.fins.core.material.name}, ${figures.length(design.fins.core.thickness)}`, write, write],
    ...cloths.map((cloth): Cell[] => ['cloth', cloth.name, write, write]),
    ['resin', design.resin.name, write, write],
    ['hardener', 'of the same system', write, write],
    [
      'adhesive',
      `${design.fins.fillet.adhesive.name}${fillet === null ? '' : `, ${figures.grams(fillet.mixMass_kg, 0)} for the fillets, waste in`}`,
      write,
      write,
    ],
  ]
  const columns: Column[] = [
    { head: 'material', share: 1.2, ink: 'dark' },
    { head: 'as planned', share: 4 },
    { head: 'product and lot used', share: 3.4 },
    { head: 'expires', share: 1.4 },
  ]
  return [heading('Materials', width), ...table(columns, rows, width, { size: 3.4, rowHeight: 8 })]
}

function stepBlocks(step: TravellerStep, number: number, fins: number, input: SheetInput, width: number): Block[] {
  const title = heading(`${number}  ${step.title}`, width, 7)
  const filled = withLimits(inUnits(step, input.figures), input)
  const work = bullets(filled.work, width, { size: 3.5, gap: 0.6 }).map((block) => ({ ...block, keep: true }))
  const last = step.hold.length === 0
  const sign = fields([{ label: 'done by' }, { label: 'date and time' }, { label: 'deviation no.' }], width, 9, 0)
  const blocks = [
    title,
    ...work,
    ...filled.cautions.map((words) => ({ ...caution(words, width, 2), keep: true })),
    ...(filled.fields.length === 0 ? [] : [{ ...fields(filled.fields, width, 10, 2.4), keep: true }]),
    ...(filled.perFin === undefined ? [] : finTable(filled, fins, width)),
    ...(last ? [sign] : [holdPoint(step.title.toLowerCase(), filled.hold, width, 2)]),
  ]
  // a step stays on one page unless it is longer than one
  const whole = stacked(blocks, 7)
  return whole.height < content(input.paper).height ? [whole] : blocks
}

function inUnits(step: TravellerStep, figures: Figures): TravellerStep {
  const all = (lines: readonly string[]): string[] => lines.map((words) => wordsIn(words, figures))
  return {
    ...step,
    work: all(step.work),
    hold: all(step.hold),
    cautions: all(step.cautions),
    fields: step.fields.map((field) =>
      field.unit === undefined ? field : { ...field, unit: unitIn(field.unit, figures) },
    ),
    ...(step.perFin === undefined ? {} : { perFin: all(step.perFin) }),
  }
}

/** The allowed cant and the planned load stand where they are measured against. */
function withLimits(step: TravellerStep, { assessment, figures }: SheetInput): TravellerStep {
  const cant = assessment.roll.tolerance.cant_deg
  const { load } = assessment.strength
  if (step.title.startsWith('Alignment') && cant !== null) {
    return { ...step, work: [...step.work, `Allowed by this plan: mean cant ${figures.angle(cant, 2)}.`] }
  }
  if (step.title === 'Proof load' && load !== null) {
    return {
      ...step,
      work: [...step.work, `Limit load by this plan: ${figures.force(load.force_N)} on one fin (${load.basis}).`],
    }
  }
  return step
}

function finTable({ perFin: heads = [], ways = [''] }: TravellerStep, fins: number, width: number): Block[] {
  const columns: Column[] = [
    { head: 'fin', share: 0.6, face: 'title', size: 4.4, align: 'middle' },
    ...(ways.length > 1 ? [{ head: 'way', share: 1 }] : []),
    ...heads.map((head): Column => ({ head, share: 1 })),
  ]
  const rows = Array.from({ length: fins }, (_, i) =>
    ways.map((way, k): Cell[] => [
      k === 0 ? `${i + 1}` : '',
      ...(ways.length > 1 ? [way] : []),
      ...heads.map(() => write),
    ]),
  ).flat()
  return table(columns, rows, width, { size: 3.4, rowHeight: ways.length > 1 ? 7 : 7.6, gap: 2, rules: 'grid' })
}

function bays(can: Can, number: number, { design }: SheetInput, width: number): Block[] {
  const columns: Column[] = [
    { head: 'bay', share: 0.7, face: 'title', size: 4.4 },
    { head: 'laid on', share: 1.4 },
    { head: 'by', share: 1 },
    { head: 'plies counted', share: 1.2 },
    { head: 'gain, g', share: 1 },
    { head: 'hard on', share: 1.2 },
    { head: 'deviations', share: 1.2 },
    { head: 'checked by', share: 1.1 },
  ]
  const rows = Array.from({ length: design.fins.count }, (_, i): Cell[] => [
    `${can.letter}-${i + 1}`,
    ...columns.slice(1).map(() => write),
  ])
  return [
    heading(`${number}  Bays`, width, 7),
    ...bullets(
      [
        'One bay is one session: its lay-up sheet and its mix card, filled in, belong to this traveller.',
        'Both faces of a fin get the same schedule, from two different bays.',
      ],
      width,
      { size: 3.5, gap: 0.6 },
    ).map((block) => ({ ...block, keep: true })),
    ...table(columns, rows, width, { size: 3.4, rowHeight: 9, gap: 2, rules: 'grid' }),
    holdPoint(
      'skins complete',
      ['All lay-up sheets and mix cards attached, all plies counted, witness cups hard.'],
      width,
      2,
    ),
  ]
}

function deviations(width: number): Block[] {
  const columns: Column[] = [
    { head: 'no.', share: 0.5, align: 'middle', face: 'title' },
    { head: 'step', share: 0.8 },
    { head: 'what, where on the bay map', share: 3.6 },
    { head: 'disposition', share: 2.2 },
    { head: 'by, not the one who made it', share: 1.8 },
    { head: 'date', share: 1 },
  ]
  const rows = Array.from({ length: 8 }, (_, i): Cell[] => [`${i + 1}`, write, write, write, write, write])
  return [
    { ...heading('Deviations', width), opensPage: true },
    paragraph(
      'Accept as it is, accept with a note, rework to the drawing, repair and prove again, demote to spare, scrap.',
      width,
      { size: 3.5 },
    ),
    ...table(columns, rows, width, { size: 3.4, rowHeight: 11, gap: 2, rules: 'grid' }),
  ]
}

function signOff(can: Can, width: number): Block[] {
  return [
    heading(`Sign-off, can ${can.letter}`, width, 8),
    tickLines(
      [
        'Every step signed, every HOLD passed, lay-up sheets and mix cards attached.',
        'Both alignments, the tap map, the post-cure log and the proof load belong to this can and no other.',
        'Every deviation has a disposition and a name.',
      ],
      width,
    ),
    writingBox('open items; “none” if there are none', width, 22, 2),
    fields(
      [
        { label: 'record', share: 1.4, value: 'complete / incomplete' },
        { label: 'builder' },
        { label: 'checker' },
        { label: 'date' },
      ],
      width,
      13,
      3,
    ),
    caution(cautions.record, width),
  ]
}
