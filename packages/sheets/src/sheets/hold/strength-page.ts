/** Which ply fails first: the failure index over the fin, what the root hands over, the stress through the thickness. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { Primitive } from '../../drawing/drawing.ts'
import { pen } from '../../drawing/drawing.ts'
import { type Block, picture, roomAmong } from '../../layout/block.ts'
import { chart } from '../../layout/chart.ts'
import { type Figures, percent, plain, ratio } from '../../layout/figures.ts'
import type { Cell } from '../../layout/table.ts'
import { paragraph } from '../../layout/words.ts'
import type { Area, MarginInput } from '../margins.ts'
import { failureMap } from './failure-map.ts'
import type { FinFrame, Shapes } from './fin-picture.ts'
import { numberRows } from './numbers.ts'
import { throughThickness } from './through-thickness.ts'
import { whyBlock } from './why.ts'
import { strengthWhy } from './whys.ts'

export function strengthBlocks(input: MarginInput, { width, height }: Area): Block[] {
  const { assessment } = input
  if (assessment.strength.failureIndex === null) return []
  const first = paragraph(strengthLine(input), width, { size: 4.4, face: 'strong' })
  const rest = [...numbers(input, width), ...whyBlock(strengthWhy(assessment), assessment.sources, width)]
  const room = roomAmong([first, ...rest], height, { least: 90, most: 130, gap: 6 })
  return [first, ...pictures(input, { width, height: room }), ...rest]
}

/** Two figures at least. */
const index = (value: number | null): string => ratio(value, value !== null && value < 0.1 ? 3 : 2)

export function strengthLine({ assessment, figures }: Pick<MarginInput, 'assessment' | 'figures'>): string {
  const { failureIndex, ply, criterion, position_m } = assessment.strength
  const where =
    position_m === null
      ? ''
      : `, ${figures.length(position_m[0], 1e-3)} behind the root’s leading edge, ${figures.length(position_m[1], 1e-3)} out`
  const how = criterion === null ? '' : ` (${criterion})`
  return `${ply === 'core' ? 'The core' : `Of all plies ${ply ?? 'one'}`} is worked hardest, to ${percent(failureIndex, (failureIndex ?? 0) < 0.1 ? 1 : 0)} of its strength${where}${how}.`
}

const mapHeight = 56
const gutter = 7

function pictures({ assessment, figures }: MarginInput, { width, height: most }: Area): Block[] {
  const { strength, structure } = assessment
  const { shapes } = structure
  const right = strength.through.length === 0 ? 0 : 74
  const left = right === 0 ? width : width - right - gutter
  const items: Primitive[] = []
  let height = 0
  if (shapes !== null && strength.map !== null) {
    const map = failureMap(assessment, shapes, { x: 0, y: 0, width: left }, Math.min(mapHeight, most - 50))
    items.push(...map.items)
    height = map.height
    if (strength.rootLine !== null) {
      const tall = Math.min(80, most - height - 1)
      items.push(...rootCharts(strength.rootLine, shapes, map.frame, { y: height + 1, height: tall, figures }))
      height += 1 + tall
    }
  }
  if (right > 0) {
    height = Math.max(height, 84)
    items.push(...throughThickness(strength, { x: left + gutter, y: 0, width: right, height }, figures))
  }
  return height === 0 ? [] : [picture(height, items, 5)]
}

/** Under the fin, on its own x: what it hands to the body at each place along the root. */
export function rootCharts(
  { x_m, shear_N_m, moment_N }: NonNullable<Assessment['strength']['rootLine']>,
  { nodes_m }: Shapes,
  { box }: FinFrame,
  { y, height, figures }: { readonly y: number; readonly height: number; readonly figures: Figures },
): Primitive[] {
  const upper = (height - 7) / 2
  const length = figures.axis('length')
  const [force, moment] = [figures.axis('line force'), figures.axis('line moment')]
  const X = nodes_m.map(([x]) => length.of(x))
  const shared = {
    x: box.x - 12,
    width: box.width + 14,
    xLabel: `aft along the root, ${length.unit}`,
    xRange: [Math.min(...X), Math.max(...X)] as const,
  }
  const x = x_m.map(length.of)
  const shear = shear_N_m.map(force.of)
  const turning = moment_N.map(moment.of)
  return [
    ...chart({
      ...shared,
      y,
      height: upper,
      title: 'Shear to the body',
      yLabel: force.unit,
      bareX: true,
      ticks: { y: 4 },
      series: [{ x, y: shear, label: '', width: pen.net }],
      yRange: rangeOf(shear),
    }),
    ...chart({
      ...shared,
      y: y + upper,
      height: height - upper,
      title: 'Moment about the root',
      yLabel: moment.unit,
      ticks: { y: 4 },
      series: [{ x, y: turning, label: '', width: pen.net }],
      yRange: rangeOf(turning),
    }),
  ]
}

/** Zero inside, a little room at both ends. */
function rangeOf(values: readonly number[]): readonly [number, number] {
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)]
  const room = 0.08 * Math.max(high - low, 1e-9)
  return [low < 0 ? low - room : 0, high + room]
}

function numbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { failureIndex, ply, criterion, secondOpinion, load } = assessment.strength
  const items: Cell[][] = [
    [
      'failure index of the weakest ply',
      index(failureIndex),
      [ply, criterion, '1 is failure'].filter((one) => one !== null).join('; '),
    ],
  ]
  if (secondOpinion !== null) items.push(['second opinion', index(secondOpinion.failureIndex), secondOpinion.criterion])
  if (load !== null) {
    const when = load.time_s === null ? '' : `, ${plain(load.time_s, 1)} s after ignition`
    items.push(
      [
        'load on one fin',
        figures.force(load.force_N),
        `${figures.angle(load.angleOfAttack_deg)} angle of attack; Mach ${ratio(load.mach)}, ${figures.pressure(load.dynamicPressure_Pa)} dynamic pressure${when}`,
      ],
      ['mean over the face', figures.pressure(load.pressure_Pa), load.basis],
      ['moment at the root', figures.moment(load.rootMoment_Nm), 'about the root line'],
      [
        'the fin’s own bending adds',
        `× ${ratio(load.amplification)}`,
        'elastic root moment over the rigid fin’s; the greater load is used',
      ],
    )
  }
  return numberRows('Numbers', items, width)
}
