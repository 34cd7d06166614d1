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
import type { SymmetricMatrix } from '../numeric/sparse.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { type NodalField, nodalField } from '../plate/nodal-field.ts'
import {
  neighbourModes,
  projection,
  type RitzVector,
  ritzModes,
  type ShapedModes,
  takeUp,
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
  const { layout, M } = first.model
  invariant(states.length >= 2 && states.length <= 5, `${states.length} plates to interpolate between`)
  states.forEach(({ f, model }, i) => {
    const falls = i === 0 ? f === 1 : f > 0 && f < states[i - 1].f
    invariant(falls, `plate ${i} of the softening ones has f = ${f}`)
    invariant(model.K.value.length === first.model.K.value.length, `plate ${i} is of another mesh`)
  })
  const count = cold.omega.length
  const softest = soft ?? neighbourModes({ model: first.model, modes: cold }, last.model, 2)
  const basis = commonBasis({
    ...{ M, K: last.model.K, target: softest.omega },
    vectors: [cold, softest].map(({ shapes }) => shapes.map((shape) => unknownsOf(layout, shape))),
  })
  const projected = states.map(({ f, model }) => ({ f, kappa: projection(model.K, basis) }))
  const kept = new Map<number, ModalSystem>()
  const at = (f: number): ModalSystem => {
    const held = Math.min(1, Math.max(last.f, f))
    const known = kept.get(held) ?? ritzModes(interpolated(projected, held), basis.length, count)
    kept.set(held, known)
    return known
  }
  return { shapes: basis.map(({ x }) => nodalField(layout, x)), least: last.f, at }
}

interface BasisInput {
  readonly M: SymmetricMatrix
  /** Of the softest plate. */
  readonly K: SymmetricMatrix
  /** Its circular frequencies. */
  readonly target: readonly number[]
  /** Cold modes, softest modes. */
  readonly vectors: readonly (readonly Float64Array[])[]
}

function commonBasis({ M, K, target, vectors: [cold, soft] }: BasisInput): RitzVector[] {
  const basis: RitzVector[] = []
  for (const x of cold) takeUp(basis, M, x)
  const waiting = soft.map((x, i) => ({ x, i }))
  while (waiting.length > 0) {
    const { omegas } = ritzModes(projection(K, basis), basis.length, target.length)
    const excess = ({ i }: { i: number }): number => omegas[i] / target[i] - 1
    const worst = waiting.reduce((a, b) => (excess(b) > excess(a) ? b : a))
    if (excess(worst) < basisError) break
    waiting.splice(waiting.indexOf(worst), 1)
    takeUp(basis, M, worst.x)
  }
  return basis
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
