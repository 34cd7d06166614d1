/**
 * Adhesive in the fillets of one can.
 *
 *   V = area · root length        m³, one fillet        count = 2 N        mass = density · V        mix = mass · (1 + waste)
 *
 * Straight fillets of constant section over the length of the root. Beyond each end of the root a fillet runs out; that
 * takes about as much as one tool radius more of the full section at each end (common practice, no source) and stands
 * apart, because how a fillet is ended is the builder's choice.
 */
import type { BaySection } from './section.ts'

export interface FilletAdhesiveInput {
  readonly section: BaySection
  readonly rootLength: number
  /** Of the cured adhesive, kg/m³. */
  readonly density: number
  /** Mixed and not used, as a share of what stays in the fillets: 0.25 to 0.40 is usual (common practice, no source). */
  readonly waste: number
}

export interface FilletAdhesive {
  readonly count: number
  readonly volume: number
  readonly mass: number
  readonly totalVolume: number
  readonly totalMass: number
  /** Of the whole can, waste in. */
  readonly mixMass: number
  /** What both run-outs of one fillet add. */
  readonly runOut: { readonly length: number; readonly volume: number; readonly mass: number }
  /** Of the whole can with its run-outs, waste in. */
  readonly mixMassWithRunOuts: number
}

export function filletAdhesive({ section, rootLength, density, waste }: FilletAdhesiveInput): FilletAdhesive {
  const count = 2 * section.N
  const volume = section.filletArea * rootLength
  const length = 2 * section.r
  const runOutVolume = section.filletArea * length
  return {
    count,
    volume,
    mass: density * volume,
    totalVolume: count * volume,
    totalMass: count * density * volume,
    mixMass: count * density * volume * (1 + waste),
    runOut: { length, volume: runOutVolume, mass: density * runOutVolume },
    mixMassWithRunOuts: count * density * (volume + runOutVolume) * (1 + waste),
  }
}
