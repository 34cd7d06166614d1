/**
 * Working time of mixed resin against temperature and the mass in the cup.
 *
 *   t = t0 exp[ E/R (1/T − 1/T0) ] min(1, m0/m)                                     s
 *
 * t0 is the data sheet's time for the mass m0 at T0. The temperature term takes one reaction of activation energy E to
 * the same conversion (Arrhenius; Kamal & Sourour, Polymer Engineering and Science 13 (1973) 59–64, for epoxies;
 * recalled). E of room-temperature epoxy–amine systems: 44–57 kJ/mol (Barral et al., J. Appl. Polym. Sci. 56 (1995)
 * 1029–1037, abstract read), 55–60 (Thermochimica Acta 447 (2006) 167–177, abstract read), 58.5 ± 1.3 from gel times
 * (J. Appl. Polym. Sci. 92 (2004) 1190–1198, abstract read); aromatic amines reach 65. "Doubles for every 10 °C colder"
 * is E = 51.2 kJ/mol between 20 and 30 °C.
 *
 * Mass: a working time holds for a stated mass only (ASTM D2471-99, scope read), and no law for other masses was found.
 * Up to m0 the time is taken as it stands, though less would keep longer; above it the time is shortened in proportion,
 * as if twice the mass gave half the time. That is an assumption of ours, on the short side of what a cup does.
 *
 * Good to about ±10 K around T0; beyond that `isExtrapolated` says so.
 */

/** J/(mol K), CODATA 2018, exact. */
const R = 8.314462618

/** J/mol: what to use when nothing is known, and the span of the sources above. */
export const usualActivationEnergy = { low: 44e3, nominal: 55e3, high: 65e3 } as const

/** Furthest from the data sheet's temperature that one activation energy is trusted, K. */
const trustedSpan = 10

export interface WorkingTimeSheet {
  readonly time: number
  readonly temperature: number
  readonly mass: number
  readonly activationEnergy: number
}

export interface CupState {
  readonly temperature: number
  /** Of the mixed resin in one cup. */
  readonly mass: number
}

export function workingTime(sheet: WorkingTimeSheet, { temperature, mass }: CupState): number {
  return sheet.time * temperatureFactor(sheet, temperature) * Math.min(1, sheet.mass / mass)
}

/** The span that the sources' activation energies leave; equal to the nominal at the data sheet's temperature. */
export function workingTimeBand(
  sheet: WorkingTimeSheet,
  cup: CupState,
): { readonly low: number; readonly high: number } {
  const { low, high } = usualActivationEnergy
  const times = [low, high].map((activationEnergy) => workingTime({ ...sheet, activationEnergy }, cup))
  return { low: Math.min(...times), high: Math.max(...times) }
}

/** The workshop's rule, for comparison: twice the time for every 10 K colder. Common practice, no source. */
export const doublingRuleTime = (sheet: WorkingTimeSheet, temperature: number): number =>
  sheet.time * 2 ** ((sheet.temperature - temperature) / 10)

export const isExtrapolated = (sheet: WorkingTimeSheet, temperature: number): boolean =>
  !(Math.abs(temperature - sheet.temperature) <= trustedSpan)

function temperatureFactor({ temperature: T0, activationEnergy: E }: WorkingTimeSheet, T: number): number {
  return Math.exp((E / R) * (1 / T - 1 / T0))
}
