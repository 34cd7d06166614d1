/**
 * Static deflection of a plate under steady air that follows the deflection, without truncation to modes.
 *
 *   K u = q Sᵀ (α f₀ + P R u)          f₀ forces on the rigid fin, P R u those that the bent fin's slopes add, over q
 *   θ = R u    ⇒    (I − q G) θ = q α b      G = R K⁻¹ Sᵀ P      b = R K⁻¹ Sᵀ f₀
 *
 * θ are slopes at the receiving points of the air's boxes. Arnoldi's process on (G, b) builds an orthonormal basis V and H = Vᵀ G V;
 * neither depends on q or α, so one basis serves all speeds at a Mach number:
 *
 *   θ = q α ‖b‖ V y,   (I − q H) y = e₁          residual  q h_{m+1,m} |y_m|, relative to qα‖b‖
 *   u = q α (u₀ + q ‖b‖ Σ y_j u_j)               u₀ = K⁻¹ Sᵀ f₀,  u_j = K⁻¹ Sᵀ P v_j
 *
 * u is the full static solution for the loads it causes: the modal solution with all modes, or mode acceleration carried to its
 * limit. Divergence: q_D = 1/μ, μ the largest positive real eigenvalue of G, read off H; beyond it the solution means nothing.
 * Sources: Bisplinghoff, Ashley & Halfman, Aeroelasticity (1955), chapter 8, matrix form (recalled); Arnoldi, Quart. Appl. Math. 9
 * (1951) 17-29; Saad, Iterative Methods for Sparse Linear Systems, 2nd ed. (2003), 6.4.1, full orthogonalisation (recalled).
 */
import { complexEigenvalues } from '../numeric/complex-eigen.ts'
import { complexLu, complexSolve } from '../numeric/complex-matrix.ts'
import type { Placement, SteadyForces } from './air-on-plate.ts'

/** Displacements for forces at the nodes of the plate. */
export interface PlateResponse {
  /** Unknowns of the plate's matrices, x of K x = F. */
  readonly solve: (nodalForce: Float64Array) => Float64Array
  /** Deflection at every node. */
  readonly deflection: (x: Float64Array) => Float64Array
}

export interface ElasticSolution {
  /** Unknowns of the plate over q and α: under the rigid fin's load, and under the load of the bent fin at this q. */
  readonly rigid: Float64Array
  readonly elastic: Float64Array
  /** Forces on the boxes over q and α. */
  readonly rigidForce: Float64Array
  readonly elasticForce: Float64Array
  /** ‖(I − qG)θ − qαb‖ / ‖qαb‖ */
  readonly residual: number
}

export interface ElasticResponse {
  readonly at: (dynamicPressure: number) => ElasticSolution | 'diverged'
  /** Dynamic pressure of divergence with the aerodynamics of this Mach number; infinite above ten times the highest asked for. */
  readonly divergence: number
  /** Size of the basis. */
  readonly steps: number
}

/** Residual aimed at, relative, and the change of 1/q_D between two steps that counts as settled. */
const settled = { residual: 1e-6, divergence: 1e-4 }
const mostSteps = 30
/** A divergence this many times beyond the highest pressure is not sought: it adds less than its inverse to the load. */
const farAway = 10
/** An eigenvalue counts as real when its imaginary part is below this share of the largest one, as in flutter/divergence.ts. */
const realTolerance = 1e-9
/** A vector that keeps this little of itself beside those before it adds rounding only. */
const exhausted = 1e-12

export function elasticResponse(
  plate: PlateResponse,
  air: SteadyForces,
  placement: Placement,
  highestPressure: number,
): ElasticResponse {
  const under = (force: Float64Array): Float64Array => plate.solve(placement.toNodes(force))
  const slopesOf = (x: Float64Array): Float64Array => placement.slopes(plate.deflection(x))
  const u0 = under(air.rigid)
  const b = slopesOf(u0)
  const size = norm(b)
  const basis: Step[] = []
  const columns: Float64Array[] = []
  let next: Float64Array = b.map((value) => value / size)
  let mu = 0
  // A plate that the air does not turn (no slopes at all) has nothing to add.
  for (let done = !(size > 0); !done; ) {
    const force = air.respond(next)
    const u = under(force)
    basis.push({ v: next, force, u })
    const { column, rest } = orthogonalised(slopesOf(u), basis)
    columns.push(column)
    next = rest
    const most = columns.length === mostSteps || norm(rest) <= exhausted * norm(column)
    if (!most && !(reduced(columns, highestPressure).residual <= settled.residual)) continue
    const before = mu
    mu = largestRealEigenvalue(hessenberg(columns), columns.length)
    const far = highestPressure * Math.max(mu, before) < 1 / farAway
    done = most || far || Math.abs(mu - before) <= settled.divergence * mu
  }
  if (highestPressure * mu < 1 / farAway) mu = 0
  const divergence = mu > 0 ? 1 / mu : Number.POSITIVE_INFINITY
  const at = (q: number): ElasticSolution | 'diverged' => {
    if (q >= divergence) return 'diverged'
    const { y, residual } = reduced(columns, q)
    const [elastic, elasticForce] = [u0.slice(), air.rigid.slice()]
    basis.forEach(({ u, force }, j) => {
      const share = q * size * y[j]
      addTo(elastic, u, share)
      addTo(elasticForce, force, share)
    })
    return { rigid: u0, elastic, rigidForce: air.rigid, elasticForce, residual }
  }
  return { at, divergence, steps: basis.length }
}

interface Step {
  readonly v: Float64Array
  readonly force: Float64Array
  readonly u: Float64Array
}

/** Coefficients on the basis, and last the length of what is left; that, of length 1. Orthogonalised twice. */
function orthogonalised(g: Float64Array, basis: readonly Step[]): { column: Float64Array; rest: Float64Array } {
  const column = new Float64Array(basis.length + 1)
  for (let pass = 0; pass < 2; pass++) {
    basis.forEach(({ v }, i) => {
      const share = dot(v, g)
      column[i] += share
      addTo(g, v, -share)
    })
  }
  const length = norm(g)
  column[basis.length] = length
  return { column, rest: length > 0 ? g.map((value) => value / length) : g }
}

/** H, m × m row-major, from its columns. */
function hessenberg(columns: readonly Float64Array[]): Float64Array {
  const m = columns.length
  const H = new Float64Array(m * m)
  columns.forEach((column, j) => {
    for (let i = 0; i < Math.min(m, column.length); i++) H[i * m + j] = column[i]
  })
  return H
}

function largestRealEigenvalue(H: Float64Array, n: number): number {
  const { re, im } = complexEigenvalues({ n, re: H, im: new Float64Array(n * n) })
  const size = re.reduce((most, value, i) => Math.max(most, Math.hypot(value, im[i])), 0)
  let largest = 0
  for (let i = 0; i < n; i++) if (Math.abs(im[i]) <= realTolerance * size) largest = Math.max(largest, re[i])
  return largest
}

/** y of (I − qH) y = e₁. */
function reduced(columns: readonly Float64Array[], q: number): { y: Float64Array; residual: number } {
  const n = columns.length
  if (n === 0) return { y: new Float64Array(0), residual: 0 }
  const re = hessenberg(columns).map((h, ij) => (ij % (n + 1) === 0 ? 1 : 0) - q * h)
  const first = new Float64Array(n)
  first[0] = 1
  const none = new Float64Array(n * n)
  const factors = complexLu({ n, re, im: none })
  if (factors.singularAt >= 0) return { y: first, residual: Number.POSITIVE_INFINITY }
  const y = complexSolve(factors, { re: first, im: none.subarray(0, n) }).re
  return { y, residual: Math.abs(q * columns[n - 1][n] * y[n - 1]) }
}

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i]
  return sum
}

const norm = (a: Float64Array): number => Math.sqrt(dot(a, a))

function addTo(a: Float64Array, b: Float64Array, share: number): void {
  for (let i = 0; i < a.length; i++) a[i] += share * b[i]
}
