/**
 * The units that a plan may be written in, each with its exact factor to SI.
 *
 * Inch, foot, yard and pound: exact by the international yard and pound agreement of 1959 (NIST SP 811, 2008,
 * appendix B). Standard gravity 9.80665 m/s² is exact (3rd CGPM, 1901), so the pound-force is 0.45359237 · 9.80665 N and
 * psi, ksi and Msi follow from it. The mile is 5280 feet, the nautical mile 1852 m (SP 811, appendix B). The degree carries π to fifty decimals, far beyond a double.
 */
import { divide, multiply, power, type Rational, rational } from './rational.ts'

/** Exponents of length, mass, time, temperature, angle and amount of substance. */
export type Dimension = readonly [L: number, M: number, T: number, Theta: number, A: number, N: number]

export interface Unit {
  /** As printed. */
  readonly name: string
  /** Other accepted spellings. */
  readonly also: readonly string[]
  readonly dimension: Dimension
  readonly factor: Rational
  /** Added, in K, after the factor, when the unit states an absolute temperature. */
  readonly offset: Rational
}

const length: Dimension = [1, 0, 0, 0, 0, 0]
const mass: Dimension = [0, 1, 0, 0, 0, 0]
const time: Dimension = [0, 0, 1, 0, 0, 0]
const temperature: Dimension = [0, 0, 0, 1, 0, 0]
const angle: Dimension = [0, 0, 0, 0, 1, 0]
const amount: Dimension = [0, 0, 0, 0, 0, 1]
const speed: Dimension = [1, 0, -1, 0, 0, 0]
const frequency: Dimension = [0, 0, -1, 0, 0, 0]
const force: Dimension = [1, 1, -2, 0, 0, 0]
const pressure: Dimension = [-1, 1, -2, 0, 0, 0]
const energy: Dimension = [2, 1, -2, 0, 0, 0]
const arealMass: Dimension = [-2, 1, 0, 0, 0, 0]

const zero = rational('0')
const pi = rational('3.14159265358979323846264338327950288419716939937510')
const inch = rational('0.0254')
const foot = rational('0.3048')
const pound = rational('0.45359237')
const poundForce = multiply(pound, rational('9.80665'))
const psi = divide(poundForce, power(inch, 2))

function unit(name: string, also: string, dimension: Dimension, factor: string | Rational): Unit {
  const spellings = also === '' ? [] : also.split(' ')
  const exact = typeof factor === 'string' ? rational(factor) : factor
  return { name, also: spellings, dimension, factor: exact, offset: zero }
}

export const units: readonly Unit[] = [
  unit('um', 'µm μm micron microns', length, '1e-6'),
  unit('mm', '', length, '1e-3'),
  unit('cm', '', length, '1e-2'),
  unit('m', '', length, '1'),
  unit('km', '', length, '1e3'),
  unit('mil', 'mils thou', length, '25.4e-6'),
  unit('in', `inch inches " ″ ” ''`, length, inch),
  unit('ft', `foot feet ' ′ ’`, length, foot),
  unit('yd', 'yard yards', length, '0.9144'),
  unit('mg', '', mass, '1e-6'),
  unit('g', 'gram grams', mass, '1e-3'),
  unit('kg', '', mass, '1'),
  unit('oz', 'ounce ounces', mass, divide(pound, rational('16'))),
  unit('lb', 'lbs lbm pound pounds', mass, pound),
  unit('slug', 'slugs', mass, divide(poundForce, foot)),
  unit('ms', '', time, '1e-3'),
  unit('s', 'sec second seconds', time, '1'),
  unit('min', 'minute minutes', time, '60'),
  unit('h', 'hr hour hours', time, '3600'),
  unit('mph', '', speed, '0.44704'),
  unit('kn', 'kt kts knot knots', speed, divide(rational('1852'), rational('3600'))),
  unit('Hz', '', frequency, '1'),
  unit('N', '', force, '1'),
  unit('kN', '', force, '1e3'),
  unit('lbf', '', force, poundForce),
  unit('Pa', '', pressure, '1'),
  unit('hPa', 'mbar', pressure, '100'),
  unit('kPa', '', pressure, '1e3'),
  unit('MPa', '', pressure, '1e6'),
  unit('GPa', '', pressure, '1e9'),
  unit('psi', '', pressure, psi),
  unit('ksi', '', pressure, multiply(psi, rational('1e3'))),
  unit('Msi', '', pressure, multiply(psi, rational('1e6'))),
  unit('J', '', energy, '1'),
  unit('kJ', '', energy, '1e3'),
  unit('mol', '', amount, '1'),
  unit('gsm', '', arealMass, '1e-3'),
  unit('rad', '', angle, '1'),
  unit('mrad', '', angle, '1e-3'),
  unit('deg', '° degree degrees', angle, divide(pi, rational('180'))),
  unit('K', '', temperature, '1'),
  { ...unit('degC', '°C ℃ C', temperature, '1'), offset: rational('273.15') },
  {
    ...unit('degF', '°F ℉ F', temperature, divide(rational('5'), rational('9'))),
    offset: multiply(rational('459.67'), divide(rational('5'), rational('9'))),
  },
]
