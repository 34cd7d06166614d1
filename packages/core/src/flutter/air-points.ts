/**
 * The states of the air at which a boundary is computed: along a flight, or given one by one.
 *
 * Along a flight: even Mach numbers up to the highest, Mach 2 where it lies inside, the Mach number at the greatest dynamic
 * pressure, and the highest itself; joints of an envelope in place of the even ones nearest to them. A flight passes a Mach number at least twice, going up and slowing down, in air of
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

/** `joints`: Mach numbers to be among them, each in place of the even one that is nearest. */
export function flightPoints(
  history: FlightHistory,
  machNumbers = leastMachNumbers,
  joints: readonly number[] = [],
): AirPoint[] {
  const highest = history.maximumMach.value
  if (!(highest > 0)) return []
  const even = Array.from({ length: machNumbers - 1 }, (_, i) => (highest * (i + 1)) / machNumbers)
  const inside = joints.filter((mach) => mach < highest * (1 - 1e-9))
  const atPressure = pointAt(history, history.maximumDynamicPressure.time).mach
  const special = [2, atPressure].filter((mach) => mach < highest * (1 - 1e-9))
  const levels = [...new Set([...drawnTo(even, inside), ...special])].sort((p, q) => p - q)
  const passages = levels.flatMap((mach) => passagesOf(history, mach))
  return [...passages, pointAt(history, history.maximumMach.time)]
}

/** The even numbers, the nearest to each joint moved onto it; a joint whose nearest is taken is one more. */
function drawnTo(even: readonly number[], joints: readonly number[]): number[] {
  const levels = [...even]
  const taken = new Set<number>()
  for (const joint of joints) {
    const nearest = even.reduce((a, mach, i) => (Math.abs(mach - joint) < Math.abs(even[a] - joint) ? i : a), 0)
    if (taken.has(nearest)) levels.push(joint)
    else levels[nearest] = joint
    taken.add(nearest)
  }
  return levels
}

/** Every passage of a Mach number, in the order of time. */
export function passagesOf(history: FlightHistory, level: number): AirPoint[] {
  const { time, mach } = history
  const found: AirPoint[] = []
  for (let i = 1; i < time.length; i++) {
    if (mach[i - 1] > level === mach[i] > level) continue
    const share = (level - mach[i - 1]) / (mach[i] - mach[i - 1])
    const point = pointAt(history, time[i - 1] + share * (time[i] - time[i - 1]))
    found.push({ ...point, mach: level, speed: level * point.soundSpeed })
  }
  return found
}

/** The air that the flight has at an instant, straight between the history's. */
export function pointAt(history: FlightHistory, t: number): AirPoint {
  const { time } = history
  // The first sample at or after t, by halving.
  let [low, i] = [0, time.length - 1]
  while (i - low > 1) {
    const middle = (low + i) >> 1
    if (time[middle] < t) low = middle
    else i = middle
  }
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
