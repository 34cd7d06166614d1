/**
 * Quadratic elements of plane elasticity: the eight-node quadrilateral with 2 × 2 and the six-node triangle with 3 Gauss points.
 *
 *   B = ∂N/∂(p, q)      K = ∫ Bᵀ C B dA      σ = C B u over (pp, qq, pq)
 *
 * Corners counter-clockwise, then the middles of the sides 12, 23, …; unknowns of a node p, then q. The reduced quadrature of
 * the quadrilateral has its stresses most accurate (Barlow points). Source: Zienkiewicz & Taylor, The Finite Element Method,
 * vol. 1, 5th ed. (2000), sections 8.7, 8.8 and 14.2 (recalled).
 */
import { packed } from '../../numeric/sparse.ts'

/** Gauss points of an element, natural coordinates and weight, and the shape functions' derivatives there. */
export interface ElementRule {
  readonly nodes: number
  readonly points: readonly { readonly x: number; readonly y: number; readonly weight: number }[]
  /** ∂N/∂x and ∂N/∂y of node k at point g: `dN[g][2 k]`, `dN[g][2 k + 1]`. */
  readonly dN: readonly Float64Array[]
  readonly N: readonly Float64Array[]
}

const g = 1 / Math.sqrt(3)
export const gauss = g

/** Natural coordinates −1 … 1; the points run as the corners do. */
export const quadrilateral: ElementRule = rule(
  8,
  [
    { x: -g, y: -g, weight: 1 },
    { x: g, y: -g, weight: 1 },
    { x: g, y: g, weight: 1 },
    { x: -g, y: g, weight: 1 },
  ],
  serendipity,
)

/** Area coordinates: corner 1 at (0, 0), 2 at (1, 0), 3 at (0, 1). */
export const triangle: ElementRule = rule(
  6,
  [
    { x: 1 / 6, y: 1 / 6, weight: 1 / 6 },
    { x: 2 / 3, y: 1 / 6, weight: 1 / 6 },
    { x: 1 / 6, y: 2 / 3, weight: 1 / 6 },
  ],
  quadraticTriangle,
)

/** Values and derivatives of the shape functions at one point. */
interface Shapes {
  readonly N: number[]
  readonly dN: number[]
}

function rule(nodes: number, points: ElementRule['points'], shapes: (x: number, y: number) => Shapes): ElementRule {
  const at = points.map(({ x, y }) => shapes(x, y))
  return {
    nodes,
    points,
    N: at.map(({ N }) => Float64Array.from(N)),
    dN: at.map(({ dN }) => Float64Array.from(dN)),
  }
}

function serendipity(x: number, y: number): Shapes {
  const N: number[] = []
  const dN: number[] = []
  for (const [a, b] of [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ]) {
    N.push(((1 + a * x) * (1 + b * y) * (a * x + b * y - 1)) / 4)
    dN.push((a * (1 + b * y) * (2 * a * x + b * y)) / 4, (b * (1 + a * x) * (a * x + 2 * b * y)) / 4)
  }
  for (const [a, b] of [
    [0, -1],
    [1, 0],
    [0, 1],
    [-1, 0],
  ]) {
    if (a === 0) {
      N.push(((1 - x * x) * (1 + b * y)) / 2)
      dN.push(-x * (1 + b * y), (b * (1 - x * x)) / 2)
    } else {
      N.push(((1 + a * x) * (1 - y * y)) / 2)
      dN.push((a * (1 - y * y)) / 2, -y * (1 + a * x))
    }
  }
  return { N, dN }
}

function quadraticTriangle(x: number, y: number): Shapes {
  const z = 1 - x - y
  return {
    N: [z * (2 * z - 1), x * (2 * x - 1), y * (2 * y - 1), 4 * z * x, 4 * x * y, 4 * y * z],
    dN: [1 - 4 * z, 1 - 4 * z, 4 * x - 1, 0, 0, 4 * y - 1, 4 * (z - x), -4 * x, 4 * y, 4 * x, -4 * y, 4 * (z - y)],
  }
}

/** ∂N/∂p and ∂N/∂q of every node at Gauss point `k`, into `out`; the weight times the area there. */
export function gradients(element: ElementRule, k: number, X: Float64Array, out: Float64Array): number {
  const { nodes } = element
  const dN = element.dN[k]
  let [px, py, qx, qy] = [0, 0, 0, 0]
  for (let a = 0; a < nodes; a++) {
    px += dN[2 * a] * X[2 * a]
    py += dN[2 * a + 1] * X[2 * a]
    qx += dN[2 * a] * X[2 * a + 1]
    qy += dN[2 * a + 1] * X[2 * a + 1]
  }
  const det = px * qy - py * qx
  for (let a = 0; a < nodes; a++) {
    const [dx, dy] = [dN[2 * a], dN[2 * a + 1]]
    out[2 * a] = (qy * dx - qx * dy) / det
    out[2 * a + 1] = (px * dy - py * dx) / det
  }
  return det * element.points[k].weight
}

/** Adds w Bᵀ C B to the packed upper triangle K; C is 3 × 3 row-major over (pp, qq, pq). */
export function addStiffness(
  K: Float64Array,
  nodes: number,
  { dN, C, w }: { readonly dN: Float64Array; readonly C: ArrayLike<number>; readonly w: number },
): void {
  const C11 = C[0]
  const C12 = C[1]
  const C16 = C[2]
  const C22 = C[4]
  const C26 = C[5]
  const C66 = C[8]
  for (let b = 0; b < nodes; b++) {
    const bp = w * dN[2 * b]
    const bq = w * dN[2 * b + 1]
    // C B of node b: columns p and q
    const p1 = C11 * bp + C16 * bq
    const p2 = C12 * bp + C26 * bq
    const p6 = C16 * bp + C66 * bq
    const q1 = C16 * bp + C12 * bq
    const q2 = C26 * bp + C22 * bq
    const q6 = C66 * bp + C26 * bq
    const p = packed(2 * b)
    const q = packed(2 * b + 1)
    for (let a = 0; a <= b; a++) {
      const ap = dN[2 * a]
      const aq = dN[2 * a + 1]
      K[p + 2 * a] += ap * p1 + aq * p6
      if (a < b) K[p + 2 * a + 1] += aq * p2 + ap * p6
      K[q + 2 * a] += ap * q1 + aq * q6
      K[q + 2 * a + 1] += aq * q2 + ap * q6
    }
  }
}
