/** What the root holds: the joint in section with the margin of each way it can go, and the load to prove it with. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { type Block, picture, roomAmong } from '../../layout/block.ts'
import { caution } from '../../layout/controls.ts'
import { percent, plain } from '../../layout/figures.ts'
import { type Cell, type Column, table } from '../../layout/table.ts'
import { heading, paragraph } from '../../layout/words.ts'
import { cautions } from '../cautions.data.ts'
import type { Area, MarginInput } from '../margins.ts'
import { jointPicture } from './joint-picture.ts'
import { numberRows } from './numbers.ts'
import { whyBlock } from './why.ts'
import { jointWhy } from './whys.ts'

export function jointBlocks(input: MarginInput, { width, height }: Area): Block[] {
  const { assessment, figures } = input
  const { bond, strength } = assessment
  if (bond.joint === null && strength.tipEquivalent === null) return []
  const first = paragraph(jointLine(input), width, { size: 4.4, face: 'strong' })
  const rest = [
    ...ways(assessment, width),
    ...numbers(input, width),
    ...proof(input, width),
    ...(bond.joint === null ? [] : whyBlock(jointWhy(figures, assessment), assessment.sources, width)),
  ]
  const room = roomAmong([first, ...rest], height, { least: 40, most: 78, gap: 6 })
  return [first, ...section(input, { width, height: room }), ...rest]
}

export function jointLine({ assessment, figures }: Pick<MarginInput, 'assessment' | 'figures'>): string {
  const { bond } = assessment
  const { joint, fillet, margin } = bond
  if (joint === null || margin === null) return 'The margin of the root joint is not determined, which is not a pass.'
  const radius = fillet === null ? '' : ` and fillets of ${figures.length(fillet.radius_m)}`
  const enough =
    joint.sufficientRadius_m === null
      ? ' No fillet that fits would be enough.'
      : ` A radius of ${figures.length(joint.sufficientRadius_m)} would be enough.`
  const verdict = margin >= 0 ? 'Root joint' : 'The root joint does not hold'
  return `${verdict}: margin ${signed(margin)} under the worst air load${radius}; first to go is ${named(joint.worst.mode)}.${enough}`
}

const named = (mode: string): string =>
  mode === 'fillet' || mode === 'base bond' ? `the ${mode}` : mode.replace(/^skin /, 'the skin, ')

/** A margin with its sign. */
const signed = (margin: number): string => `${margin >= 0 ? '+' : ''}${plain(margin, 2)}`

function section({ assessment }: MarginInput, area: Area): Block[] {
  const drawn = jointPicture(assessment, area)
  return drawn === null ? [] : [picture(area.height, drawn, 5)]
}

const heads: readonly Column[] = [
  { head: 'way to go', share: 2.2 },
  { head: 'margin', share: 1.2, align: 'end' },
  { head: '', share: 0.4 },
  { head: 'what that is', share: 6.6, ink: 'dark' },
]

export const wayMeaning: Readonly<Record<string, string>> = {
  'base bond': 'the thin layer of adhesive under the core’s end, in shear and peel',
  fillet: 'the adhesive of a fillet, along the core, along the tube or across its throat',
  'skin peel': 'the skin coming off the fillet it lies on',
  'skin opening': 'the curved skin splitting between its plies',
}

function ways({ bond }: Assessment, width: number): Block[] {
  if (bond.joint === null) return []
  const { byMode, worst } = bond.joint
  const rows = byMode.map(({ mode, margin }): Cell[] => [
    mode,
    margin === null ? 'no load' : signed(margin),
    '',
    wayMeaning[mode] ?? '',
  ])
  return [
    heading('Margins: allowable over stress, less one', width, 4),
    ...table(heads, rows, width, { size: 3.1, gap: 1, strong: (row) => byMode[row].mode === worst.mode }),
  ]
}

function numbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { joint, fillet } = assessment.bond
  if (joint === null) return []
  const { worst, momentShares, sufficientRadius_m, lapShear_Pa, knockDown } = joint
  const items: Cell[][] = [
    [
      'worst stress',
      figures.stress(worst.stress_Pa),
      `${worst.mode}, ${figures.length(worst.x_m, 1e-3)} behind the root’s leading edge; ${figures.stress(worst.allowable_Pa)} allowed`,
    ],
    [
      'lap shear of the data sheet',
      figures.stress(lapShear_Pa),
      `divided by ${plain(knockDown, 1)} before it is used: ${figures.stress(worst.allowable_Pa)} where adhesive governs`,
    ],
    [
      'fillet radius that is enough',
      figures.length(sufficientRadius_m),
      sufficientRadius_m === null
        ? 'none that fits between the fins'
        : `for a margin of zero under this load${fillet === null ? '' : `; this can has ${figures.length(fillet.radius_m)}`}`,
    ],
    [
      'moment through the skins',
      percent(momentShares.skins),
      `${percent(momentShares.fillets)} through the fillets, ${percent(momentShares.baseBond)} through the base bond; below zero: it works the other way`,
    ],
  ]
  return numberRows('Numbers', items, width)
}

function proof({ assessment, figures }: MarginInput, width: number): Block[] {
  const { tipEquivalent, load, failureIndex } = assessment.strength
  if (tipEquivalent === null) return []
  const { outerFailureIndex } = tipEquivalent
  const items: Cell[][] = [
    [
      'same failure index',
      figures.force(tipEquivalent.byFailure_N),
      'one force at the middle of the tip, through a pad, that works some ply as hard as the worst air load does',
    ],
    [
      'same moment at the root',
      figures.force(tipEquivalent.byMoment_N),
      `for the joint; the air load is ${figures.force(load?.force_N)}, spread over the face`,
    ],
    [
      'thin outer half under the lesser one',
      outerFailureIndex.toFixed(2),
      `failure index outside the pad${failureIndex !== null && outerFailureIndex > failureIndex ? ', more than in flight: spread the load with a padded beam, further in, for the same moment' : ''}`,
    ],
  ]
  return [...numberRows('To prove it: a force at the tip', items, width), caution(cautions.proof, width, 2)]
}
