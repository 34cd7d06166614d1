/**
 * The design: everything the computation needs, in SI base units and radians, already validated by `plan`.
 *
 * Fin axes: x aft along the root from the root leading edge, y outboard from the body surface, z normal, right-handed, so
 * that +z is the previous face. Bay axes on the bay map, seen from outside: X aft from the root leading edge, Y across
 * from the lower-numbered fin's tip to the next fin's tip, zero on the body line midway between the fins.
 */
import type { HistoryFlight } from '../flight/import.ts'
import type { ThrustFlight } from '../flight/trajectory.ts'
import type { EdgeProfile, EdgeProfiles } from '../geometry/edge-profile.ts'
import type { EdgeName, FinOutline } from '../geometry/fin-outline.ts'
import type { Point } from '../geometry/point.ts'
import type { Adhesive, Cloth, ResinSystem, SheetMaterial } from '../material/material.ts'

export type { EdgeName, FinOutline, HistoryFlight, Point, ThrustFlight }
export type EdgeShape = EdgeProfile

export interface Tube {
  /** At the root's forward end, and at its aft end where the body narrows or widens under the root. */
  readonly outerRadius: number
  readonly aftRadius: number
  /** Length of the can ahead of the root and behind it, negative where the root runs past it; null: enough for the lay-up. */
  readonly ahead: number | null
  readonly behind: number | null
  readonly wall: number
  readonly material: SheetMaterial
  /** What stands behind the wall under the root. */
  readonly backing: 'none' | 'coupler' | 'motor case' | 'rings'
}

export interface Fins {
  readonly count: number
  readonly mounting:
    | { readonly kind: 'surface' }
    | { readonly kind: 'tabbed'; readonly depth: number; readonly forward: number; readonly aft: number }
  readonly outline: FinOutline
  readonly core: {
    readonly material: SheetMaterial
    readonly thickness: number
    /** From +x (along the root) towards +y to the sheet's lengthwise direction, rad. */
    readonly grain: number
  }
  readonly edges: EdgeProfiles
  /** Designed; positive rolls the rocket clockwise seen from the tail. About the middle of the root. */
  readonly cant: number
  readonly fillet: {
    /** At the root's forward and aft end. */
    readonly radius: number
    readonly radiusAft: number
    /** Length over which it runs out past the root's ends. */
    readonly runOut: { readonly forward: number; readonly aft: number }
    readonly adhesive: Adhesive
    readonly waste: number
  }
  readonly joint: {
    /** Thickness of the adhesive under the core's end. */
    readonly bondLine: number
    /** Data-sheet lap shear over the stress that may be used. */
    readonly knockDown: number
    /** Tension across the skin that may be used, Pa. */
    readonly opening: number
  }
}

export type PlyRole = 'structural' | 'surface' | 'peel' | 'film'

/** One ply of the schedule; every bay of every can has it. Numbered from the core outward. */
export interface PlyDesign {
  /** `P1`, `P2`, … for cloth that stays, `V1` … for surface veils, `R1` … for peel ply, `F1` … for film. */
  readonly id: string
  readonly cloth: Cloth
  /** Of the warp, from +Y towards +X on the bay map, rad. */
  readonly angle: number
  readonly role: PlyRole
  /** How far the ply stops short of the fin's edges (square to the edge) and of the lay-up's ends on the body. */
  readonly stepBack: {
    readonly leading: number
    readonly trailing: number
    readonly tip: number
    readonly bodyForward: number
    readonly bodyAft: number
  }
  /** Cut beyond the net line, trimmed after cure: at the fin's edges, and at the lay-up's ends on the body. */
  readonly overhang: { readonly edges: number; readonly bodyEnds: number }
  /** The whole bay, or a patch on the next or the previous fin's side. */
  readonly cover: 'bay' | 'next' | 'previous'
  /** How far a patch reaches on to the body from the fillet's foot. */
  readonly onBody: number
  /** How far it goes on to the other face round every edge that it reaches; 0: trimmed at the edge. */
  readonly wrap: number
}

export interface Layup {
  /** How far the largest ply runs along the body past the root's ends. */
  readonly overrun: { readonly forward: number; readonly aft: number }
  /** Mass of mixed resin left in the cloth over the mass of the dry cloth. */
  readonly resinPerCloth: number
  readonly voidFraction: number
  /** Trellis shear allowed for when a 45° ply is handled, rad. */
  readonly biasShear: number
  /** Alternate bays carry the negative angle; needs an even number of fins. */
  readonly mirrorAlternateBays: boolean
  /** Least distance between the edges of successive plies, as a multiple of ply thickness. */
  readonly stepPerThickness: number
  readonly losses: {
    /** Resin taken up by the peel ply and put down as primer, kg/m²; left in cup and brush, kg a batch. */
    readonly peelPly: number
    readonly primer: number
    readonly cup: number
  }
}

export interface Mixing {
  /** Hardener mass over resin mass. */
  readonly hardenerPerResin: number
  /** How the ratio was stated; `volume` was converted with both densities. */
  readonly stated: { readonly by: 'mass' | 'volume'; readonly text: string }
  /** Allowed relative error of the ratio. */
  readonly tolerance: number
  readonly scaleResolution: number
  /** Largest mass mixed in one cup. */
  readonly cupLimit: number
  /** Share of the working time that the plan may use. */
  readonly workingShare: number
  readonly postCure: boolean
}

export interface Shop {
  readonly temperature: number
  /** Relative humidity, 0–1. */
  readonly humidity: number
  readonly setUpTime: number
  readonly timePerPly: number
}

export interface Roll {
  readonly id: string
  readonly cloth: Cloth
  readonly width: number
  readonly length: number
  /** Unusable at each long edge. */
  readonly selvedge: number
  /** Outlines of flaws to cut around: along the roll from the cut end, across from the left selvedge, outer face up. */
  readonly defects: readonly (readonly Point[])[]
}

/** Where a piece lies on its roll: lengths m, angle rad, roll axes; `roll` names one in stock, else cloth to be bought. */
export interface LaidPiece {
  readonly piece: string
  readonly roll: string
  readonly x: number
  readonly y: number
  readonly rotation: number
}

export interface Stock {
  readonly rolls: readonly Roll[]
  /** A nest that is kept: searched for, or moved by hand. Null: the pieces are nested at every assessment. */
  readonly layout: readonly LaidPiece[] | null
  readonly resin: number
  readonly hardener: number
  /** Share of the stock that can be got out of its containers. */
  readonly usable: number
  /** Mixed resin put aside for practice panels. */
  readonly reserve: number
}

export interface Can {
  readonly letter: string
  readonly purpose: 'flight' | 'backup' | 'practice'
}

/** Density kg/m³, speed of sound m/s. */
export interface AirState {
  readonly mach: number
  readonly density: number
  readonly soundSpeed: number
}

export interface StatesFlight {
  readonly kind: 'states'
  readonly states: readonly AirState[]
}

export type FlightInput = ThrustFlight | HistoryFlight | StatesFlight

/** Air that moves across the flight path, m/s. */
export interface Wind {
  /** Over the rail, fully across it. */
  readonly steady: number
  /** Sudden, fully across the flight path, at any instant after the rail; at the rail's end it comes on top of the wind. */
  readonly gust: number
  /** Length over which the rail guides the rocket. */
  readonly railLength: number
}

export interface Loads {
  /** Throughout the flight; null where only wind is given. Where both are, the greater angle counts at each instant. */
  readonly angleOfAttack: number | null
  readonly wind: Wind | null
  /** Point load at the tip for the deflection and root moment reported. */
  readonly tipLoad: number
  readonly structuralDamping: number
  /** Least ratio of the flutter envelope's speed to the flight's for the verdict "holds". */
  readonly speedRatio: number
}

export interface Printing {
  /** The 100 mm check square as measured on a print, across and along the feed; null before one is measured. */
  readonly measured: { readonly across: number; readonly along: number } | null
  /** The same square on the roll print, and as the cutter or plotter made it. */
  readonly roll: { readonly across: number; readonly along: number } | null
  readonly cutter: { readonly across: number; readonly along: number } | null
  readonly paperThickness: number
  /** Lines of the bay map along which the stack is drawn besides the standard ones, in bay axes. */
  readonly sections: readonly { readonly from: Point; readonly to: Point }[]
}

export interface CanDesign {
  readonly kind: 'can'
  readonly name: string
  readonly note: string
  readonly tube: Tube
  readonly fins: Fins
  readonly plies: readonly PlyDesign[]
  readonly layup: Layup
  readonly resin: ResinSystem
  readonly mixing: Mixing
  readonly shop: Shop
  readonly stock: Stock
  readonly cans: readonly Can[]
  readonly flight: FlightInput
  readonly loads: Loads
  readonly printing: Printing
}

export type Support = 'free' | 'simple' | 'clamped'

/** Thickness over the chord: `fraction` of the local chord from the forward edge, `thickness` in m or of the local chord. */
export interface ChordwiseThickness {
  readonly kind: 'constant' | 'absolute' | 'of chord'
  readonly fraction: readonly number[]
  readonly thickness: readonly number[]
}

/** One ply of a study's laminate: an orthotropic layer with its angle from +x towards +y. Bottom first. */
export interface StudyPly {
  readonly material: SheetMaterial
  readonly angle: number
  readonly thickness: number
}

/** A bare plate in an air stream: textbook and wind-tunnel cases. */
export interface StudyDesign {
  readonly kind: 'study'
  readonly name: string
  readonly note: string
  /** Closed polygon, counter-clockwise in plate axes; segment i runs from point i to point i + 1. */
  readonly outline: readonly Point[]
  /** One a segment. */
  readonly supports: readonly Support[]
  readonly plate:
    | {
        readonly kind: 'sheet'
        readonly material: SheetMaterial
        /** From +x towards +y to the material's axis 1, rad. */
        readonly axis: number
        readonly thickness: ChordwiseThickness
      }
    | { readonly kind: 'laminate'; readonly plies: readonly StudyPly[] }
  readonly air: {
    readonly states: readonly AirState[]
    /** From +x towards +y, rad: the direction the air flows. */
    readonly flowDirection: number
    /** Terms of piston theory: 1 linear, 2 with thickness. */
    readonly pistonOrder: 1 | 2
    /** False leaves out the term with the velocity of the surface. */
    readonly aerodynamicDamping: boolean
    /** Air on one face only (a panel over a cavity) or on both (a fin). */
    readonly faces: 1 | 2
  } | null
  readonly modeCount: number
  /** Hz; replace the computed frequencies, shapes kept. */
  readonly imposedFrequencies: readonly number[] | null
  readonly angleOfAttack: number | null
  readonly structuralDamping: number
  /** A point force normal to the plate, N at (x, y). */
  readonly pointLoad: { readonly at: Point; readonly force: number } | null
}

export type Design = CanDesign | StudyDesign
