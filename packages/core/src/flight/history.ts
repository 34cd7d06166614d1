/**
 * What the air does to the rocket against time, from its altitude and speed and the standard atmosphere, and the two worst
 * points of it.
 *
 *   M = v / a      q = ½ ρ v²
 *
 * The maxima are searched on the motion itself (golden section between the neighbours of the largest sample), not only among
 * the samples, and the samples are set closer around them.
 */
import { atmosphereCeiling, standardAir } from '../air/atmosphere.ts'
import { type Issue, invariant } from '../issue.ts'

export interface FlightHistory {
  readonly time: readonly number[]
  /** Above mean sea level. */
  readonly altitude: readonly number[]
  readonly speed: readonly number[]
  readonly mach: readonly number[]
  readonly dynamicPressure: readonly number[]
  readonly density: readonly number[]
  readonly soundSpeed: readonly number[]
  readonly temperature: readonly number[]
  readonly maximumMach: FlightMaximum
  readonly maximumDynamicPressure: FlightMaximum
  readonly maximumAltitude: FlightMaximum
}

export interface FlightMaximum {
  readonly value: number
  readonly time: number
}

export interface Motion {
  readonly altitude: number
  /** Magnitude of the velocity. */
  readonly speed: number
}

export interface SampledMotion {
  readonly motion: (t: number) => Motion
  /** Rising, two or more. */
  readonly times: readonly number[]
  /** Added to the standard atmosphere's temperature at every altitude. */
  readonly temperatureOffset: number
}

export interface FlightState extends Motion {
  readonly time: number
  readonly mach: number
  readonly dynamicPressure: number
  readonly density: number
  readonly soundSpeed: number
  readonly temperature: number
}

/** Samples added around each maximum, and the share of the whole time they reach to each side. */
const closeSamples = 24
const closeReach = 0.02

export function flightHistory({ motion, times, temperatureOffset }: SampledMotion): FlightHistory {
  invariant(times.length >= 2, `flight history of ${times.length} samples`)
  const at = (t: number): FlightState => flightState(t, motion(t), temperatureOffset)
  const coarse = times.map(at)
  const mach = maximumOf(coarse, at, ({ mach: m }) => m)
  const pressure = maximumOf(coarse, at, ({ dynamicPressure: q }) => q)
  const altitude = maximumOf(coarse, at, ({ altitude: h }) => h)
  const states = withCloseTimes([...times, mach.time, pressure.time], [mach.time, pressure.time]).map(at)
  const column = (read: (state: FlightState) => number): number[] => states.map(read)
  return {
    time: column(({ time }) => time),
    altitude: column(({ altitude: h }) => h),
    speed: column(({ speed }) => speed),
    mach: column(({ mach: m }) => m),
    dynamicPressure: column(({ dynamicPressure: q }) => q),
    density: column(({ density }) => density),
    soundSpeed: column(({ soundSpeed }) => soundSpeed),
    temperature: column(({ temperature }) => temperature),
    maximumMach: mach,
    maximumDynamicPressure: pressure,
    maximumAltitude: altitude,
  }
}

export function flightState(time: number, { altitude, speed }: Motion, temperatureOffset: number): FlightState {
  const { density, soundSpeed, temperature } = standardAir(altitude, temperatureOffset)
  const air = { density, soundSpeed, temperature }
  return { time, altitude, speed, mach: speed / soundSpeed, dynamicPressure: 0.5 * density * speed ** 2, ...air }
}

/** The times given, and even ones between them so that no gap is longer than `longest`. */
export function subdivided(times: readonly number[], longest: number): number[] {
  const all = [times[0]]
  for (let i = 1; i < times.length; i++) {
    const parts = Math.max(1, Math.ceil((times[i] - times[i - 1]) / longest - 1e-9))
    for (let j = 1; j < parts; j++) all.push(times[i - 1] + ((times[i] - times[i - 1]) * j) / parts)
    all.push(times[i])
  }
  return all
}

/** Warnings that any flight may need, however it was found. */
export function historyWarnings({ maximumAltitude }: FlightHistory): Issue[] {
  if (maximumAltitude.value <= atmosphereCeiling) return []
  return [
    {
      code: 'flight/above-atmosphere',
      path: 'flight',
      value: maximumAltitude.value,
      message: `The flight reaches ${(maximumAltitude.value / 1000).toFixed(1)} km; the atmosphere model ends at 86 km and is carried on at constant temperature above it.`,
      hint: 'Loads up there are negligible; read altitudes above 86 km as estimates.',
    },
  ]
}

function maximumOf(
  states: readonly FlightState[],
  at: (t: number) => FlightState,
  read: (state: FlightState) => number,
): FlightMaximum {
  let best = 0
  for (let i = 1; i < states.length; i++) if (read(states[i]) > read(states[best])) best = i
  const from = states[Math.max(0, best - 1)].time
  const to = states[Math.min(states.length - 1, best + 1)].time
  const found = goldenMaximum((t) => read(at(t)), from, to)
  const sample = { value: read(states[best]), time: states[best].time }
  return found.value > sample.value * (1 + 1e-12) ? found : sample
}

/** Largest value in an interval with one peak; the time to 1e-9 of the interval's length. */
function goldenMaximum(value: (t: number) => number, from: number, to: number): FlightMaximum {
  const ratio = (Math.sqrt(5) - 1) / 2
  const tolerance = 1e-9 * (to - from)
  let [left, right] = [to - ratio * (to - from), from + ratio * (to - from)]
  let [valueLeft, valueRight] = [value(left), value(right)]
  while (to - from > tolerance) {
    if (valueLeft >= valueRight) {
      to = right
      ;[right, valueRight] = [left, valueLeft]
      left = to - ratio * (to - from)
      valueLeft = value(left)
    } else {
      from = left
      ;[left, valueLeft] = [right, valueRight]
      right = from + ratio * (to - from)
      valueRight = value(right)
    }
  }
  return valueLeft >= valueRight ? { value: valueLeft, time: left } : { value: valueRight, time: right }
}

/** All of `times` once, and more around the centres, none of those closer to another than the samples' least spacing. */
function withCloseTimes(times: readonly number[], centres: readonly number[]): number[] {
  const [start, end] = [Math.min(...times), Math.max(...times)]
  const reach = closeReach * (end - start)
  const spacing = 1e-3 * reach
  const kept = new Set(times)
  const close = centres.flatMap((centre) =>
    Array.from({ length: closeSamples + 1 }, (_, i) => centre + reach * ((2 * i) / closeSamples - 1)),
  )
  const free = close.filter((t) => t > start && t < end && times.every((other) => Math.abs(t - other) > spacing))
  const all = [...kept, ...free].sort((p, q) => p - q)
  return all.filter((t, i) => i === 0 || kept.has(t) || t - all[i - 1] > spacing)
}
