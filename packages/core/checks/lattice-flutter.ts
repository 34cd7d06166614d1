/**
 * A cantilever fin in subsonic flow, from outline to flutter: plate modes, doublet lattice, p-k. Shared by the checks against
 * wind-tunnel fins.
 */
import {
  type FactoredWash,
  factoredWash,
  generalizedForces,
  type ModeOnLattice,
} from '../src/air/subsonic/generalized-forces.ts'
import { finLattice, type LatticeSize } from '../src/air/subsonic/lattice.ts'
import { shapesFromMesh } from '../src/air/subsonic/mesh-sampling.ts'
import type { Point } from '../src/air/subsonic/strips.ts'
import { liftingSurface } from '../src/air/subsonic/surface.ts'
import { tabulatedForces } from '../src/flutter/forces.ts'
import { type PkResult, solvePk } from '../src/flutter/pk.ts'
import { meshOutline } from '../src/geometry/outline-mesh.ts'
import { type Lamina, rotatedStiffness } from '../src/laminate/lamina.ts'
import { assemblePlate } from '../src/plate/assemble.ts'
import { type PlateModes, plateModes } from '../src/plate/modes.ts'
import type { PlateSection, SectionPoint } from '../src/plate/section.ts'

export interface Structure {
  readonly outline: readonly Point[]
  readonly size: number
  readonly sectionAt: (point: SectionPoint) => PlateSection
  readonly modes: number
}

export interface FinModes {
  readonly modes: PlateModes
  readonly mass: number
  /** Air on the shapes of unit modal mass; kept for the next call. */
  readonly airOn: (size: LatticeSize, mach: number) => AirOnShapes
}

interface AirOnShapes {
  readonly wash: FactoredWash
  readonly shapes: readonly ModeOnLattice[]
  /** Half the root chord. */
  readonly b: number
}

/** The first side of the outline is the root, clamped. */
export function finModes({ outline, size, sectionAt, modes: count }: Structure): FinModes {
  const mesh = meshOutline({ outline, size })
  const supports = outline.map((_, i) => (i === 0 ? ('clamped' as const) : ('free' as const)))
  const model = assemblePlate({ mesh, supports, sectionAt })
  const modes = plateModes(model, count)
  if (modes.missed > 0) throw new Error(`${modes.missed} modes missed`)
  const { X, T } = model.layout.nodes
  const kept = new Map<string, AirOnShapes>()
  const airOn = (latticeSize: LatticeSize, mach: number): AirOnShapes => {
    const key = JSON.stringify([latticeSize, mach])
    const found = kept.get(key)
    if (found !== undefined) return found
    const surface = liftingSurface(finLattice(outline, latticeSize))
    const sampled = shapesFromMesh(surface, { X, T, perTriangle: 6 })
    const shapes = modes.shapes.map(({ w }) => sampled(w))
    const made = { wash: factoredWash(surface, mach), shapes, b: (outline[1][0] - outline[0][0]) / 2 }
    kept.set(key, made)
    return made
  }
  return { modes, mass: model.mass, airOn }
}

export interface AirState {
  readonly mach: number
  readonly density: number
  readonly lattice: LatticeSize
  /** In place of the computed frequencies, rad/s; as many modes are kept. */
  readonly omegas?: readonly number[]
  readonly structuralDamping?: number
}

const reducedFrequencies = [0, 0.05, 0.1, 0.2, 0.35, 0.5, 0.75, 1]

export function finFlutter(
  fin: FinModes,
  { mach, density, lattice, omegas = fin.modes.omega, structuralDamping = 0 }: AirState,
): PkResult {
  const { wash, shapes, b } = fin.airOn(lattice, mach)
  const Q = generalizedForces(wash, shapes.slice(0, omegas.length), b)
  const k = reducedFrequencies
  const forces = tabulatedForces({ referenceLength: b, k, Q: k.map(Q) })
  return solvePk({ omegas: [...omegas], structuralDamping, forces, density })
}

/** One orthotropic layer of thickness t, its axis 1 at theta from x towards y. */
export function solidSection(lamina: Lamina, theta: number, t: number, density: number): PlateSection {
  const Q = rotatedStiffness(lamina, theta)
  const [c, s] = [Math.cos(theta), Math.sin(theta)]
  const shear = (5 / 6) * t
  const { G13, G23 } = lamina
  const cross = shear * (G13 - G23) * c * s
  return {
    A: Q.map((q) => q * t),
    B: new Float64Array(9),
    D: Q.map((q) => (q * t ** 3) / 12),
    S: [shear * (G13 * c * c + G23 * s * s), cross, cross, shear * (G13 * s * s + G23 * c * c)],
    massPerArea: density * t,
    rotaryInertia: (density * t ** 3) / 12,
  }
}

export const hertz = (omega: number): number => omega / (2 * Math.PI)
