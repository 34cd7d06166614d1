/**
 * What every failure criterion answers. The index is the inverse of the strength ratio: 1 at failure, 0.5 when the load may
 * double, whatever the criterion's own expression is. All are for plane stress in ply axes.
 */
import type { Lamina } from '../lamina.ts'
import type { PlyStrengths } from '../layer.ts'
import type { PlyStress } from '../ply-stress.ts'

export type FailureMode =
  | 'tension along'
  | 'compression along'
  | 'tension across'
  | 'compression across'
  | 'shear'
  | 'combined'

export interface FailureIndex {
  /** Load over failure load; fails at 1. */
  readonly index: number
  readonly mode: FailureMode
}

/** What a criterion may look at. */
export interface PlyState {
  readonly stress: PlyStress
  readonly strengths: PlyStrengths
  readonly lamina: Lamina
}

export interface Criterion {
  readonly name: string
  readonly evaluate: (state: PlyState) => FailureIndex
}

/** The worst of several modes; the first where they tie. */
export const worst = (modes: readonly FailureIndex[]): FailureIndex =>
  modes.reduce((most, mode) => (mode.index > most.index ? mode : most))

/**
 * Index of a criterion whose expression is a R² + b R = 1 at failure under R times the load: x = 1/R solves
 * x² − b x − a = 0. `a` is not negative.
 */
export const indexOfQuadratic = (a: number, b: number): number => {
  const root = Math.sqrt(b * b + 4 * a)
  // For b < 0 the two terms nearly cancel; the other root's product, −a, does not.
  return b >= 0 ? (b + root) / 2 : (2 * a) / (root - b)
}
