/**
 * Where each ply lies on a fin's face, in fin axes: what the plate model takes its zones from.
 *
 * A ply is taken to be present from the root at y = 0 to its stepped-back edges. (In the fillet it has left the fin's plane;
 * there the fillet holds the fin, and the ply is counted as if it lay on the face.) Overhang is trimmed off and not there.
 */

import type { EdgeProfiles } from '../geometry/edge-profile.ts'
import { shapedWidths } from '../geometry/edge-profile.ts'
import type { FinOutline } from '../geometry/fin-outline.ts'
import type { Point } from '../geometry/point.ts'
import { contains, type Polygon } from '../geometry/polygon.ts'
import { insideSides, shiftedOutline } from '../geometry/polygon-shift.ts'
import { joined } from '../geometry/polyline-clip.ts'
import type { ScheduledPly } from './schedule.ts'
import { comesOff } from './schedule.ts'

export interface PlyCoverage {
  readonly id: string
  /** Place in the schedule, from 0 at the core. */
  readonly index: number
  readonly regions: readonly Polygon[]
}

/** A line inside the outline along which thickness or lay-up changes. */
export interface FaceLine {
  readonly kind: 'step' | 'bevel'
  /** The plies that end on it; none for a bevel. */
  readonly plies: readonly string[]
  readonly points: readonly Point[]
}

export interface FinCoverage {
  /** Structural and surface plies, from the core outward. */
  readonly plies: readonly PlyCoverage[]
  readonly lines: readonly FaceLine[]
  /** Places in the schedule of the plies present at a point of the face, from the core outward. */
  readonly pliesAt: (at: Point) => readonly number[]
}

export function finCoverage(input: {
  readonly outline: FinOutline
  readonly edges: EdgeProfiles
  readonly plies: readonly Pick<ScheduledPly, 'id' | 'role' | 'stepBack'>[]
}): FinCoverage {
  const { outline, edges } = input
  const plies = input.plies.flatMap(({ id, role, stepBack }, index): PlyCoverage[] =>
    comesOff(role) ? [] : [{ id, index, regions: shiftedOutline(outline, stepBack) }],
  )
  const bevels = linesIn(shiftedOutline(outline, shapedWidths(edges)), outline)
  return {
    plies,
    lines: [
      ...distinctSteps(plies, outline),
      ...bevels.map((points): FaceLine => ({ kind: 'bevel', plies: [], points })),
    ],
    pliesAt: (at) =>
      plies.flatMap(({ index, regions }) => (regions.some((region) => contains(region, at, 1e-9)) ? [index] : [])),
  }
}

const linesIn = (regions: readonly Polygon[], outline: FinOutline): readonly (readonly Point[])[] =>
  regions.flatMap((region) => joined(insideSides(region, outline)))

/** Plies that end on the same lines share them. */
function distinctSteps(plies: readonly PlyCoverage[], outline: FinOutline): readonly FaceLine[] {
  const lines = new Map<string, { plies: string[]; points: readonly Point[] }>()
  for (const { id, regions } of plies)
    for (const points of linesIn(regions, outline)) {
      const key = points.map(([x, y]) => `${x.toFixed(6)} ${y.toFixed(6)}`).join(',')
      const known = lines.get(key)
      if (known === undefined) lines.set(key, { plies: [id], points })
      else known.plies.push(id)
    }
  return [...lines.values()].map(({ plies: ends, points }) => ({ kind: 'step', plies: ends, points }))
}
