/**
 * Heat conducted into a wall whose outer face (or both faces) the air heats: one implicit step in time.
 *
 *   C T' = K T + q      q = h(Tw) (Tr − Tw) on a heated face, 0 inside and on an adiabatic end
 *
 * TR-BDF2, a trapezoidal stage to γ Δt and a backward one to Δt, γ = 2 − √2, θ = γ/2: of second order, damps the
 * fastest decay fully, and needs one matrix for both stages:
 *
 *   (C − θ Δt K) Tγ = C T + θ Δt (K T + q) + θ Δt qγ
 *   (C − θ Δt K) T₁ = C (a Tγ − b T) + θ Δt q₁           a = 1 / γ(2 − γ),  b = (1 − γ)² a
 *
 * The faces enter through the matrix's response to a unit flux, so that the heat transfer coefficient, which depends on
 * the surface's own temperature, is solved for exactly with one or two unknowns. The heat taken up in a step is exactly
 * the sum of what C T gained. Source: Bank et al., IEEE Trans. Electron Devices 32 (1985) 1992; Hosea & Shampine, Appl.
 * Numer. Math. 20 (1996) 21 (recalled).
 */
import { invariant } from '../../issue.ts'
import type { Wall } from './section.ts'
import type { SurfaceHeating } from './stream.ts'

/** Share of the step at which the middle stage lies. */
export const stageShare = 2 - Math.SQRT2
const theta = stageShare / 2
const a = 1 / (stageShare * (2 - stageShare))
const b = (1 - stageShare) ** 2 * a

/** Relative change of the surface temperature at which its iteration stops, and the most iterations. */
const tolerance = 1e-9
const mostIterations = 60

/** Durations that differ relatively by less, as even intervals do by rounding, share one matrix. */
const sameDuration = 1e-9

export interface Step {
  /** s */
  readonly duration: number
  readonly start: SurfaceHeating
  /** At `stageShare` of the duration. */
  readonly stage: SurfaceHeating
  readonly end: SurfaceHeating
}

export interface StepReport {
  /** Taken up through the heated faces, J/m². */
  readonly heat: number
  readonly iterations: number
  /** Last relative change of a surface temperature. */
  readonly residual: number
}

/** Advances the temperatures of a wall's nodes in place. */
export type Conduction = (T: Float64Array, step: Step) => StepReport

export function conduction(wall: Wall): Conduction {
  const { capacity: C, conductance: K, inner } = wall
  const n = C.length
  const both = inner === 'heated'
  const middle = new Float64Array(n)
  let matrix = factored(wall, 1)
  return (T, { duration, start, stage, end }) => {
    if (!(Math.abs(matrix.duration / duration - 1) < sameDuration)) matrix = factored(wall, duration)
    const weight = theta * matrix.duration
    const q0 = start.coefficient(T[0]) * (start.recovery - T[0])
    const qn = both ? start.coefficient(T[n - 1]) * (start.recovery - T[n - 1]) : 0
    for (let i = 0; i < n; i++) middle[i] = C[i] * T[i]
    for (let i = 0; i < n - 1; i++) {
      const flow = weight * K[i] * (T[i + 1] - T[i])
      middle[i] += flow
      middle[i + 1] -= flow
    }
    middle[0] += weight * q0
    middle[n - 1] += weight * qn
    solve(matrix, middle)
    const first = heatFaces(matrix, middle, { heating: stage, both, guess: T })
    for (let i = 0; i < n; i++) T[i] = C[i] * (a * middle[i] - b * T[i])
    solve(matrix, T)
    const second = heatFaces(matrix, T, { heating: end, both, guess: middle })
    return {
      heat: weight * (a * (q0 + qn + first.flux) + second.flux),
      iterations: Math.max(first.iterations, second.iterations),
      residual: Math.max(first.residual, second.residual),
    }
  }
}

interface Factored {
  readonly duration: number
  /** Multipliers and reciprocal pivots of the tridiagonal matrix; its off-diagonals are `off`. */
  readonly multiplier: Float64Array
  readonly pivot: Float64Array
  readonly off: Float64Array
  /** Temperature of every node for a unit flux held on the outer face, and on the inner one, K m²/W. */
  readonly outer: Float64Array
  readonly inner: Float64Array
}

function factored({ capacity: C, conductance: K }: Wall, duration: number): Factored {
  invariant(duration > 0, `a step of ${duration} s`)
  const n = C.length
  const weight = theta * duration
  const [multiplier, pivot, off] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)]
  for (let i = 0; i < n; i++) {
    const before = i > 0 ? K[i - 1] : 0
    const after = i < n - 1 ? K[i] : 0
    let diagonal = C[i] + weight * (before + after)
    if (i > 0) {
      multiplier[i] = off[i - 1] * pivot[i - 1]
      diagonal -= multiplier[i] * off[i - 1]
    }
    off[i] = -weight * after
    pivot[i] = 1 / diagonal
  }
  const [outer, inner] = [new Float64Array(n), new Float64Array(n)]
  outer[0] = weight
  inner[n - 1] = weight
  const matrix = { duration, multiplier, pivot, off, outer, inner }
  solve(matrix, outer)
  solve(matrix, inner)
  return matrix
}

function solve({ multiplier, pivot, off }: Factored, x: Float64Array): void {
  const n = x.length
  for (let i = 1; i < n; i++) x[i] -= multiplier[i] * x[i - 1]
  x[n - 1] *= pivot[n - 1]
  for (let i = n - 2; i >= 0; i--) x[i] = (x[i] - off[i] * x[i + 1]) * pivot[i]
}

interface Faces {
  readonly heating: SurfaceHeating
  readonly both: boolean
  /** Its ends are the first guess of the surface temperatures. */
  readonly guess: Float64Array
}

/** Adds to `x`, the temperatures without any flux, what the fluxes through the faces do. Answers their sum, W/m². */
function heatFaces(matrix: Factored, x: Float64Array, { heating, both, guess }: Faces) {
  const { outer, inner } = matrix
  const { recovery, coefficient } = heating
  const last = x.length - 1
  const d0 = recovery - x[0]
  const dn = recovery - x[last]
  let T0 = guess[0]
  let Tn = guess[last]
  let q0 = 0
  let qn = 0
  let iterations = 0
  let residual = Number.POSITIVE_INFINITY
  while (residual > tolerance && iterations < mostIterations) {
    const h0 = coefficient(T0)
    const hn = both ? coefficient(Tn) : 0
    const m00 = 1 + h0 * outer[0]
    const mnn = 1 + hn * inner[last]
    const m0n = h0 * inner[0]
    const mn0 = hn * outer[last]
    const determinant = m00 * mnn - m0n * mn0
    q0 = (mnn * h0 * d0 - m0n * hn * dn) / determinant
    qn = (m00 * hn * dn - mn0 * h0 * d0) / determinant
    const T0next = x[0] + outer[0] * q0 + inner[0] * qn
    const Tnnext = x[last] + outer[last] * q0 + inner[last] * qn
    residual = Math.max(Math.abs(T0next - T0), both ? Math.abs(Tnnext - Tn) : 0) / recovery
    T0 = T0next
    Tn = Tnnext
    iterations++
  }
  for (let i = 0; i <= last; i++) x[i] += outer[i] * q0
  if (both) for (let i = 0; i <= last; i++) x[i] += inner[i] * qn
  return { flux: q0 + qn, iterations, residual }
}
