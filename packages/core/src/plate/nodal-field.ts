/** Displacements and rotations at the nodes of the quadratic mesh (corners as in the mesh, then middles of sides). */
import type { PlateLayout } from './layout.ts'

export interface NodalField {
  /** Deflection, m. */
  readonly w: Float64Array
  /** Rotations of the normal, rad: a point at height z moves by z φx along x and z φy along y; thin plates φ = −∇w. */
  readonly phiX: Float64Array
  readonly phiY: Float64Array
  /** In-plane displacements of the reference plane, m; zero when bending and stretching are not coupled. */
  readonly u: Float64Array
  readonly v: Float64Array
}

/** From the unknowns of the matrices; what is held is zero. */
export function nodalField({ nodes, perNode, unknown, frame }: PlateLayout, x: Float64Array): NodalField {
  const count = nodes.X.length / 2
  const at = (node: number, k: number): number => {
    const i = k < perNode ? unknown[node * perNode + k] : -1
    return i < 0 ? 0 : x[i]
  }
  const field = {
    w: Float64Array.from({ length: count }, (_, node) => at(node, 0)),
    ...{ phiX: new Float64Array(count), phiY: new Float64Array(count) },
    ...{ u: new Float64Array(count), v: new Float64Array(count) },
  }
  for (let node = 0; node < count; node++) {
    ;[field.phiX[node], field.phiY[node]] = turned(at(node, 1), at(node, 2), frame[2 * node])
    ;[field.u[node], field.v[node]] = turned(at(node, 3), at(node, 4), frame[2 * node + 1])
  }
  return field
}

function turned(along: number, across: number, angle: number): [number, number] {
  if (angle === 0) return [along, across]
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  return [c * along - s * across, s * along + c * across]
}
