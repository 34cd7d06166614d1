/**
 * How far frequencies and a deflection are from those of an infinitely fine mesh, from a companion mesh of larger triangles.
 *
 *   e(h) ≈ C h^p      so      |e(h)| ≈ |f(H) − f(h)| / ((H/h)^p − 1)
 *
 * Richardson's extrapolation (Richardson, Phil. Trans. A 226 (1927) 299-361, recalled), as an estimate of the error and not to
 * correct the result. On smooth problems the element has p = 4 for frequencies (test/plate); corners between a clamped and a
 * free edge, plies and bevels that triangles straddle bring fins down to between 1 and 2 (docs/methods/plate.md), so p = 1 is
 * taken, which reads high where p is larger. Differences of two irregular meshes pass through zero by chance now and then, so
 * no mode is said to be better than the mean of all of them. H = 2h; where that says more than one per cent, the companion may
 * be too coarse for what is narrow (fillets, bevels): H = 1.5h is asked too, and the lesser of the two counts.
 *
 * The deflection under a point force of a plate that shears has no limit: each halving of the mesh adds about as much as the
 * one before. What is estimated there is the difference to a mesh four times as fine, two halvings: 2 |w(2h) − w(h)|.
 */
import type { Mesh } from '../geometry/mesh.ts'
import { meshOutline } from '../geometry/outline-mesh.ts'
import type { Point } from '../geometry/point.ts'
import { assemblePlate, type PlateModel } from './assemble.ts'
import { fieldReader } from './field-at.ts'
import { plateModes } from './modes.ts'
import type { PlateSection, SectionPoint } from './section.ts'
import { plateSolver } from './static.ts'

export interface RefinementInput {
  readonly outline: readonly Point[]
  /** Triangle side that `model` was meshed with, m. */
  readonly size: number
  readonly sectionAt: (point: SectionPoint) => PlateSection
  readonly model: PlateModel
  /** rad/s, of `model`, lowest first; as many are judged. */
  readonly omega: readonly number[]
  /** Deflection of `model` at a point under a force there, per newton, where one is to be judged. */
  readonly deflection?: { readonly at: Point; readonly perForce: number }
  /** A companion found before, whose layout is used again. */
  readonly companion?: PlateModel
}

export interface RefinementError {
  /** Estimated |error| of each frequency, relative. */
  readonly omega: readonly number[]
  /** Of the deflection, relative, against a mesh four times as fine; null where none was given or nothing holds the plate. */
  readonly deflection: number | null
  /** To be handed in again when only sections or springs have changed. */
  readonly companion: PlateModel
}

/** Triangle side of the companion over that of the mesh; and of the nearer one, asked where the first may be too coarse. */
const coarsening = { first: 2, nearer: 1.5 } as const
/** An estimate above this asks the nearer companion. */
const doubtful = 0.01
/** The order taken for frequencies. */
const order = 1
/** Halvings of the mesh that a deflection under a point force is judged over. */
const halvings = 2

/** Nearer companions by the mesh of the first one, for their layouts. */
const nearer = new WeakMap<Mesh, PlateModel>()

export function refinementError(input: RefinementInput): RefinementError {
  const { omega, deflection } = input
  const coarse = companionOf(input, coarsening.first, input.companion)
  const first = frequencyErrors(coarse, omega, coarsening.first)
  return {
    omega: Math.max(...first) > doubtful ? lesser(first, nearerErrors(input, coarse)) : first,
    deflection: deflection === undefined ? null : deflectionError(coarse, deflection),
    companion: coarse,
  }
}

function companionOf(
  { outline, size, sectionAt, model }: RefinementInput,
  times: number,
  known?: PlateModel,
): PlateModel {
  const { supports, coupled } = model.layout
  return assemblePlate({
    mesh: known?.layout.mesh ?? meshOutline({ outline, size: times * size }),
    ...{ supports, sectionAt, coupled },
    ...(known === undefined ? {} : { like: known }),
  })
}

function nearerErrors(input: RefinementInput, coarse: PlateModel): readonly number[] {
  const companion = companionOf(input, coarsening.nearer, nearer.get(coarse.layout.mesh))
  nearer.set(coarse.layout.mesh, companion)
  return frequencyErrors(companion, input.omega, coarsening.nearer)
}

const lesser = (a: readonly number[], b: readonly number[]): number[] => a.map((value, i) => Math.min(value, b[i]))

function frequencyErrors(coarse: PlateModel, omega: readonly number[], times: number): readonly number[] {
  const found = plateModes(coarse, omega.length).omega
  const own = omega.map((value, i) => Math.abs((found[i] ?? 0) / value - 1) / (times ** order - 1))
  const mean = own.reduce((sum, error) => sum + error, 0) / own.length
  return own.map((error) => Math.max(error, mean))
}

function deflectionError(
  coarse: PlateModel,
  { at, perForce }: NonNullable<RefinementInput['deflection']>,
): number | null {
  const solved = plateSolver(coarse)({ forces: [{ at, force: 1 }] })
  const w = solved.kind === 'solved' ? fieldReader(coarse)(solved.field, at[0], at[1])?.w : undefined
  return w === undefined ? null : halvings * Math.abs(w / perForce - 1)
}
