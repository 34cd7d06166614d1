/**
 * What to do when a pour missed the ratio: more of the other, never less of the first.
 *
 * With resin r and hardener k in the cup and h = hardener over resin: too much hardener wants k/h − r more resin, too
 * little wants r h − k more hardener. Once stirred for more than a minute the cup goes to waste, as what has begun to
 * react no longer mixes evenly (a default of ours, no source).
 */
import type { MixedMass, MixRatio } from './mixing.ts'

/** Stirring after which a wrong cup is not corrected, s. */
const tooLateToCorrect = 60

export interface Pour {
  readonly resin: number
  readonly hardener: number
  /** Time stirred since, s. */
  readonly stirred: number
}

export type Correction =
  | { readonly kind: 'within tolerance'; readonly error: number }
  | {
      readonly kind: 'add'
      /** Relative error of the ratio as poured. */
      readonly error: number
      readonly what: 'resin' | 'hardener'
      readonly mass: number
      /** The cup afterwards. */
      readonly total: number
      readonly overCupLimit: boolean
    }
  | { readonly kind: 'discard'; readonly error: number; readonly mass: number }

export interface CupRule extends MixRatio {
  readonly cupLimit: number
}

export function correction({ resin, hardener, stirred }: Pour, rule: CupRule): Correction {
  const h = rule.hardenerPerResin
  const error = hardener / (h * resin) - 1
  if (Math.abs(error) <= rule.tolerance) return { kind: 'within tolerance', error }
  if (stirred > tooLateToCorrect) return { kind: 'discard', error, mass: resin + hardener }
  const what = error > 0 ? 'resin' : 'hardener'
  const mass = error > 0 ? hardener / h - resin : resin * h - hardener
  const total = resin + hardener + mass
  return { kind: 'add', error, what, mass, total, overCupLimit: total > rule.cupLimit }
}

export interface CorrectionRow {
  /** Hardener poured over hardener wanted, less 1. */
  readonly over: number
  /** What the scale shows, cup tared. */
  readonly reads: number
  readonly addResin: number
  readonly total: number
  readonly overCupLimit: boolean
}

const tableSteps = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3]

/** For the printed card of one batch: the scale's reading after too much hardener, and the resin to add. */
export function correctionTable(
  { resin, hardener }: MixedMass,
  { hardenerPerResin, cupLimit }: CupRule,
): CorrectionRow[] {
  return tableSteps.map((over) => {
    const poured = hardener * (1 + over)
    const addResin = poured / hardenerPerResin - resin
    const total = resin + poured + addResin
    return { over, reads: resin + poured, addResin, total, overCupLimit: total > cupLimit }
  })
}
