/** Coefficients of a fin that pitches or plunges as a whole in subsonic flow, from outline and lattice. Shared by the checks. */
import { factoredWash, generalizedForces, shapeOnLattice } from '../src/air/subsonic/generalized-forces.ts'
import { finLattice, type LatticeSize } from '../src/air/subsonic/lattice.ts'
import type { Point } from '../src/air/subsonic/strips.ts'
import { liftingSurface } from '../src/air/subsonic/surface.ts'
import type { Complex } from '../src/air/subsonic/theodorsen.ts'

export interface RigidMotion {
  readonly outline: readonly Point[]
  /** Area and chord the coefficients are referred to, of the fin alone. */
  readonly area: number
  readonly chord: number
  /** x about which it pitches and moments are taken. */
  readonly axis: number
  readonly size: LatticeSize
  readonly mach: number
  /** ω chord / V, full chord. */
  readonly k: number
}

export interface RigidCoefficients {
  /** C_L and C_M (nose up) per rad of nose-up pitch. */
  readonly liftPerPitch: Complex
  readonly momentPerPitch: Complex
  /** C_L per plunge of one chord upwards. */
  readonly liftPerRise: Complex
}

export function rigidCoefficients({ outline, area, chord, axis, size, mach, k }: RigidMotion): RigidCoefficients {
  const surface = liftingSurface(finLattice(outline, size))
  const modes = [
    shapeOnLattice(
      surface,
      () => 1,
      () => 0,
    ),
    shapeOnLattice(
      surface,
      (x) => axis - x,
      () => -1,
    ),
  ]
  const { re, im } = generalizedForces(factoredWash(surface, mach), modes, chord)(k)
  const at = (ij: number, divisor: number): Complex => ({ re: re[ij] / divisor, im: im[ij] / divisor })
  return {
    liftPerRise: at(0, area / chord),
    liftPerPitch: at(1, area),
    momentPerPitch: at(3, area * chord),
  }
}

export function rectangle(chord: number, span: number): Point[] {
  return [
    [0, 0],
    [chord, 0],
    [chord, span],
    [0, span],
  ]
}
