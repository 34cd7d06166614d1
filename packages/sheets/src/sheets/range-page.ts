/** One page for the range safety officer's table: what the checks ask for, answered from this can's record. */
import type { Can } from '@finwright/core/assess/design.ts'
import { type Block, paged } from '../layout/block.ts'
import { caution, fields } from '../layout/controls.ts'
import { type Figures, plain, ratio } from '../layout/figures.ts'
import { unitIn } from '../layout/in-units.ts'
import { content, type Leaf } from '../layout/paper.ts'
import { type Cell, type Column, table, tick, write } from '../layout/table.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { cautions } from './cautions.data.ts'
import { holdAnswer } from './hold-answer.ts'

export function rangePage(can: Can, input: SheetInput): Leaf {
  const area = content(input.paper)
  const { width } = area
  const { assessment, figures, identity } = input
  const blocks: Block[] = [
    paragraph(
      'Fin can only: motor, recovery and stability are the flyer’s own. The safety officer has the last word.',
      width,
      { size: 4 },
    ),
    fields(
      [
        { label: 'can', value: can.letter, share: 0.5 },
        { label: 'purpose', value: can.purpose, share: 0.8 },
        { label: 'revision', value: identity.revision.hash },
        { label: 'project', value: assessment.name, share: 2 },
        { label: 'flights so far' },
      ],
      width,
      12,
      3,
    ),
    fields(
      [
        { label: 'mass, weighed', unit: 'g' },
        { label: 'centre of mass from the aft end', unit: unitIn('mm', figures) },
        { label: 'rocket: mass', unit: unitIn('kg', figures) },
        { label: 'CG ahead of CP', unit: 'calibres' },
      ],
      width,
      12,
      0,
    ),
    heading('By the plan, computed', width),
    paragraph(holdAnswer(input), width, { size: 3.8, face: 'strong' }),
    ...numbers(input, width),
    heading('By the record, measured on this can', width),
    ...questions(figures, width),
    heading('Today', width),
    ...today(width),
    caution(cautions.flight, width),
    caution(cautions.record, width),
  ]
  return {
    title: 'For the range safety officer',
    subject: `can ${can.letter} (${can.purpose})`,
    items: paged(blocks, { ...area, height: 1e6 })[0],
  }
}

function numbers({ assessment, figures }: SheetInput, width: number): Block[] {
  const { flight, strength, flutter, bond } = assessment
  const rows: Cell[][] = [
    [
      'greatest Mach, dynamic pressure',
      `${ratio(flight.maximumMach)}, ${figures.pressure(flight.maximumDynamicPressure_Pa)}`,
    ],
    [
      'flutter margin, speed ratio',
      flutter.margin.speedRatio === null ? 'not determined' : ratio(flutter.margin.speedRatio),
    ],
    [
      'load on one fin',
      strength.load === null
        ? '–'
        : `${figures.force(strength.load.force_N)} at ${figures.angle(strength.load.angleOfAttack_deg)}`,
    ],
    ['failure index at that load, 1 is failure', ratio(strength.failureIndex)],
    ['root joint at that load, margin', bond.margin === null ? 'not determined' : plain(bond.margin, 2)],
  ]
  const columns: Column[] = [
    { head: '', share: 2, ink: 'dark' },
    { head: '', share: 3 },
  ]
  return table(columns, rows, width, { size: 3.5, headless: true })
}

function questions(figures: Figures, width: number): Block[] {
  const rows: Cell[][] = [
    ['Fins fully secured: root bond, fillets, skins, no crack, no white line', tick, write],
    [
      'Fins parallel to the roll axis: mean and greatest cant, with steady roll',
      tick,
      { kind: 'write', unit: '° / °/s' },
    ],
    ['Proof loaded, every fin both ways, to', tick, { kind: 'write', unit: unitIn('N', figures) }],
    ['Post-cured at', tick, { kind: 'write', unit: unitIn('°C, h', figures) }],
    ['Repairs and deviations, by number', tick, write],
    ['Open items', tick, write],
  ]
  const columns: Column[] = [
    { head: 'asked at the table', share: 5 },
    { head: 'yes', share: 0.7, align: 'middle' },
    { head: 'figure, or what is open', share: 3 },
  ]
  return table(columns, rows, width, { size: 3.6, rowHeight: 8 })
}

function today(width: number): Block[] {
  const rows: Cell[][] = [
    ['Can’s letter and number match this page', tick],
    ['Root lines, leading and trailing edges looked at and tapped: as recorded', tick],
    ['Cant of fin 1 and of the worst fin within 0.1° of the record', tick],
    ['Fasteners; the can was not left in a hot car or in the sun', tick],
  ]
  const columns: Column[] = [
    { head: '', share: 8 },
    { head: '', share: 0.8, align: 'middle' },
  ]
  return table(columns, rows, width, { size: 3.6, rowHeight: 7, headless: true })
}
