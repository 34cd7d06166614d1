/**
 * The states of the air at which a boundary is computed: along a flight, or given one by one.
 *
 * Along a flight: even Mach numbers up to the highest, Mach 2 where it lies inside, the Mach number at the greatest dynamic
 * pressure, and the highest itself. A flight passes a Mach number at least twice, going up and slowing down, in air of
 * different density; every passage is a point.
 */
import type { FlightHistory } from '../flight/history.ts'

export interface AirPoint {
  readonly mach: number
  readonly density: number
  readonly soundSpeed: number
  /** Flight speed, Mach number times speed of sound. */
  readonly speed: number
  /** Null for a state that belongs to no flight. */
  readonly time: number | null
  readonly altitude: number | null
}

export interface AirState {
  readonly mach: number
  readonly density: number
  readonly soundSpeed: number
}

/** Fewest Mach numbers along a flight. */
export const leastMachNumbers = 12

export function statePoints(states: readonly AirState[]): AirPoint[] {
  return states.map((state) => ({ ...state, speed: state.mach * state.soundSpeed, time: null, altitude: null }))
}

export function flightPoints(history: FlightHistory, machNumbers = leastMachNumbers): AirPoint[] {
  const highest = history.maximumMach.value
  if (!(highest > 0)) return []
  const even = Array.from({ length: machNumbers - 1 }, (_, i) => (highest * (i + 1)) / machNumbers)
  const atPressure = interpolated(history, history.maximumDynamicPressure.time).mach
  const special = [2, atPressure].filter((mach) => mach < highest * (1 - 1e-9))
  const levels = [...new Set([...even, ...special])].sort((p, q) => p - q)
  const passages = levels.flatMap((mach) => passagesOf(history, mach))
  return [...passages, interpolated(history, history.maximumMach.time)]
}

function passagesOf(history: FlightHistory, level: number): AirPoint[] {
  const { time, mach } = history
  const found: AirPoint[] = []
  for (let i = 1; i < time.length; i++) {
    if (mach[i - 1] > level === mach[i] > level) continue
    const share = (level - mach[i - 1]) / (mach[i] - mach[i - 1])
    const point = interpolated(history, time[i - 1] + share * (time[i] - time[i - 1]))
    found.push({ ...point, mach: level, speed: level * point.soundSpeed })
  }
  return found
}

function interpolated(history: FlightHistory, t: number): AirPoint {
  const { time } = history
  let i = 1
  while (i < time.length - 1 && time[i] < t) i++
  const share = (t - time[i - 1]) / (time[i] - time[i - 1])
  const at = (column: readonly number[]): number => column[i - 1] + share * (column[i] - column[i - 1])
  const [mach, soundSpeed] = [at(history.mach), at(history.soundSpeed)]
  return {
    mach,
    density: at(history.density),
    soundSpeed,
    speed: mach * soundSpeed,
    time: t,
    altitude: at(history.altitude),
  }
}
