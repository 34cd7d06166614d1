/**
 * Flutter and divergence boundary of the conservative envelope (envelope.ts) at points of the air, and the margin of a flight against it.
 *
 * Every reading is solved by p-k in air of the point's density; the least of factor times first instability is the envelope's speed, and
 * the reading it comes from is the entry's. `linearSpeed` is that reading's speed without its factor. The margin's verdict, the choice
 * of a Mach number's worst passage and what is "not determined" are those of boundary.ts: a point outside the envelope's Mach
 * numbers or with a reading that did not converge leaves the verdict open; a search that ends counts as flutter where it ends.
 */
import type { Issue } from '../issue.ts'
import type { AirPoint } from './air-points.ts'
import { isHeld, type Margin, marginOf, notDetermined, requiredSpeedRatio, worstOfEachMach } from './boundary.ts'
import type { Envelope, Reading } from './envelope.ts'
import { solvePk } from './pk.ts'

export interface EnvelopeInput {
  readonly envelope: Envelope
  readonly points: readonly AirPoint[]
  /** Circular frequencies of the modes on which the methods were built. */
  readonly omegas: readonly number[]
  readonly structuralDamping: number
  /** Least ratio of envelope speed to flight speed for the verdict "holds". Default 1.15, on top of the envelope's factors. */
  readonly requiredRatio?: number
}

export interface EnvelopeEntry {
  readonly point: AirPoint
  /** Of the envelope, m/s; null when not determined. */
  readonly speed: number | null
  readonly dynamicPressure: number | null
  /** Of the governing reading, without its factor. */
  readonly linearSpeed: number | null
  /** On the linear speed. */
  readonly factor: number | null
  /** Hz, as computed at the linear speed; null but for flutter. */
  readonly frequency: number | null
  /** Of the governing reading: the method, and the Mach number of its forces if it is not the point's. */
  readonly method: string
  /** `end of search`: no instability was found up to `linearSpeed`. */
  readonly kind: 'flutter' | 'divergence' | 'end of search' | 'not determined'
}

export interface EnvelopeBoundary {
  /** Of a flight, one a Mach number, rising; of states, one each in their order. */
  readonly boundary: readonly EnvelopeEntry[]
  readonly margin: Margin
  readonly warnings: readonly Issue[]
}

interface Answer {
  readonly point: AirPoint
  readonly entry: EnvelopeEntry
  readonly ratio: number | null
  readonly kind: 'flutter' | 'divergence' | 'end of search'
  readonly stuck: boolean
  readonly beyondTable: boolean
}

export function envelopeBoundary(input: EnvelopeInput): EnvelopeBoundary {
  const { envelope, points, omegas, requiredRatio = requiredSpeedRatio } = input
  const held = isHeld(omegas)
  const answers = points.map((point) => (held ? answered(input, point) : undetermined(point, false)))
  const margin = marginOf(answers, requiredRatio)
  return {
    boundary: worstOfEachMach(answers).map(({ entry }) => entry),
    margin,
    warnings: held ? [...envelopeWarnings(answers, envelope), ...methodWarnings(input)] : [freeBody(omegas)],
  }
}

function answered({ envelope, omegas, structuralDamping }: EnvelopeInput, point: AirPoint): Answer {
  const readings = envelope.readings(point.mach)
  if (readings.length === 0) return undetermined(point, false)
  const air = { omegas, structuralDamping, density: point.density }
  const found = readings.map((reading) => firstInstability(reading, air))
  const read = found.filter((each) => each !== null)
  if (read.length < found.length) return undetermined(point, true)
  const { reading, V, kind, frequency, beyondTable } = read.reduce((least, other) =>
    other.reading.factor * other.V < least.reading.factor * least.V ? other : least,
  )
  const { factor } = reading
  const speed = factor * V
  const entry: EnvelopeEntry = {
    ...{ point, speed, dynamicPressure: 0.5 * point.density * speed ** 2, linearSpeed: V, factor, frequency, kind },
    method: methodText(reading, point),
  }
  return { point, entry, ratio: speed / point.speed, kind, stuck: false, beyondTable }
}

function methodText({ method, mach }: Reading, point: AirPoint): string {
  return mach === point.mach ? method.name : `${method.name} at Mach ${mach}`
}

interface Air {
  readonly omegas: readonly number[]
  readonly structuralDamping: number
  readonly density: number
}

/** First instability of one reading, its factor not applied. */
function firstInstability(reading: Reading, air: Air) {
  const forces = reading.method.forces(reading.mach)
  const { flutter, divergence } = solvePk({ ...air, forces })
  if (flutter.kind === 'not-converged') return null
  const found = { reading, frequency: null, beyondTable: false }
  if (divergence.kind === 'divergence' && divergence.V < flutter.V) {
    return { ...found, V: divergence.V, kind: 'divergence' as const }
  }
  if (flutter.kind === 'none-below') return { ...found, V: flutter.V, kind: 'end of search' as const }
  const { V, omega, k } = flutter
  const beyondTable = k > forces.highestReducedFrequency
  return { ...found, V, kind: 'flutter' as const, frequency: omega / (2 * Math.PI), beyondTable }
}

function undetermined(point: AirPoint, stuck: boolean): Answer {
  const nothing = { speed: null, dynamicPressure: null, linearSpeed: null, factor: null, frequency: null }
  const entry: EnvelopeEntry = { point, ...nothing, method: notDetermined, kind: notDetermined }
  return { point, entry, ratio: null, kind: 'flutter', stuck, beyondTable: false }
}

function envelopeWarnings(answers: readonly Answer[], { machRange }: Envelope): Issue[] {
  const warnings: Issue[] = []
  const machs = (which: (answer: Answer) => boolean): number[] => answers.filter(which).map(({ point }) => point.mach)
  const listed = (values: readonly number[]): string => [...new Set(values.map((mach) => mach.toFixed(2)))].join(', ')
  const outside = machs(({ entry, stuck }) => entry.kind === notDetermined && !stuck)
  if (outside.length > 0) {
    warnings.push({
      code: 'flutter/outside-envelope',
      path: 'flutter.margin',
      value: Math.max(...outside),
      message: `The flutter envelope covers Mach ${machRange.from} to ${machRange.to}; at Mach ${listed(outside)} whether the fin holds is not determined. This is not a pass.`,
      hint: 'Judge that part of the flight by test or by another analysis.',
    })
  }
  const stuck = machs((answer) => answer.stuck)
  if (stuck.length > 0) {
    warnings.push({
      code: 'flutter/not-converged',
      path: 'flutter.boundary',
      value: stuck[0],
      message: `The flutter solution did not converge at Mach ${listed(stuck)}; the margin is not determined.`,
      hint: 'Keep more or fewer modes, or refine the mesh.',
    })
  }
  const beyond = machs(({ beyondTable }) => beyondTable)
  if (beyond.length > 0) {
    warnings.push({
      code: 'flutter/beyond-reduced-frequency',
      path: 'flutter.boundary',
      value: beyond[0],
      message: `At Mach ${listed(beyond)} the fin flutters faster than the highest reduced frequency the air forces were computed for.`,
      hint: 'Read the speed there as an estimate.',
    })
  }
  return warnings
}

/** One of a kind, at the highest Mach number that has it. */
function methodWarnings({ envelope, points }: EnvelopeInput): Issue[] {
  const seen = new Map<string, Issue>()
  for (const { mach } of [...points].sort((a, b) => a.mach - b.mach)) {
    for (const issue of envelope.warnings(mach)) seen.set(issue.code, issue)
  }
  return [...seen.values()]
}

function freeBody(omegas: readonly number[]): Issue {
  return {
    code: 'flutter/free-body',
    path: 'flutter.boundary',
    value: omegas.length === 0 ? null : Math.min(...omegas),
    message: 'The plate can move as a rigid body, so it has no flutter speed of its own.',
    hint: 'Clamp or support at least one edge.',
  }
}
