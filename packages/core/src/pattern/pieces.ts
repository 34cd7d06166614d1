/**
 * Every piece of every can: one a ply, bay and can, named `A-2-P3`. Where alternate bays are mirrored, the even bays' plies
 * have the opposite angle. Outlines stay: the surface is the same in every bay, canted or not, and a patch for the next fin is for
 * the next fin in every bay, so that every fin has it on its previous face.
 */
import type { Polygon } from '../geometry/polygon.ts'
import type { PlyShape } from './patterns.ts'
import type { PlyRole } from './schedule.ts'

export interface Piece {
  readonly id: string
  readonly can: string
  /** From 1; bay k lies between fin k and fin k + 1. */
  readonly bay: number
  readonly ply: string
  readonly role: PlyRole
  readonly cloth: string
  /** Of the warp, from +Y towards +X. */
  readonly angle: number
  readonly outline: Polygon
  readonly netOutline: Polygon
  readonly area: number
  readonly mass: number
}

export function piecesOf(input: {
  readonly shapes: readonly PlyShape[]
  readonly bays: number
  readonly cans: readonly { readonly letter: string }[]
  readonly mirrored: boolean
}): readonly Piece[] {
  const { shapes, bays, cans, mirrored } = input
  return cans.flatMap(({ letter }) =>
    Array.from({ length: bays }, (_, k) => k + 1).flatMap((bay) =>
      shapes.map((shape): Piece => {
        const turned = mirrored && bay % 2 === 0 && shape.angle !== 0
        return {
          id: `${letter}-${bay}-${shape.ply}`,
          can: letter,
          bay,
          ply: shape.ply,
          role: shape.role,
          cloth: shape.cloth,
          angle: turned ? -shape.angle : shape.angle,
          outline: shape.outline,
          netOutline: shape.netOutline,
          area: shape.area,
          mass: shape.mass,
        }
      }),
    ),
  )
}
