/**
 * Stiffness and mass of a plate as sparse matrices over the unknowns that are not held.
 *
 * The section is asked for at the integration points of every triangle, wherever ply edges and bevels run: triangles do not
 * follow them. docs/methods/plate.md shows what that costs.
 */
import type { Mesh } from '../geometry/mesh.ts'
import { invariant } from '../issue.ts'
import { packed, type SymmetricMatrix, zeroMatrix } from '../numeric/sparse.ts'
import { addSprings } from './elastic-edge.ts'
import { layoutLike, type PlateLayout, plateLayout } from './layout.ts'
import { isCoupled, type PlateSection, type SectionPoint } from './section.ts'
import type { Support } from './supports.ts'
import { integrationPoints } from './tied-shear.ts'
import {
  type ElementScratch,
  elementMass,
  elementScratch,
  elementStiffness,
  nodesPerElement,
  type TriangleMap,
  triangleMap,
} from './triangle-mitc7.ts'

export interface PlateOptions {
  readonly mesh: Mesh
  /** One a segment of the outline. */
  readonly supports: readonly Support[]
  /** Section at a point. Returning one and the same object where nothing changes saves time. */
  readonly sectionAt: (point: SectionPoint) => PlateSection
  /** Bending and stretching coupled: 5 unknowns a node. Default: when any section has B ≠ 0. */
  readonly coupled?: boolean
  /** A plate with the same mesh and supports (springs may differ in stiffness), whose layout is used again. */
  readonly like?: PlateModel
}

export interface PlateModel {
  readonly layout: PlateLayout
  /** At integration point q of triangle e: `sections[e · 6 + q]`. */
  readonly sections: readonly PlateSection[]
  /** N/m, N and N·m, over the unknowns not held. */
  readonly K: SymmetricMatrix
  /** kg and kg·m² */
  readonly M: SymmetricMatrix
  /** ∫ massPerArea dA, kg */
  readonly mass: number
}

export function assemblePlate({ mesh, supports, sectionAt, coupled, like }: PlateOptions): PlateModel {
  const sections = sampleSections(mesh, sectionAt)
  const inPlane = coupled ?? isCoupled(sections)
  const wanted = { mesh, supports, coupled: inPlane }
  const layout = (like === undefined ? null : layoutLike(like.layout, wanted)) ?? plateLayout(wanted)
  return sumElements(layout, sections)
}

/** The same plate on springs of other stiffness: only theirs is summed anew. */
export function resprung(model: PlateModel, supports: readonly Support[]): PlateModel {
  const { mesh, coupled, perNode, plan, springs: before } = model.layout
  const layout = layoutLike(model.layout, { mesh, supports, coupled })
  invariant(layout !== null, 'springs take the place of springs')
  const K = { ...model.K, value: model.K.value.slice() }
  const change = new Float64Array(packed(plan.size))
  for (const [i, side] of layout.springs.entries()) {
    change.fill(0)
    const difference = side.K.map((value, at) => value - before[i].K[at])
    addSprings(change, { ...side, K: difference }, perNode)
    turnFrames(change, layout, side.element)
    for (let p = 0, at = side.element * packed(plan.size); p < packed(plan.size); p++, at++)
      if (plan.slot[at] >= 0) K.value[plan.slot[at]] += change[p]
  }
  return { ...model, layout, K }
}

/** Corner coordinates of triangle e mapped to natural coordinates. */
export function elementMap({ X, T }: Mesh, e: number): TriangleMap {
  return triangleMap(X, T[3 * e], T[3 * e + 1], T[3 * e + 2])
}

function sampleSections({ X, T }: Mesh, sectionAt: PlateOptions['sectionAt']): PlateSection[] {
  const sections: PlateSection[] = []
  for (let element = 0; element < T.length / 3; element++) {
    const a = 2 * T[3 * element]
    const { xr, yr, xs, ys } = elementMap({ X, T, boundary: [] }, element)
    for (const { r, s } of integrationPoints) {
      sections.push(sectionAt({ x: X[a] + r * xr + s * xs, y: X[a + 1] + r * yr + s * ys, element }))
    }
  }
  return sections
}

/** The section at integration point q of triangle e. */
export const sectionsOf =
  ({ sections }: Pick<PlateModel, 'sections'>, e: number) =>
  (q: number): PlateSection =>
    sections[e * integrationPoints.length + q]

function sumElements(layout: PlateLayout, sections: readonly PlateSection[]): PlateModel {
  const { mesh, coupled, perNode, plan, springs } = layout
  const { slot, size } = plan
  const K = zeroMatrix(plan.pattern)
  const M = zeroMatrix(plan.pattern)
  const scratch = elementScratch(coupled)
  const massMatrix = new Float64Array(packed(size))
  let mass = 0
  let side = 0 // springs come in the order of their elements
  for (let e = 0; e < mesh.T.length / 3; e++) {
    const map = elementMap(mesh, e)
    invariant(map.det > 0, `triangle ${e} has area ${map.det / 2}`)
    const sectionAt = sectionsOf({ sections }, e)
    elementStiffness(scratch, map, sectionAt)
    for (; side < springs.length && springs[side].element === e; side++) addSprings(scratch.K, springs[side], perNode)
    elementMass(scratch, map, sectionAt)
    expandMass(massMatrix, scratch, perNode)
    turnFrames(scratch.K, layout, e)
    turnFrames(massMatrix, layout, e)
    for (let p = 0, at = e * packed(size); p < packed(size); p++, at++) {
      if (slot[at] < 0) continue
      K.value[slot[at]] += scratch.K[p]
      M.value[slot[at]] += massMatrix[p]
    }
    for (const [q, { weight }] of integrationPoints.entries()) mass += weight * map.det * sectionAt(q).massPerArea
  }
  return { layout, sections, K, M, mass }
}

/** The element's mass over all its unknowns, packed. Entries between different components stay zero. */
function expandMass(M: Float64Array, { mass }: ElementScratch, perNode: number): void {
  const entries = packed(nodesPerElement)
  M.fill(0)
  for (let j = 0, p = 0; j < nodesPerElement; j++) {
    for (let i = 0; i <= j; i++, p++) {
      for (let k = 0; k < perNode; k++) {
        M[packed(j * perNode + k) + i * perNode + k] = k === 1 || k === 2 ? mass[entries + p] : mass[p]
      }
    }
  }
}

/** Turns an element's matrix (packed, nodes' unknowns first) to the frames of its nodes. */
export function turnFrames(K: Float64Array, { nodes, frame, perNode }: PlateLayout, e: number): void {
  for (let i = 0; i < nodesPerElement; i++) {
    const node = nodes.T[e * nodesPerElement + i]
    for (let pair = 0; pair < (perNode === 5 ? 2 : 1); pair++) {
      const angle = frame[2 * node + pair]
      if (angle !== 0) turnPair(K, nodesPerElement * perNode, i * perNode + 1 + 2 * pair, angle)
    }
  }
}

/** Unknowns a, a + 1 become their components along `angle` and across it. */
function turnPair(K: Float64Array, size: number, a: number, angle: number): void {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const at = (i: number, j: number): number => (i <= j ? packed(j) + i : packed(i) + j)
  for (let j = 0; j < size; j++) {
    if (j === a || j === a + 1) continue
    const [p, q] = [at(a, j), at(a + 1, j)]
    const [x, y] = [K[p], K[q]]
    K[p] = c * x + s * y
    K[q] = c * y - s * x
  }
  const [xx, xy, yy] = [at(a, a), at(a, a + 1), at(a + 1, a + 1)]
  const [kxx, kxy, kyy] = [K[xx], K[xy], K[yy]]
  K[xx] = c * c * kxx + 2 * c * s * kxy + s * s * kyy
  K[yy] = s * s * kxx - 2 * c * s * kxy + c * c * kyy
  K[xy] = c * s * (kyy - kxx) + (c * c - s * s) * kxy
}
