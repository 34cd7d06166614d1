/**
 * How a piece may be turned on the cloth.
 *
 * The warp of a piece at angle θ (from +Y towards +X, bay axes) points along (sin θ, cos θ), which is the direction
 * π/2 − θ counter-clockwise from +X. The warp of a roll points along its x axis. Turning the piece counter-clockwise by
 * ρ lays the one along the other when
 *
 *   ρ = θ − π/2 + k π/2          k = 0, 2                                      (warp along the roll)
 *                                k = 1, 3  only where warp and weft are alike  (warp across the roll)
 *
 * A piece is never turned face down. Warp and weft count as alike when half the fibre runs along the warp and both
 * faces show the same cloth; the two faces of a satin do not, and a quarter turn would swap which of its yarns lies
 * outward.
 */
import type { NestCloth, Point } from './piece.ts'

const quarterTurn = Math.PI / 2

/** Catalogue shares are stated to the per cent; half of one decides. */
const shareTolerance = 0.005

export function isBalanced({ weave, warpShare }: NestCloth): boolean {
  return weave !== 'satin' && Math.abs(warpShare.value - 0.5) <= shareTolerance
}

/** Quarter turns allowed on top of the rotation that first lays the warp along the roll. */
export const allowedTurns = (balanced: boolean): readonly number[] => (balanced ? [0, 1, 2, 3] : [0, 2])

/** Counter-clockwise rotation, in [0, 2π), of a piece whose warp is at `angle`, for a number of quarter turns. */
export function rotationFor(angle: number, quarters: number): number {
  return wrapped(angle + (quarters - 1) * quarterTurn)
}

/** The direction of a piece's warp in bay axes, before it is turned. */
export const warpDirection = (angle: number): Point => [Math.sin(angle), Math.cos(angle)]

/** Turns a point counter-clockwise about the origin. */
export function turned([x, y]: Point, rotation: number): Point {
  const c = exact(Math.cos(rotation))
  const s = exact(Math.sin(rotation))
  return [x * c - y * s, x * s + y * c]
}

export function placedOutline(
  outline: readonly Point[],
  { x, y, rotation }: { readonly x: number; readonly y: number; readonly rotation: number },
): Point[] {
  return outline.map((point) => {
    const [u, v] = turned(point, rotation)
    return [u + x, v + y]
  })
}

/** Least extent across the roll over the allowed turns. */
export function leastWidth(outline: readonly Point[], angle: number, balanced: boolean): number {
  return Math.min(...allowedTurns(balanced).map((quarters) => acrossExtent(outline, rotationFor(angle, quarters))))
}

function acrossExtent(outline: readonly Point[], rotation: number): number {
  const across = outline.map((point) => turned(point, rotation)[1])
  return Math.max(...across) - Math.min(...across)
}

/** Sine and cosine of a quarter turn, to the last bit: 6e-17 is not a skew. */
const exact = (value: number): number => (Math.abs(value) < 1e-15 ? 0 : value)

function wrapped(angle: number): number {
  const turns = angle / (2 * Math.PI)
  const rest = (turns - Math.floor(turns)) * 2 * Math.PI
  return 2 * Math.PI - rest < 1e-12 || rest < 1e-12 ? 0 : rest
}
