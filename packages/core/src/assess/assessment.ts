/**
 * The assessment: one plain serialisable object that the app, the sheets and `--json` all read. Every number is SI with
 * its unit in the key (`_deg`, `_deg_s` and `_min` are the exceptions). A leaf without a valid answer is null, and a
 * warning whose path names it says why. Nothing here is recomputed in a view.
 */
import type { Point } from '../geometry/point.ts'
import type { Issue } from '../issue.ts'
import type { PatternSection } from './assessment-pattern.ts'
import type { NestSection } from './nest-section.ts'

export type {
  BayFigures,
  Mark,
  MarkKind,
  PatternPiece,
  PatternSection,
  PieceShape,
  PlyCover,
  SectionFigures,
  TubeFigures,
} from './assessment-pattern.ts'
export type { Point }
export type Matrix3 = readonly [
  readonly [number, number, number],
  readonly [number, number, number],
  readonly [number, number, number],
]

export interface Assessment {
  readonly format: 'finwright/assessment'
  readonly version: 1
  readonly kind: 'can' | 'study'
  readonly name: string
  readonly note: string
  readonly flight: FlightSection
  readonly fin: FinSection
  readonly structure: StructureSection
  readonly flutter: FlutterSection
  readonly strength: StrengthSection
  readonly bond: BondSection
  readonly roll: RollSection
  readonly pattern: PatternSection
  readonly nest: NestSection
  readonly resin: ResinSection
  readonly sources: readonly SourceNote[]
  readonly warnings: readonly Issue[]
}

/** Where a number or a method comes from; the appendix of the package prints them. */
export interface SourceNote {
  /** Section of the assessment it serves. */
  readonly section: string
  readonly quantity: string
  readonly value: string
  readonly source: string
  readonly confidence: string
}

export interface FlightSection {
  readonly maximumMach: number | null
  readonly maximumDynamicPressure_Pa: number | null
  readonly maximumAltitude_m: number | null
  readonly at: {
    readonly maximumMach_s: number
    readonly maximumDynamicPressure_s: number
  } | null
  readonly recovery: {
    readonly temperature_K: number
    readonly time_s: number
    readonly glassTransition_K: number
    readonly secondsAbove: number
  } | null
  /** Skins and core by conduction from the shop's temperature, turbulent flow unless the place says otherwise. */
  readonly heat: {
    readonly stations: readonly {
      readonly place: string
      /** Highest, on the surface, where the skin meets the core, in the middle. */
      readonly surface_K: number
      readonly interface_K: number
      readonly middle_K: number
      /** Time for which the surface is above the glass transition in force. */
      readonly secondsAbove: number
    }[]
    /** The cure in force first: resin modulus over the cold one at the greatest dynamic pressure, mean of the skins. */
    readonly resinStiffness: readonly {
      readonly state: string
      readonly glassTransition_K: number
      readonly factor: number
    }[]
  } | null
  readonly history: {
    readonly time_s: readonly number[]
    readonly altitude_m: readonly number[]
    readonly speed_m_s: readonly number[]
    readonly mach: readonly number[]
    readonly dynamicPressure_Pa: readonly number[]
    readonly density_kg_m3: readonly number[]
  } | null
}

export interface FinSection {
  readonly area_m2: number | null
  readonly mass_kg: number | null
  readonly thickness_m: { readonly root: number | null; readonly tip: number | null }
  readonly laminates: readonly {
    readonly region: string
    readonly plies: number
    readonly thickness_m: number
    readonly bendingStiffness_Nm: Matrix3
    /** Zero for a laminate that is balanced about its core; N. */
    readonly couplingStiffness_N: Matrix3
    readonly extensionalStiffness_N_m: Matrix3
    readonly arealMass_kg_m2: number
  }[]
  /** Cured plies as computed, core outward. */
  readonly plies: readonly {
    readonly id: string
    readonly thickness_m: number
    readonly fibreFraction: number
    readonly arealMass_kg_m2: number
    readonly E1_Pa: number
    readonly E2_Pa: number
    readonly G12_Pa: number
    readonly nu12: number
  }[]
}

export interface StructureSection {
  /** Clamped along the body's surface, without fillets; cold. */
  readonly modes: readonly { readonly frequency_Hz: number; readonly kind: string }[]
  readonly tipLoad: {
    readonly force_N: number
    readonly deflection_m: number | null
    readonly rootMoment_Nm: number | null
  } | null
  /** Null for a study, whose supports are stated. */
  readonly root: {
    /** Per length of root: what a unit moment turns it by, and a unit shear force moves it by. */
    readonly rotation_rad_per_N: number
    readonly deflection_m2_per_N: number
    /** Plain words: what gives most, what stands behind the wall. */
    readonly basis: string
    /** Modes of the fin so held, fillets in, mode by mode beside `modes`. */
    readonly modes_Hz: readonly number[]
    /** Of each of them, what it is called and, for drawing, the deflection at the nodes of `shapes`, largest 1. */
    readonly kinds: readonly string[]
    readonly deflection: readonly (readonly number[])[]
  } | null
  readonly mesh: {
    readonly nodes: number
    readonly triangles: number
    /** Estimated relative error of each mode's frequency by refinement; null where not estimated. */
    readonly frequencyError: readonly number[] | null
  } | null
  /** For drawing: nodes, triangles and the deflection of each mode, largest 1. */
  readonly shapes: {
    readonly nodes_m: readonly Point[]
    readonly triangles: readonly (readonly [number, number, number])[]
    readonly deflection: readonly (readonly number[])[]
  } | null
}

/** At a Mach number, in air of the density that the flight has there: speed and Mach number need not match. */
export interface BoundaryPoint {
  readonly mach: number
  readonly density_kg_m3: number
  /** As a linear method gives it with the aerodynamics of this Mach number; null where none was found or none can be asked. */
  readonly speed_m_s: number | null
  readonly dynamicPressure_Pa: number | null
  readonly frequency_Hz: number | null
  /** `doublet lattice`, or `not determined` where no linear method answers at this Mach number. */
  readonly method: string
  /** What the verdict uses: the least of several readings, each times its factor. Null where it does not answer. */
  readonly envelope: {
    readonly speed_m_s: number
    readonly kind: InstabilityKind
    /** The reading that is least, with the Mach number of its forces where it is not this one, and the factor on its speed. */
    readonly method: string
    readonly factor: number
  } | null
}

/** `end of search`: nothing was found up to the speed given. */
export type InstabilityKind = 'flutter' | 'divergence' | 'end of search'

export interface FlightPlace {
  readonly time_s: number
  readonly mach: number
  readonly altitude_m: number
}

export type FlutterVerdict = 'holds' | 'does not hold' | 'not determined'

export interface FlutterSection {
  /** A point a Mach number, the worst passage of the flight. */
  readonly boundary: readonly BoundaryPoint[]
  readonly divergence: readonly BoundaryPoint[]
  readonly margin: {
    readonly speedRatio: number | null
    readonly verdict: FlutterVerdict
    readonly at: FlightPlace | null
    readonly requiredRatio: number
    readonly kind: InstabilityKind | null
    /** The structural mode that has the greatest part in the critical one, and its share. */
    readonly mode: { readonly name: string; readonly share: number } | null
  }
  /** The same margin under other assumptions, each with its own least ratio; null where not determined. */
  readonly beside: readonly { readonly assumption: string; readonly speedRatio: number | null }[]
  /** What changes the margin most, the strongest first: the ratio when one input is changed by `change`. */
  readonly drivers: readonly { readonly input: string; readonly change: string; readonly speedRatio: number }[]
  /** At every instant of the flight that matters; null for states. */
  readonly history: { readonly time_s: readonly number[]; readonly speedRatio: readonly number[] } | null
  /** Damping and frequency against speed where the margin is least, without the envelope's factor; null where there is none. */
  readonly curves: {
    readonly mach: number
    readonly density_kg_m3: number
    readonly method: string
    readonly speed_m_s: readonly number[]
    readonly roots: readonly {
      readonly mode: string
      readonly frequency_Hz: readonly (number | null)[]
      /** 2 Re s / |s|, the structure's own included: negative decays. */
      readonly damping: readonly (number | null)[]
    }[]
  } | null
  /** Mach numbers the envelope answers for. */
  readonly covers: { readonly from: number; readonly to: number } | null
  /** A correlation through experience, never a verdict. */
  readonly screening: {
    readonly speedRatio: number
    readonly speed_m_s: number
    readonly at: FlightPlace | null
    readonly effectiveShearModulus_Pa: number
    readonly torsionalStiffness_Nm2: number
    readonly constant_Pa: number
    /** The published line read with the same modulus and its own constant. */
    readonly printedLine: { readonly speed_m_s: number; readonly constant_Pa: number }
    readonly source: string
  } | null
}

export interface StrengthSection {
  readonly failureIndex: number | null
  readonly ply: string | null
  readonly position_m: Point | null
  readonly criterion: string | null
  readonly secondOpinion: { readonly criterion: string; readonly failureIndex: number } | null
  readonly load: {
    /** Mean over the face. */
    readonly pressure_Pa: number
    readonly force_N: number
    readonly rootMoment_Nm: number
    readonly angleOfAttack_deg: number
    readonly mach: number
    readonly dynamicPressure_Pa: number
    readonly time_s: number | null
    /** Elastic root moment over that of the rigid fin; the greater load is used. */
    readonly amplification: number
    readonly basis: string
  } | null
  /** Point loads at the tip that stress the fin as the worst air load does. */
  readonly tipEquivalent: {
    /** Same greatest failure index. */
    readonly byFailure_N: number
    /** Same moment at the root. */
    readonly byMoment_N: number
    /** The lesser of the two: up to it the inner half is stressed no more than in flight. */
    readonly governs: 'failure' | 'moment'
    /** Greatest failure index of the thin outer half, outside the pad, under the lesser one. */
    readonly outerFailureIndex: number
  } | null
  /** What the fin hands to the body, per length of root. */
  readonly rootLine: {
    readonly x_m: readonly number[]
    readonly shear_N_m: readonly number[]
    readonly moment_N: readonly number[]
  } | null
  /** Greatest failure index of any ply in each triangle of `structure.shapes`. */
  readonly map: readonly number[] | null
  /** Through the thickness at the place of first failure, from the next face to the previous. */
  readonly through: readonly {
    readonly layer: string
    readonly z_m: readonly [number, number]
    readonly s1_Pa: readonly [number, number]
    readonly s2_Pa: readonly [number, number]
    readonly t12_Pa: readonly [number, number]
    readonly index: number | null
  }[]
}

export interface BondSection {
  /** Of one fillet over the root's length; `count` of them on a can. */
  readonly fillet: {
    readonly radius_m: number
    readonly area_m2: number
    readonly volume_m3: number
    readonly adhesiveMass_kg: number
    readonly height_m: number
    readonly openAngle_deg: number
    readonly count: number
    readonly totalVolume_m3: number
    readonly totalAdhesiveMass_kg: number
    /** Of the whole can, waste in. */
    readonly mixMass_kg: number
    /** What both run-outs past the root's ends add to one fillet, and the can's mix with them. */
    readonly runOuts: { readonly volume_m3: number; readonly mixMassWith_kg: number }
  } | null
  /** Allowable over stress, less one, at the worst station of the root under the worst air load. */
  readonly margin: number | null
  readonly joint: {
    readonly worst: {
      readonly x_m: number
      readonly mode: string
      readonly stress_Pa: number
      readonly allowable_Pa: number
    }
    readonly byMode: readonly { readonly mode: string; readonly margin: number | null }[]
    /** Of a moment about the root line, through base bond, fillets and skins. */
    readonly momentShares: { readonly baseBond: number; readonly fillets: number; readonly skins: number }
    /** Least fillet radius with a margin of zero or more; null where none that fits is enough. */
    readonly sufficientRadius_m: number | null
    readonly lapShear_Pa: number
    readonly knockDown: number
  } | null
}

export interface RollSection {
  readonly history: { readonly time_s: readonly number[]; readonly rollRate_deg_s: readonly number[] } | null
  readonly maximumRollRate_deg_s: number | null
  readonly tolerance: { readonly cant_deg: number | null }
}

export interface MixBatch {
  readonly mix_kg: number
  readonly resin_kg: number
  readonly hardener_kg: number
  readonly plies: readonly string[]
  /** Working time left when the last ply of the batch is down. */
  readonly spare_min: number
  readonly startsAt_min: number
  readonly useBefore_min: number
  /** What the scale shows, cup tared: after the resin, after the hardener. */
  readonly runningTotals_kg: readonly [number, number]
  /** Lowest and highest total after the hardener that keep the ratio in tolerance. */
  readonly window_kg: readonly [number, number]
}

export interface ResinSection {
  /** One bay, which is one lay-up session. */
  readonly cloth_kg: number | null
  readonly resin_kg: number | null
  readonly hardener_kg: number | null
  readonly batches: readonly MixBatch[]
  readonly perPly: readonly {
    readonly ply: string
    readonly cloth_kg: number
    readonly mix_kg: number
    readonly start_min: number
  }[]
  readonly losses: { readonly peelPly_kg: number; readonly primer_kg: number; readonly cup_kg: number } | null
  /** Of the data sheet's mass or less, at the shop's temperature; the band is that of published activation energies. */
  readonly workingTime_min: number | null
  readonly workingTimeBand_min: readonly [number, number] | null
  readonly smallestBatch_kg: number | null
  readonly ratio: { readonly hardenerPerResin: number; readonly stated: string; readonly by: 'mass' | 'volume' } | null
  readonly kit: {
    readonly sessions: number
    readonly needed_kg: number
    readonly usable_kg: number
    readonly short_kg: number
    readonly limitedBy: 'resin' | 'hardener'
    /** How many whole cans the stock covers. */
    readonly cansCovered: number
    readonly buy_kg: { readonly resin: number; readonly hardener: number }
  } | null
}
