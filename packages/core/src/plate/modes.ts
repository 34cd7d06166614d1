/**
 * Natural modes of a plate: (K − ω² M) x = 0, lowest first, each scaled to a modal mass of 1 kg (xᵀ M x = 1).
 *
 * A plate that can move as a rigid body has K singular; the spectral shift then stands below zero by an estimate of the
 * lowest elastic ω², and the rigid motions come out as modes with ω = 0 to rounding.
 */
import { type Eigenpairs, lowestEigenpairs } from '../numeric/lanczos.ts'
import type { PlateModel } from './assemble.ts'
import { plateFactors } from './factors.ts'
import { type NodalField, nodalField } from './nodal-field.ts'

export interface PlateModes {
  readonly kind: Eigenpairs['kind']
  /** rad/s, ascending */
  readonly omega: readonly number[]
  /** Displacements in m (rotations in rad) for a modal coordinate of 1. */
  readonly shapes: readonly NodalField[]
  /** Bound on the relative error of ω² by which the eigenproblem, not the mesh, is unsolved. */
  readonly residuals: readonly number[]
  /** Modes known to exist below the last one that were not found. */
  readonly missed: number
}

export function plateModes(model: PlateModel, count: number): PlateModes {
  const { layout, K, M } = model
  const shift = layout.heldInSpace ? { sigma: 0, factors: plateFactors(model) } : { sigma: -lowestElastic(model) }
  const found = lowestEigenpairs({ K, M, analysis: layout.analysis, count, ...shift })
  return {
    kind: found.kind,
    omega: found.values.map((lambda) => Math.sqrt(Math.max(0, lambda))),
    shapes: found.vectors.map((x) => nodalField(layout, x)),
    residuals: found.residuals,
    missed: found.missed,
  }
}

/** ω² of order D / (m L⁴), L² the area: the scale of the first elastic mode of a plate of that size. */
function lowestElastic({ layout: { mesh }, sections, mass }: PlateModel): number {
  let area = 0
  const { X, T } = mesh
  for (let e = 0; e < T.length; e += 3) {
    const [a, b, c] = [2 * T[e], 2 * T[e + 1], 2 * T[e + 2]]
    area += ((X[b] - X[a]) * (X[c + 1] - X[a + 1]) - (X[b + 1] - X[a + 1]) * (X[c] - X[a])) / 2
  }
  const D = sections.reduce((sum, section) => sum + (section.D[0] + section.D[4]) / 2, 0) / sections.length
  return D / (mass * area)
}
