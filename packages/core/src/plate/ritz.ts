/**
 * Modes on a few vectors (Rayleigh-Ritz), and so the modes of a plate that is not far from one whose modes are known.
 *
 *   κ = Ψᵀ K Ψ     κ y = ω² y     x = Ψ y         ΨᵀMΨ = I
 *   near another:  Ψ spans Φ, K₀⁻¹ K Φ, (K₀⁻¹ K)² Φ …        Φ the modes and K₀ the stiffness of the other
 *
 * K₀⁻¹ K Φ = Φ + K₀⁻¹ (K − K₀) Φ holds what a change of stiffness does to first order, so with one step frequencies are right to the third
 * order of the change, from above; every step adds two. Source: Bathe, Finite Element Procedures (1996), sections 10.3 and 11.6 (recalled).
 */
import { symmetricEigen } from '../numeric/eigen.ts'
import { solveLdl } from '../numeric/ldl.ts'
import { multiply, type SymmetricMatrix } from '../numeric/sparse.ts'
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
  const { omegas, transform } = ritzModes(projection(K, basis), basis.length, near.modes.omega.length)
  const n = omegas.length
  return { omega: omegas, shapes: omegas.map((_, j) => nodalField(layout, combination(basis, transform, { n, j }))) }
}

/** Column j of Ψ T, T with n columns. */
export function combination(
  basis: readonly RitzVector[],
  T: Float64Array,
  { n, j }: { readonly n: number; readonly j: number },
): Float64Array {
  const x = new Float64Array(basis[0].x.length)
  basis.forEach((b, i) => {
    addTimes(x, T[i * n + j], b.x)
  })
  return x
}

/** Ψ, the known modes first. */
export function neighbourBasis(
  { model: known, modes }: Neighbour,
  { layout, K, M }: PlateModel,
  steps: number,
): RitzVector[] {
  const factors = plateFactors(known)
  const basis: RitzVector[] = []
  const given = modes.shapes.map((shape) => unknownsOf(layout, shape))
  let last: readonly Float64Array[] = given
  for (const x of given) takeUp(basis, M, x)
  for (let step = 0; step < steps; step++) {
    last = last.map((x) => solveLdl(factors, multiply(K, x)))
    for (const x of last) takeUp(basis, M, x)
  }
  return basis
}

/** Vectors of unit mass, square to each other: x and M x. */
export interface RitzVector {
  readonly x: Float64Array
  readonly Mx: Float64Array
}

/** Less than this is left of a vector that the basis can make, by its own length. */
const dependent = 1e-6

/** Adds what the basis cannot make of x, of unit mass, unless next to nothing is left. Twice, for rounding. */
export function takeUp(basis: RitzVector[], M: SymmetricMatrix, x: Float64Array): void {
  const rest = x.slice()
  let made = 0
  for (let round = 0; round < 2; round++) {
    for (const b of basis) {
      const share = dot(b.Mx, rest)
      made += share * share
      addTimes(rest, -share, b.x)
    }
  }
  const Mx = multiply(M, rest)
  const left = dot(rest, Mx)
  if (!(left > dependent ** 2 * (made + left))) return
  const scale = 1 / Math.sqrt(left)
  for (let i = 0; i < rest.length; i++) {
    rest[i] *= scale
    Mx[i] *= scale
  }
  basis.push({ x: rest, Mx })
}

/** Ψᵀ K Ψ, row-major. */
export function projection(K: SymmetricMatrix, basis: readonly RitzVector[]): Float64Array {
  const m = basis.length
  const kappa = new Float64Array(m * m)
  basis.forEach(({ x }, j) => {
    const Kx = multiply(K, x)
    for (let i = 0; i <= j; i++) {
      kappa[i * m + j] = dot(basis[i].x, Kx)
      kappa[j * m + i] = kappa[i * m + j]
    }
  })
  return kappa
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
