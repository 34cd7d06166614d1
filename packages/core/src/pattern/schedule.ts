/**
 * What the patterns are made from: tube, fins, plies and lay-up, in the parts that their shapes depend on. SI and radians.
 */
import type { EdgeProfiles } from '../geometry/edge-profile.ts'
import type { EdgeName, FinOutline } from '../geometry/fin-outline.ts'

export type PlyRole = 'structural' | 'surface' | 'peel' | 'film'

/** Peel ply and film are pulled off after cure: never in the laminate, covering nothing. */
export const comesOff = (role: PlyRole): boolean => role === 'peel' || role === 'film'

/** A place where a ply ends: the fin's three edges and the lay-up's two ends on the body. */
export type PlyEnd = EdgeName | 'bodyForward' | 'bodyAft'

export const plyEnds: readonly PlyEnd[] = ['leading', 'trailing', 'tip', 'bodyForward', 'bodyAft']

/** What a ply covers: both faces of the bay with the body between, or one side as a patch that stops on the body. */
export type PlyCoverKind = 'bay' | 'next' | 'previous'

export interface ScheduledPly {
  /** `P1`, `P2`, … for cloth that stays, `V1` … for surface veils, `R1` … for peel ply, `F1` … for film. */
  readonly id: string
  readonly role: PlyRole
  readonly cloth: {
    readonly id: string
    readonly name: string
    readonly warpShare: { readonly value: number }
    /** Shear that the weave takes before it wrinkles; null for cloth without yarns that cross. */
    readonly maximumShear: { readonly value: number; readonly confidence: string } | null
  }
  /** Of the warp, from +Y towards +X on the bay map. */
  readonly angle: number
  /** How far the ply stops short, square to the fin's edges and along the body. */
  readonly stepBack: { readonly [end in PlyEnd]: number }
  readonly overhang: { readonly edges: number; readonly bodyEnds: number }
  readonly cover: PlyCoverKind
  /** How far a patch reaches on to the body from the fillet's foot. */
  readonly onBody: number
  /** How far the ply goes on to the other face round every edge that it reaches; 0 for one trimmed at the edge. */
  readonly wrap: number
  /** Cured; of a peel ply or a film, as it lies. */
  readonly thickness: number
  /** Of the dry cloth, kg/m². */
  readonly dryArealMass: number
}

export interface PatternInput {
  readonly tube: {
    /** At the root's forward and aft end; unequal where the body narrows or widens under the root. */
    readonly outerRadius: number
    readonly aftRadius: number
    /** What the can has ahead of the root and behind it, negative where the root runs past the can; null: enough. */
    readonly ahead: number | null
    readonly behind: number | null
  }
  readonly fins: {
    readonly count: number
    readonly outline: FinOutline
    readonly core: { readonly thickness: number }
    readonly edges: EdgeProfiles
    /** Positive rolls the rocket clockwise seen from the tail; turned about the middle of the root. */
    readonly cant: number
    readonly fillet: {
      /** At the root's forward and aft end. */
      readonly radius: number
      readonly radiusAft: number
      /** Length over which it runs out past the root's ends. */
      readonly runOut: { readonly forward: number; readonly aft: number }
    }
  }
  /** From the core outward. */
  readonly plies: readonly ScheduledPly[]
  readonly layup: {
    /** How far the largest ply runs along the body past the root's ends. */
    readonly overrun: { readonly forward: number; readonly aft: number }
    /** Trellis shear allowed for when a bias ply is handled. */
    readonly biasShear: number
    readonly mirrorAlternateBays: boolean
    /** Least distance between the edges of plies, as a multiple of ply thickness. */
    readonly stepPerThickness: number
  }
  readonly cans: readonly { readonly letter: string }[]
}

/** A ply's end in words. */
export const endName: { readonly [end in PlyEnd]: string } = {
  leading: 'leading edge',
  trailing: 'trailing edge',
  tip: 'tip',
  bodyForward: 'forward end on the body',
  bodyAft: 'aft end on the body',
}

/** Distance of each ply's mid-surface from the bare surface: all earlier plies at full thickness and half its own. */
export function buildUps(plies: readonly ScheduledPly[]): readonly number[] {
  let below = 0
  return plies.map(({ thickness }) => {
    const z = below + thickness / 2
    below += thickness
    return z
  })
}
