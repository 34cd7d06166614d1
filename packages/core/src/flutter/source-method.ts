/**
 * The supersonic surface of source boxes as a method for a flutter solution, with the fin's thickness to second order.
 *
 * What depends on the outline alone is kept in `SupersonicAir` and serves every set of modes and every thickness. Reduced frequencies
 * are on half the longest chord. Equations: air/supersonic; figures: docs/methods/flutter-envelope.md.
 */
import { type ModeOnLattice, workOn } from '../air/subsonic/generalized-forces.ts'
import type { FieldMesh } from '../air/subsonic/mesh-sampling.ts'
import type { Point } from '../air/subsonic/strips.ts'
import {
  type KeptFlow,
  keptFlow,
  modeForces,
  shapesOnBoxes,
  timesPressure,
} from '../air/supersonic/generalized-forces.ts'
import { type SourceLattice, sourceLattice, sourceLatticeSize } from '../air/supersonic/lattice.ts'
import { highestWavenumber, supersonicFlow } from '../air/supersonic/solution.ts'
import { boxSlopes, largestThicknessTerm, secondOrderRatio, thicknessFactors } from '../air/supersonic/thickness.ts'
import type { Issue } from '../issue.ts'
import { type AerodynamicMethod, tabulatedForces } from './forces.ts'
import { keptByMach, keptByMesh } from './kept.ts'
import { type KeptForces, type KeptShapes, keptForces, keptShapes } from './kept-shapes.ts'
import { flutterBoxes, longestChord, reducedFrequencies, type SurfaceMethodInput } from './lattice-method.ts'

/** Inclusive: below, linear theory has waves that the boxes do not resolve, and a transonic flow that it does not know. */
export const lowestSurfaceMach = 1.1
/** Inclusive: the highest at which the surface was compared with a published lifting surface is 3; second order ends near M τ′ = 0.6. */
export const highestSurfaceMach = 5

/** The table's frequencies that the boxes resolve at a Mach number, and the highest they do. */
export function surfaceFrequencies(lattice: SourceLattice, mach: number, referenceLength: number): readonly number[] {
  const highest = highestWavenumber(lattice, mach) * referenceLength
  const top = reducedFrequencies[reducedFrequencies.length - 1]
  if (highest >= top) return reducedFrequencies
  // Never so few that no spline is left: on a coarse lattice near Mach 1 the table shrinks as a whole.
  return reducedFrequencies.map((k) => (k * highest) / top)
}

export interface SupersonicAir {
  readonly lattice: SourceLattice
  /** b */
  readonly referenceLength: number
  readonly at: (mach: number) => KeptFlow
  readonly shapesOn: (mesh: FieldMesh) => (z: ArrayLike<number>) => ModeOnLattice
  /** Shapes kept of a mesh, and forces on them at a Mach number. */
  readonly keptOn: (mesh: FieldMesh) => () => KeptShapes
  readonly forcesAt: (mach: number) => KeptForces
}

export function supersonicAir(outline: readonly Point[], boxes = flutterBoxes): SupersonicAir {
  const lattice = sourceLattice(outline, sourceLatticeSize(outline, boxes))
  const referenceLength = longestChord(outline) / 2
  const at = keptByMach((mach) => keptFlow(supersonicFlow(lattice, mach)))
  const shapesOn = keptByMesh((mesh) => shapesOnBoxes(lattice, mesh))
  return {
    ...{ lattice, referenceLength, at, shapesOn },
    keptOn: keptByMesh((mesh) => keptShapes(shapesOn(mesh))),
    forcesAt: keptByMach((mach) => keptForces((modes, k) => modeForces(at(mach)(k / referenceLength), modes))),
  }
}

export interface SupersonicMethodInput extends SurfaceMethodInput<SupersonicAir> {
  /** Half the fin's thickness at a point; without it the fin is thin. */
  readonly halfThickness?: (x: number, y: number) => number
}

export function supersonicSurfaceMethod(input: SupersonicMethodInput): AerodynamicMethod {
  const { outline, mesh, shapes, halfThickness, air = supersonicAir(outline) } = input
  const modes = shapes.map(air.shapesOn(mesh))
  const kept = air.keptOn(mesh)()
  const shares = shapes.map(kept.shares)
  const { lattice, referenceLength } = air
  const slopes = halfThickness === undefined ? null : boxSlopes(lattice, halfThickness)
  const forces = keptByMach((mach) => {
    const k = surfaceFrequencies(lattice, mach, referenceLength)
    const factors = slopes === null ? undefined : heldFactors(mach, slopes)
    const weighted = timesPressure(modes, factors)
    const Q = k.map((each) => workOn(weighted, air.forcesAt(mach)(kept, each, shares)))
    return tabulatedForces({ referenceLength, k, Q })
  })
  return {
    name: `supersonic surface, ${slopes === null ? 'thin' : 'with thickness'}`,
    machRange: { from: lowestSurfaceMach, to: highestSurfaceMach },
    forces,
    warnings: (mach) => (slopes === null ? [] : thicknessWarnings(mach, slopes)),
  }
}

/**
 * The second-order factors, held between 0 and 2 so that no pressure changes sign. Beyond `largestThicknessTerm` they are outside the
 * theory; they are used all the same, because the thickness of a fin lowers its flutter speed and to leave it out would not be safe.
 */
function heldFactors(mach: number, slopes: Float64Array): Float64Array {
  return thicknessFactors(mach, slopes).map((factor) => Math.min(2, Math.max(0, factor)))
}

function thicknessWarnings(mach: number, slopes: Float64Array): Issue[] {
  const steepest = slopes.reduce((most, slope) => Math.max(most, Math.abs(slope)), 0)
  if (secondOrderRatio(mach) * steepest <= largestThicknessTerm) return []
  return [
    {
      code: 'flutter/thickness-slope',
      path: 'flutter.boundary',
      value: steepest,
      message: `At Mach ${mach.toFixed(2)} the steepest bevel (half-thickness slope ${steepest.toFixed(2)}) changes the pressure by more than ${100 * largestThicknessTerm} %, which is outside the second-order theory that was used.`,
      hint: 'Make the bevel wider or its land thicker, or read the speed at this Mach number as an estimate.',
    },
  ]
}
