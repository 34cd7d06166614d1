/** The flight of a plan: flown from its thrust, imported from its history, or absent where air states are given. */
import type { FlightHistory } from '../flight/history.ts'
import { flyHistory } from '../flight/import.ts'
import { recoveryAlong } from '../flight/recovery.ts'
import { flyThrust } from '../flight/trajectory.ts'
import type { Checked, Issue } from '../issue.ts'
import type { FlightSection } from './assessment.ts'
import type { AirState, CanDesign, FlightInput } from './design.ts'

export interface Flown {
  /** Null where the plan gives air states instead. */
  readonly history: FlightHistory | null
  readonly states: readonly AirState[]
}

export function flown(flight: FlightInput): Checked<Flown> {
  if (flight.kind === 'states') return { ok: true, value: { history: null, states: flight.states }, warnings: [] }
  const result = flight.kind === 'thrust' ? flyThrust(flight) : flyHistory(flight)
  if (!result.ok) return result
  const { mach, density, soundSpeed } = result.value
  const states = mach.map((M, i) => ({ mach: M, density: density[i], soundSpeed: soundSpeed[i] }))
  return { ok: true, value: { history: result.value, states }, warnings: result.warnings }
}

export function flightSection(
  { resin, mixing }: CanDesign,
  { history, states }: Flown,
  heat: FlightSection['heat'],
): Section<FlightSection> {
  if (history === null) return { value: statesOnly(states), warnings: [withoutHistory] }
  const Tg = mixing.postCure ? resin.glassTransitionPostCured.value : resin.glassTransition.value
  const { temperature, time, secondsAbove, warnings } = recoveryAlong(history, Tg)
  return {
    value: {
      maximumMach: history.maximumMach.value,
      maximumDynamicPressure_Pa: history.maximumDynamicPressure.value,
      maximumAltitude_m: history.maximumAltitude.value,
      at: {
        maximumMach_s: history.maximumMach.time,
        maximumDynamicPressure_s: history.maximumDynamicPressure.time,
      },
      recovery: { temperature_K: temperature, time_s: time, glassTransition_K: Tg, secondsAbove },
      heat,
      history: {
        time_s: history.time,
        altitude_m: history.altitude,
        speed_m_s: history.speed,
        mach: history.mach,
        dynamicPressure_Pa: history.dynamicPressure,
        density_kg_m3: history.density,
      },
    },
    warnings,
  }
}

/** A section of the assessment with what there is to say about it. */
export interface Section<T> {
  readonly value: T
  readonly warnings: readonly Issue[]
}

export function statesOnly(states: readonly AirState[]): FlightSection {
  const pressures = states.map(({ mach, density, soundSpeed }) => 0.5 * density * (mach * soundSpeed) ** 2)
  return {
    maximumMach: states.length === 0 ? null : Math.max(...states.map(({ mach }) => mach)),
    maximumDynamicPressure_Pa: states.length === 0 ? null : Math.max(...pressures),
    maximumAltitude_m: null,
    at: null,
    recovery: null,
    heat: null,
    history: null,
  }
}

const withoutHistory: Issue = {
  code: 'flight/states-only',
  path: 'flight',
  value: null,
  message:
    'The plan gives air states, not a flight, so there is no history against time, no recovery temperature and no heating.',
  hint: 'Give a thrust curve with masses and drag, or a history of time, altitude and speed.',
}
