/** The screening number of a fin, and the flutter of a plate that is no fin in its stream. */
import type { FinForm } from '../air/fin-form.ts'
import { type AirPoint, flightPoints, statePoints } from '../flutter/air-points.ts'
import { type BoundaryEntry, flutterBoundary } from '../flutter/boundary.ts'
import { leastPistonMach } from '../flutter/piston.ts'
import { screenFin } from '../flutter/screening.ts'
import type { Issue } from '../issue.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { effectiveTorsion } from '../plate/effective-torsion.ts'
import type { BoundaryPoint, FlutterSection } from './assessment.ts'
import { flightPlace, marginFigures } from './envelope-section.ts'
import type { Flown, Section } from './flown.ts'
import { type OnModes, pistonMethod, type Stream } from './surface-methods.ts'

export interface PanelInput {
  readonly modes: OnModes
  /** rad/s; the modes' own, or imposed ones. */
  readonly omegas: readonly number[]
  readonly structuralDamping: number
  readonly points: readonly AirPoint[]
  readonly stream: Stream
}

export const airPoints = ({ history, states }: Flown): readonly AirPoint[] =>
  history === null ? statePoints(states) : flightPoints(history)

/** By piston theory alone: a panel, or a plate that is no fin in its stream. */
export function panelFlutter({
  modes,
  omegas,
  structuralDamping,
  points,
  stream,
}: PanelInput): Section<FlutterSection> {
  const methods = points.some(({ mach }) => mach >= leastPistonMach) ? [pistonMethod(modes, stream)] : []
  const { boundary, divergence, margin, warnings } = flutterBoundary({ methods, omegas, structuralDamping, points })
  return {
    value: {
      boundary: boundary.map(boundaryPoint),
      divergence: divergence.map(boundaryPoint),
      margin: marginFigures(margin, null),
      ...noDetail,
    },
    warnings: [...warnings, ...silentEntries(boundary)],
  }
}

export interface ScreenedFin {
  readonly model: PlateModel
  readonly form: FinForm
  readonly thickness: number
}

export function screeningResult(
  { model, form, thickness }: ScreenedFin,
  points: readonly AirPoint[],
): FlutterSection['screening'] {
  const torsion = effectiveTorsion(model)
  if (torsion.kind === 'not-held') return null
  const { area, span, taper } = form
  const screening = screenFin({ torsionalStiffness: torsion.GJ, area, span, taper, thickness }, points)
  if (screening === null) return null
  return {
    speedRatio: screening.speedRatio,
    speed_m_s: screening.speed,
    at: flightPlace(screening.at),
    effectiveShearModulus_Pa: screening.effectiveShearModulus,
    torsionalStiffness_Nm2: screening.torsionalStiffness,
    constant_Pa: screening.constant,
    printedLine: { speed_m_s: screening.printedLineSpeed, constant_Pa: screening.printedConstant },
    source: screening.source,
  }
}

function boundaryPoint({ point, speed, dynamicPressure, frequency, method }: BoundaryEntry): BoundaryPoint {
  return {
    mach: point.mach,
    density_kg_m3: point.density,
    speed_m_s: speed,
    dynamicPressure_Pa: dynamicPressure,
    frequency_Hz: frequency,
    method,
    envelope: null,
  }
}

const noDetail: Pick<FlutterSection, 'beside' | 'drivers' | 'history' | 'curves' | 'covers' | 'screening'> = {
  screening: null,
  beside: [],
  drivers: [],
  history: null,
  curves: null,
  covers: null,
}

/** A null speed needs its reason: where a method answered and found no flutter, say how far it looked. */
function silentEntries(boundary: readonly BoundaryEntry[]): Issue[] {
  return boundary
    .filter(({ outcome }) => outcome === 'none below')
    .map(({ point, searchedTo }) => ({
      code: 'flutter/none-found',
      path: 'flutter.boundary',
      value: point.mach,
      message: `At Mach ${point.mach.toFixed(2)} no flutter was found up to ${(searchedTo ?? 0).toFixed(0)} m/s, where the search ends.`,
      hint: 'The modes kept cannot tell about higher speeds; the margin counts the end of the search as flutter.',
    }))
}
