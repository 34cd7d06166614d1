/**
 * The temperature of the laminate along a flight as a plate needs it: one value an instant for skin and core, and what is left of
 * the resin's modulus, from the hottest of the stations on the flat of the fin. A plate whose stiffness falls everywhere as it does at
 * its hottest place is softer than the fin, so a margin found with it is on the safe side.
 */
import { invariant } from '../../issue.ts'
import type { FinHeat, GlassTransition, StationHeat } from './heat-along.ts'

export interface LaminateTemperature {
  readonly time: readonly number[]
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
  invariant(flat.length > 0, 'heat without a station on the flat of the fin')
  const each = (value: (station: StationHeat, i: number) => number, choose: (...all: number[]) => number): number[] =>
    time.map((_, i) => choose(...flat.map((station) => value(station, i))))
  return {
    time,
    skin: each(({ skinMean }, i) => skinMean[i], Math.max),
    core: each(({ coreMean, skinMean }, i) => (coreMean ?? skinMean)[i], Math.max),
    resin: flat[0].against.map(({ name, temperature }, g) => ({
      name,
      temperature,
      factor: each(({ against }, i) => against[g].resinFactor[i], Math.min),
    })),
  }
}
