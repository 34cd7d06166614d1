/** Flutter and divergence against the conservative envelope, as the assessment has them. */
import { type AirPoint, statePoints } from '../flutter/air-points.ts'
import { type Margin, notDetermined } from '../flutter/boundary.ts'
import { curveSpeeds, modeShares, rootCurves } from '../flutter/curves.ts'
import type { Envelope } from '../flutter/envelope.ts'
import {
  type EnvelopeBoundary,
  type EnvelopeEntry,
  envelopeBoundary,
  type Passage,
} from '../flutter/envelope-boundary.ts'
import { type FlightEnvelope, flightEnvelope } from '../flutter/envelope-flight.ts'
import type { ModalSystem } from '../flutter/modal-system.ts'
import type { BoundaryPoint, FlightPlace, FlutterSection } from './assessment.ts'
import type { Flown, Section } from './flown.ts'

export interface EnvelopeSectionInput {
  readonly envelope: Envelope
  readonly modes: ModalSystem | ((point: AirPoint) => ModalSystem)
  readonly structuralDamping: number
  readonly requiredRatio: number
  readonly flight: Flown
  /** Name of a mode of a system. */
  readonly nameOf: (system: ModalSystem, mode: number) => string
}

export interface EnvelopeAnswer extends Section<Omit<FlutterSection, 'screening' | 'beside' | 'drivers'>> {
  /** Where the ratio is least, whatever the verdict; null where it could be computed nowhere. */
  readonly least: { readonly ratio: number; readonly at: AirPoint } | null
}

export function envelopeAnswer(input: EnvelopeSectionInput): EnvelopeAnswer {
  const { flight } = input
  const along = flight.history === null ? null : flightEnvelope({ ...input, history: flight.history })
  const found: EnvelopeBoundary = along ?? envelopeBoundary({ ...input, points: statePoints(flight.states) })
  const { margin, boundary, divergence, passages, machRange, warnings } = found
  const { determined } = margin
  const worst = worstOf(passages)
  return {
    value: {
      boundary: boundary.map(boundaryPoint),
      divergence: divergence.map(boundaryPoint),
      margin: marginFigures(margin, criticalMode(worst, input)),
      history: along === null ? null : historyOf(along),
      curves: curvesOf(worst, input),
      covers: machRange,
    },
    warnings,
    least: determined === null ? null : { ratio: determined.speedRatio, at: determined.at },
  }
}

export function marginFigures(
  { speedRatio, verdict, at, requiredRatio, determined }: Margin,
  mode: FlutterSection['margin']['mode'],
): FlutterSection['margin'] {
  const place = at === null ? null : flightPlace(at)
  return { speedRatio, verdict, at: place, requiredRatio, kind: determined?.kind ?? null, mode }
}

/** The passage of the least ratio that flutters. */
function worstOf(passages: readonly Passage[]): Passage | null {
  const solved = passages.filter(({ entry, ratio }) => entry.solved !== null && ratio !== null)
  if (solved.length === 0) return null
  return solved.reduce((least, other) => ((other.ratio ?? 0) < (least.ratio ?? 0) ? other : least))
}

const systemOf = (modes: EnvelopeSectionInput['modes'], point: AirPoint): ModalSystem =>
  typeof modes === 'function' ? modes(point) : modes

function criticalMode(
  worst: Passage | null,
  { modes, nameOf }: EnvelopeSectionInput,
): FlutterSection['margin']['mode'] {
  if (worst === null || worst.entry.solved === null) return null
  const [{ mode, share }] = modeShares(worst.entry.solved.flutter)
  return { name: nameOf(systemOf(modes, worst.point), mode), share }
}

/** Curves end at so many times the speed of flutter. */
const beyondFlutter = 1.3

function curvesOf(worst: Passage | null, { modes, nameOf }: EnvelopeSectionInput): FlutterSection['curves'] {
  const solved = worst?.entry.solved ?? null
  if (worst === null || solved === null) return null
  const { point, entry } = worst
  const { system, flutter } = solved
  const { speeds, roots } = rootCurves(system, curveSpeeds(beyondFlutter * flutter.V))
  const structure = systemOf(modes, point)
  return {
    mach: point.mach,
    density_kg_m3: point.density,
    method: entry.method,
    speed_m_s: speeds,
    roots: roots.map(({ mode, frequency, damping }) => ({
      mode: nameOf(structure, mode),
      frequency_Hz: frequency,
      damping,
    })),
  }
}

function historyOf({ ratios }: FlightEnvelope): FlutterSection['history'] {
  const known = ratios.flatMap(({ time, ratio }) => (ratio === null ? [] : [{ time, ratio }]))
  return { time_s: known.map(({ time }) => time), speedRatio: known.map(({ ratio }) => ratio) }
}

function boundaryPoint({ point, linear, kind, speed, factor, method }: EnvelopeEntry): BoundaryPoint {
  const found = linear?.speed ?? null
  return {
    mach: point.mach,
    density_kg_m3: point.density,
    speed_m_s: found,
    dynamicPressure_Pa: found === null ? null : 0.5 * point.density * found ** 2,
    frequency_Hz: linear?.frequency ?? null,
    method: linear?.method ?? notDetermined,
    envelope:
      speed === null || factor === null || kind === 'never' || kind === notDetermined
        ? null
        : { speed_m_s: speed, kind, method, factor },
  }
}

/** Null for an air state that belongs to no flight. */
export function flightPlace({ time, mach, altitude }: AirPoint): FlightPlace | null {
  return time === null || altitude === null ? null : { time_s: time, mach, altitude_m: altitude }
}
