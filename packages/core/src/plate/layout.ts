/**
 * Which unknowns a plate has and where they stand in its matrices: everything that depends on mesh and supports but not on
 * the sections, so that a change of laminate is only a new sum over elements and new numbers in the same factors.
 *
 * Unknowns of a node, in order: w, φx, φy and, when coupled, u, v. Where a support holds one direction of a pair only, that
 * node's pair stands in a frame turned to it: the first of the two is the held one.
 */
import type { Mesh } from '../geometry/mesh.ts'

import { symmetricEigen } from '../numeric/eigen.ts'
import { analyseLdl, type LdlAnalysis } from '../numeric/ldl.ts'
import { minimumDegree } from '../numeric/minimum-degree.ts'
import { type AssemblyPlan, assemblyPlan } from '../numeric/sparse.ts'
import { type ElasticSide, elasticSides, springGram } from './elastic-edge.ts'
import { type QuadraticMesh, quadraticMesh } from './quadratic-mesh.ts'
import { type NodeSupport, nodeSupports, type Support, sameUnknowns } from './supports.ts'
import { nodesPerElement } from './triangle-mitc7.ts'

export interface PlateLayout {
  readonly mesh: Mesh
  readonly nodes: QuadraticMesh
  readonly supports: readonly Support[]
  readonly coupled: boolean
  /** 3, or 5 when coupled. */
  readonly perNode: number
  /** Number of unknowns not held. */
  readonly n: number
  /** Of unknown k of a node at `node · perNode + k`: its place in the matrices, or −1 when held. */
  readonly unknown: Int32Array
  /** Angle of a node's frame for rotations and for in-plane displacements, 2 per node. */
  readonly frame: Float64Array
  readonly plan: AssemblyPlan
  readonly analysis: LdlAnalysis
  /** Sides of triangles that springs hold. */
  readonly springs: readonly ElasticSide[]
  /** False when the plate can move as a rigid body. */
  readonly heldInSpace: boolean
}

export interface LayoutOptions {
  readonly mesh: Mesh
  readonly supports: readonly Support[]
  readonly coupled: boolean
}

export function plateLayout({ mesh, supports, coupled }: LayoutOptions): PlateLayout {
  const nodes = quadraticMesh(mesh)
  const count = nodes.X.length / 2
  const perNode = coupled ? 5 : 3
  const held = nodeSupports(nodes, supports)
  const order = minimumDegree({ n: count, elements: nodes.T, perElement: nodesPerElement })
  const unknown = new Int32Array(count * perNode).fill(-1)
  const frame = new Float64Array(2 * count)
  let n = 0
  for (const node of order) {
    const { deflection, rotation, inPlane } = held[node]
    const isHeld = [deflection, rotation.count > 0, rotation.count > 1, inPlane.count > 0, inPlane.count > 1]
    for (let k = 0; k < perNode; k++) if (!isHeld[k]) unknown[node * perNode + k] = n++
    if (rotation.count === 1) frame[2 * node] = rotation.angle
    if (inPlane.count === 1) frame[2 * node + 1] = inPlane.angle
  }
  const size = nodesPerElement * perNode
  const unknowns = Int32Array.from({ length: (nodes.T.length / nodesPerElement) * size }, (_, i) => {
    const node = nodes.T[Math.floor(i / perNode)]
    return unknown[node * perNode + (i % perNode)]
  })
  const plan = assemblyPlan({ n, size, unknowns })
  const springs = elasticSides(nodes, supports)
  return {
    ...{ mesh, nodes, supports, coupled, perNode, n, unknown, frame, plan },
    analysis: analyseLdl(plan.pattern),
    springs,
    heldInSpace: preventsRigidMotion({ X: nodes.X, held, coupled, springs }),
  }
}

/** The layout for other supports when the unknowns are the same ones (springs of other stiffness); null when they are not. */
export function layoutLike(layout: PlateLayout, { mesh, supports, coupled }: LayoutOptions): PlateLayout | null {
  if (layout.mesh !== mesh || layout.coupled !== coupled || layout.supports.length !== supports.length) return null
  if (layout.supports.every((support, i) => support === supports[i])) return layout
  if (!layout.supports.every((support, i) => sameUnknowns(support, supports[i]))) return null
  const springs = elasticSides(layout.nodes, supports)
  const held = nodeSupports(layout.nodes, supports)
  return {
    ...layout,
    supports,
    springs,
    heldInSpace: preventsRigidMotion({ X: layout.nodes.X, held, coupled, springs }),
  }
}

interface Restraint {
  readonly X: Float64Array
  readonly held: readonly NodeSupport[]
  readonly coupled: boolean
  readonly springs: readonly ElasticSide[]
}

/** Whether no rigid motion leaves all held components at zero: the Gram matrix of what they feel has full rank. */
function preventsRigidMotion({ X, held, coupled, springs }: Restraint): boolean {
  const motions = coupled ? 6 : 3
  const extent = X.reduce((most, x) => Math.max(most, Math.abs(x)), 0)
  const gram = new Float64Array(motions * motions)
  const feel = (row: readonly number[]): void => {
    for (let i = 0; i < motions; i++) for (let j = 0; j < motions; j++) gram[i * motions + j] += row[i] * row[j]
  }
  held.forEach(({ deflection, rotation, inPlane }, node) => {
    const [x, y] = [X[2 * node] / extent, X[2 * node + 1] / extent]
    // rigid motions: w = 1, w = x (φx = −1), w = y (φy = −1), u = 1, v = 1, turn (u = −y, v = x)
    if (deflection) feel([1, x, y, 0, 0, 0])
    for (const [pair, plane] of [[rotation, false] as const, [inPlane, true] as const]) {
      for (let k = 0; k < pair.count; k++) {
        const [c, s] = [Math.cos(pair.angle + (k * Math.PI) / 2), Math.sin(pair.angle + (k * Math.PI) / 2)]
        feel(plane ? [0, 0, 0, c, s, -y * c + x * s] : [0, -c, -s, 0, 0, 0])
      }
    }
  })
  springGram(springs, X, extent).forEach((value, p) => {
    gram[Math.floor(p / 3) * motions + (p % 3)] += value
  })
  const { values } = symmetricEigen(gram, motions)
  return values[0] > 1e-9 * values[motions - 1]
}
