/**
 * Resin and hardener by mass: the ratio, what the scale shows, and the least that a scale can mix.
 *
 * With h = hardener over resin by mass, a batch of mass B is B/(1 + h) resin and B h/(1 + h) hardener.
 *
 * A ratio by volume, v = hardener over resin, is h = v ρ_hardener/ρ_resin by mass. Weighed out as if it were one by mass it
 * gives too much hardener by ρ_resin/ρ_hardener − 1, 17–21 % for usual densities.
 *
 * A scale that is off by δ on both readings is off in the ratio by at most
 *
 *   ε = δ/(B h/(1 + h)) + δ/(B/(1 + h)) = δ (1 + h)²/(h B)          so          B = δ (1 + h)²/(h ε)
 *
 * is the smallest batch for a tolerance ε. Derived here; one display count is taken for δ. The tolerance itself (±3 %
 * is usual) is common practice: no primary study was found.
 */
export interface MixRatio {
  /** By mass. */
  readonly hardenerPerResin: number
  /** Allowed relative error of the ratio. */
  readonly tolerance: number
}

export interface Scale extends MixRatio {
  readonly scaleResolution: number
}

export interface MixedMass {
  readonly mass: number
  readonly resin: number
  readonly hardener: number
}

export function mixedMass(mass: number, hardenerPerResin: number): MixedMass {
  const resin = mass / (1 + hardenerPerResin)
  return { mass, resin, hardener: mass - resin }
}

export interface VolumeRatio {
  /** By volume. */
  readonly hardenerPerResin: number
  readonly resinDensity: number
  readonly hardenerDensity: number
}

/** Hardener over resin by mass of a ratio stated by volume. */
export const massRatio = ({ hardenerPerResin, resinDensity, hardenerDensity }: VolumeRatio): number =>
  (hardenerPerResin * hardenerDensity) / resinDensity

/** Relative excess of hardener when a ratio by volume is weighed out as one by mass. */
export const volumeWeighedError = ({ resinDensity, hardenerDensity }: Omit<VolumeRatio, 'hardenerPerResin'>): number =>
  resinDensity / hardenerDensity - 1

/** Worst relative error of the ratio that a scale can make in a batch. */
export const scaleError = (mass: number, scale: Pick<Scale, 'hardenerPerResin' | 'scaleResolution'>): number =>
  (scale.scaleResolution * leverage(scale.hardenerPerResin)) / mass

/** The smallest batch that a scale can keep within the tolerance. */
export const smallestBatch = ({ hardenerPerResin, tolerance, scaleResolution }: Scale): number =>
  (scaleResolution * leverage(hardenerPerResin)) / tolerance

/** The coarsest scale that can keep a batch within the tolerance. */
export const coarsestScale = (mass: number, { hardenerPerResin, tolerance }: MixRatio): number =>
  (mass * tolerance) / leverage(hardenerPerResin)

/** What the scale shows with the cup tared: after the resin, after the hardener. */
export const runningTotals = ({ resin, mass }: MixedMass): readonly [number, number] => [resin, mass]

/** Lowest and highest total after the hardener that keep the ratio within the tolerance. */
export const totalWindow = ({ resin, hardener }: MixedMass, tolerance: number): readonly [number, number] => [
  resin + hardener * (1 - tolerance),
  resin + hardener * (1 + tolerance),
]

/** (1 + h)²/h: the ratio's error over the scale's error as a share of the batch. */
const leverage = (h: number): number => (1 + h) ** 2 / h
