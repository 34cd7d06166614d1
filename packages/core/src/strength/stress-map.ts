/**
 * Failure indices over a whole fin: at every node, of each triangle of the drawn mesh (`fourfoldMesh`), and the worst.
 *
 * A node is judged with the laminate that the fin has there: a hair inside a triangle that the node belongs to, so that a node on the
 * outline has the plies that reach it. An index of a drawn triangle is the greatest at its three corners. At the ends of a clamped root
 * the thin plate's stresses have no finite value, and a finer mesh reads more there.
 */
import type { Laminate } from '../laminate/laminate.ts'
import type { PlateLayout } from '../plate/layout.ts'
import { fourfoldMesh } from '../plate/quadratic-mesh.ts'
import { nodesPerElement } from '../plate/triangle-mitc7.ts'
import { type JudgedLaminate, judged, type WorstFace, worstByStress } from './ply-judge.ts'
import { perCorner } from './strain-map.ts'

export type LaminateAt = (x: number, y: number) => Laminate

/** The laminate at every node of the quadratic mesh. */
export interface JudgedNodes {
  readonly layout: PlateLayout
  readonly laminates: readonly JudgedLaminate[]
}

/** How far inside a triangle a node's laminate is asked for, in distances to the triangle's middle. */
const inside = 1e-3

export function judgedNodes(layout: PlateLayout, laminateAt: LaminateAt): JudgedNodes {
  const { nodes, mesh } = layout
  const { X, T } = nodes
  const known: (JudgedLaminate | undefined)[] = new Array(X.length / 2)
  for (let p = 0; p < T.length; p++) {
    const node = T[p]
    known[node] ??= judged(laminateAt(...nudged(mesh, Math.floor(p / nodesPerElement), X[2 * node], X[2 * node + 1])))
  }
  return { layout, laminates: known as JudgedLaminate[] }
}

/** A point of a triangle moved a hair towards its middle. */
function nudged({ X, T }: PlateLayout['mesh'], triangle: number, x: number, y: number): [number, number] {
  let [mx, my] = [0, 0]
  for (let k = 3 * triangle; k < 3 * triangle + 3; k++) {
    mx += X[2 * T[k]] / 3
    my += X[2 * T[k] + 1] / 3
  }
  return [x + inside * (mx - x), y + inside * (my - y)]
}

export interface Spot {
  readonly index: number
  /** Of the quadratic mesh. */
  readonly node: number
  /** In the laminate's list of judged faces; −1 where no layer has strengths. */
  readonly face: number
}

export type Judge = typeof worstByStress

/** The greatest index at the nodes that count; `strains` are at the nodes. */
export function worstSpot(
  { layout, laminates }: JudgedNodes,
  strains: Float64Array,
  judge: Judge = worstByStress,
  counts: (x: number, y: number) => boolean = () => true,
): Spot {
  const { X } = layout.nodes
  const found: WorstFace = { index: -1, face: -1 }
  let spot: Spot = { index: -1, node: -1, face: -1 }
  for (let node = 0; node < laminates.length; node++) {
    judge(laminates[node], strains, perCorner * node, found)
    if (found.index > spot.index && counts(X[2 * node], X[2 * node + 1])) spot = { node, ...found }
  }
  return spot
}

/** The greatest index when every triangle is judged by its own strains at its corners. */
export function worstOfTriangles({ layout, laminates }: JudgedNodes, corners: Float64Array): number {
  const found: WorstFace = { index: -1, face: -1 }
  let most = -1
  layout.mesh.T.forEach((node, i) => {
    most = Math.max(most, worstByStress(laminates[node], corners, perCorner * i, found).index)
  })
  return most
}

/** One index a triangle of the drawn mesh, in its order. */
export function indexMap({ layout, laminates }: JudgedNodes, strains: Float64Array): Float64Array {
  const found: WorstFace = { index: -1, face: -1 }
  const at = laminates.map((laminate, node) =>
    Math.max(0, worstByStress(laminate, strains, perCorner * node, found).index),
  )
  const { T } = fourfoldMesh(layout.nodes)
  return Float64Array.from({ length: T.length / 3 }, (_, e) =>
    Math.max(at[T[3 * e]], at[T[3 * e + 1]], at[T[3 * e + 2]]),
  )
}
