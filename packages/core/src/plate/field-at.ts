/** Deflection, slopes and rotations of a plate at any point inside it, from the element's own functions. */
import { meshLocator } from '../geometry/mesh-locate.ts'
import { elementMap, type PlateModel } from './assemble.ts'
import type { NodalField } from './nodal-field.ts'
import { shapeFunctions } from './tied-shear.ts'
import { nodesPerElement } from './triangle-mitc7.ts'

export interface FieldValue {
  /** m */
  readonly w: number
  /** Slopes of the deflected surface. */
  readonly wx: number
  readonly wy: number
  readonly phiX: number
  readonly phiY: number
  readonly u: number
  readonly v: number
}

/** Answers null outside the plate. The rotations' bubble is left out: it is smaller than the mesh's own error. */
export function fieldReader({ layout }: PlateModel): (field: NodalField, x: number, y: number) => FieldValue | null {
  const locate = meshLocator(layout.mesh)
  return (field, x, y) => {
    const place = locate(x, y)
    if (place === null) return null
    const { N, Nr, Ns } = shapeFunctions(place.r, place.s)
    const { rx, ry, sx, sy } = elementMap(layout.mesh, place.element)
    const value = { w: 0, wx: 0, wy: 0, phiX: 0, phiY: 0, u: 0, v: 0 }
    for (let i = 0; i < nodesPerElement; i++) {
      const node = layout.nodes.T[place.element * nodesPerElement + i]
      value.w += N[i] * field.w[node]
      value.wx += (Nr[i] * rx + Ns[i] * sx) * field.w[node]
      value.wy += (Nr[i] * ry + Ns[i] * sy) * field.w[node]
      value.phiX += N[i] * field.phiX[node]
      value.phiY += N[i] * field.phiY[node]
      value.u += N[i] * field.u[node]
      value.v += N[i] * field.v[node]
    }
    return value
  }
}
