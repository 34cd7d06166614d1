/**
 * The kinds of quantity a plan speaks of: how each is called, which units it may be written in, and the units it is
 * shown in, metric and US customary. The plan's fields refer to these by name; forms, messages and sheets read them.
 */

/**
 * A way to write the unit: one simple unit of the named family, or one over another, the lower one squared or cubed.
 * `power` alone squares a simple unit.
 */
export interface UnitForm {
  readonly over: Family
  readonly under?: Family
  readonly power?: 2 | 3
}

export type Family =
  | 'length'
  | 'mass'
  | 'time'
  | 'speed'
  | 'frequency'
  | 'force'
  | 'pressure'
  | 'energy'
  | 'amount'
  | 'arealMass'
  | 'angle'
  | 'temperature'

export interface MeasuredQuantity {
  readonly written: 'with unit'
  /** `a length`. */
  readonly name: string
  readonly forms: readonly UnitForm[]
  readonly metric: string
  readonly us: string
  /** Units named in messages. */
  readonly offered: string
  readonly examples: readonly [metric: string, us: string]
  /** An offset unit states a point on the scale, not a difference. */
  readonly absolute: boolean
  /** Several terms add up, `5 ft 6 in`. */
  readonly sums: boolean
  /** Offered beside every hint. */
  readonly advice?: string
  /** For large values: used from one of it on, smallest first. */
  readonly larger?: { readonly metric: readonly string[]; readonly us: readonly string[] }
}

export interface PureQuantity {
  readonly written: 'as fraction' | 'as ratio' | 'as proportion' | 'as number' | 'as whole number'
  readonly name: string
  readonly offered: string
  readonly examples: readonly [string, string]
}

export type Quantity = MeasuredQuantity | PureQuantity

const weigh = 'To know it, weigh a 100 x 100 mm square: grams x 100 = g/m2.'

const measured = (quantity: Omit<MeasuredQuantity, 'written' | 'absolute' | 'sums'>): MeasuredQuantity => ({
  written: 'with unit',
  absolute: false,
  sums: false,
  ...quantity,
})

export const quantities = {
  length: {
    ...measured({
      name: 'a length',
      forms: [{ over: 'length' }],
      metric: 'mm',
      us: 'in',
      offered: 'um, mm, cm, m, km, mil, in, ft, yd',
      examples: ['3.2 mm', '1/8 in'],
    }),
    sums: true,
    larger: { metric: ['m', 'km'], us: ['ft'] },
  },
  area: measured({
    name: 'an area',
    forms: [{ over: 'length', power: 2 }],
    metric: 'cm2',
    us: 'in^2',
    offered: 'mm2, cm2, m2, in^2, ft^2',
    examples: ['81.7 cm2', '12.7 in^2'],
  }),
  mass: {
    ...measured({
      name: 'a mass',
      forms: [{ over: 'mass' }],
      metric: 'g',
      us: 'oz',
      offered: 'mg, g, kg, oz, lb, slug',
      examples: ['11.2 kg', '24 lb 8 oz'],
    }),
    sums: true,
    larger: { metric: ['kg'], us: ['lb'] },
  },
  arealMass: measured({
    name: 'a mass per area',
    forms: [{ over: 'mass', under: 'length', power: 2 }, { over: 'arealMass' }],
    metric: 'g/m2',
    us: 'oz/yd^2',
    offered: 'g/m2, gsm, kg/m2, oz/yd^2',
    examples: ['200 g/m2', '6 oz/yd^2'],
    advice: weigh,
  }),
  density: measured({
    name: 'a density',
    forms: [{ over: 'mass', under: 'length', power: 3 }],
    metric: 'kg/m3',
    us: 'lb/in^3',
    offered: 'kg/m3, g/cm3, lb/in^3, lb/ft^3, slug/ft^3',
    examples: ['1150 kg/m3', '0.066 lb/in^3'],
  }),
  pressure: measured({
    name: 'a pressure, stiffness or strength',
    forms: [{ over: 'pressure' }, { over: 'force', under: 'length', power: 2 }],
    metric: 'MPa',
    us: 'psi',
    offered: 'Pa, kPa, MPa, GPa, psi, ksi, Msi, N/mm2',
    examples: ['18.6 GPa', '2.7 Msi'],
    larger: { metric: ['GPa'], us: ['ksi', 'Msi'] },
  }),
  force: measured({
    name: 'a force',
    forms: [{ over: 'force' }],
    metric: 'N',
    us: 'lbf',
    offered: 'N, kN, lbf',
    examples: ['100 N', '22 lbf'],
  }),
  time: {
    ...measured({
      name: 'a time',
      forms: [{ over: 'time' }],
      metric: 's',
      us: 's',
      offered: 'ms, s, min, h',
      examples: ['60 min', '1 h 30 min'],
    }),
    sums: true,
    larger: { metric: ['min', 'h'], us: ['min', 'h'] },
  },
  frequency: measured({
    name: 'a frequency',
    forms: [{ over: 'frequency' }],
    metric: 'Hz',
    us: 'Hz',
    offered: 'Hz',
    examples: ['34.3 Hz', '210 Hz'],
  }),
  angle: measured({
    name: 'an angle',
    forms: [{ over: 'angle' }],
    metric: 'deg',
    us: 'deg',
    offered: 'deg, rad, mrad',
    examples: ['45 deg', '0.785 rad'],
  }),
  angularRate: measured({
    name: 'an angular rate',
    forms: [{ over: 'angle', under: 'time' }],
    metric: 'deg/s',
    us: 'deg/s',
    offered: 'deg/s, rad/s',
    examples: ['360 deg/s', '6.28 rad/s'],
  }),
  speed: measured({
    name: 'a speed',
    forms: [{ over: 'length', under: 'time' }, { over: 'speed' }],
    metric: 'm/s',
    us: 'ft/s',
    offered: 'm/s, km/h, ft/s, mph, kn',
    examples: ['340 m/s', '1116 ft/s'],
  }),
  temperature: {
    ...measured({
      name: 'a temperature',
      forms: [{ over: 'temperature' }],
      metric: 'degC',
      us: 'degF',
      offered: 'degC, degF, K',
      examples: ['20 degC', '68 degF'],
    }),
    absolute: true,
  },
  temperatureInterval: measured({
    name: 'a temperature difference',
    forms: [{ over: 'temperature' }],
    metric: 'degC',
    us: 'degF',
    offered: 'degC, degF, K',
    examples: ['15 degC', '27 degF'],
  }),
  molarEnergy: measured({
    name: 'an energy per amount of substance',
    forms: [{ over: 'energy', under: 'amount' }],
    metric: 'kJ/mol',
    us: 'kJ/mol',
    offered: 'J/mol, kJ/mol',
    examples: ['55 kJ/mol', '55000 J/mol'],
  }),
  fraction: {
    written: 'as fraction',
    name: 'a share',
    offered: "a number from 0 to 1, or a percentage such as '30 %'",
    examples: ['30 %', '0.3'],
  },
  ratio: {
    written: 'as ratio',
    name: 'a ratio',
    offered: "two numbers with a colon, such as '3:1'",
    examples: ['100:28.4', '3:1'],
  },
  proportion: {
    written: 'as proportion',
    name: 'a proportion',
    offered: "a ratio such as '1:1', or a number without quotes",
    examples: ['"1:1"', '0.9'],
  },
  number: { written: 'as number', name: 'a number', offered: 'a number without quotes', examples: ['0.3', '2'] },
  count: {
    written: 'as whole number',
    name: 'a whole number',
    offered: 'a whole number without quotes',
    examples: ['4', '3'],
  },
} as const satisfies Readonly<Record<string, Quantity>>

export type QuantityName = keyof typeof quantities
export type MeasuredName = {
  [K in QuantityName]: (typeof quantities)[K] extends { written: 'with unit' } ? K : never
}[QuantityName]
