/**
 * Normal loads on a plate as forces at its nodes, by the element's own deflections: Fᵢ = ∫ p Nᵢ dA, Σ P Nᵢ(at).
 */

import { meshLocator } from '../geometry/mesh-locate.ts'
import type { Point } from '../geometry/point.ts'
import { invariant } from '../issue.ts'
import { elementMap } from './assemble.ts'
import type { PlateLayout } from './layout.ts'
import { integrationPoints, shapeFunctions } from './tied-shear.ts'
import { nodesPerElement } from './triangle-mitc7.ts'

/** All parts given act together; positive along +z. */
export interface PlateLoads {
  /** N/m² at a point. */
  readonly pressure?: (x: number, y: number) => number
  /** N at points of the plate. */
  readonly forces?: readonly { readonly at: Point; readonly force: number }[]
  /** N at each node of the quadratic mesh. */
  readonly nodal?: ArrayLike<number>
}

/** One number a node of the quadratic mesh, N. */
export function nodalForces(layout: PlateLayout, { pressure, forces = [], nodal }: PlateLoads): Float64Array {
  const { mesh, nodes } = layout
  const F = new Float64Array(nodes.X.length / 2)
  if (nodal !== undefined) {
    invariant(nodal.length === F.length, `${nodal.length} nodal forces for ${F.length} nodes`)
    F.set(nodal)
  }
  if (pressure !== undefined) addPressure(F, layout, pressure)
  if (forces.length === 0) return F
  const locate = meshLocator(mesh)
  for (const { at, force } of forces) {
    const place = locate(at[0], at[1])
    invariant(place !== null, `a force acts at (${at[0]}, ${at[1]}), outside the plate`)
    const { N } = shapeFunctions(place.r, place.s)
    for (let i = 0; i < nodesPerElement; i++) F[nodes.T[place.element * nodesPerElement + i]] += N[i] * force
  }
  return F
}

function addPressure(F: Float64Array, { mesh, nodes }: PlateLayout, pressure: (x: number, y: number) => number): void {
  const { X, T } = mesh
  for (let e = 0; e < T.length / 3; e++) {
    const { xr, yr, xs, ys, det } = elementMap(mesh, e)
    const a = 2 * T[3 * e]
    for (const { r, s, N, weight } of integrationPoints) {
      const force = pressure(X[a] + r * xr + s * xs, X[a + 1] + r * yr + s * ys) * weight * det
      for (let i = 0; i < nodesPerElement; i++) F[nodes.T[e * nodesPerElement + i]] += N[i] * force
    }
  }
}
