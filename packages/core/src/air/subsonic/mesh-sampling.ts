/**
 * Values and streamwise slopes of a field known at the nodes of a triangle mesh, at any points: each a fixed weighted sum of
 * nodal values, so that the search and the fit are done once for a mesh and used for every mode.
 *
 * About each point the nodes of the triangle that holds it and of the rings of triangles around it are fitted by a polynomial
 * of degree 3 (or 2, or 1, where the nodes do not carry more), least squares with weights exp(−10 d²/ρ²), ρ the distance of the
 * farthest node. The value and ∂/∂x of the fit at the point are what is returned: exact for cubics. Rings follow the
 * triangles, so a fit never reaches across a slot of the outline. Points a little outside the mesh are extrapolated from the
 * nearest triangle. Source: moving least squares after Lancaster & Salkauskas, Math. Comp. 37 (1981) 141-158 (recalled).
 */
import { invariant } from '../../issue.ts'
import type { ModeOnLattice } from './generalized-forces.ts'
import type { LiftingSurface } from './surface.ts'

/** Nodes and triangles; a triangle's first three nodes are its corners, others lie on it. */
export interface FieldMesh {
  /** Interleaved x, y; 2 per node. */
  readonly X: Float64Array
  readonly T: Int32Array
  /** Nodes of a triangle in T: 3 (corners) or 6 (and the middles of its sides). */
  readonly perTriangle: 3 | 6
}

/** Rows of weights in compressed form: point p uses entries start[p] … start[p + 1] − 1. */
export interface MeshSampling {
  readonly start: Int32Array
  readonly node: Int32Array
  readonly value: Float64Array
  readonly slope: Float64Array
}

/** Fits at the points (x[p], y[p]). */
export function meshSampling(mesh: FieldMesh, x: ArrayLike<number>, y: ArrayLike<number>): MeshSampling {
  invariant(mesh.T.length > 0, 'mesh without triangles')
  const around = trianglesAround(mesh)
  const start = new Int32Array(x.length + 1)
  const [node, value, slope]: [number[], number[], number[]] = [[], [], []]
  for (let p = 0; p < x.length; p++) {
    const fit = fitAt(mesh, around, x[p], y[p])
    node.push(...fit.nodes)
    value.push(...fit.value)
    slope.push(...fit.slope)
    start[p + 1] = node.length
  }
  return { start, node: Int32Array.from(node), value: Float64Array.from(value), slope: Float64Array.from(slope) }
}

/** Mode shapes given by displacements at the nodes of a mesh, on the lattice of a surface. */
export function shapesFromMesh(surface: LiftingSurface, mesh: FieldMesh): (z: ArrayLike<number>) => ModeOnLattice {
  const { receiveX, forceX, y } = surface.lattice
  const [receive, force] = [meshSampling(mesh, receiveX, y), meshSampling(mesh, forceX, y)]
  return (z) => {
    invariant(2 * z.length === mesh.X.length, `shape has ${z.length} values for ${mesh.X.length / 2} nodes`)
    return {
      rise: weightedSums(receive, receive.value, z),
      slope: weightedSums(receive, receive.slope, z),
      forceRise: weightedSums(force, force.value, z),
    }
  }
}

export function weightedSums({ start, node }: MeshSampling, weights: Float64Array, z: ArrayLike<number>): Float64Array {
  return Float64Array.from({ length: start.length - 1 }, (_, p) => {
    let sum = 0
    for (let e = start[p]; e < start[p + 1]; e++) sum += weights[e] * z[node[e]]
    return sum
  })
}

interface Fit {
  readonly nodes: readonly number[]
  readonly value: readonly number[]
  readonly slope: readonly number[]
}

/** Nodes a cubic asks for: twice its ten coefficients, near enough. */
const enough = 18

function fitAt(mesh: FieldMesh, around: readonly number[][], x: number, y: number): Fit {
  const seen = new Set<number>()
  const nodes = new Set<number>()
  let ring = [triangleAt(mesh, x, y)]
  while (ring.length > 0) {
    const next = new Set<number>()
    for (const t of ring) {
      seen.add(t)
      for (const node of nodesOf(mesh, t)) {
        nodes.add(node)
        for (const other of around[node]) if (!seen.has(other)) next.add(other)
      }
    }
    if (nodes.size >= enough) {
      const fit = fitPolynomial(mesh, [...nodes], x, y, 3)
      if (fit !== null) return fit
    }
    ring = [...next]
  }
  const fit = fitPolynomial(mesh, [...nodes], x, y, 2) ?? fitPolynomial(mesh, [...nodes], x, y, 1)
  invariant(fit !== null, `no fit of ${nodes.size} nodes about (${x}, ${y})`)
  return fit
}

/** Weights of the value and ∂/∂x at (x, y) of the least-squares polynomial; null when the nodes do not determine it. */
function fitPolynomial({ X }: FieldMesh, nodes: readonly number[], x: number, y: number, degree: number): Fit | null {
  const rho = Math.max(...nodes.map((node) => Math.hypot(X[2 * node] - x, X[2 * node + 1] - y)))
  const rows = nodes.map((node) => {
    const [u, v] = [(X[2 * node] - x) / rho, (X[2 * node + 1] - y) / rho]
    const terms: number[] = []
    for (let total = 0; total <= degree; total++) {
      for (let power = total; power >= 0; power--) terms.push(u ** power * v ** (total - power))
    }
    return { terms, weight: Math.exp(-10 * (u * u + v * v)) }
  })
  const m = rows[0].terms.length
  if (nodes.length < m) return null
  const N = new Float64Array(m * m)
  for (const { terms, weight } of rows) {
    for (let i = 0; i < m; i++) for (let j = 0; j < m; j++) N[i * m + j] += weight * terms[i] * terms[j]
  }
  const L = cholesky(N, m)
  if (L === null) return null
  // Terms are 1, u, v, …: the value is the first coefficient, rho ∂/∂x the second.
  const [first, second] = [solveUnit(L, m, 0), solveUnit(L, m, 1)]
  const row = (c: Float64Array) =>
    rows.map(({ terms, weight }) => weight * terms.reduce((sum, term, i) => sum + term * c[i], 0))
  return { nodes, value: row(first), slope: row(second).map((w) => w / rho) }
}

/** A pivot this small beside its diagonal says that the nodes lie on a curve of the degree. */
const rankTolerance = 1e-9

function cholesky(A: Float64Array, m: number): Float64Array | null {
  const L = A.slice()
  for (let k = 0; k < m; k++) {
    for (let j = 0; j < k; j++) L[k * m + k] -= L[k * m + j] ** 2
    if (!(L[k * m + k] > rankTolerance * A[k * m + k])) return null
    const pivot = Math.sqrt(L[k * m + k])
    L[k * m + k] = pivot
    for (let i = k + 1; i < m; i++) {
      for (let j = 0; j < k; j++) L[i * m + k] -= L[i * m + j] * L[k * m + j]
      L[i * m + k] /= pivot
    }
  }
  return L
}

/** x of L Lᵀ x = e_k. */
function solveUnit(L: Float64Array, m: number, k: number): Float64Array {
  const x = new Float64Array(m)
  x[k] = 1
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < i; j++) x[i] -= L[i * m + j] * x[j]
    x[i] /= L[i * m + i]
  }
  for (let i = m - 1; i >= 0; i--) {
    for (let j = i + 1; j < m; j++) x[i] -= L[j * m + i] * x[j]
    x[i] /= L[i * m + i]
  }
  return x
}

function trianglesAround(mesh: FieldMesh): number[][] {
  const around: number[][] = Array.from({ length: mesh.X.length / 2 }, () => [])
  for (let t = 0; t < mesh.T.length / mesh.perTriangle; t++) for (const node of nodesOf(mesh, t)) around[node].push(t)
  return around
}

const nodesOf = ({ T, perTriangle }: FieldMesh, t: number): Int32Array =>
  T.subarray(perTriangle * t, perTriangle * (t + 1))

/** The triangle that holds the point, else the one it lies least outside of, in units of the triangle. */
function triangleAt({ X, T, perTriangle }: FieldMesh, x: number, y: number): number {
  let [best, most] = [0, Number.NEGATIVE_INFINITY]
  for (let t = 0; t * perTriangle < T.length && most < 0; t++) {
    const [a, b, c] = [2 * T[perTriangle * t], 2 * T[perTriangle * t + 1], 2 * T[perTriangle * t + 2]]
    const [ax, ay, bx, by, cx, cy] = [X[a] - x, X[a + 1] - y, X[b] - x, X[b + 1] - y, X[c] - x, X[c + 1] - y]
    const whole = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    // Least of the barycentric coordinates: negative outside.
    const least = Math.min(bx * cy - by * cx, cx * ay - cy * ax, ax * by - ay * bx) / whole
    if (least > most) [best, most] = [t, least]
  }
  return best
}
