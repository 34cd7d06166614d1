/**
 * The eight questions of the start: what is asked, in which field of the plan's own table it is judged, what stands there until
 * it is answered, and help for someone new to composites. What stands there is an invented example, marked as that.
 */

import type { FieldKey } from '@finwright/plan/schema/fields.data.ts'
import { cautions } from '@finwright/sheets/sheets/cautions.data.ts'

export interface Option {
  readonly value: string
  readonly label: string
}

interface Asked {
  readonly key: AnswerKey
  readonly label: string
  readonly help: string
  /** Asked only while another answer has this value. */
  readonly when?: readonly [AnswerKey, string]
}

export interface AskedQuantity extends Asked {
  readonly kind: 'quantity'
  /** Whose limits and units hold. */
  readonly field: FieldKey
  /** May be left empty. */
  readonly open?: boolean
}

export interface AskedChoice extends Asked {
  readonly kind: 'choice'
  readonly options: readonly Option[]
}

export type AskedField = AskedQuantity | AskedChoice

export interface Question {
  readonly id: string
  readonly title: string
  readonly why: string
  readonly fields: readonly AskedField[]
  /** Said where the step is planned that it belongs to. */
  readonly caution?: string
}

export type AnswerKey = keyof typeof examples.metric

export type Answers = { readonly [key in AnswerKey]: string }

/** An invented rocket, so that nothing is empty; the builder's own numbers take their place. */
export const examples = {
  metric: {
    flight: 'top-speed',
    topMach: '1.2',
    siteAltitude: '0 m',
    topAltitude: '500 m',
    diameter: '102 mm',
    wall: '2 mm',
    tubeMaterial: 'glass-epoxy-tube',
    finCount: '4',
    root: '300 mm',
    tip: '120 mm',
    span: '110 mm',
    tipOffset: '150 mm',
    coreMaterial: 'g10',
    coreThickness: '3.2 mm',
    cloth: 'glass-plain-200',
    rollWidth: '1000 mm',
    rollLength: '5 m',
    resin: 'epoxy-slow',
    mixRatio: '',
    workingTime: '',
    shopTemperature: '20 degC',
    scale: '0.1 g',
    spare: 'none',
  },
  us: {
    flight: 'top-speed',
    topMach: '1.2',
    siteAltitude: '0 ft',
    topAltitude: '1500 ft',
    diameter: '4.02 in',
    wall: '0.08 in',
    tubeMaterial: 'glass-epoxy-tube',
    finCount: '4',
    root: '12 in',
    tip: '4.75 in',
    span: '4.25 in',
    tipOffset: '6 in',
    coreMaterial: 'g10',
    coreThickness: '0.125 in',
    cloth: 'glass-plain-200',
    rollWidth: '38 in',
    rollLength: '5 yd',
    resin: 'epoxy-slow',
    mixRatio: '',
    workingTime: '',
    shopTemperature: '68 degF',
    scale: '0.1 g',
    spare: 'none',
  },
} as const satisfies { readonly [units in 'metric' | 'us']: Readonly<Record<string, string>> }

const cloths: readonly Option[] = [
  { value: 'glass-plain-100', label: 'Glass plain, 100 g/m² (3 oz)' },
  { value: 'glass-twill-160', label: 'Glass twill, 160 g/m² (4.7 oz)' },
  { value: 'glass-plain-200', label: 'Glass plain, 200 g/m² (6 oz)' },
  { value: 'glass-twill-280', label: 'Glass twill, 280 g/m² (8.3 oz)' },
  { value: 'glass-satin-300', label: 'Glass 8-harness satin, 300 g/m² (9 oz)' },
  { value: 'carbon-plain-200', label: 'Carbon plain, 200 g/m² (6 oz)' },
  { value: 'carbon-twill-200', label: 'Carbon twill, 200 g/m² (6 oz)' },
  { value: 'carbon-twill-245', label: 'Carbon twill, 245 g/m² (7 oz)' },
]

export const questions: readonly Question[] = [
  {
    id: 'flight',
    title: 'What flight is it for?',
    why: 'Speed and thick air load a fin. How fast it goes, and how low, decides most of what follows.',
    caution: cautions.flight,
    fields: [
      {
        kind: 'choice',
        key: 'flight',
        label: 'What is known of it',
        help: 'A thrust curve or a flown history comes in later, as CSV on the plan’s page, and takes the place of this.',
        options: [
          { value: 'top-speed', label: 'Its top speed' },
          { value: 'demo', label: 'Nothing yet: take the invented demo flight' },
        ],
      },
      {
        kind: 'quantity',
        key: 'topMach',
        field: 'flight.states[].mach',
        label: 'Top speed, Mach number',
        help: 'Speed over the speed of sound: 1.0 is about 340 m/s or 1100 ft/s near the ground. Guess high.',
        when: ['flight', 'top-speed'],
      },
      {
        kind: 'quantity',
        key: 'siteAltitude',
        field: 'flight.siteAltitude',
        label: 'Launch site, above sea level',
        help: 'The lower the site, the denser the air. Sea level is the safe guess.',
        when: ['flight', 'top-speed'],
      },
      {
        kind: 'quantity',
        key: 'topAltitude',
        field: 'flight.history[][1]',
        label: 'Top speed is reached at, above sea level',
        help: 'About where the motor burns out. The lower, the harder on the fins: guess low, or state the site’s own.',
        when: ['flight', 'top-speed'],
      },
    ],
  },
  {
    id: 'tube',
    title: 'What tube do they stand on?',
    why: 'The fillet and the cloth between two fins follow its round; its wall is what they are bonded to.',
    caution: cautions.dust,
    fields: [
      {
        kind: 'quantity',
        key: 'diameter',
        field: 'tube.outerDiameter',
        label: 'Outer diameter, measured',
        help: 'With a calliper, twice, at right angles. The name of a tube is not its size.',
      },
      {
        kind: 'quantity',
        key: 'wall',
        field: 'tube.wall',
        label: 'Wall',
        help: 'Measure at a cut end, away from burrs.',
      },
      {
        kind: 'choice',
        key: 'tubeMaterial',
        label: 'Made of',
        help: 'What the fillets bond to. Sand to a dull surface; shine does not bond.',
        options: [
          { value: 'glass-epoxy-tube', label: 'Glass and epoxy' },
          { value: 'carbon-epoxy-tube', label: 'Carbon and epoxy' },
          { value: 'paper-phenolic-tube', label: 'Paper and phenolic' },
        ],
      },
    ],
  },
  {
    id: 'fins',
    title: 'How many fins, and how big?',
    why: 'The outline comes from your stability calculation. Here it becomes something that can be laid up and that holds.',
    fields: [
      {
        kind: 'choice',
        key: 'finCount',
        label: 'Number of fins',
        help: 'As many bays as fins: each bay, from one fin’s tip to the next, is one session at the bench.',
        options: ['3', '4', '5', '6'].map((value) => ({ value, label: value })),
      },
      {
        kind: 'quantity',
        key: 'root',
        field: 'fins.outline.root',
        label: 'Root chord',
        help: 'Along the tube, from leading to trailing end.',
      },
      {
        kind: 'quantity',
        key: 'tip',
        field: 'fins.outline.tip',
        label: 'Tip chord',
        help: 'The outer edge, along the tube.',
      },
      {
        kind: 'quantity',
        key: 'span',
        field: 'fins.outline.span',
        label: 'Span',
        help: 'From the tube’s surface to the tip. Less span is the surest cure of flutter.',
      },
      {
        kind: 'quantity',
        key: 'tipOffset',
        field: 'fins.outline.tipOffset',
        label: 'Tip set back',
        help: 'How far the tip’s leading end lies behind the root’s.',
      },
    ],
  },
  {
    id: 'core',
    title: 'What sheet is the core?',
    why: 'The core gives the shape and holds the two skins apart: stiffness in bending grows with the cube of the whole thickness.',
    caution: cautions.dust,
    fields: [
      {
        kind: 'choice',
        key: 'coreMaterial',
        label: 'Sheet',
        help: 'The minimum of its standard is taken where the maker states nothing.',
        options: [
          { value: 'g10', label: 'Glass-epoxy sheet, G10 or FR4' },
          { value: 'birch-plywood', label: 'Birch plywood' },
          { value: 'carbon-plate', label: 'Carbon plate' },
        ],
      },
      {
        kind: 'quantity',
        key: 'coreThickness',
        field: 'fins.core.thickness',
        label: 'Thickness',
        help: 'Measured. A sheet sold by one name differs by a tenth and more.',
      },
    ],
  },
  {
    id: 'cloth',
    title: 'What cloth is at hand?',
    why: 'Each layer of cloth laid over a bay is a ply. How many there will be follows from the flight; the margins then say whether that is enough.',
    caution: cautions.needles,
    fields: [
      {
        kind: 'choice',
        key: 'cloth',
        label: 'Cloth',
        help: 'Name and weight stand on the roll. Weigh a 100 mm square of yours: grams × 100 = g/m².',
        options: cloths,
      },
      {
        kind: 'quantity',
        key: 'rollWidth',
        field: 'stock.rolls[].width',
        label: 'Width of the roll',
        help: 'With its firm edges; 10 mm (3/8 in) at each is not used.',
      },
      {
        kind: 'quantity',
        key: 'rollLength',
        field: 'stock.rolls[].length',
        label: 'Length left on it',
        help: 'Too little is told as what to buy, never as a fault.',
      },
    ],
  },
  {
    id: 'resin',
    title: 'Which resin?',
    why: 'From mixing on, the clock runs. Plies are put into batches that can be laid before the cup goes off.',
    caution: `${cautions.resin} ${cautions.mixing}`,
    fields: [
      {
        kind: 'choice',
        key: 'resin',
        label: 'Hardener',
        help: 'Slow is right for a first time: more time at the bench costs a longer cure and nothing else.',
        options: [
          { value: 'epoxy-slow', label: 'Slow, about 60 min in the cup' },
          { value: 'epoxy-medium', label: 'Medium, about 30 min' },
          { value: 'epoxy-fast', label: 'Fast, about 15 min' },
        ],
      },
      {
        kind: 'quantity',
        key: 'mixRatio',
        field: 'resin.ratio.value',
        open: true,
        label: 'Resin to hardener, by mass',
        help: 'From your data sheet, as 100:28. Left empty, a generic 100:28.4 stands in the plan: good for a first look, never for mixing.',
      },
      {
        kind: 'quantity',
        key: 'workingTime',
        field: 'material.workingTime',
        open: true,
        label: 'Working time',
        help: 'From the data sheet, for 100 g at 25 °C (77 °F). Left empty, the time above stands in the plan.',
      },
    ],
  },
  {
    id: 'shop',
    title: 'Where is it laid up?',
    why: 'Ten degrees warmer and the resin has half the time; too cold and it never cures through.',
    caution: cautions.heat,
    fields: [
      {
        kind: 'quantity',
        key: 'shopTemperature',
        field: 'shop.temperature',
        label: 'Temperature at the bench',
        help: 'At the hour you will lay up, and through the night after it.',
      },
      {
        kind: 'quantity',
        key: 'scale',
        field: 'shop.scaleResolution',
        label: 'The scale reads to',
        help: 'Hardener is weighed: a scale of 1 g makes small batches wrong by some per cent.',
      },
    ],
  },
  {
    id: 'cans',
    title: 'Is there a backup?',
    why: 'A second can is laid up alike. Most builders learn on the first what makes the second better.',
    caution: cautions.health,
    fields: [
      {
        kind: 'choice',
        key: 'spare',
        label: 'Besides the one that flies',
        help: 'Cloth, resin and bench time are counted for both.',
        options: [
          { value: 'none', label: 'None' },
          { value: 'practice', label: 'One to practise on' },
          { value: 'backup', label: 'One as a backup' },
        ],
      },
    ],
  },
]

export const shownFields = (question: Question, answers: Answers): readonly AskedField[] =>
  question.fields.filter(({ when }) => when === undefined || answers[when[0]] === when[1])
