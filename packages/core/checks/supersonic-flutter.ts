/**
 * A fin in supersonic flow, from outline to flutter: plate modes, source boxes, p-k. Shared by the checks against wind-tunnel fins.
 */
import type { Point } from '../src/air/subsonic/strips.ts'
import { keptFlow, shapesOnBoxes, supersonicForces } from '../src/air/supersonic/generalized-forces.ts'
import { sourceLattice, sourceLatticeSize } from '../src/air/supersonic/lattice.ts'
import { supersonicFlow } from '../src/air/supersonic/solution.ts'
import { boxSlopes, thicknessFactors } from '../src/air/supersonic/thickness.ts'
import { tabulatedForces } from '../src/flutter/forces.ts'
import { solvePk } from '../src/flutter/pk.ts'
import { meshOutline } from '../src/geometry/outline-mesh.ts'
import { assemblePlate } from '../src/plate/assemble.ts'
import { type PlateModes, plateModes } from '../src/plate/modes.ts'
import type { PlateSection, SectionPoint } from '../src/plate/section.ts'
import type { Support } from '../src/plate/supports.ts'

export interface PlateFin {
  readonly outline: readonly Point[]
  readonly mesh: { readonly X: Float64Array; readonly T: Int32Array; readonly perTriangle: 6 }
  readonly modes: PlateModes
}

/** `structure`: the outline with the points where the root's support changes; `outline` as the air sees it. */
export function plateFin(input: {
  readonly outline: readonly Point[]
  readonly structure: readonly Point[]
  readonly supports: readonly Support[]
  readonly size: number
  readonly sectionAt: (point: SectionPoint) => PlateSection
}): PlateFin {
  const { outline, structure, supports, size, sectionAt } = input
  const model = assemblePlate({ mesh: meshOutline({ outline: structure, size }), supports, sectionAt })
  const modes = plateModes(model, 6)
  if (modes.missed > 0) throw new Error(`${modes.missed} modes missed`)
  const { X, T } = model.layout.nodes
  return { outline, mesh: { X, T, perTriangle: 6 }, modes }
}

export interface SupersonicState {
  readonly mach: number
  readonly density: number
  /** rad/s; as many modes are kept. */
  readonly omegas: readonly number[]
  readonly boxes?: number
  /** Half the thickness at a point, for the second-order factor; without it the fin is thin. */
  readonly halfThickness?: (x: number, y: number) => number
}

const reducedFrequencies = [0, 0.03, 0.06, 0.1, 0.15, 0.22, 0.3, 0.4]

/** Speed, m/s, and frequency, rad/s. Reduced frequencies are referred to half the root chord. */
export function supersonicFlutter(fin: PlateFin, state: SupersonicState): { V: number; omega: number } {
  const { mach, density, omegas, boxes, halfThickness } = state
  const lattice = sourceLattice(fin.outline, sourceLatticeSize(fin.outline, boxes))
  const onBoxes = shapesOnBoxes(lattice, fin.mesh)
  const shapes = fin.modes.shapes.slice(0, omegas.length).map(({ w }) => onBoxes(w))
  const b = (fin.outline[1][0] - fin.outline[0][0]) / 2
  const factors = halfThickness === undefined ? undefined : thicknessFactors(mach, boxSlopes(lattice, halfThickness))
  const Q = supersonicForces(keptFlow(supersonicFlow(lattice, mach)), shapes, b, factors)
  const k = reducedFrequencies
  const forces = tabulatedForces({ referenceLength: b, k, Q: k.map(Q) })
  const { flutter } = solvePk({ omegas: [...omegas], structuralDamping: 0, forces, density })
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  return flutter
}
