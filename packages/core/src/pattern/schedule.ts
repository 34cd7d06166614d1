/**
 * What the patterns are made from: tube, fins, plies and lay-up, in the parts that their shapes depend on. SI and radians.
 */
import type { EdgeProfiles } from '../geometry/edge-profile.ts'
import type { EdgeName, FinOutline } from '../geometry/fin-outline.ts'

export type PlyRole = 'structural' | 'surface' | 'peel'

/** A place where a ply ends: the fin's three edges and the lay-up's two ends on the body. */
export type PlyEnd = EdgeName | 'bodyForward' | 'bodyAft'

export const plyEnds: readonly PlyEnd[] = ['leading', 'trailing', 'tip', 'bodyForward', 'bodyAft']

export interface ScheduledPly {
  /** `P1`, `P2`, … for cloth that stays, `V1` … for surface veils, `R1` … for peel ply. */
  readonly id: string
  readonly role: PlyRole
  readonly cloth: { readonly id: string; readonly name: string; readonly warpShare: { readonly value: number } }
  /** Of the warp, from +Y towards +X on the bay map. */
  readonly angle: number
  /** How far the ply stops short, square to the fin's edges and along the body. */
  readonly stepBack: { readonly [end in PlyEnd]: number }
  readonly overhang: { readonly edges: number; readonly bodyEnds: number }
  /** Cured; of a peel ply, as it lies. */
  readonly thickness: number
  /** Of the dry cloth, kg/m². */
  readonly dryArealMass: number
}

export interface PatternInput {
  readonly tube: { readonly outerRadius: number }
  readonly fins: {
    readonly count: number
    readonly outline: FinOutline
    readonly core: { readonly thickness: number }
    readonly edges: EdgeProfiles
    readonly fillet: { readonly radius: number }
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
