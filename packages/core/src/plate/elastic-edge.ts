/**
 * Springs along sides of triangles: their energy as part of the side's own element, and the forces they put on its nodes.
 *
 *   energy per length   ½ (w, θ) K (w, θ)ᵀ + ½ twist (φs + ∂w/∂s)²      θ = −φ · n, n into the plate
 *
 * w and φ are the element's own quadratic functions of the side. The first part is summed at three Gauss points, which is
 * exact; the second at two, the points where the element ties its shear (tied-shear.ts), so that a stiff twist spring asks of
 * the side no more than the element can give.
 */
import { invariant } from '../issue.ts'
import { packed } from '../numeric/sparse.ts'
import type { NodalField } from './nodal-field.ts'
import type { QuadraticMesh } from './quadratic-mesh.ts'
import { isElastic, type Support } from './supports.ts'
import { nodesPerElement } from './triangle-mitc7.ts'

export interface ElasticSide {
  readonly element: number
  readonly segment: number
  /** Start, middle, end: nodes of the mesh, and their places in the element. */
  readonly nodes: readonly [number, number, number]
  readonly places: readonly [number, number, number]
  /** Stiffness over (w, φx, φy) of the three nodes, 9 × 9 row-major. */
  readonly K: Float64Array
}

/** Forces on w, φx and φy of a node. */
export type SpringForce = readonly [number, number, number]

/** In the order of their elements. */
export function elasticSides(nodes: QuadraticMesh, supports: readonly Support[]): ElasticSide[] {
  const held = nodes.sides.filter(({ segment }) => isElastic(supports[segment]))
  if (held.length === 0) return []
  const elementOf = new Map<number, number>(held.map((side) => [side.nodes[1], -1]))
  nodes.T.forEach((node, at) => {
    if (elementOf.has(node)) elementOf.set(node, Math.floor(at / nodesPerElement))
  })
  return held
    .map(({ nodes: three, segment }): ElasticSide => {
      const element = elementOf.get(three[1]) as number
      invariant(element >= 0, `side ${three.join(' ')} of the outline belongs to no triangle`)
      const own = nodes.T.subarray(element * nodesPerElement, (element + 1) * nodesPerElement)
      const place = (node: number): number => own.indexOf(node)
      const K = sideStiffness(nodes.X, three, supports[segment])
      return { element, segment, nodes: three, places: [place(three[0]), place(three[1]), place(three[2])], K }
    })
    .sort((p, q) => p.element - q.element)
}

/** Gauss points on 0 … 1 with weights. */
const two = [
  [0.5 - Math.sqrt(3) / 6, 0.5],
  [0.5 + Math.sqrt(3) / 6, 0.5],
] as const
const three = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const

function sideStiffness(X: Float64Array, [a, , b]: readonly [number, number, number], support: Support): Float64Array {
  invariant(isElastic(support), 'the side is held by springs')
  const { deflection, coupling, rotation, twist } = support
  invariant(
    [deflection, coupling, rotation, twist].every(Number.isFinite) &&
      deflection >= 0 &&
      rotation >= 0 &&
      twist >= 0 &&
      coupling ** 2 <= deflection * rotation * (1 + 1e-9),
    `springs ${deflection}, ${coupling}, ${rotation}, ${twist} give back more than is put in, or are not finite`,
  )
  const [dx, dy] = [X[2 * b] - X[2 * a], X[2 * b + 1] - X[2 * a + 1]]
  const L = Math.hypot(dx, dy)
  const [tx, ty] = [dx / L, dy / L]
  const K = new Float64Array(81)
  const w = new Float64Array(9)
  const theta = new Float64Array(9)
  for (const [s, weight] of three) {
    const N = [(1 - s) * (1 - 2 * s), 4 * s * (1 - s), s * (2 * s - 1)]
    N.forEach((value, i) => {
      w[3 * i] = value
      theta[3 * i + 1] = ty * value // −φ · n, n = (−ty, tx)
      theta[3 * i + 2] = -tx * value
    })
    for (let i = 0; i < 9; i++)
      for (let j = 0; j < 9; j++) {
        const crossed = w[i] * theta[j] + theta[i] * w[j]
        K[9 * i + j] += weight * L * (deflection * w[i] * w[j] + coupling * crossed + rotation * theta[i] * theta[j])
      }
  }
  const lean = new Float64Array(9)
  for (const [s, weight] of two) {
    const N = [(1 - s) * (1 - 2 * s), 4 * s * (1 - s), s * (2 * s - 1)]
    const slope = [4 * s - 3, 4 - 8 * s, 4 * s - 1]
    N.forEach((value, i) => {
      lean[3 * i] = slope[i] / L
      lean[3 * i + 1] = tx * value
      lean[3 * i + 2] = ty * value
    })
    for (let i = 0; i < 9; i++) for (let j = 0; j < 9; j++) K[9 * i + j] += weight * L * twist * lean[i] * lean[j]
  }
  return K
}

/** Adds the springs of a side to its element's stiffness (packed by columns, nodes' unknowns first, plate axes). */
export function addSprings(stiffness: Float64Array, { places, K }: ElasticSide, perNode: number): void {
  for (let a = 0; a < 9; a++) {
    const i = places[Math.floor(a / 3)] * perNode + (a % 3)
    for (let b = 0; b < 9; b++) {
      const j = places[Math.floor(b / 3)] * perNode + (b % 3)
      if (i <= j) stiffness[packed(j) + i] += K[9 * a + b]
    }
  }
}

/** What the springs of every side do to the plate at its nodes; a node between two sides comes twice. */
export function springForces(sides: readonly ElasticSide[], { w, phiX, phiY }: NodalField) {
  return sides.flatMap(({ nodes, K }) => {
    const x = nodes.flatMap((node) => [w[node], phiX[node], phiY[node]])
    const force = (i: number): number => {
      let sum = 0
      for (let j = 0; j < 9; j++) sum -= K[9 * i + j] * x[j]
      return sum
    }
    return nodes.map((node, k) => ({ node, force: force(3 * k), phiX: force(3 * k + 1), phiY: force(3 * k + 2) }))
  })
}

/**
 * Energy of all springs in the rigid motions w = 1, w = x / extent, w = y / extent: 3 × 3, its greatest diagonal 1. Of full rank
 * where springs alone hold the plate.
 */
export function springGram(sides: readonly ElasticSide[], X: Float64Array, extent: number): Float64Array {
  const gram = new Float64Array(9)
  for (const { nodes, K } of sides) {
    const motions = [
      nodes.flatMap(() => [1, 0, 0]),
      nodes.flatMap((node) => [X[2 * node] / extent, -1 / extent, 0]),
      nodes.flatMap((node) => [X[2 * node + 1] / extent, 0, -1 / extent]),
    ]
    for (let p = 0; p < 9; p++) {
      const [m, n] = [motions[Math.floor(p / 3)], motions[p % 3]]
      for (let i = 0; i < 9; i++) for (let j = 0; j < 9; j++) gram[p] += m[i] * K[9 * i + j] * n[j]
    }
  }
  const most = Math.max(gram[0], gram[4], gram[8])
  return most > 0 ? gram.map((value) => value / most) : gram
}
