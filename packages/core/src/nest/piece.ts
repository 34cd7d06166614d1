/**
 * What is cut and what it is cut from.
 *
 * A piece's outline is in bay axes (X aft, Y across, seen from outside, counter-clockwise); its warp angle runs from +Y
 * towards +X. A roll's axes: x along its length, which is the warp, from the cut end; y across its width from one
 * selvedge; seen from the face that will lie outward. Lengths in m, angles in rad.
 */
export type Point = readonly [number, number]

/** The part of a cloth that cutting depends on. */
export interface NestCloth {
  readonly id: string
  readonly name: string
  readonly weave: 'plain' | 'twill' | 'satin' | 'veil' | 'peel ply' | 'film'
  readonly warpShare: { readonly value: number }
}

export interface NestPiece {
  readonly id: string
  readonly cloth: NestCloth
  readonly outline: readonly Point[]
  /** Of the warp, from +Y towards +X. */
  readonly angle: number
  /** Pieces to be kept together where it costs nothing: the can and bay, as a rule. */
  readonly group?: string
}

export interface StockRoll {
  readonly id: string
  readonly cloth: NestCloth
  readonly width: number
  /** Left on the roll. */
  readonly length: number
  /** Unusable at each long edge. */
  readonly selvedge: number
  /** Outlines, in the roll's axes, on which no piece may lie. */
  readonly defects?: readonly (readonly Point[])[]
}

/** Where a piece lies on its roll: its outline turned by `rotation` about its own origin, then moved by (x, y). */
export interface PiecePlacement {
  readonly piece: string
  readonly x: number
  readonly y: number
  /** Counter-clockwise. */
  readonly rotation: number
}

export interface NestedRoll {
  readonly roll: string
  readonly cloth: string
  readonly clothName: string
  readonly width: number
  readonly selvedge: number
  /** In stock; null for cloth that has to be bought. */
  readonly availableLength: number | null
  readonly usedLength: number
  /** Piece area over width times used length. */
  readonly density: number
  /** Cloth of the used length that becomes no piece, m². */
  readonly waste: number
  readonly placements: readonly PiecePlacement[]
}

export interface ClothPurchase {
  readonly cloth: string
  readonly clothName: string
  readonly width: number
  readonly length: number
  readonly reason: string
}
