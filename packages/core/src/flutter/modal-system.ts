/**
 * Modes of a structure whose stiffness changes along the flight, on shapes that do not: the air forces are computed once on these shapes.
 *
 *   basis Ψ: the cold modes and, of the softest plate's modes, what the cold ones cannot make, ΨᵀMΨ = I
 *   at f:  κ(f) y = ω² y,  modes Ψ y, forces Yᵀ Q Y       κ(f) the polynomial in u = f/(f + 1) through Ψᵀ K(f) Ψ of the plates given
 *
 * f is any parameter that falls from 1, the cold plate: here the share of its modulus that the resin has kept. Vectors are taken up one by
 * one, that of the worst softest frequency first, until every such frequency is met; so near-dependent ones stay out. The mass must not
 * change with f. Source: reduction to a fixed basis, Bathe, Finite Element Procedures (1996), section 10.3 (recalled).
 */
import { invariant } from '../issue.ts'
import { congruent } from '../numeric/congruent.ts'
import { addTimes, dot, length } from '../numeric/vector.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { type NodalField, nodalField } from '../plate/nodal-field.ts'
import {
  combination,
  neighbourBasis,
  projection,
  type RitzBasis,
  ritzBasis,
  ritzModes,
  type ShapedModes,
  unknownsOf,
} from '../plate/ritz.ts'

/** Modes of unit modal mass, in terms of the shapes on which air forces are computed. */
export interface ModalSystem {
  /** Circular frequencies, rad/s. */
  readonly omegas: readonly number[]
  /** Shapes by modes, row-major: the shares of each shape in each mode. Null where the modes are the shapes themselves. */
  readonly transform: Float64Array | null
}

/** Modes that are the shapes themselves. */
export const ownModes = (omegas: readonly number[]): ModalSystem => ({ omegas, transform: null })

export interface SofteningState {
  /** 1 for the cold plate. */
  readonly f: number
  readonly model: PlateModel
}

export interface SofteningModes {
  /** On which the air forces are to be computed: the cold modes first, of unit modal mass. */
  readonly shapes: readonly NodalField[]
  /** Range of f; beyond its ends the plate at the end is taken. */
  readonly least: number
  /** The same object for the same f. */
  readonly at: (f: number) => ModalSystem
}

export interface SofteningInput {
  /** f falling from 1, two to five plates of one mesh, support and mass. */
  readonly states: readonly SofteningState[]
  /** Modes of the cold plate; as many are kept at every f. */
  readonly cold: ShapedModes
  /** Modes of the last plate, as many. Default: computed here from those of the cold one. */
  readonly soft?: ShapedModes
}

/** Values of f at which to make the plates, from 1 to the least: even in u, and more of them the softer it gets. */
export function softeningFactors(least: number): number[] {
  const parts = least > 0.85 ? 1 : least > 0.5 ? 2 : least > 0.08 ? 3 : 4
  return Array.from({ length: parts + 1 }, (_, i) => {
    if (i === 0 || i === parts) return i === 0 ? 1 : least
    const u = mixing(1) + ((mixing(least) - mixing(1)) * i) / parts
    return u / (1 - u)
  })
}

/** Relative error of a softest frequency on the basis at which no vector more is taken up. */
const basisError = 5e-4

export function softeningModes({ states, cold, soft }: SofteningInput): SofteningModes {
  const [first, last] = [states[0], states[states.length - 1]]
  const { layout } = first.model
  invariant(states.length >= 2 && states.length <= 5, `${states.length} plates to interpolate between`)
  states.forEach(({ f, model }, i) => {
    const falls = i === 0 ? f === 1 : f > 0 && f < states[i - 1].f
    invariant(falls, `plate ${i} of the softening ones has f = ${f}`)
    invariant(model.K.value.length === first.model.K.value.length, `plate ${i} is of another mesh`)
  })
  const count = cold.omega.length
  const near = { model: first.model, modes: cold }
  const all = soft === undefined ? neighbourBasis(near, last.model, steps) : joined(first.model, [cold, soft])
  const m = all.n
  const kappas = states.map(({ f, model }) => ({ f, kappa: projection(model.K, all) }))
  const B = commonBasis(kappas[kappas.length - 1].kappa, m, count)
  const n = B.length / m
  const projected = kappas.map(({ f, kappa }) => ({ f, kappa: congruent(kappa, B, n) }))
  const kept = new Map<number, ModalSystem>()
  const at = (f: number): ModalSystem => {
    const held = Math.min(1, Math.max(last.f, f))
    const known = kept.get(held) ?? ritzModes(interpolated(projected, held), n, count)
    kept.set(held, known)
    return known
  }
  const added = Array.from({ length: n - count }, (_, j) => combination(all, B, { n, j: count + j }))
  return { shapes: [...cold.shapes, ...added.map((x) => nodalField(layout, x))], least: last.f, at }
}

/** Steps from the cold modes towards the softest plate's. */
const steps = 2

const joined = ({ layout, M }: PlateModel, modes: readonly ShapedModes[]): RitzBasis =>
  ritzBasis(
    M,
    modes.flatMap(({ shapes }) => shapes.map((shape) => unknownsOf(layout, shape))),
  )

/**
 * Shares of m vectors in the basis, m × n row-major: the first `count` of them, which are the cold modes, and what the softest plate's modes
 * add, κ its stiffness.
 */
function commonBasis(kappa: Float64Array, m: number, count: number): Float64Array {
  const { omegas: target, transform } = ritzModes(kappa, m, count)
  const columns = Array.from({ length: count }, (_, j) => Float64Array.from({ length: m }, (_, i) => Number(i === j)))
  const waiting = target.map((_, j) => ({ j, y: Float64Array.from({ length: m }, (_, i) => transform[i * count + j]) }))
  while (waiting.length > 0) {
    const n = columns.length
    const { omegas } = ritzModes(congruent(kappa, matrixOf(columns), n), n, count)
    const excess = ({ j }: { j: number }): number => omegas[j] / target[j] - 1
    const worst = waiting.reduce((a, b) => (excess(b) > excess(a) ? b : a))
    if (excess(worst) < basisError) break
    waiting.splice(waiting.indexOf(worst), 1)
    for (let round = 0; round < 2; round++) for (const b of columns) addTimes(worst.y, -dot(b, worst.y), b)
    const left = length(worst.y)
    if (left > dependent) columns.push(worst.y.map((v) => v / left))
  }
  return matrixOf(columns)
}

/** Less than this is left of a mode that the basis can make. */
const dependent = 1e-6

/** Columns of equal length side by side, row-major. */
function matrixOf(columns: readonly Float64Array[]): Float64Array {
  const n = columns.length
  const A = new Float64Array(n * columns[0].length)
  columns.forEach((column, j) => {
    for (let i = 0; i < column.length; i++) A[i * n + j] = column[i]
  })
  return A
}

/**
 * A laminate's stiffness rises with its resin's as mixing rules have it, ever less steeply: nearly straight in u = f/(f + 1). Of the shares
 * tried in place of 1 (0.2 to 3) it does best on glass cloth with and without a stiff core; docs/methods/flutter.md.
 */
const mixing = (f: number): number => f / (f + stiffening)
const stiffening = 1

interface Projected {
  readonly f: number
  readonly kappa: Float64Array
}

/** The polynomial in u through all of them (Lagrange). */
function interpolated(states: readonly Projected[], f: number): Float64Array {
  const out = new Float64Array(states[0].kappa.length)
  const u = mixing(f)
  states.forEach((state, i) => {
    let weight = 1
    states.forEach((other, j) => {
      if (j !== i) weight *= (u - mixing(other.f)) / (mixing(state.f) - mixing(other.f))
    })
    for (let ij = 0; ij < out.length; ij++) out[ij] += weight * state.kappa[ij]
  })
  return out
}
