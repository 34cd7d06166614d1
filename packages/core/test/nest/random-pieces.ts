/** Random simple polygons and made-up fin bays for the nesting tests. */
import fc from 'fast-check'
import type { NestCloth, NestPiece, Point } from '../../src/nest/piece.ts'

export const balanced: NestCloth = { id: 'plain', name: 'plain cloth', weave: 'plain', warpShare: { value: 0.5 } }
export const unbalanced: NestCloth = {
  id: 'heavy',
  name: 'warp-heavy cloth',
  weave: 'plain',
  warpShare: { value: 0.6 },
}

/** A star-shaped outline, seldom convex: a radius at each of `n` equal steps of angle, m. */
export const starOutline = fc
  .array(fc.double({ min: 0.02, max: 0.12, noNaN: true }), { minLength: 5, maxLength: 11 })
  .map((radii) => radii.map((r, i): Point => angled(r, (2 * Math.PI * i) / radii.length)))

const angled = (r: number, angle: number): Point => [r * Math.cos(angle), r * Math.sin(angle)]

export const randomPieces = (cloth: NestCloth) =>
  fc
    .array(fc.tuple(starOutline, fc.double({ min: -Math.PI, max: Math.PI, noNaN: true })), {
      minLength: 1,
      maxLength: 5,
    })
    .map((shapes) =>
      shapes.flatMap(([outline, angle], i) =>
        ['A', 'B'].map((can): NestPiece => ({ id: `${can}-${i}`, cloth, outline, angle })),
      ),
    )

export interface Bay {
  readonly root: number
  readonly tip: number
  readonly tipOffset: number
  /** Tip to tip, and half the strip on the body. */
  readonly width: number
  readonly bodyHalf: number
}

/** The bay of the workshop's supersonic fin: root 300, tip 120, span 110, tube radius 51, fillet tool 15, four fins, mm. */
export const demoBay: Bay = { root: 0.3, tip: 0.12, tipOffset: 0.15, width: 0.2879, bodyHalf: 0.034 }

/** A ply over a bay: `step` short of the tips, `over` past every edge, `run` past the root's ends along the body. */
export function bayOutline(bay: Bay, { step = 0, over = 0, run = 0 }): Point[] {
  const h = bay.width / 2 - step + over
  const reach = bay.width / 2 - bay.bodyHalf
  const leading = (y: number): number => (bay.tipOffset * (y - bay.bodyHalf)) / reach - over
  const trailing = (y: number): number =>
    bay.root + ((bay.tipOffset + bay.tip - bay.root) * (y - bay.bodyHalf)) / reach + over
  const upper: Point[] = [
    [bay.root + over + run, bay.bodyHalf],
    [trailing(h), h],
    [leading(h), h],
    [-over - run, bay.bodyHalf],
  ]
  return [...upper, ...[...upper].reverse().map(([x, y]): Point => [x, -y])]
}
