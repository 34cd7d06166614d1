/**
 * How far disturbances reach around a fin in supersonic flow: where the fin is felt, and what the fin feels.
 *
 *   front(y) = least over the leading edges of x + β |y − y′|        rear(y) = most over the trailing edges of x − β |y − y′|
 */
import { type SourceLattice, trailOf } from './lattice.ts'

/** 1 for a symmetric flow, −1 for an antisymmetric one, 0 for a fin alone. */
export type Mirror = 1 | 0 | -1

export interface Reach {
  /** x from which on a disturbance is felt at y. */
  readonly front: (y: number) => number
  /** x up to which a trailing-edge station of the fin feels what happens at y. */
  readonly rear: (y: number) => number
  /** Spans between which anything matters. */
  readonly yMin: number
  readonly yMax: number
}

export function coneReach({ strips }: SourceLattice, beta: number, mirror: Mirror): Reach {
  const sides = mirror === 0 ? [1] : [1, -1]
  const at = (x: number, y: number) => sides.map((side) => ({ x, y: side * y }))
  const leads = strips.flatMap(({ pieces, yIn, yOut }) =>
    pieces.flatMap(({ leadIn, leadOut }) => [...at(leadIn, yIn), ...at(leadOut, yOut)]),
  )
  const trails = strips.flatMap(({ pieces, middle }) => pieces.flatMap((piece) => at(trailOf(piece), middle)))
  const front = (y: number) => Math.min(...leads.map((p) => p.x + beta * Math.abs(p.y - y)))
  const rear = (y: number) => Math.max(...trails.map((p) => p.x - beta * Math.abs(p.y - y)))
  const farthest = (Math.max(...trails.map(({ x }) => x)) - Math.min(...leads.map(({ x }) => x))) / beta
  const tip = strips[strips.length - 1].yOut
  return { front, rear, yMin: mirror === 0 ? -farthest : 0, yMax: tip + farthest }
}
