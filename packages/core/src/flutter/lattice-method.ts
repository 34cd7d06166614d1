/**
 * The subsonic doublet lattice as a method for a flutter solution: generalized forces of a fin's modes at any Mach number below
 * `highestLatticeMach`, from the outline and the modes at the nodes of a plate's mesh.
 *
 * What depends on the outline alone (lattice, geometry of the influence, factors at each Mach number and frequency) is kept in
 * `SubsonicAir` and serves every set of modes; the fit of a mesh to the lattice, and forces on shapes that modes are made of, are kept a mesh. Reduced frequencies are on half the
 * longest chord. Equations: air/subsonic; figures: docs/methods/flutter-envelope.md.
 */
import {
  boxForces,
  type FactoredWash,
  factoredWash,
  type ModeOnLattice,
  workOn,
} from '../air/subsonic/generalized-forces.ts'
import { finLattice, finLatticeSize } from '../air/subsonic/lattice.ts'
import { type FieldMesh, shapesFromMesh } from '../air/subsonic/mesh-sampling.ts'
import { finStrips, type Point } from '../air/subsonic/strips.ts'
import { liftingSurface } from '../air/subsonic/surface.ts'
import { type AerodynamicMethod, tabulatedForces } from './forces.ts'
import { keptByMach, keptByMesh } from './kept.ts'
import { type KeptForces, type KeptShapes, keptForces, keptShapes } from './kept-shapes.ts'

/** Inclusive: linear subsonic theory is 10 % and more above test from here on (AGARD R-765 at Mach 0.954). */
export const highestLatticeMach = 0.95

/** Boxes of a lattice for flutter. */
export const flutterBoxes = 80

/**
 * Reduced frequencies at which forces are computed, on half the longest chord. Close together near 0, where Q holds k² ln k, and up
 * to 1.2; docs/methods/flutter-envelope.md has the error of what lies between.
 */
export const reducedFrequencies: readonly number[] = [0, 0.05, 0.12, 0.25, 0.45, 0.8, 1.2]

export interface SurfaceMethodInput<Air> {
  /** x aft, y outboard from the body surface. */
  readonly outline: readonly Point[]
  readonly mesh: FieldMesh
  /** One a mode: deflection at every node of the mesh, of unit modal mass. */
  readonly shapes: readonly ArrayLike<number>[]
  /** Of this outline, to be kept over changes of the modes. Default: made here. */
  readonly air?: Air
}

export interface SubsonicAir {
  /** b */
  readonly referenceLength: number
  readonly at: (mach: number) => FactoredWash
  readonly shapesOn: (mesh: FieldMesh) => (z: ArrayLike<number>) => ModeOnLattice
  /** Shapes kept of a mesh, and forces on them at a Mach number. */
  readonly keptOn: (mesh: FieldMesh) => () => KeptShapes
  readonly forcesAt: (mach: number) => KeptForces
}

export function subsonicAir(outline: readonly Point[], boxes = flutterBoxes): SubsonicAir {
  const surface = liftingSurface(finLattice(outline, finLatticeSize(outline, boxes)))
  const referenceLength = longestChord(outline) / 2
  const at = keptByMach((mach) => factoredWash(surface, mach))
  const shapesOn = keptByMesh((mesh) => shapesFromMesh(surface, mesh))
  return {
    ...{ referenceLength, at, shapesOn },
    keptOn: keptByMesh((mesh) => keptShapes(shapesOn(mesh))),
    forcesAt: keptByMach((mach) => keptForces((modes, k) => boxForces(at(mach), modes, k / referenceLength))),
  }
}

export function doubletLatticeMethod(input: SurfaceMethodInput<SubsonicAir>): AerodynamicMethod {
  const { outline, mesh, shapes, air = subsonicAir(outline) } = input
  const modes = shapes.map(air.shapesOn(mesh))
  const kept = air.keptOn(mesh)()
  const shares = shapes.map(kept.shares)
  const { referenceLength } = air
  const forces = keptByMach((mach) => {
    const Q = reducedFrequencies.map((k) => workOn(modes, air.forcesAt(mach)(kept, k, shares)))
    return tabulatedForces({ referenceLength, k: reducedFrequencies, Q })
  })
  return { name: 'doublet lattice', machRange: { from: 0, to: highestLatticeMach }, forces, warnings: () => [] }
}

/** Longest streamwise extent of the outline's strips: the root chord of most fins. */
export function longestChord(outline: readonly Point[]): number {
  const chords = finStrips(outline, 12, 0).flatMap(({ pieces }) => {
    const [first, last] = [pieces[0], pieces[pieces.length - 1]]
    return [last.trailIn - first.leadIn, last.trailOut - first.leadOut]
  })
  return Math.max(...chords)
}
