/**
 * Modes on a few vectors (Rayleigh-Ritz), and so the modes of a plate that is not far from one whose modes are known.
 *
 *   κ = Ψᵀ K Ψ     κ y = ω² y     x = Ψ y         ΨᵀMΨ = I
 *   near another:  Ψ spans Φ, K₀⁻¹ K Φ, (K₀⁻¹ K)² Φ …        Φ the modes and K₀ the stiffness of the other
 *
 * K₀⁻¹ K Φ = Φ + K₀⁻¹ (K − K₀) Φ holds what a change of stiffness does to first order, so with one step frequencies are right to the third
 * order of the change, from above; every step adds two. Source: Bathe, Finite Element Procedures (1996), sections 10.3 and 11.6 (recalled).
 */
import { congruent } from '../numeric/congruent.ts'
import { symmetricEigen } from '../numeric/eigen.ts'
import { multiplySeveral, solveSeveral } from '../numeric/several.ts'
import type { SymmetricMatrix } from '../numeric/sparse.ts'
import { addTimes, dot } from '../numeric/vector.ts'
import type { PlateModel } from './assemble.ts'
import { plateFactors } from './factors.ts'
import type { PlateLayout } from './layout.ts'
import { type NodalField, nodalField } from './nodal-field.ts'

/** Modes as far as a flutter solution needs them: rad/s, and shapes of unit modal mass. */
export interface ShapedModes {
  readonly omega: readonly number[]
  readonly shapes: readonly NodalField[]
}

export interface Neighbour {
  readonly model: PlateModel
  readonly modes: ShapedModes
}

/** As many modes as are known of the neighbour, which must have the same unknowns and be held in space. `steps`: default 1. */
export function neighbourModes(near: Neighbour, model: PlateModel, steps = 1): ShapedModes {
  const { layout, K } = model
  const basis = neighbourBasis(near, model, steps)
  const { omegas, transform } = ritzModes(projection(K, basis), basis.n, near.modes.omega.length)
  const n = omegas.length
  return { omega: omegas, shapes: omegas.map((_, j) => nodalField(layout, combination(basis, transform, { n, j }))) }
}

/**
 * Vectors Ψ = X W of unit mass, square to each other, made of m that need not be: W is m × n, row-major. Vectors at the beginning of X
 * that are so already stand first in Ψ too.
 */
export interface RitzBasis {
  readonly X: readonly Float64Array[]
  readonly W: Float64Array
  readonly n: number
}

/** Column j of Ψ T, T with n columns. */
export function combination(
  { X, W, n: size }: RitzBasis,
  T: Float64Array,
  { n, j }: { readonly n: number; readonly j: number },
): Float64Array {
  const x = new Float64Array(X[0].length)
  X.forEach((vector, i) => {
    let share = 0
    for (let k = 0; k < size; k++) share += W[i * size + k] * T[k * n + j]
    addTimes(x, share, vector)
  })
  return x
}

/** Ψ, the known modes first. Of every step only what it changes is taken, K₀⁻¹ K x − x: the span is the same, and rounding less. */
export function neighbourBasis({ model: known, modes }: Neighbour, { layout, K, M }: PlateModel, steps: number) {
  const factors = plateFactors(known)
  const X = modes.shapes.map((shape) => unknownsOf(layout, shape))
  let last: readonly Float64Array[] = X.slice()
  for (let step = 0; step < steps; step++) {
    last = solveSeveral(factors, multiplySeveral(K, last)).map((y, i) => {
      addTimes(y, -1, last[i])
      return y
    })
    X.push(...last)
  }
  return ritzBasis(M, X)
}

/** A vector of which less than this share of its mass is left beside those before it says nothing new but rounding. */
const dependent = 1e-10
/** Less mass than this, of modes of unit mass, is rounding. */
const nothing = 1e-20

/** Gram-Schmidt in the order given, on the products of the vectors with each other, twice for rounding. */
export function ritzBasis(M: SymmetricMatrix, X: readonly Float64Array[]): RitzBasis {
  const m = X.length
  const G = products(X, multiplySeveral(M, X))
  const scale = X.map((_, i) => (G[i * m + i] > nothing ? 1 / Math.sqrt(G[i * m + i]) : 0))
  for (let i = 0; i < m; i++) for (let j = 0; j < m; j++) G[i * m + j] *= scale[i] * scale[j]
  /** Shares of the scaled vectors in each of the basis, and those times G. */
  const found: { readonly c: Float64Array; readonly Gc: Float64Array }[] = []
  for (let j = 0; j < m; j++) {
    if (scale[j] === 0) continue
    const c = new Float64Array(m)
    c[j] = 1
    for (let round = 0; round < 2; round++) for (const b of found) addTimes(c, -dot(b.Gc, c), b.c)
    const left = dot(c, times(G, c))
    if (!(left > dependent)) continue
    for (let i = 0; i < m; i++) c[i] /= Math.sqrt(left)
    found.push({ c, Gc: times(G, c) })
  }
  const n = found.length
  const W = new Float64Array(m * n)
  found.forEach(({ c }, k) => {
    for (let i = 0; i < m; i++) W[i * n + k] = scale[i] * c[i]
  })
  return { X, W, n }
}

/** Xᵀ Y, symmetric, row-major. */
function products(X: readonly Float64Array[], Y: readonly Float64Array[]): Float64Array {
  const m = X.length
  const G = new Float64Array(m * m)
  for (let j = 0; j < m; j++) {
    for (let i = 0; i <= j; i++) {
      G[i * m + j] = dot(X[i], Y[j])
      G[j * m + i] = G[i * m + j]
    }
  }
  return G
}

function times(G: Float64Array, c: Float64Array): Float64Array {
  const m = c.length
  return c.map((_, i) => dot(G.subarray(i * m, (i + 1) * m), c))
}

/** Ψᵀ K Ψ, row-major. */
export function projection(K: SymmetricMatrix, { X, W, n }: RitzBasis): Float64Array {
  return congruent(products(X, multiplySeveral(K, X)), W, n)
}

/** The lowest `count` modes of a projected stiffness, m × m: rad/s, and the shares of each vector in each mode, m × n row-major. */
export function ritzModes(kappa: Float64Array, m: number, count: number) {
  const { values, vectors } = symmetricEigen(kappa, m)
  const n = Math.min(count, m)
  const transform = new Float64Array(m * n)
  for (let j = 0; j < n; j++) {
    // The sign that makes the largest share positive: modes of neighbouring plates look alike.
    const largest = vectors[j].reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0)
    for (let i = 0; i < m; i++) transform[i * n + j] = largest < 0 ? -vectors[j][i] : vectors[j][i]
  }
  return { omegas: Array.from(values.slice(0, n), (v) => Math.sqrt(Math.max(0, v))), transform }
}

/** The unknowns of the matrices of a field at the nodes: `nodalField` undone. */
export function unknownsOf({ nodes, perNode, unknown, frame, n }: PlateLayout, field: NodalField): Float64Array {
  const count = nodes.X.length / 2
  const x = new Float64Array(n)
  const put = (node: number, k: number, value: number): void => {
    const i = k < perNode ? unknown[node * perNode + k] : -1
    if (i >= 0) x[i] = value
  }
  for (let node = 0; node < count; node++) {
    put(node, 0, field.w[node])
    putPair(put, { node, k: 1, angle: frame[2 * node] }, field.phiX[node], field.phiY[node])
    putPair(put, { node, k: 3, angle: frame[2 * node + 1] }, field.u[node], field.v[node])
  }
  return x
}

function putPair(
  put: (node: number, k: number, value: number) => void,
  { node, k, angle }: { readonly node: number; readonly k: number; readonly angle: number },
  x: number,
  y: number,
): void {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  put(node, k, c * x + s * y)
  put(node, k + 1, c * y - s * x)
}
