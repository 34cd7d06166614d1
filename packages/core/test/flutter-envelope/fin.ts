/** What the tests of the envelope share: a bevelled aluminium fin of invented numbers, its modes, and flights through the air. */
import { solidSection } from '../../checks/lattice-flutter.ts'
import { plateFin } from '../../checks/supersonic-flutter.ts'
import type { Point } from '../../src/air/subsonic/strips.ts'
import type { AirPoint } from '../../src/flutter/air-points.ts'
import { conservativeEnvelope } from '../../src/flutter/envelope.ts'
import { envelopeBoundary } from '../../src/flutter/envelope-boundary.ts'
import { doubletLatticeMethod } from '../../src/flutter/lattice-method.ts'
import { ownModes } from '../../src/flutter/modal-system.ts'
import { pistonTheory } from '../../src/flutter/piston.ts'
import { supersonicSurfaceMethod } from '../../src/flutter/source-method.ts'
import { fourfoldMesh } from '../../src/plate/quadratic-mesh.ts'

export const outline: readonly Point[] = [
  [0, 0],
  [0.3, 0],
  [0.33, 0.2],
  [0.18, 0.2],
]
const [thickness, land, bevel] = [2.4e-3, 0.8e-3, 0.02]

export function halfThickness(x: number, y: number): number {
  const lead = 0.9 * y
  const trail = 0.3 + 0.15 * y
  const edge = Math.max(0, Math.min(x - lead, trail - x))
  return (land + (thickness - land) * Math.min(1, edge / bevel)) / 2
}

const metal = { E1: 70e9, E2: 70e9, G12: 26e9, G13: 26e9, G23: 26e9, nu12: 70 / 52 - 1 }

export const fin = plateFin({
  ...{ outline, structure: outline, size: 0.03, supports: ['clamped', 'free', 'free', 'free'] },
  sectionAt: ({ x, y }) => solidSection(metal, 0, 2 * halfThickness(x, y), 2700),
})
export const omegas: readonly number[] = Array.from(fin.modes.omega)
export const shapes = fin.modes.shapes.map(({ w }) => w)

export const subsonic = doubletLatticeMethod({ outline, mesh: fin.mesh, shapes })
export const supersonic = supersonicSurfaceMethod({ outline, mesh: fin.mesh, shapes, halfThickness })
export const envelope = conservativeEnvelope({ subsonic, supersonic })

export const airAt = (mach: number, density = 1): AirPoint => ({
  ...{ mach, density, soundSpeed: 340, speed: 340 * mach, time: null, altitude: null },
})

export function speedAt(mach: number, density = 1, which = envelope): number {
  const { boundary } = envelopeBoundary({
    ...{ envelope: which, points: [airAt(mach, density)], modes: ownModes(omegas), structuralDamping: 0 },
  })
  const { speed } = boundary[0]
  if (speed === null) throw new Error(`no envelope at Mach ${mach}`)
  return speed
}

/** Thin: the law under test is how it comes in, not its value. */
export const piston = pistonTheory({
  mesh: fourfoldMesh({ X: fin.mesh.X, T: fin.mesh.T, sides: [] }),
  ...{ shapes, slopes: [], flowDirection: 0, faces: 2, order: 1 },
})
