/** Flutter and divergence of the fin on its own modes along the flight, and the screening number beside them. */
import type { FinForm } from '../air/fin-form.ts'
import { type AirPoint, flightPoints, statePoints } from '../flutter/air-points.ts'
import { type BoundaryEntry, flutterBoundary } from '../flutter/boundary.ts'
import type { AerodynamicMethod } from '../flutter/forces.ts'
import { leastPistonMach, type PistonInput, pistonTheory } from '../flutter/piston.ts'
import { screenFin } from '../flutter/screening.ts'
import type { Issue } from '../issue.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { effectiveTorsion } from '../plate/effective-torsion.ts'
import type { PlateModes } from '../plate/modes.ts'
import { fourfoldMesh } from '../plate/quadratic-mesh.ts'
import type { BoundaryPoint, FlutterSection } from './assessment.ts'
import type { Flown, Section } from './flown.ts'

export interface FlutterInput {
  readonly model: PlateModel
  readonly modes: PlateModes
  /** rad/s; the modes' own, or imposed ones. */
  readonly omegas: readonly number[]
  readonly structuralDamping: number
  readonly points: readonly AirPoint[]
  readonly air: Pick<PistonInput, 'flowDirection' | 'order' | 'faces'> & { readonly aerodynamicDamping: boolean }
  /** Whole thickness of the plate at a point. */
  readonly thicknessAt: (x: number, y: number) => number
}

export const airPoints = ({ history, states }: Flown): readonly AirPoint[] =>
  history === null ? statePoints(states) : flightPoints(history)

export interface FlutterResult extends Section<Omit<FlutterSection, 'screening'>> {
  /** Least speed ratio wherever it could be computed; infinite where nowhere. */
  readonly least: number
}

export function flutterResult(input: FlutterInput): FlutterResult {
  const { omegas, structuralDamping, points } = input
  const methods = points.some(({ mach }) => mach >= leastPistonMach) ? [pistonMethod(input)] : []
  const { boundary, divergence, margin, warnings } = flutterBoundary({ methods, omegas, structuralDamping, points })
  return {
    value: {
      boundary: boundary.map(boundaryPoint),
      divergence: divergence.map(boundaryPoint),
      margin: {
        speedRatio: margin.speedRatio,
        verdict: margin.verdict,
        at: margin.at === null ? null : place(margin.at),
        requiredRatio: margin.requiredRatio,
        kind: margin.determined?.kind ?? null,
        mode: null,
      },
      ...noDetail,
    },
    warnings: [...warnings, ...silentEntries(boundary)],
    least: margin.determined?.speedRatio ?? Number.POSITIVE_INFINITY,
  }
}

function pistonMethod({ model, modes, omegas, air, thicknessAt }: FlutterInput): AerodynamicMethod {
  const mesh = fourfoldMesh(model.layout.nodes)
  const { X, T } = mesh
  const half = Float64Array.from({ length: X.length / 2 }, (_, i) => thicknessAt(X[2 * i], X[2 * i + 1]) / 2)
  const [c, s] = [Math.cos(air.flowDirection), Math.sin(air.flowDirection)]
  const slopes = Float64Array.from({ length: T.length / 3 }, (_, e) => {
    const [i, j, k] = [T[3 * e], T[3 * e + 1], T[3 * e + 2]]
    const [ax, ay] = [X[2 * j] - X[2 * i], X[2 * j + 1] - X[2 * i + 1]]
    const [bx, by] = [X[2 * k] - X[2 * i], X[2 * k + 1] - X[2 * i + 1]]
    const [p, q] = [half[j] - half[i], half[k] - half[i]]
    return (c * (p * by - q * ay) + s * (q * ax - p * bx)) / (ax * by - bx * ay)
  })
  const shapes = modes.shapes.slice(0, omegas.length).map(({ w }) => w)
  return pistonTheory({ mesh, shapes, slopes, ...air })
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
    at: place(screening.at),
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

const noDetail: Pick<FlutterSection, 'beside' | 'drivers' | 'history' | 'curves' | 'covers'> = {
  beside: [],
  drivers: [],
  history: null,
  curves: null,
  covers: null,
}

/** Null for an air state that belongs to no flight. */
function place({ time, mach, altitude }: AirPoint): { time_s: number; mach: number; altitude_m: number } | null {
  return time === null || altitude === null ? null : { time_s: time, mach, altitude_m: altitude }
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
