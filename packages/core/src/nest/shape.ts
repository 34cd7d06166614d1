/**
 * Pieces reduced to the shapes that repeat, on an integer grid of micrometres.
 *
 * Pieces of one cloth with the same warp angle and the same outline, wherever its origin, are one shape. A shape holds
 * the cut outline turned so that its warp lies along x, about the middle of its extent, and the same outline grown by
 * half the cutting gap. Two grown outlines that do not overlap leave a gap between the cut ones.
 *
 * The outline is first simplified to one that holds it. Growth is mitred (square where a mitre would run past twice the
 * growth), which nowhere lies inside the true parallel curve; `slack` is added for the rounding to the grid and of
 * positions.
 */
import { area, EndType, inflatePaths, JoinType } from 'clipper2-ts'
import { invariant } from '../issue.ts'
import { convexHull, convexParts, type Loop } from './convex.ts'
import { enclosing } from './enclosing.ts'
import { turnedLoops } from './no-fit.ts'
import type { NestPiece, Point } from './piece.ts'
import type { Variant } from './strip.ts'
import { allowedTurns, rotationFor, turned } from './turn.ts'

/** Grid units a metre. Products of coordinates of up to 30 m are exact in a double. */
export const gridPerMetre = 1e6

/**
 * Grid units. Two shapes take up 8: twice rounding a corner, simplified (√2/2), as drawn (√2/2) and grown (√2/2), and
 * twice 0.5 between outlines that count as equal; once the depth of a position (1). That is 6.3.
 */
const slack = 4

/** What a simplified outline may add: area as a share of the piece's, and reach in grid units. */
export interface Simplify {
  readonly area: number
}
/** For filling alone, and for the long search, which no-fit regions of more corners cost little. */
export const quickSimplify: Simplify = { area: 0.01 }
export const fineSimplify: Simplify = { area: 1e-4 }
const addedReach = 1e-3 * gridPerMetre

export interface Shape {
  readonly pieces: readonly NestPiece[]
  /** Quarter turns worth trying, on top of the rotation that lays the warp along the roll. */
  readonly turns: readonly number[]
  /** Where the shape's own origin lies in the outline of each piece turned by `rotationFor(angle, 0)`, m. */
  readonly origins: readonly Point[]
  readonly area: number
  /** Extents of the cut outline by quarter turn, rounded outwards; null where the turn is not allowed. */
  readonly variants: readonly (Variant | null)[]
  /** Convex parts of the grown outline. */
  readonly parts: readonly Loop[]
}

/** Groups the pieces of one cloth; `gap` is the least distance between two cut edges, m. */
export function shapesOf(
  pieces: readonly NestPiece[],
  balanced: boolean,
  gap: number,
  simplify: Simplify = quickSimplify,
): Shape[] {
  const groups = new Map<string, NestPiece[]>()
  for (const piece of pieces) {
    const key = keyOf(piece)
    groups.set(key, [...(groups.get(key) ?? []), piece])
  }
  return [...groups.values()].map((group) => shapeOf(group, balanced, gap, simplify))
}

function shapeOf(pieces: readonly NestPiece[], balanced: boolean, gap: number, simplify: Simplify): Shape {
  const rotation = rotationFor(pieces[0].angle, 0)
  const origins = pieces.map((piece) => middle(piece.outline.map((point) => turned(point, rotation))))
  const cut = onGrid(pieces[0].outline, rotation, origins[0])
  const turns = allowedTurns(balanced)
  const pieceArea = shoelace(pieces[0].outline)
  invariant(pieceArea > 0, `the outline of ${pieces[0].id} is counter-clockwise`)
  return {
    pieces,
    turns: distinctTurns(cut, turns),
    origins,
    area: pieceArea,
    variants: [0, 1, 2, 3].map((turn) => (turns.includes(turn) ? extents(turnedLoops([cut], turn)[0]) : null)),
    parts: convexParts(grown(cut, (gap / 2) * gridPerMetre, simplify)),
  }
}

/** Signed area of an outline, m². */
export function shoelace(outline: readonly Point[]): number {
  let twice = 0
  outline.forEach(([x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]
    twice += x * v - u * y
  })
  return twice / 2
}

/** Micrometre outline about the middle of its extent, with the warp angle: equal for pieces that may share a shape. */
function keyOf({ outline, angle }: NestPiece): string {
  const origin = middle(outline)
  const points = onGrid(outline, 0, origin).map(({ x, y }) => `${x},${y}`)
  return `${angle.toFixed(9)} ${points.join(' ')}`
}

function middle(points: readonly Point[]): Point {
  const X = points.map(([x]) => x)
  const Y = points.map(([, y]) => y)
  return [(Math.min(...X) + Math.max(...X)) / 2, (Math.min(...Y) + Math.max(...Y)) / 2]
}

function onGrid(outline: readonly Point[], rotation: number, origin: Point): Loop {
  return outline.map((point) => {
    const [x, y] = turned(point, rotation)
    return { x: rounded((x - origin[0]) * gridPerMetre), y: rounded((y - origin[1]) * gridPerMetre) }
  })
}

/** Rounds halves away from zero, so that a symmetric outline stays symmetric. */
const rounded = (value: number): number => Math.sign(value) * Math.round(Math.abs(value))

/** Leaves out turns that map the outline onto itself, such as the half turn of a rectangle. */
function distinctTurns(cut: Loop, turns: readonly number[]): number[] {
  const seen = new Set<string>()
  return turns.filter((turn) => {
    const key = fromLeast(turnedLoops([cut], turn)[0])
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}

/** The loop as text, begun at its leftmost lowest point. */
function fromLeast(loop: Loop): string {
  let least = 0
  loop.forEach(({ x, y }, i) => {
    if (x < loop[least].x || (x === loop[least].x && y < loop[least].y)) least = i
  })
  return [...loop.slice(least), ...loop.slice(0, least)].map(({ x, y }) => `${x},${y}`).join(' ')
}

function extents(loop: Loop): Variant {
  const X = loop.map(({ x }) => x)
  const Y = loop.map(({ y }) => y)
  return { minX: Math.min(...X) - 2, maxX: Math.max(...X) + 2, minY: Math.min(...Y) - 2, maxY: Math.max(...Y) + 2 }
}

/** The outline simplified and grown by `growth` and the slack; a hollow that closes is filled. */
function grown(cut: Loop, growth: number, simplify: Simplify): Loop {
  const simple = copied(enclosing(cut, { area: simplify.area * area(copied(cut)), reach: addedReach }))
  const loops = inflatePaths([simple], growth + slack, JoinType.Miter, EndType.Polygon, 2)
  const outer = loops.filter((loop) => area(loop) > 0)
  invariant(outer.length >= 1, 'a piece grown by the cutting gap still has an outline')
  return outer.length === 1 ? outer[0] : convexHull(outer.flat())
}

const copied = (loop: Loop): { x: number; y: number }[] => loop.map(({ x, y }) => ({ x, y }))
