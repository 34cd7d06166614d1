/**
 * Flutter and divergence boundary of the conservative envelope (envelope.ts) at points of the air, and the margin against it.
 *
 * Every reading is solved by p-k in air of the point's density; the least of factor times first instability is the envelope's speed, and
 * the reading it comes from is the entry's. `linearSpeed` is that reading's speed without its factor; `linear` is the surface at the
 * point's own Mach number, no factor on it. Divergence has its own list, the least of factor times divergence speed. The structure may
 * be another at every point (a fin that softens as it gets hot): air forces are computed on shapes that do not change and turned to its modes.
 *
 * The margin's verdict, the choice of a Mach number's worst passage and what is "not determined" are those of boundary.ts: a point
 * outside the envelope's Mach numbers or with a reading that did not converge leaves the verdict open; a search that ends counts as
 * flutter where it ends.
 */

import { type Issue, invariant } from '../issue.ts'
import type { AirPoint } from './air-points.ts'
import {
  isHeld,
  type Judged,
  type Margin,
  marginOf,
  notDetermined,
  requiredSpeedRatio,
  worstOfEachMach,
} from './boundary.ts'
import type { Envelope, Reading } from './envelope.ts'
import { envelopeWarnings } from './envelope-warnings.ts'
import type { AerodynamicMethod, GeneralizedForces } from './forces.ts'
import { basisLimit } from './limits.ts'
import type { ModalSystem } from './modal-system.ts'
import { type FlutterResult, solvePk } from './pk.ts'
import type { Aeroelastic } from './roots.ts'

export interface EnvelopeInput {
  readonly envelope: Envelope
  readonly points: readonly AirPoint[]
  /** On the shapes on which the methods were built: one for all points, or each point's own. */
  readonly modes: ModalSystem | ((point: AirPoint) => ModalSystem)
  readonly structuralDamping: number
  /** Least ratio of envelope speed to flight speed for the verdict "holds". Default 1.15, on top of the envelope's factors. */
  readonly requiredRatio?: number
}

export type InstabilityKind = 'flutter' | 'divergence' | 'end of search'

/** Of the linear surface at the point's own Mach number. */
export interface LinearValue {
  readonly method: string
  /** m/s; null where none was found. */
  readonly speed: number | null
  /** Hz; null but for flutter. */
  readonly frequency: number | null
}

export interface EnvelopeEntry {
  readonly point: AirPoint
  /** Of the envelope, m/s; null when not determined, and where there is no divergence. */
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
  /** `end of search`: no instability was found up to `linearSpeed`; `never`: no divergence at any speed. */
  readonly kind: InstabilityKind | 'never' | 'not determined'
  /** Flutter speed, or divergence speed in the list of those, without any factor; null where no surface answers at this Mach number. */
  readonly linear: LinearValue | null
  /** Equations of the governing reading and its flutter, for curves and the modes in it; null but for flutter. */
  readonly solved: { readonly system: Aeroelastic; readonly flutter: Flutter } | null
}

type Flutter = Extract<FlutterResult, { kind: 'flutter' }>

/** What was found at one point. */
export interface Passage extends Judged {
  readonly entry: EnvelopeEntry
  readonly divergence: EnvelopeEntry
  /** A reading could not be solved. */
  readonly stuck: boolean
  /** Flutter at a reduced frequency above the highest the method computed. */
  readonly beyondTable: boolean
}

export interface EnvelopeBoundary {
  /** Mach numbers the envelope answers for. */
  readonly machRange: Envelope['machRange']
  /** First instability, flutter or divergence. Of a flight, one a Mach number, rising; of states, one each in their order. */
  readonly boundary: readonly EnvelopeEntry[]
  readonly divergence: readonly EnvelopeEntry[]
  /** Of every point, in the order given. */
  readonly passages: readonly Passage[]
  readonly margin: Margin
  readonly warnings: readonly Issue[]
}

export function envelopeBoundary(input: EnvelopeInput): EnvelopeBoundary {
  return boundaryOf(input, passagesAt(input, input.points))
}

/** The boundary that passages make, and their margin; `between`: least ratios that stand between passages. */
export function boundaryOf(
  { envelope, modes, requiredRatio = requiredSpeedRatio }: Omit<EnvelopeInput, 'points'>,
  passages: readonly Passage[],
  between: readonly Judged[] = [],
): EnvelopeBoundary {
  const margin = marginOf([...passages, ...between], requiredRatio)
  const free = passages.map(({ point }) => systemAt(modes, point)).find(({ omegas }) => !isHeld(omegas))
  const divergences = passages.map((passage) => ({ ...passage, ratio: ratioOf(passage.divergence) }))
  return {
    machRange: envelope.machRange,
    boundary: worstOfEachMach(passages).map(({ entry }) => entry),
    divergence: worstOfEachMach(divergences).map(({ divergence }) => divergence),
    passages,
    margin,
    warnings: envelopeWarnings({ envelope, passages, margin, free: free?.omegas ?? null }),
  }
}

/** Nothing found is a ratio without end; nothing determined is none. */
function ratioOf({ speed, kind, point }: EnvelopeEntry): number | null {
  if (kind === 'never') return Number.POSITIVE_INFINITY
  return speed === null ? null : speed / point.speed
}

const systemAt = (modes: EnvelopeInput['modes'], point: AirPoint): ModalSystem =>
  typeof modes === 'function' ? modes(point) : modes

export function passagesAt(
  { envelope, modes, structuralDamping }: Omit<EnvelopeInput, 'points'>,
  points: readonly AirPoint[],
): Passage[] {
  return points.map((point) => {
    const structure = systemAt(modes, point)
    if (!isHeld(structure.omegas)) return undetermined(point, false)
    const systemOf = ({ method, mach }: MethodAt): Aeroelastic => {
      const forces = forcesOn(method.forces(mach), structure)
      return { omegas: structure.omegas, structuralDamping, density: point.density, forces }
    }
    return passageAt(envelope, point, systemOf)
  })
}

interface MethodAt {
  readonly method: AerodynamicMethod
  readonly mach: number
}

const turned = new WeakMap<GeneralizedForces, WeakMap<ModalSystem, GeneralizedForces>>()

/** The same air on a structure's modes; kept as long as both live. */
function forcesOn(forces: GeneralizedForces, structure: ModalSystem): GeneralizedForces {
  const { transform, omegas } = structure
  if (transform === null) return forces
  const known = turned.get(forces) ?? new WeakMap<ModalSystem, GeneralizedForces>()
  turned.set(forces, known)
  const found = known.get(structure)
  if (found !== undefined) return found
  invariant(forces.on !== undefined, 'air forces that cannot be turned to other modes')
  const made = forces.on(transform, omegas.length)
  known.set(structure, made)
  return made
}

/** One reading solved, its factor not applied. */
interface Solved {
  readonly reading: Reading
  readonly system: Aeroelastic
  readonly flutter: Exclude<FlutterResult, { kind: 'not-converged' }>
  /** Divergence speed or infinite. */
  readonly diverges: number
}

type SystemOf = (at: MethodAt) => Aeroelastic

function passageAt(envelope: Envelope, point: AirPoint, systemOf: SystemOf): Passage {
  const readings = envelope.readings(point.mach)
  if (readings.length === 0) return undetermined(point, false)
  const own = envelope.own(point.mach)
  const isOwn = ({ method, mach }: MethodAt): boolean => method === own && mach === point.mach
  // The point's own method first and to its end; the others only as far as they can still be the least.
  const order = [...readings].sort((a, b) => Number(isOwn(b)) - Number(isOwn(a)) || a.factor - b.factor)
  const solved: Solved[] = []
  let least = Number.POSITIVE_INFINITY
  for (const reading of order) {
    const found = solve(reading, systemOf(reading), isOwn(reading) ? Number.POSITIVE_INFINITY : least / reading.factor)
    if (found === null) return undetermined(point, true)
    solved.push(found)
    least = Math.min(least, reading.factor * Math.min(found.flutter.V, found.diverges))
  }
  const beside =
    own === null
      ? null
      : (solved.find(({ reading }) => isOwn(reading)) ??
        solve({ method: own, mach: point.mach, factor: 1 }, systemOf({ method: own, mach: point.mach })))
  return passageOf(point, solved, beside)
}

/** A share beyond the speed at which a reading is no longer the least, so that equals are still found. */
const justBeyond = 1e-6

function solve(reading: Reading, system: Aeroelastic, noFurther = Number.POSITIVE_INFINITY): Solved | null {
  const limit = Math.min(basisLimit(system), noFurther * (1 + justBeyond))
  const { flutter, divergence } = solvePk(system, limit)
  if (flutter.kind === 'not-converged') return null
  const diverges = divergence.kind === 'divergence' ? divergence.V : Number.POSITIVE_INFINITY
  return { reading, system, flutter, diverges }
}

const firstOf = ({ flutter, diverges }: Solved): number => Math.min(flutter.V, diverges)

function passageOf(point: AirPoint, solved: readonly Solved[], beside: Solved | null): Passage {
  const least = (speed: (each: Solved) => number): Solved =>
    solved.reduce((a, b) => (b.reading.factor * speed(b) < a.reading.factor * speed(a) ? b : a))
  const governing = least(firstOf)
  const { flutter, system, diverges } = governing
  const kind = diverges < flutter.V ? 'divergence' : flutter.kind === 'flutter' ? 'flutter' : 'end of search'
  const flutters = kind === 'flutter' && flutter.kind === 'flutter'
  const entry = entryOf(point, governing, {
    ...{ kind, V: firstOf(governing), frequency: flutters ? flutter.omega / (2 * Math.PI) : null },
    ...{ linear: beside && linearFlutter(beside), solved: flutters ? { system, flutter } : null },
  })
  const diverging = least((each) => each.diverges)
  const ever = Number.isFinite(diverging.diverges)
  const divergence = entryOf(point, diverging, {
    ...{ kind: ever ? 'divergence' : 'never', V: ever ? diverging.diverges : null, frequency: null, solved: null },
    linear: beside && linearDivergence(beside),
  })
  const beyondTable = flutters && flutter.k > system.forces.highestReducedFrequency
  return { point, entry, divergence, ratio: (entry.speed ?? 0) / point.speed, kind, stuck: false, beyondTable }
}

type Found = Pick<EnvelopeEntry, 'kind' | 'frequency' | 'linear' | 'solved'> & { readonly V: number | null }

function entryOf(point: AirPoint, { reading }: Solved, { V, ...found }: Found): EnvelopeEntry {
  const speed = V === null ? null : reading.factor * V
  return {
    ...{ point, speed, linearSpeed: V, factor: V === null ? null : reading.factor, method: methodText(reading, point) },
    ...{ dynamicPressure: speed === null ? null : 0.5 * point.density * speed ** 2, ...found },
  }
}

function linearFlutter({ reading, flutter }: Solved): LinearValue {
  const { name } = reading.method
  if (flutter.kind === 'none-below') return { method: name, speed: null, frequency: null }
  return { method: name, speed: flutter.V, frequency: flutter.omega / (2 * Math.PI) }
}

const linearDivergence = ({ reading, diverges }: Solved): LinearValue => ({
  ...{ method: reading.method.name, frequency: null, speed: Number.isFinite(diverges) ? diverges : null },
})

function methodText({ method, mach }: Reading, point: AirPoint): string {
  return mach === point.mach ? method.name : `${method.name} at Mach ${mach}`
}

function undetermined(point: AirPoint, stuck: boolean): Passage {
  const nothing = { speed: null, dynamicPressure: null, linearSpeed: null, factor: null, frequency: null }
  const entry: EnvelopeEntry = {
    ...{ point, ...nothing, method: notDetermined, kind: notDetermined, linear: null, solved: null },
  }
  return { point, entry, divergence: entry, ratio: null, kind: 'flutter', stuck, beyondTable: false }
}
