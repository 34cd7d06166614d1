/**
 * Recovery temperature of the air at the skin along a flight, against the glass transition of the resin.
 *
 *   T_r = T (1 + r (γ − 1)/2 M²)      r = Pr^(1/3), Pr = 0.71, γ = 1.4:  r = 0.892, T_r = T (1 + 0.178 M²)
 *
 * T_r is where an insulated skin under a turbulent boundary layer would settle. A thick skin on a short flight stays cooler,
 * a stagnation line gets hotter (r = 1). So it is a bound on the flat of the fin, and given as a warning, not a failure.
 * Sources: r, Eckert, J. Aero. Sci. 22 (1955) 585; Pr of air near room temperature, any table of air (both recalled).
 */
import type { Issue } from '../issue.ts'
import type { FlightHistory } from './history.ts'

const prandtl = 0.71
const gamma = 1.4
/** r (γ − 1)/2 = 0.1784 */
export const recoveryRise = (Math.cbrt(prandtl) * (gamma - 1)) / 2

export function recoveryTemperature({ temperature, mach }: { temperature: number; mach: number }): number {
  return temperature * (1 + recoveryRise * mach ** 2)
}

export interface Recovery {
  /** Highest over the flight. */
  readonly temperature: number
  readonly time: number
  readonly glassTransition: number
  /** Time for which the recovery temperature lies above the glass transition. */
  readonly secondsAbove: number
  readonly warnings: readonly Issue[]
}

export function recoveryAlong(history: FlightHistory, glassTransition: number): Recovery {
  const { time, temperature: T, mach } = history
  const Tr = time.map((_, i) => recoveryTemperature({ temperature: T[i], mach: mach[i] }))
  let hottest = 0
  let secondsAbove = 0
  for (let i = 1; i < time.length; i++) {
    if (Tr[i] > Tr[hottest]) hottest = i
    secondsAbove += (time[i] - time[i - 1]) * shareAbove(Tr[i - 1] - glassTransition, Tr[i] - glassTransition)
  }
  const found = { temperature: Tr[hottest], time: time[hottest], glassTransition, secondsAbove }
  return { ...found, warnings: secondsAbove > 0 ? [recoveryWarning(found)] : [] }
}

/** Share of a straight piece from a to b that lies above zero. */
function shareAbove(a: number, b: number): number {
  if (a > 0 && b > 0) return 1
  if (a <= 0 && b <= 0) return 0
  return Math.max(a, b) / Math.abs(b - a)
}

function recoveryWarning({ temperature, time, glassTransition, secondsAbove }: Omit<Recovery, 'warnings'>): Issue {
  const celsius = (kelvin: number): string => (kelvin - 273.15).toFixed(0)
  return {
    code: 'flight/recovery-above-glass-transition',
    path: 'flight.recovery',
    value: temperature,
    message: `Air at the fin's skin recovers up to ${celsius(temperature)} °C at ${time.toFixed(1)} s, above the resin's glass transition of ${celsius(glassTransition)} °C for ${secondsAbove.toFixed(1)} s.`,
    hint: 'Post-cure or choose a resin with a higher glass transition; the skin lags behind the air, so this is a bound for the flat of the fin, not for its leading edge.',
  }
}
