/**
 * Angle of attack along a flight: given throughout, or from the wind that the rocket meets at the rail's end and gusts after it.
 *
 *   at the rail's end    α = atan((steady + gust)/V)         after it    α = atan(gust/V)         on the rail    0
 *
 * The air is taken to move square to the flight path, the gust to be there at once in full (sharp-edged, no alleviation), and the
 * rocket not to turn into it: a gust's first instant. After the rail's end the rocket is taken to have turned into the steady wind,
 * so only a gust is left; both count at the end itself. Where an angle is given as well, the greater counts at each instant. A fin
 * that rings as the gust strikes, and turning into the wind beyond the path, are left out (docs/methods/strength.md).
 * Source: the sharp-edged gust, Δα = U/V, is the start of Pratt & Walker, NACA Rep. 1206 (1954), before their alleviation (recalled).
 */

/** Air across the flight path, m/s. */
export interface CrossWind {
  readonly steady: number
  readonly gust: number
  /** Length over which the rail guides. */
  readonly railLength: number
}

export interface AngleSpec {
  /** Throughout, rad; its sign does not count. Null where only wind is given. */
  readonly angleOfAttack: number | null
  readonly wind: CrossWind | null
}

/** Columns of a flight history, one entry an instant. */
export interface FlownColumns {
  readonly time: readonly number[]
  readonly speed: readonly number[]
  readonly mach: readonly number[]
  readonly dynamicPressure: readonly number[]
}

/** Air of a state that belongs to no flight. */
export interface AirOfState {
  readonly mach: number
  readonly density: number
  readonly soundSpeed: number
}

export interface LoadState {
  /** Null for a state that belongs to no flight. */
  readonly time: number | null
  readonly mach: number
  readonly dynamicPressure: number
  readonly angle: number
  readonly cause: 'given' | 'gust' | 'wind and gust at the rail'
}

/** The states of a flight with their angles, and the rail's end as one of its own. */
export function flightLoads(flight: FlownColumns, spec: AngleSpec): LoadState[] {
  const { time, speed, mach, dynamicPressure } = flight
  const { wind } = spec
  const exit = wind === null ? null : railExit(flight, wind.railLength)
  const states = time.map((t, i): LoadState => {
    const gust = wind !== null && exit !== null && t >= exit.time ? wind.gust : 0
    return { time: t, mach: mach[i], dynamicPressure: dynamicPressure[i], ...greater(spec, gust, speed[i], 'gust') }
  })
  if (wind === null || exit === null) return states
  const { time: t, index, share } = exit
  const at = (column: readonly number[]): number => column[index] + share * (column[index + 1] - column[index])
  const V = at(speed)
  const angle = greater(spec, wind.steady + wind.gust, V, 'wind and gust at the rail')
  // q ∝ V² between two samples, so that it is not read high where the speed starts from nothing.
  const nearest = share < 0.5 && speed[index] > 0 ? index : index + 1
  const pressure = dynamicPressure[nearest] * (V / speed[nearest]) ** 2
  const state = { time: t, mach: at(mach), dynamicPressure: pressure, ...angle }
  return [...states.slice(0, index + 1), state, ...states.slice(index + 1)]
}

/** States without a flight: a gust counts at each, the rail does not. */
export function stateLoads(states: readonly AirOfState[], spec: AngleSpec): LoadState[] {
  return states.map(({ mach, density, soundSpeed }) => {
    const V = mach * soundSpeed
    return {
      time: null,
      mach,
      dynamicPressure: 0.5 * density * V * V,
      ...greater(spec, spec.wind?.gust ?? 0, V, 'gust'),
    }
  })
}

function greater(
  { angleOfAttack }: AngleSpec,
  across: number,
  speed: number,
  cause: LoadState['cause'],
): Pick<LoadState, 'angle' | 'cause'> {
  const given = Math.abs(angleOfAttack ?? 0)
  const blown = across > 0 ? Math.atan2(across, speed) : 0
  return blown > given ? { angle: blown, cause } : { angle: given, cause: 'given' }
}

/** When the path flown reaches the rail's length: ∫ V dt by trapezoids, solved within the last one. */
function railExit(
  { time, speed }: FlownColumns,
  length: number,
): { time: number; index: number; share: number } | null {
  let path = 0
  for (let i = 0; i + 1 < time.length; i++) {
    const dt = time[i + 1] - time[i]
    const step = (dt * (speed[i] + speed[i + 1])) / 2
    if (path + step >= length && step > 0) {
      const left = length - path
      // left = dt (V₀ s + (V₁ − V₀) s²/2), 0 < s ≤ 1
      const [b, a] = [speed[i] * dt, ((speed[i + 1] - speed[i]) * dt) / 2]
      const share = (2 * left) / (b + Math.sqrt(Math.max(0, b * b + 4 * a * left)))
      return { time: time[i] + share * dt, index: i, share }
    }
    path += step
  }
  return null
}
