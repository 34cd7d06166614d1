/** The assessment's part on patterns: shapes, pieces, section, what covers what, what the schedule breaks. */
import type { Point } from '../geometry/point.ts'
import type { Issue } from '../issue.ts'
import type { ReliefFigures, ShearFigures } from './shear-section.ts'

export type MarkKind = 'centre' | 'fillet' | 'root' | 'step' | 'pull-back' | 'warp' | 'forward' | 'bevel' | 'tick'

/** A line to draw on a piece; `label` stands beside it. */
export interface Mark {
  readonly kind: MarkKind
  readonly points_m: readonly Point[]
  readonly label: string
}

/** Outlines as laid, seen from outside, counter-clockwise, in bay axes (X aft, Y across). */
export interface PieceShape {
  /** Ply number, `P3`. */
  readonly ply: string
  /** From 1 at the core outward, of `of`. */
  readonly sequence: number
  readonly of: number
  readonly role: 'structural' | 'surface' | 'peel' | 'film'
  readonly cloth: string
  readonly clothName: string
  /** The whole bay, or a patch on the side of one fin. */
  readonly cover: 'bay' | 'next' | 'previous'
  /** As scheduled; a mirrored bay carries its negative. */
  readonly angle_deg: number
  readonly outline_m: readonly Point[]
  readonly netOutline_m: readonly Point[]
  readonly area_m2: number
  readonly netArea_m2: number
  /** Developed tip-to-tip width at the ply's own mid-surface, and as cut. */
  readonly width_m: number
  readonly cutWidth_m: number
  readonly length_m: number
  readonly cutLength_m: number
  /** Distance of the ply's mid-surface from the bare surface. */
  readonly buildUp_m: number
  readonly biasAllowance_m: number
  /** Dry, as cut. */
  readonly mass_kg: number
  readonly marks: readonly Mark[]
  /** Where its label stands: the middle and the room along X and across; on a tab outside the cut line when it fits nowhere. */
  readonly label_m: { readonly at: Point; readonly length: number; readonly width: number; readonly onTab: boolean }
}

export interface PatternPiece {
  readonly id: string
  readonly can: string
  readonly bay: number
  readonly ply: string
  readonly role: 'structural' | 'surface' | 'peel' | 'film'
  readonly cloth: string
  /** Of the warp, from +Y towards +X. */
  readonly angle_deg: number
  readonly outline_m: readonly Point[]
  readonly netOutline_m: readonly Point[]
  readonly area_m2: number
  readonly mass_kg: number
}

/** The cross-section of one bay, for drawing: from the fin's tip to the next fin's tip; all in m and deg. */
export interface SectionFigures {
  readonly tubeRadius_m: number
  readonly coreThickness_m: number
  readonly finCount: number
  readonly span_m: number
  readonly rootLength_m: number
  readonly filletRadius_m: number
  readonly filletHeight_m: number
  readonly filletArc_deg: number
  /** Between the fin's mid-plane and the line where the fillet meets the body, seen from the axis. */
  readonly filletFoot_deg: number
  readonly width_m: number
  /** At the root's aft end; all else is at its forward end, for fins without cant. */
  readonly aftTubeRadius_m: number
  readonly aftFilletRadius_m: number
  readonly cant_deg: number
  /** Half width of the bay map at: fillet foot on the body, fillet top on the fin face, tip. */
  readonly stations_m: { readonly filletFoot: number; readonly filletTop: number; readonly tip: number }
}

/** The bare bay on its own map, bay axes: the previous fin's line first, then the next fin's. Widths are of cloth across the bay. */
export interface BayFigures {
  readonly straight: boolean
  readonly width_m: number
  readonly feet_m: readonly (readonly Point[])[]
  readonly tops_m: readonly (readonly Point[])[]
  /** At the root's forward and aft end, from fillet top to fillet top. */
  readonly rootEnds_m: readonly (readonly Point[])[]
  /** The core's outline outboard of the fillet. */
  readonly core_m: readonly (readonly Point[])[]
  /** At the root's forward and aft end; `at_m`: the fillets' tops and feet there, from the previous fin on. */
  readonly ends: readonly {
    readonly station_m: number
    readonly filletRadius_m: number
    /** Between the two flats of a gauge; the mean of the two fillets. */
    readonly filletArc_deg: number
    readonly previousFillet_m: number
    readonly body_m: number
    readonly nextFillet_m: number
    readonly at_m: readonly Point[]
  }[]
}

/** A place on the bare body: station along its surface from the root's forward end, m, and angle round the axis towards the next fin, deg. */
export type TubePlace = readonly [station_m: number, angle_deg: number]

/** Lines that mark out the bare body. Of a fin: angles from its nominal mid-plane. Of a bay: from its centre line. All fins and bays alike. */
export interface TubeFigures {
  /** At the root's forward end. */
  readonly radius_m: number
  /** Half-angle of the cone, positive where the body narrows aft. */
  readonly narrowing_deg: number
  readonly finCount: number
  readonly root_m: { readonly forward: number; readonly aft: number }
  readonly canEnds_m: { readonly forward: number | null; readonly aft: number | null }
  readonly runOut_m: { readonly forward: number; readonly aft: number }
  readonly fin: {
    readonly middle: readonly TubePlace[]
    readonly nextFace: readonly TubePlace[]
    readonly previousFace: readonly TubePlace[]
    readonly nextFoot: readonly TubePlace[]
    readonly previousFoot: readonly TubePlace[]
  }
  /** Where plies that stay end on the body; a patch on the side of one fin only. */
  readonly ends: readonly { readonly ply: string; readonly face: 'next' | 'previous' | null; readonly at_m: number }[]
  /** Lines along which patches stop on the body. */
  readonly stops: readonly { readonly ply: string; readonly points: readonly TubePlace[] }[]
  /** Those that the plies carry, each once: two places each. */
  readonly ticks: readonly (readonly TubePlace[])[]
}

export interface PlyCover {
  readonly ply: string
  readonly covers: string
  /** Distance by which it reaches past the covered ply as drawn, to the net line, at each edge. */
  readonly leading_m: number
  readonly trailing_m: number
  readonly tip_m: number
  readonly bodyForward_m: number
  readonly bodyAft_m: number
  /** Anywhere, when a print that just passes its check and the shear of bias plies add up. */
  readonly least_m: number | null
}

export interface PatternSection {
  readonly section: SectionFigures | null
  readonly bay: BayFigures | null
  readonly tube: TubeFigures | null
  readonly shapes: readonly PieceShape[]
  readonly pieces: readonly PatternPiece[]
  readonly covers: readonly PlyCover[]
  /** Rules the schedule breaks, in plain words. */
  readonly rules: readonly Issue[]
  /** What print and shear leave, one a shape. */
  readonly allowances: readonly {
    readonly ply: string
    /** Least beyond the net line where the ply is trimmed; null where it is trimmed nowhere. */
    readonly left_m: number | null
    /** How far its edges may lie inside their net line where nothing is trimmed. */
    readonly short_m: number
    /** Of a trimmed bias ply: shear past which its net line stays bare. */
    readonly bareAtShear_deg: number | null
  }[]
  /** Whether a fin balances about its core, by A, B and D; null for a study. */
  readonly balance: {
    /** From the resin's glass transition to the shop, where the laminate is taken to set free of stress. */
    readonly cooling_K: number
    /** Every set of plies that lie on one another on both faces of the full core, the fullest first. */
    readonly zones: readonly {
      readonly plies: readonly string[]
      /** Shares of what A and D allow, 0 none to 1. */
      readonly bendStretch: number
      readonly bendTwist: number
      readonly stretchShear: number
      /** Of a free fin of this laminate after the cooling: an upper estimate. */
      readonly tipTwist_deg: number
      readonly tipBow_m: number
    }[]
  } | null
  readonly shear: readonly ShearFigures[]
  readonly relief: readonly ReliefFigures[]
}
