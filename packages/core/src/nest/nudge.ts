/**
 * A placed piece moved by hand, as far as it may go.
 *
 * The piece moves straight towards the target until it meets the edge of where it may lie: another piece's no-fit region, a
 * defect's, the selvedge or the end of the roll; from there it slides along that edge as long as this brings it nearer
 * to the target. It never jumps over anything, and wherever it stops is legal. A turn asked for is made first, about the
 * middle of the piece, if it may lie so; else it is left out.
 *
 * A layout may lie a little inside the no-fit regions used here, because it was made with outlines simplified otherwise. A
 * piece that does so is kept from going deeper, and where it stops is measured against its neighbours' true outlines.
 *
 * A straight way from p along d meets an edge with outward normal n after (p − e)·n / (−d·n) of d.
 */
import type { Checked, Issue } from '../issue.ts'
import { stockLengths } from './defects.ts'
import { type NoFitTable, noFitTable } from './no-fit.ts'
import { isDeepInside, type Outline } from './outline.ts'
import type { NestedRoll, NestPiece, PiecePlacement, StockRoll } from './piece.ts'
import { fineSimplify, gridPerMetre, type Shape, shapesOf } from './shape.ts'
import { allowedTurns, isBalanced, placedOutline, rotationFor, turned } from './turn.ts'
import { areApart } from './verify.ts'

export interface Nudge {
  readonly piece: string
  /** Where its origin is to go, roll axes, m. */
  readonly x: number
  readonly y: number
  /** Half or quarter turns, counter-clockwise, on top of how it lies; 0 by default. */
  readonly quarters?: number
}

export interface Nudged {
  /** The roll with the piece moved; its used length, density and waste follow. */
  readonly roll: NestedRoll
  readonly placement: PiecePlacement
  /** Whether it lies at the target, to a micrometre, turned as asked. */
  readonly reached: boolean
  readonly isTurned: boolean
}

/** A function that moves pieces of one cloth; what it works out about the shapes serves all moves. */
export function nudger(input: {
  readonly pieces: readonly NestPiece[]
  readonly stock: readonly StockRoll[]
  readonly gap: number
}): (roll: NestedRoll, nudge: Nudge) => Checked<Nudged> {
  const { pieces, stock, gap } = input
  const shapes = pieces.length === 0 ? [] : shapesOf(pieces, isBalanced(pieces[0].cloth), gap, fineSimplify)
  const { lengths, parts } = stockLengths(stock, shapes)
  const noFit = noFitTable(parts)
  const known = new Map<string, Known>()
  shapes.forEach((shape, s) => {
    shape.pieces.forEach(({ id }, index) => {
      known.set(id, { shape, s, index })
    })
  })
  return (roll, nudge) => {
    const own = known.get(nudge.piece)
    const placement = roll.placements.find(({ piece }) => piece === nudge.piece)
    if (own === undefined || placement === undefined) return refused(nudge, 'it does not lie on this roll')
    const others = roll.placements
      .filter(({ piece }) => piece !== nudge.piece)
      .map((other) => spotOf(known.get(other.piece)!, other, roll.selvedge))
    const defects = lengths.find(({ id }) => id === roll.roll)?.defects ?? []
    const from = onCloth(own, spotOf(own, placement, roll.selvedge), roll)
    const room = roomAround({ noFit, others: [...others, ...defects], roll }, from, gap)
    if (!isLegal(room, own, from)) return refused(nudge, 'where it lies now it overlaps or leaves the cloth')
    const turn = turnedSpot(own, from, nudge.quarters ?? 0)
    const isTurned = turn !== null && isLegal(room, own, turn)
    const start = isTurned ? turn : from
    const target = spotOf(own, { ...placementOf(own, start, roll.selvedge), x: nudge.x, y: nudge.y }, roll.selvedge)
    const end = placementOf(own, moved(room, own, start, target), roll.selvedge)
    const placed = isClear(end, roll, pieces, gap) ? end : placement
    const reached = isTurned && Math.hypot(placed.x - nudge.x, placed.y - nudge.y) <= 2 / gridPerMetre
    const value = {
      roll: withPlacement(roll, placed, pieces),
      placement: placed,
      reached,
      isTurned: isTurned && placed === end,
    }
    return { ok: true, value, warnings: [] }
  }
}

interface Known {
  readonly shape: Shape
  readonly s: number
  readonly index: number
}

interface At {
  readonly variant: number
  readonly x: number
  readonly y: number
}

interface Other extends At {
  /** How deep in its no-fit region the piece may lie, grid units. */
  readonly allowed?: number
}

interface Room {
  readonly noFit: NoFitTable
  readonly others: readonly Other[]
  readonly roll: NestedRoll
}

/** Depths told apart, grid units; the first is that of `strip.ts`. */
const depths = [1, 3, 10, 30, 100, 300, 1000]

/** Allows every other the depth the piece has in it where it lies, as long as that is less than half the gap. */
function roomAround(room: Room, at: At, gap: number): Room {
  const most = Math.max(10, (gap / 2) * gridPerMetre)
  const others = room.others.map((other): Other => {
    const region = room.noFit(other.variant, at.variant)
    const depth = depths.find((depth) => !isDeepInside(region, at.x - other.x, at.y - other.y, depth))
    return { ...other, allowed: depth !== undefined && depth <= most ? depth : depths[0] }
  })
  return { ...room, others }
}

/** Whether a placement keeps its distance from all others' true outlines. */
function isClear(at: PiecePlacement, roll: NestedRoll, pieces: readonly NestPiece[], gap: number): boolean {
  const outlines = new Map(pieces.map(({ id, outline }) => [id, outline]))
  const own = placedOutline(outlines.get(at.piece) ?? [], at)
  return roll.placements.every((other) => {
    return other.piece === at.piece || areApart(own, placedOutline(outlines.get(other.piece) ?? [], other), gap)
  })
}

function refused(nudge: Nudge, why: string): { readonly ok: false; readonly issues: readonly Issue[] } {
  const message = `Piece ${nudge.piece} cannot be moved: ${why}.`
  const hint = 'Nest the pieces again, or move another piece first.'
  return { ok: false, issues: [{ code: 'nest/nudge-refused', path: 'nest.rolls', value: nudge.piece, message, hint }] }
}

function spotOf({ shape, s, index }: Known, { x, y, rotation }: PiecePlacement, selvedge: number): At {
  const { angle } = shape.pieces[index]
  const away = (k: number): number => Math.abs(Math.sin((rotationFor(angle, k) - rotation) / 2))
  const quarters = [0, 1, 2, 3].reduce((nearest, k) => (away(k) < away(nearest) ? k : nearest))
  const [u, v] = turned(shape.origins[index], (quarters * Math.PI) / 2)
  const grid = (value: number): number => Math.round(value * gridPerMetre)
  return { variant: 4 * s + quarters, x: grid(x + u), y: grid(y + v - selvedge) }
}

function placementOf({ shape, index }: Known, { variant, x, y }: At, selvedge: number): PiecePlacement {
  const { id, angle } = shape.pieces[index]
  const [u, v] = turned(shape.origins[index], ((variant % 4) * Math.PI) / 2)
  const rotation = rotationFor(angle, variant % 4)
  return { piece: id, x: x / gridPerMetre - u, y: y / gridPerMetre - v + selvedge, rotation }
}

/** The spot with turns added; null when the cloth does not allow them. */
function turnedSpot({ shape, index }: Known, { variant, x, y }: At, quarters: number): At | null {
  const turn = ((((variant % 4) + quarters) % 4) + 4) % 4
  if (!allowedTurns(isBalanced(shape.pieces[index].cloth)).includes(turn)) return null
  return { variant: variant - (variant % 4) + turn, x, y }
}

function isLegal({ noFit, others, roll }: Room, own: Known, { variant, x, y }: At): boolean {
  const { loX, hiX, loY, hiY } = limits(roll, own.shape, variant)
  if (!(x >= loX && x <= hiX && y >= loY && y <= hiY)) return false
  return !others.some((other) => {
    return isDeepInside(noFit(other.variant, variant), x - other.x, y - other.y, other.allowed ?? depths[0])
  })
}

/** Extents are rounded outwards: what lies on the very edge of the cloth is taken in by as much. */
const edgeRounding = 3

function onCloth({ shape }: Known, { variant, x, y }: At, roll: NestedRoll): At {
  const { loX, hiX, loY, hiY } = limits(roll, shape, variant)
  const inX = Math.max(loX, Math.min(hiX, x))
  const inY = Math.max(loY, Math.min(hiY, y))
  const near = Math.abs(inX - x) <= edgeRounding && Math.abs(inY - y) <= edgeRounding
  return near ? { variant, x: inX, y: inY } : { variant, x, y }
}

function limits({ width, selvedge, availableLength }: NestedRoll, { variants }: Shape, variant: number) {
  const { minX, maxX, minY, maxY } = variants[variant % 4]!
  const length = availableLength === null ? Infinity : Math.floor(availableLength * gridPerMetre)
  return { loX: -minX, hiX: length - maxX, loY: -minY, hiY: Math.floor((width - 2 * selvedge) * gridPerMetre) - maxY }
}

/** Far above what a way takes: every leg ends at another edge. */
const mostLegs = 200

function moved(room: Room, own: Known, from: At, target: At): At {
  let at = from
  for (let leg = 0; leg < mostLegs; leg++) {
    const straight = wayTo(room, own, at, target.x - at.x, target.y - at.y)
    const met = backedOff(room, own, at, straight)
    if (straight.normal === null) return met
    const [nx, ny] = straight.normal
    const [dx, dy] = [target.x - met.x, target.y - met.y]
    const inward = dx * nx + dy * ny
    const slide = wayTo(room, own, met, dx - inward * nx, dy - inward * ny)
    const next = backedOff(room, own, met, slide)
    const nearer = Math.hypot(target.x - at.x, target.y - at.y) - Math.hypot(target.x - next.x, target.y - next.y)
    if (!(nearer >= 1)) return nearer > 0 ? next : met
    at = next
  }
  return at
}

interface Way {
  readonly dx: number
  readonly dy: number
  /** Outward normal of the edge that ends it; null when nothing does. */
  readonly normal: readonly [number, number] | null
}

/** Grid units: past the depth allowed, and past an edge's ends, a piece still touches it. */
const touch = 0.5

/** As much of a straight way as is free. */
function wayTo(room: Room, own: Known, at: At, dx: number, dy: number): Way {
  const { loX, hiX, loY, hiY } = limits(room.roll, own.shape, at.variant)
  let share = 1
  let normal: readonly [number, number] | null = null
  const stop = (s: number, nx: number, ny: number): void => {
    if (s >= share) return
    share = Math.max(0, s)
    normal = [nx, ny]
  }
  if (dx < 0) stop((at.x - loX) / -dx, 1, 0)
  if (dx > 0) stop((hiX - at.x) / dx, -1, 0)
  if (dy < 0) stop((at.y - loY) / -dy, 0, 1)
  if (dy > 0) stop((hiY - at.y) / dy, 0, -1)
  for (const other of room.others) {
    const from = { x: at.x - other.x, y: at.y - other.y, dx, dy, touch: (other.allowed ?? depths[0]) + touch }
    meetEdges(room.noFit(other.variant, at.variant), from, stop)
  }
  return { dx: share * dx, dy: share * dy, normal }
}

function meetEdges(
  { count, X, Y, U, V }: Outline,
  { x, y, dx, dy, touch: depth }: { x: number; y: number; dx: number; dy: number; touch: number },
  stop: (share: number, nx: number, ny: number) => void,
): void {
  for (let e = 0; e < count; e++) {
    const length = Math.hypot(U[e], V[e])
    const [nx, ny] = [V[e] / length, -U[e] / length]
    const closing = -(dx * nx + dy * ny)
    if (!(closing > 1e-9)) continue
    const off = (x - X[e]) * nx + (y - Y[e]) * ny
    if (off < -depth || off > closing) continue
    const share = Math.max(0, off / closing)
    const along = ((x + share * dx - X[e]) * U[e] + (y + share * dy - Y[e]) * V[e]) / length
    if (along >= -touch && along <= length + touch) stop(share, nx, ny)
  }
}

/** The end of a way on the grid, taken back until it is legal; rounding may have put it a micrometre inside. */
function backedOff(room: Room, own: Known, at: At, { dx, dy }: Way): At {
  const length = Math.hypot(dx, dy)
  for (let back = 0; back < length; back = 2 * back + 1) {
    const share = 1 - back / length
    const end = { variant: at.variant, x: Math.round(at.x + share * dx), y: Math.round(at.y + share * dy) }
    if (isLegal(room, own, end)) return end
  }
  return at
}

function withPlacement(roll: NestedRoll, placed: PiecePlacement, pieces: readonly NestPiece[]): NestedRoll {
  const outlines = new Map(pieces.map(({ id, outline }) => [id, outline]))
  const placements = roll.placements.map((placement) => (placement.piece === placed.piece ? placed : placement))
  const ends = placements.flatMap((placement) => placedOutline(outlines.get(placement.piece) ?? [], placement))
  const usedLength = ends.reduce((most, [x]) => Math.max(most, x), 0)
  const area = roll.width * roll.usedLength - roll.waste
  const used = roll.width * usedLength
  return { ...roll, placements, usedLength, density: area / used, waste: used - area }
}
