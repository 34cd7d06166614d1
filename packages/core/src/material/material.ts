/**
 * What a material is: plain data, SI, every property with the source it was read from.
 *
 * Stiffness in Pa, strength in Pa (positive in tension and in compression), density in kg/m³, areal mass in kg/m²,
 * temperature in K, time in s. Ply and sheet axes: 1 along the warp or the grain, 2 across it, 3 through the thickness.
 */

/**
 * How well a property is known: `read` in the named source; `recalled` from a named source and not re-read;
 * `practice` common practice or memory, no source; `estimate` computed by a named method; `plan` stated by the builder.
 */
export type Confidence = 'read' | 'recalled' | 'practice' | 'estimate' | 'plan'

export interface Property {
  readonly value: number
  readonly source: string
  readonly confidence: Confidence
}

export interface Fibre {
  readonly id: string
  readonly name: string
  readonly density: Property
  readonly E1: Property
  readonly E2: Property
  readonly G12: Property
  readonly nu12: Property
}

/** Strengths in the material's own axes, Pa. */
export interface Strengths {
  readonly Xt: Property
  readonly Xc: Property
  readonly Yt: Property
  readonly Yc: Property
  readonly S: Property
  /** Fibre volume fraction of the laminate they were measured on; left out where they hold as they stand. */
  readonly fibreFraction?: Property
}

export interface Cloth {
  readonly id: string
  readonly name: string
  readonly fibre: Fibre
  readonly weave: 'plain' | 'twill' | 'satin' | 'veil' | 'peel ply' | 'film'
  /** Dry, kg/m². */
  readonly arealMass: Property
  /** Share of the fibre mass that runs along the warp; 0.5 is balanced. */
  readonly warpShare: Property
  /** Stiffness knock-down for crimp, 0–1. */
  readonly crimpFactor: Property
  /** Angle between warp and weft that the weave gives before it wrinkles, rad; null for cloth without yarns that cross. */
  readonly maximumShear: Property | null
  /** Looks and behaves the same from both sides, so that a piece may be turned face down. */
  readonly reversible: boolean
  /** Strengths of the cured woven ply; null for veils, peel plies and films, which carry no load in the analysis. */
  readonly strengths: Strengths | null
}

/** A laminating resin with its hardener, as one system. */
export interface ResinSystem {
  readonly id: string
  readonly name: string
  readonly resinDensity: Property
  readonly hardenerDensity: Property
  /** Density of the cured mix. */
  readonly density: Property
  readonly E: Property
  readonly nu: Property
  /** Tensile strength of the cured resin, Pa. */
  readonly strength: Property
  /** Working time of `workingMass` at `workingTemperature`. */
  readonly workingTime: Property
  readonly workingTemperature: Property
  readonly workingMass: Property
  /** Activation energy of cure, J/mol. */
  readonly activationEnergy: Property
  /** Lowest shop temperature the maker allows, K. */
  readonly minimumTemperature: Property
  /** Glass transition after room-temperature cure and after the maker's post-cure, K. */
  readonly glassTransition: Property
  readonly glassTransitionPostCured: Property
}

export interface Adhesive {
  readonly id: string
  readonly name: string
  readonly density: Property
  readonly E: Property
  readonly G: Property
  /** Data-sheet lap shear, Pa: compares products, is not a design value (ASTM D4896). */
  readonly lapShear: Property
  readonly glassTransition: Property
}

/** A sheet to cut cores from, or the wall of a tube. */
export interface SheetMaterial {
  readonly id: string
  readonly name: string
  readonly density: Property
  readonly E1: Property
  readonly E2: Property
  readonly G12: Property
  readonly nu12: Property
  readonly G13: Property
  readonly G23: Property
  readonly strengths: Strengths
}
