/**
 * Vertical flight of a point mass from ignition to apogee.
 *
 *   h' = v      v' = (F(t) − C_d(v/a) ½ ρ v |v| A) / m(t) − g(h)      m(t) = m₀ − m_p I(t)/I(∞)
 *
 * The rocket stands on its pad until the thrust first exceeds the weight. Drag coefficient straight between the points of the
 * table and held at its ends beyond them; air and gravity after the standard atmosphere at the altitude above sea level.
 * Straight up, no wind, no rail: a flight that leans sees thicker air at the same speed, so dynamic pressures of a leaning
 * flight are higher than here. Integrated by an adaptive Runge–Kutta 5(4) method; steps end at the corners of the thrust
 * curve, the run ends where v falls through zero.
 */
import { gravity, standardAir } from '../air/atmosphere.ts'
import type { Checked, Issue } from '../issue.ts'
import { integrate, stateAt, type Trajectory } from '../numeric/integrate.ts'
import { type FlightHistory, flightHistory, historyWarnings, subdivided } from './history.ts'
import { pieceOf, type ThrustCurve, thrustCurve } from './thrust-curve.ts'

export interface ThrustFlight {
  readonly kind: 'thrust'
  /** Of the thrust curve; rising. */
  readonly time: readonly number[]
  readonly thrust: readonly number[]
  readonly liftOffMass: number
  readonly propellantMass: number
  readonly referenceArea: number
  /** Drag coefficient on `referenceArea` against Mach number; Mach rising. */
  readonly drag: { readonly mach: readonly number[]; readonly coefficient: readonly number[] }
  /** Above mean sea level. */
  readonly siteAltitude: number
  /** Added to the standard atmosphere's temperature at every altitude. */
  readonly temperatureOffset: number
}

/** Allowed error a step: share of the size, and m, m/s. */
export const flightTolerance = { relative: 1e-9, absolute: [1e-5, 1e-6] } as const

/** Even samples while the motor burns, and from burnout to apogee. */
const boostSamples = 120
const coastSamples = 160

export function flyThrust(flight: ThrustFlight): Checked<FlightHistory> {
  const curve = thrustCurve(flight)
  const mass = (t: number): number =>
    flight.liftOffMass - (flight.propellantMass * curve.impulse(t)) / curve.totalImpulse
  const liftOff = liftOffTime(flight, curve, mass)
  if (liftOff === null) return { ok: false, issues: [neverLiftsOff(flight)] }
  const run = fly(flight, curve, mass, liftOff)
  if (run.kind !== 'event') return { ok: false, issues: [neverStops(flight, run)] }
  const apogee = run.t[run.t.length - 1]
  const value = flightHistory({
    motion: (t) => {
      const [altitude, v] = stateAt(run, t)
      return { altitude, speed: Math.max(0, v) }
    },
    times: sampleTimes({ ignition: curve.ignition, liftOff, burnout: curve.burnout, apogee, corners: flight.time }),
    temperatureOffset: flight.temperatureOffset,
  })
  return { ok: true, value, warnings: [...historyWarnings(value), ...dragWarnings(flight, value)] }
}

/** Time at which thrust first exceeds weight; null when it never does. */
function liftOffTime({ time, siteAltitude }: ThrustFlight, curve: ThrustCurve, mass: (t: number) => number) {
  const g = gravity(siteAltitude)
  const excess = (t: number): number => curve.thrust(t) - mass(t) * g
  const samplesAPiece = 16
  if (excess(time[0]) > 0) return time[0]
  for (let i = 1; i < time.length; i++) {
    for (let j = 1; j <= samplesAPiece; j++) {
      const t = time[i - 1] + ((time[i] - time[i - 1]) * j) / samplesAPiece
      if (excess(t) > 0) return bisected(excess, t - (time[i] - time[i - 1]) / samplesAPiece, t)
    }
  }
  return null
}

function bisected(excess: (t: number) => number, below: number, above: number): number {
  for (let i = 0; i < 60; i++) {
    const middle = (below + above) / 2
    if (excess(middle) > 0) above = middle
    else below = middle
  }
  return above
}

function fly(flight: ThrustFlight, curve: ThrustCurve, mass: (t: number) => number, liftOff: number): Trajectory {
  const { drag, referenceArea, siteAltitude, temperatureOffset } = flight
  // Without drag the speed stays under impulse over burnt-out mass; four times the climb at that speed is ample.
  const longest = (4 * curve.totalImpulse) / (mass(curve.burnout) * gravity(0))
  return integrate({
    f: (t, y, dydt) => {
      const [h, v] = y
      const { density, soundSpeed } = standardAir(h, temperatureOffset)
      const Cd = dragCoefficient(drag, Math.abs(v) / soundSpeed)
      const D = 0.5 * density * v * Math.abs(v) * referenceArea * Cd
      dydt[0] = v
      dydt[1] = (curve.thrust(t) - D) / mass(t) - gravity(h)
    },
    t0: liftOff,
    t1: curve.burnout + longest,
    y0: [siteAltitude, 0],
    events: [(_, y) => y[1]],
    breakpoints: flight.time,
    ...flightTolerance,
  })
}

/** Straight between the points, held at the ends. */
export function dragCoefficient({ mach, coefficient }: ThrustFlight['drag'], M: number): number {
  const last = mach.length - 1
  if (M <= mach[0] || last === 0) return coefficient[0]
  if (M >= mach[last]) return coefficient[last]
  const i = pieceOf(mach, M)
  return coefficient[i] + ((coefficient[i + 1] - coefficient[i]) * (M - mach[i])) / (mach[i + 1] - mach[i])
}

interface FlightTimes {
  readonly ignition: number
  readonly liftOff: number
  readonly burnout: number
  readonly apogee: number
  readonly corners: readonly number[]
}

/** Corners of the thrust curve are samples; between them and after, even ones. */
function sampleTimes({ ignition, liftOff, burnout, apogee, corners }: FlightTimes): number[] {
  const end = Math.min(burnout, apogee)
  const inner = corners.filter((t) => t > liftOff && t < end)
  const boost = subdivided([liftOff, ...inner, end], (end - liftOff) / boostSamples)
  const coast = apogee > end ? subdivided([end, apogee], (apogee - end) / coastSamples).slice(1) : []
  return ignition < liftOff ? [ignition, ...boost, ...coast] : [...boost, ...coast]
}

function neverLiftsOff({ thrust, liftOffMass }: ThrustFlight): Issue {
  const weight = liftOffMass * gravity(0)
  const most = Math.max(...thrust)
  return {
    code: 'flight/no-lift-off',
    path: 'flight.thrust',
    value: most,
    message: `The rocket never leaves the pad: the largest thrust is ${most.toFixed(1)} N and the weight is ${weight.toFixed(1)} N.`,
    hint: 'Check the unit of the thrust column and the lift-off mass.',
  }
}

function neverStops({ thrust }: ThrustFlight, { kind, steps, t }: Trajectory): Issue {
  const reason = kind === 'not-converged' ? `the integration stopped after ${steps} steps` : 'it still climbs'
  return {
    code: 'flight/no-apogee',
    path: 'flight',
    value: Math.max(...thrust),
    message: `No apogee was found up to ${t[t.length - 1].toFixed(1)} s after ignition: ${reason}.`,
    hint: 'Check thrust, masses, reference area and drag table, and their units.',
  }
}

function dragWarnings({ drag }: ThrustFlight, { maximumMach }: FlightHistory): Issue[] {
  const end = drag.mach[drag.mach.length - 1]
  if (maximumMach.value <= end || drag.mach.length === 1) return []
  return [
    {
      code: 'flight/drag-table-ends',
      path: 'flight.drag',
      value: end,
      message: `The drag table ends at Mach ${end}; the flight reaches Mach ${maximumMach.value.toFixed(2)}, where the last coefficient is used.`,
      hint: 'Add rows to the drag table up to the highest Mach number of the flight.',
    },
  ]
}
