/**
 * Flutter and divergence boundary over the Mach numbers of a flight, and the margin of the flight against it.
 *
 * At each point of the air: the first method whose Mach range holds the point's Mach number gives the forces, and the speed is
 * the one at which the fin would flutter (or diverge) in air of that density with the aerodynamics of that Mach number.
 *
 *   speed ratio = least over the points of (least of flutter and divergence speed) / flight speed
 *
 * Where no method answers, the entry has no speed. The verdict is "not determined" while any point is such: that a fin holds
 * where it could be computed says nothing about where it could not. Of a Mach number's passages the one with the least
 * ratio is its entry, the densest where there is none. A sweep that ends without flutter counts as flutter at its last speed.
 */
import type { Issue } from '../issue.ts'
import type { AirPoint } from './air-points.ts'
import type { AerodynamicMethod, GeneralizedForces } from './forces.ts'
import { type PkResult, solvePk } from './pk.ts'

export interface BoundaryInput {
  /** In order of preference. */
  readonly methods: readonly AerodynamicMethod[]
  /** Circular frequencies of the modes on which the methods were built, rising. */
  readonly omegas: readonly number[]
  readonly structuralDamping: number
  readonly points: readonly AirPoint[]
  /** Least speed ratio for the verdict "holds". Default 1.15. */
  readonly requiredRatio?: number
}

export interface BoundaryEntry {
  readonly point: AirPoint
  /** Null where none was found, and where nothing could be determined: `outcome` tells which. */
  readonly speed: number | null
  readonly dynamicPressure: number | null
  /** Hz; null without a speed, and for divergence. */
  readonly frequency: number | null
  /** Name of the method, or `not determined`. */
  readonly method: string
  readonly outcome: 'found' | 'none below' | 'not determined' | 'not converged'
  /** For `none below`: speed up to which none was found; infinite when there can be none. */
  readonly searchedTo: number | null
}

export interface Margin {
  readonly speedRatio: number | null
  readonly verdict: 'holds' | 'does not hold' | 'not determined'
  /** Where the least ratio is; null without one. */
  readonly at: AirPoint | null
  readonly requiredRatio: number
  /** The least ratio among the points that could be computed, whatever the verdict. */
  readonly determined: {
    readonly speedRatio: number
    readonly at: AirPoint
    readonly kind: 'flutter' | 'divergence' | 'end of search'
  } | null
}

export interface FlutterBoundary {
  /** Of a flight, one a Mach number, rising; of states, one each in their order. */
  readonly boundary: readonly BoundaryEntry[]
  readonly divergence: readonly BoundaryEntry[]
  readonly margin: Margin
  readonly warnings: readonly Issue[]
}

/** 15 % in speed at constant Mach number and altitude: MIL-A-8870C (1993), and 14 CFR 25.629 (b) (recalled). */
export const requiredSpeedRatio = 1.15

export const notDetermined = 'not determined'

export function flutterBoundary(input: BoundaryInput): FlutterBoundary {
  const answers = answered(input)
  const worst = worstOfEachMach(answers)
  const margin = marginOf(answers, input.requiredRatio ?? requiredSpeedRatio)
  return {
    boundary: worst.map(({ flutter }) => flutter),
    divergence: worst.map(({ divergence }) => divergence),
    margin,
    warnings: isHeld(input.omegas)
      ? [...boundaryWarnings(answers, margin), ...methodWarnings(input)]
      : [freeBody(input)],
  }
}

/** What a margin is made of, one a point. */
export interface Judged {
  readonly point: AirPoint
  /** Speed of the first instability over flight speed; null when not determined. */
  readonly ratio: number | null
  readonly kind: 'flutter' | 'divergence' | 'end of search'
}

interface Answer extends Judged {
  readonly flutter: BoundaryEntry
  readonly divergence: BoundaryEntry
  /** Flutter at a reduced frequency above the highest the method computed. */
  readonly beyondTable: boolean
}

function answered({ methods, omegas, structuralDamping, points }: BoundaryInput): Answer[] {
  if (!isHeld(omegas)) return points.map(undetermined)
  const kept = new Map<string, GeneralizedForces>()
  return points.map((point) => {
    const method = methodFor(methods, point.mach)
    if (method === undefined) return undetermined(point)
    const key = `${method.name} ${point.mach}`
    const forces = kept.get(key) ?? method.forces(point.mach)
    kept.set(key, forces)
    const result = solvePk({ omegas, structuralDamping, forces, density: point.density })
    const { flutter } = result
    const beyondTable = flutter.kind === 'flutter' && flutter.k > forces.highestReducedFrequency
    return { ...answer(point, method.name, result), beyondTable }
  })
}

/** Frequencies of a body that can move freely are nought to rounding. */
export function isHeld(omegas: readonly number[]): boolean {
  return omegas.length > 0 && Math.min(...omegas) > 1e-5 * Math.max(...omegas)
}

function methodFor(methods: readonly AerodynamicMethod[], mach: number): AerodynamicMethod | undefined {
  return methods.find(({ machRange: { from, to } }) => mach >= from && mach <= to)
}

function undetermined(point: AirPoint): Answer {
  const nothing = { speed: null, dynamicPressure: null, frequency: null, searchedTo: null }
  const entry: BoundaryEntry = { point, ...nothing, method: notDetermined, outcome: 'not determined' }
  return { point, flutter: entry, divergence: entry, ratio: null, kind: 'flutter', beyondTable: false }
}

type Computed = Omit<Answer, 'beyondTable'>

function answer(point: AirPoint, method: string, { flutter, divergence }: PkResult): Computed {
  const found = (V: number, frequency: number | null): BoundaryEntry => {
    const dynamicPressure = 0.5 * point.density * V * V
    return { point, speed: V, dynamicPressure, frequency, method, outcome: 'found', searchedTo: null }
  }
  const none = (outcome: BoundaryEntry['outcome'], searchedTo: number | null): BoundaryEntry => {
    return { point, speed: null, dynamicPressure: null, frequency: null, method, outcome, searchedTo }
  }
  const diverges =
    divergence.kind === 'divergence' ? found(divergence.V, null) : none('none below', Number.POSITIVE_INFINITY)
  const divergenceSpeed = divergence.kind === 'divergence' ? divergence.V : Number.POSITIVE_INFINITY
  if (flutter.kind === 'not-converged') {
    return { point, flutter: none('not converged', null), divergence: diverges, ratio: null, kind: 'flutter' }
  }
  const flutters = flutter.kind === 'flutter'
  const entry = flutters ? found(flutter.V, flutter.omega / (2 * Math.PI)) : none('none below', flutter.V)
  const first = Math.min(flutter.V, divergenceSpeed)
  const kind = divergenceSpeed < flutter.V ? 'divergence' : flutters ? 'flutter' : 'end of search'
  return { point, flutter: entry, divergence: diverges, ratio: first / point.speed, kind }
}

/** Of a flight, one answer a Mach number, rising; states given one by one keep their order, one answer each. */
export function worstOfEachMach<A extends Judged>(answers: readonly A[]): readonly A[] {
  if (answers.every(({ point }) => point.time === null)) return answers
  const worst = new Map<number, A>()
  for (const candidate of answers) {
    const known = worst.get(candidate.point.mach)
    if (known === undefined || worse(candidate, known)) worst.set(candidate.point.mach, candidate)
  }
  return [...worst.values()].sort((a, b) => a.point.mach - b.point.mach)
}

function worse(a: Judged, b: Judged): boolean {
  if (a.ratio === null || b.ratio === null) {
    return a.ratio === b.ratio ? a.point.density > b.point.density : a.ratio === null
  }
  return a.ratio < b.ratio
}

export function marginOf(answers: readonly Judged[], requiredRatio: number): Margin {
  const computed = answers.filter(({ ratio }) => ratio !== null)
  if (computed.length === 0) {
    return { speedRatio: null, verdict: notDetermined, at: null, requiredRatio, determined: null }
  }
  const least = computed.reduce((a, b) => ((b.ratio ?? 0) < (a.ratio ?? 0) ? b : a))
  const speedRatio = least.ratio ?? 0
  const determined = { speedRatio, at: least.point, kind: least.kind }
  if (computed.length < answers.length) {
    return { speedRatio: null, verdict: notDetermined, at: null, requiredRatio, determined }
  }
  const verdict = speedRatio >= requiredRatio ? 'holds' : 'does not hold'
  return { speedRatio, verdict, at: least.point, requiredRatio, determined }
}

function boundaryWarnings(answers: readonly Answer[], { determined, requiredRatio, verdict }: Margin): Issue[] {
  const warnings: Issue[] = []
  const silent = answers.filter(({ flutter }) => flutter.outcome === 'not determined').map(({ point }) => point.mach)
  if (silent.length > 0) {
    const [from, to] = [Math.min(...silent), Math.max(...silent)]
    const where = from === to ? `at Mach ${to.toFixed(2)}` : `from Mach ${from.toFixed(2)} to ${to.toFixed(2)}`
    warnings.push({
      code: 'flutter/not-determined',
      path: 'flutter.margin',
      value: to,
      message: `No valid flutter method answers ${where}, so whether the fin holds there is not determined. This is not a pass.`,
      hint: 'Judge that part of the flight by test, by comparison with fins that have flown, or by another analysis; the screening number beside it is no substitute.',
    })
  }
  const stuck = answers.filter(({ flutter }) => flutter.outcome === 'not converged').map(({ point }) => point.mach)
  if (stuck.length > 0) {
    warnings.push({
      code: 'flutter/not-converged',
      path: 'flutter.boundary',
      value: stuck[0],
      message: `The flutter solution did not converge at Mach ${stuck.map((mach) => mach.toFixed(2)).join(', ')}; the margin is not determined.`,
      hint: 'Keep more or fewer modes, or refine the mesh.',
    })
  }
  const beyond = answers.filter(({ beyondTable }) => beyondTable).map(({ point }) => point.mach)
  if (beyond.length > 0) {
    warnings.push({
      code: 'flutter/beyond-reduced-frequency',
      path: 'flutter.boundary',
      value: beyond[0],
      message: `At Mach ${beyond.map((mach) => mach.toFixed(2)).join(', ')} the fin flutters faster than the highest reduced frequency the air forces were computed for.`,
      hint: 'Read the speed there as an estimate.',
    })
  }
  if (verdict === notDetermined && determined !== null && determined.speedRatio < requiredRatio) {
    warnings.push({
      code: 'flutter/unstable-where-determined',
      path: 'flutter.margin',
      value: determined.speedRatio,
      message: `Where it could be computed the fin reaches ${determined.kind} at ${determined.speedRatio.toFixed(2)} of the flight speed (Mach ${determined.at.mach.toFixed(2)}); at least ${requiredRatio} is required.`,
      hint: 'Stiffen the fin, shorten its span or fly slower; the rest of the flight can only make this worse.',
    })
  }
  return warnings
}

function freeBody({ omegas }: BoundaryInput): Issue {
  return {
    code: 'flutter/free-body',
    path: 'flutter.boundary',
    value: omegas.length === 0 ? null : Math.min(...omegas),
    message: 'The plate can move as a rigid body, so it has no flutter speed of its own.',
    hint: 'Clamp or support at least one edge.',
  }
}

function methodWarnings({ methods, points }: BoundaryInput): Issue[] {
  const seen = new Map<string, Issue>()
  for (const { mach } of points) {
    for (const issue of methodFor(methods, mach)?.warnings(mach) ?? []) seen.set(issue.code, issue)
  }
  return [...seen.values()]
}
