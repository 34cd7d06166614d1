/**
 * Numbers as they stand on a sheet: in the builder's units, with the decimals their use allows, never more. What is
 * weighed at the bench is in grams in both systems, because scales that read a tenth of a gram read grams.
 */
import { formatQuantity, numberIn, type UnitSystem } from '@finwright/plan/quantity/format.ts'
import type { MeasuredName } from '@finwright/plan/quantity/quantities.data.ts'

export type { UnitSystem }

/** A number that does not exist. */
export const none = '–'

type Optional = number | null | undefined

export interface Figures {
  readonly units: UnitSystem
  /** To a tenth of a millimetre or a hundredth of an inch, or as the uncertainty given in m. */
  readonly length: (value: Optional, uncertainty?: number) => string
  /** Metres or feet. */
  readonly distance: (value: Optional) => string
  readonly area: (value: Optional) => string
  /** Of cloth by the metre: m² or yd². */
  readonly surface: (value: Optional) => string
  /** Volume in millilitres, both systems: it is measured in syringes. */
  readonly volume: (value: Optional) => string
  /** Grams, one decimal. */
  readonly grams: (value: Optional, decimals?: number) => string
  readonly arealMass: (value: Optional) => string
  readonly airDensity: (value: Optional) => string
  readonly pressure: (value: Optional) => string
  /** Of a material or a bond: MPa or ksi. */
  readonly stress: (value: Optional) => string
  readonly speed: (value: Optional) => string
  readonly force: (value: Optional) => string
  readonly moment: (value: Optional) => string
  readonly temperature: (value: Optional) => string
  readonly angle: (degrees: Optional, decimals?: number) => string
  readonly ply: (degrees: number) => string
  /** For the axes of a chart. */
  readonly axis: (name: AxisName) => Axis
}

export type AxisName =
  | 'speed'
  | 'distance'
  | 'air density'
  | 'pressure'
  | 'stress'
  | 'length'
  | 'line force'
  | 'line moment'

export interface Axis {
  readonly unit: string
  /** An SI value in the unit. */
  readonly of: (value: number) => number
}

export function figuresIn(units: UnitSystem): Figures {
  const us = units === 'us'
  const shown = (value: Optional, name: MeasuredName, uncertainty: number, unit: string): string =>
    value === null || value === undefined ? none : typeset(formatQuantity(value, name, units, { uncertainty, unit }))
  return {
    units,
    length: (value, uncertainty = 1e-4) => shown(value, 'length', uncertainty, us ? 'in' : 'mm'),
    distance: (value) => shown(value, 'length', 1, us ? 'ft' : 'm'),
    area: (value) => shown(value, 'area', us ? 0.01 * 0.0254 ** 2 : 1e-5, us ? 'in^2' : 'cm2'),
    surface: (value) =>
      value === null || value === undefined
        ? none
        : us
          ? `${plain(value / squareYard, 2)} yd²`
          : `${plain(value, 2)} m²`,
    volume: (value) => (value === null || value === undefined ? none : `${(value * 1e6).toFixed(1)} ml`),
    grams: (value, decimals = 1) =>
      value === null || value === undefined ? none : `${(value * 1e3).toFixed(decimals)} g`,
    arealMass: (value) => shown(value, 'arealMass', us ? 0.0034 : 1e-3, us ? 'oz/yd^2' : 'g/m2'),
    airDensity: (value) => shown(value, 'density', us ? 0.0016 : 1e-3, us ? 'lb/ft^3' : 'kg/m3'),
    pressure: (value) => shown(value, 'pressure', us ? 690 : 1e3, us ? 'psi' : 'kPa'),
    stress: (value) => shown(value, 'pressure', us ? 6.9e4 : 1e5, us ? 'ksi' : 'MPa'),
    speed: (value) => shown(value, 'speed', us ? 0.3048 : 1, us ? 'ft/s' : 'm/s'),
    force: (value) => shown(value, 'force', 1, us ? 'lbf' : 'N'),
    moment: (value) => moment(value, us),
    temperature: (value) => shown(value, 'temperature', 1, us ? 'degF' : 'degC'),
    angle: (degrees, decimals = 1) =>
      degrees === null || degrees === undefined ? none : `${plain(degrees, decimals)}°`,
    ply: plyAngle,
    axis: (name) => axes[name][units],
  }
}

const axis = (unit: string, factor: number): Axis => ({ unit, of: (value) => value * factor })

/** How many of the unit an SI one is. */
const per = (name: MeasuredName, unit: string): number => numberIn(1, name, unit)

const poundsPerNewton = per('force', 'lbf')

/** Force per length of root; moment per length of root is a force too: N·m per m, lbf·in per in. */
const axes: { readonly [name in AxisName]: { readonly [units in UnitSystem]: Axis } } = {
  speed: { metric: axis('m/s', 1), us: axis('ft/s', per('speed', 'ft/s')) },
  distance: { metric: axis('m', 1), us: axis('ft', per('length', 'ft')) },
  'air density': { metric: axis('kg/m³', 1), us: axis('lb/ft³', per('density', 'lb/ft^3')) },
  pressure: { metric: axis('kPa', 1e-3), us: axis('psi', per('pressure', 'psi')) },
  stress: { metric: axis('MPa', 1e-6), us: axis('ksi', per('pressure', 'ksi')) },
  length: { metric: axis('mm', 1e3), us: axis('in', per('length', 'in')) },
  'line force': { metric: axis('N/mm', 1e-3), us: axis('lbf/in', poundsPerNewton / per('length', 'in')) },
  'line moment': { metric: axis('N·mm/mm', 1), us: axis('lbf·in/in', poundsPerNewton) },
}

/** `+45°`, `−45°`, `0°`: whole degrees where they are whole. */
function plyAngle(degrees: number): string {
  const rounded = Math.round(degrees * 10) / 10
  if (rounded === 0) return '0°'
  return `${rounded > 0 ? '+' : '−'}${Math.abs(rounded)}°`
}

/** A number with fixed decimals and a proper minus. */
export function plain(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals)
  return value < 0 && Number(digits) !== 0 ? `−${digits}` : digits
}

/** A ratio such as a margin; null reads as not determined. */
export const ratio = (value: Optional, decimals = 2): string =>
  value === null || value === undefined ? none : plain(value, decimals)

/** A frequency with three figures or so. */
export const hertz = (value: Optional): string =>
  value === null || value === undefined ? none : `${plain(value, value < 10 ? 2 : value < 100 ? 1 : 0)} Hz`

export const percent = (fraction: Optional, decimals = 0): string =>
  fraction === null || fraction === undefined ? none : `${plain(100 * fraction, decimals)} %`

/** 0.9144 m squared, exact by definition. */
const squareYard = 0.9144 ** 2

/** One newton metre in pound-force inches: 1 / (4.4482216152605 N × 0.0254 m), both exact by definition. */
const poundInchesPerNewtonMetre = 1 / (4.4482216152605 * 0.0254)

function moment(value: Optional, us: boolean): string {
  if (value === null || value === undefined) return none
  return us ? `${plain(value * poundInchesPerNewtonMetre, 0)} lbf·in` : `${plain(value, 1)} N·m`
}

/** The plan's spelling of units as a sheet prints it. */
export function typeset(words: string): string {
  return words
    .replace('degC', '°C')
    .replace('degF', '°F')
    .replace('^2', '²')
    .replace('^3', '³')
    .replace(/m3\b/, 'm³')
    .replace(/(m|in|cm|yd)2\b/, '$1²')
    .replace(/^-/, '−')
}
