/**
 * Failure indices over a whole fin: of each triangle of the drawn mesh (`fourfoldMesh`, four a triangle of the plate's), and the worst.
 *
 * Strains vary linearly in a triangle of the plate; they are judged at its corners and the middles of its sides, with the laminate that
 * the fin has there: a hair inside the triangle, so that a point on the outline has the plies that reach the outline. An index of a
 * drawn triangle is the greatest at its three corners. At the ends of a clamped root the thin plate's stresses have no finite value,
 * and a finer mesh reads more there: docs/methods/strength.md says how much.
 */
import type { Laminate } from '../laminate/laminate.ts'
import type { PlateLayout } from '../plate/layout.ts'
import { nodesPerElement } from '../plate/triangle-mitc7.ts'
import { type JudgedLaminate, judged, type WorstFace, worstByStress, worstByTsaiWu } from './ply-judge.ts'
import { perCorner } from './strain-map.ts'

export type LaminateAt = (x: number, y: number) => Laminate

/** Laminates at the six nodes of every triangle, and the nodes' places. */
export interface JudgedPoints {
  readonly laminates: readonly JudgedLaminate[]
  readonly x: Float64Array
  readonly y: Float64Array
}

/** How far inside its triangle a point's laminate is asked for, in distances to the triangle's middle. */
const inside = 1e-3

export function judgedPoints({ nodes, mesh }: PlateLayout, laminateAt: LaminateAt): JudgedPoints {
  const { X, T } = nodes
  const [x, y] = [new Float64Array(T.length), new Float64Array(T.length)]
  const laminates: JudgedLaminate[] = []
  for (let p = 0; p < T.length; p++) {
    const e = Math.floor(p / nodesPerElement)
    let [mx, my] = [0, 0]
    for (let k = 0; k < 3; k++) {
      mx += mesh.X[2 * mesh.T[3 * e + k]] / 3
      my += mesh.X[2 * mesh.T[3 * e + k] + 1] / 3
    }
    x[p] = X[2 * T[p]]
    y[p] = X[2 * T[p] + 1]
    laminates.push(judged(laminateAt(x[p] + inside * (mx - x[p]), y[p] + inside * (my - y[p]))))
  }
  return { laminates, x, y }
}

/** Where, on which face of which layer. */
export interface Spot {
  readonly index: number
  /** Of the plate's mesh. */
  readonly triangle: number
  /** Node of the triangle, 0 to 5. */
  readonly node: number
  /** In the laminate's list of judged faces; −1 where no layer has strengths. */
  readonly face: number
}

export type Judge = typeof worstByStress

/** The greatest index; `counts` leaves points out. */
export function worstSpot(
  { laminates, x, y }: JudgedPoints,
  strains: Float64Array,
  judge: Judge = worstByStress,
  counts: (x: number, y: number) => boolean = () => true,
): Spot {
  let spot: Spot = { index: -1, triangle: -1, node: -1, face: -1 }
  eachPoint(laminates, strains, judge, (p, { index, face }) => {
    if (!(index > spot.index) || !counts(x[p], y[p])) return
    spot = { index, triangle: Math.floor(p / nodesPerElement), node: p % nodesPerElement, face }
  })
  return spot
}

export const worstTsaiWu: Judge = worstByTsaiWu

/** One index a triangle of the drawn mesh, in its order. */
export function indexMap({ laminates }: JudgedPoints, strains: Float64Array): Float64Array {
  const at = new Float64Array(laminates.length)
  eachPoint(laminates, strains, worstByStress, (p, { index }) => {
    at[p] = Math.max(0, index)
  })
  const map = new Float64Array((4 * at.length) / nodesPerElement)
  for (let e = 0; e < at.length / nodesPerElement; e++) {
    // fourfoldMesh: (a, ab, ca) (b, bc, ab) (c, ca, bc) (ab, bc, ca)
    const [a, b, c, ab, bc, ca] = at.subarray(e * nodesPerElement, (e + 1) * nodesPerElement)
    map[4 * e] = Math.max(a, ab, ca)
    map[4 * e + 1] = Math.max(b, bc, ab)
    map[4 * e + 2] = Math.max(c, ca, bc)
    map[4 * e + 3] = Math.max(ab, bc, ca)
  }
  return map
}

/** Membrane strains and curvatures at a spot, into `to`. */
export function strainsAt(strains: Float64Array, triangle: number, node: number, to: Float64Array): Float64Array {
  const corner = (k: number): number => perCorner * (3 * triangle + k)
  for (let j = 0; j < perCorner; j++) {
    to[j] =
      node < 3 ? strains[corner(node) + j] : (strains[corner(node - 3) + j] + strains[corner((node - 2) % 3) + j]) / 2
  }
  return to
}

function eachPoint(
  laminates: readonly JudgedLaminate[],
  strains: Float64Array,
  judge: Judge,
  visit: (point: number, worst: WorstFace) => void,
): void {
  const strain = new Float64Array(perCorner)
  const found: WorstFace = { index: -1, face: -1 }
  for (let p = 0; p < laminates.length; p++) {
    strainsAt(strains, Math.floor(p / nodesPerElement), p % nodesPerElement, strain)
    visit(p, judge(laminates[p], strain, 0, found))
  }
}
