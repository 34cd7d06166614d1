/**
 * Film has no warp, so its pieces may lie at any turn. Which turns are worth a try: a shape's least width lies square to a side
 * of its convex hull, and so does a side of the least rectangle around it (Freeman & Shapira, Determining the minimum-area
 * encasing rectangle for an arbitrary closed curve, Communications of the ACM 18 (1975) 409–413; recalled). The quarter turns
 * on top of each are those of balanced cloth.
 *
 * A turn is written as the angle that a warp would have had to lie along the roll then, so that all else goes by angles.
 */
import { convexHull, type Loop } from './convex.ts'
import type { NestCloth, NestedRoll, NestPiece, Point } from './piece.ts'
import { gridPerMetre } from './shape.ts'
import { leastWidth } from './turn.ts'

const hasNoWarp = ({ weave }: NestCloth): boolean => weave === 'film'

/** Sides of the hull tried, the longest first; the rest gains little and each takes a nest of its own. */
const mostTurns = 6

/**
 * The pieces at every turn worth a try; of each the same pick, so that the two hands of a shape turn opposite ways. As given
 * where the cloth has a warp.
 */
export function turnsWorthATry(cloth: NestCloth, pieces: readonly NestPiece[]): readonly (readonly NestPiece[])[] {
  if (!hasNoWarp(cloth)) return [pieces]
  const angles = pieces.map(({ outline, angle }) => [angle, ...hullAngles(outline)])
  const most = Math.min(mostTurns, Math.max(...angles.map(({ length }) => length)))
  return Array.from({ length: most }, (_, k) =>
    pieces.map((piece, i) => ({ ...piece, angle: angles[i]![Math.min(k, angles[i]!.length - 1)]! })),
  )
}

/** Pieces of film at the turns that they have on the cloth, so that they can be moved by hand from there. */
export function piecesAsLaid(pieces: readonly NestPiece[], rolls: readonly NestedRoll[]): NestPiece[] {
  const rotations = new Map(rolls.flatMap(({ placements }) => placements.map((at) => [at.piece, at.rotation] as const)))
  return pieces.map((piece) => {
    const rotation = rotations.get(piece.id)
    return rotation === undefined || !hasNoWarp(piece.cloth) ? piece : { ...piece, angle: quarterOf(rotation) }
  })
}

/** Two sides are told apart from this on, rad. */
const sameTurn = 1e-3

/** The one that makes the piece narrowest first, then by the length of the side that lies along the roll. */
function hullAngles(outline: readonly Point[]): number[] {
  const hull = convexHull(onGrid(outline))
  const sides = hull.map((a, i) => {
    const b = hull[(i + 1) % hull.length]!
    // a side at phi from +X lies along the roll when the warp angle is π/2 + phi less a quarter turn
    return { angle: quarterOf(-Math.atan2(b.y - a.y, b.x - a.x)), length: Math.hypot(b.x - a.x, b.y - a.y) }
  })
  sides.sort((a, b) => b.length - a.length)
  const kept: number[] = []
  for (const { angle } of sides) if (!kept.some((other) => apart(other, angle) < sameTurn)) kept.push(angle)
  const narrowest = kept.reduce((a, b) => (leastWidth(outline, b, true) < leastWidth(outline, a, true) ? b : a), 0)
  return [narrowest, ...kept.filter((angle) => angle !== narrowest)]
}

/** In [0, π/2): quarter turns come on top. */
function quarterOf(angle: number): number {
  const quarter = Math.PI / 2
  const rest = angle - Math.floor(angle / quarter) * quarter
  return quarter - rest < 1e-12 || rest < 1e-12 ? 0 : rest
}

function apart(a: number, b: number): number {
  const off = Math.abs(a - b)
  return Math.min(off, Math.PI / 2 - off)
}

const onGrid = (outline: readonly Point[]): Loop =>
  outline.map(([x, y]) => ({ x: Math.round(x * gridPerMetre), y: Math.round(y * gridPerMetre) }))
