/**
 * The temperature of the laminate along a flight as a plate needs it: one value an instant for skin and core, and what
 * is left of the resin's modulus.
 *
 *   mean      over the stations on the flat of the fin, each by its share of the area. Strips along the span bend and
 *             twist together, so their stiffnesses add: the mean factor is the one for the whole plate
 *   hottest   of those stations: a plate as soft everywhere as at its hottest place, a bound
 *
 * Use: a ply's stiffness with the resin's E times the factor, the fibre as it is; the cold answer stands beside it.
 */
import { invariant } from '../../issue.ts'
import type { FinHeat } from './heat-along.ts'
import type { GlassTransition, StationHeat } from './station.ts'

export interface LaminateTemperature {
  readonly time: readonly number[]
  readonly mean: LaminateState
  readonly hottest: LaminateState
}

/** Columns over the history's times. */
export interface LaminateState {
  /** Mean through the skin, K. */
  readonly skin: readonly number[]
  /** Mean through the core, K; that of the skin where there is none. */
  readonly core: readonly number[]
  /** One a glass transition, in the order given. */
  readonly resin: readonly ResinAlong[]
}

export interface ResinAlong extends GlassTransition {
  /** Modulus of the skin's resin over that at 293.15 K, as bending feels it; 0–1. */
  readonly factor: readonly number[]
}

export function laminateTemperature({ time, stations }: FinHeat): LaminateTemperature {
  const flat = stations.filter(({ role }) => role === 'flat')
  const whole = flat.reduce((sum, { share }) => sum + share, 0)
  invariant(whole > 0, 'heat without a station that stands for the flat of the fin')
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value, s) => sum + (flat[s].share / whole) * value, 0)
  return {
    time,
    mean: stateOf(time, flat, { warm: mean, left: mean }),
    hottest: stateOf(time, flat, { warm: (v) => Math.max(...v), left: (v) => Math.min(...v) }),
  }
}

type Choice = (values: readonly number[]) => number

/** `warm` picks a temperature, `left` a factor, from one value a station. */
function stateOf(
  time: readonly number[],
  flat: readonly StationHeat[],
  { warm, left }: { warm: Choice; left: Choice },
) {
  const along = (choose: Choice, value: (station: StationHeat, i: number) => number): number[] =>
    time.map((_, i) => choose(flat.map((station) => value(station, i))))
  return {
    skin: along(warm, ({ skinMean }, i) => skinMean[i]),
    core: along(warm, ({ coreMean, skinMean }, i) => (coreMean ?? skinMean)[i]),
    resin: flat[0].against.map(({ name, temperature }, g) => ({
      name,
      temperature,
      factor: along(left, ({ against }, i) => against[g].resinFactor[i]),
    })),
  }
}
