/**
 * An independent look at a finished nest: nothing of the search is used, only the pieces as given, the placements and
 * the rolls. A fault in a nest of ours is a fault of ours, so `verifyNest` throws; `nestFault` tells it, for a nest that a plan states.
 *
 * Checked: every piece lies on one roll, once; its warp lies along the roll, or across it for balanced cloth (a film has none); it lies
 * between the selvedges and within the length, off the roll's defects; no two cut areas intersect (polygon clipping at 0.1 µm); no two cut
 * edges come nearer than the gap (distances between segments, in floating point).
 */
import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import { invariant } from '../issue.ts'
import type { NestedRoll, NestPiece, Point, StockRoll } from './piece.ts'
import { isBalanced, placedOutline, turned, warpDirection } from './turn.ts'

/** Positions are sums of a few rounded terms of the order of metres. */
const lengthTolerance = 1e-9
const angleTolerance = 1e-9
const clipPerMetre = 1e7

interface Laid {
  readonly id: string
  readonly outline: readonly Point[]
  readonly box: Box
}

interface Box {
  readonly minX: number
  readonly maxX: number
  readonly minY: number
  readonly maxY: number
}

export function verifyNest(
  pieces: readonly NestPiece[],
  rolls: readonly NestedRoll[],
  gap: number,
  stock: readonly StockRoll[] = [],
): void {
  const fault = nestFault({ pieces, rolls, gap, stock })
  invariant(fault === null, fault ?? '')
}

export interface LaidNest {
  readonly pieces: readonly NestPiece[]
  readonly rolls: readonly NestedRoll[]
  readonly gap: number
  readonly stock: readonly StockRoll[]
}

/** What is wrong with a nest, of whatever origin; null when it may be cut. */
export function nestFault({ pieces, rolls, gap, stock }: LaidNest): string | null {
  try {
    look(pieces, rolls, gap, stock)
    return null
  } catch (error) {
    if (error instanceof Fault) return error.message
    throw error
  }
}

class Fault extends Error {}

function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new Fault(message)
}

function look(
  pieces: readonly NestPiece[],
  rolls: readonly NestedRoll[],
  gap: number,
  stock: readonly StockRoll[],
): void {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]))
  const seen = new Set<string>()
  for (const roll of rolls) {
    const laid = roll.placements.map((placement) => {
      const piece = byId.get(placement.piece)
      demand(piece !== undefined && !seen.has(piece.id), `${placement.piece} is nested once`)
      demand(piece.cloth.id === roll.cloth, `${piece.id} lies on its own cloth`)
      seen.add(piece.id)
      verifyWarp(piece, placement.rotation)
      const outline = placedOutline(piece.outline, placement)
      return { id: piece.id, outline, box: boxOf(outline) }
    })
    for (const piece of laid) verifyInside(piece, roll)
    laid.forEach((piece, i) => {
      for (const other of laid.slice(i + 1)) verifyApart(piece, other, gap)
    })
    const defects = stock.find(({ id, cloth }) => id === roll.roll && cloth.id === roll.cloth)?.defects ?? []
    defects.forEach((outline, d) => {
      for (const piece of laid) verifyApart(piece, { id: `defect ${d + 1}`, outline, box: boxOf(outline) }, 0)
    })
  }
  demand(seen.size === pieces.length, `all ${pieces.length} pieces are nested, ${seen.size} were`)
}

function verifyWarp({ id, angle, cloth }: NestPiece, rotation: number): void {
  if (cloth.weave === 'film') return
  const [along, across] = turned(warpDirection(angle), rotation)
  const skew = isBalanced(cloth) ? Math.min(Math.abs(along), Math.abs(across)) : Math.abs(across)
  demand(skew <= angleTolerance, `the warp of ${id} lies along the roll`)
}

function verifyInside({ id, box }: Laid, { width, selvedge, usedLength, availableLength }: NestedRoll): void {
  const inside = box.minY >= selvedge - lengthTolerance && box.maxY <= width - selvedge + lengthTolerance
  demand(inside, `${id} lies between the selvedges`)
  demand(box.minX >= -lengthTolerance && box.maxX <= usedLength + lengthTolerance, `${id} lies in the used length`)
  demand(availableLength === null || box.maxX <= availableLength + lengthTolerance, `${id} lies on the roll`)
}

function verifyApart(p: Laid, q: Laid, gap: number): void {
  if (boxDistance(p.box, q.box) > gap) return
  const overlap = areaPaths(intersect([onClipGrid(p.outline)], [onClipGrid(q.outline)], FillRule.NonZero))
  demand(overlap === 0, `${p.id} and ${q.id} do not overlap`)
  const distance = Math.min(cornersToEdges(p.outline, q, gap), cornersToEdges(q.outline, p, gap))
  demand(distance >= gap - lengthTolerance, `${p.id} and ${q.id} lie ${gap} m apart, not ${distance} m`)
}

/** Whether two outlines share no area and lie at least `gap` apart. */
export function areApart(P: readonly Point[], Q: readonly Point[], gap: number): boolean {
  const [p, q] = [P, Q].map((outline): Laid => ({ id: '', outline, box: boxOf(outline) }))
  if (boxDistance(p.box, q.box) > gap) return true
  if (areaPaths(intersect([onClipGrid(P)], [onClipGrid(Q)], FillRule.NonZero)) !== 0) return false
  return Math.min(cornersToEdges(P, q, gap), cornersToEdges(Q, p, gap)) >= gap - lengthTolerance
}

function boxOf(outline: readonly Point[]): Box {
  const X = outline.map(([x]) => x)
  const Y = outline.map(([, y]) => y)
  return { minX: Math.min(...X), maxX: Math.max(...X), minY: Math.min(...Y), maxY: Math.max(...Y) }
}

function boxDistance(a: Box, b: Box): number {
  const dx = Math.max(a.minX - b.maxX, b.minX - a.maxX, 0)
  const dy = Math.max(a.minY - b.maxY, b.minY - a.maxY, 0)
  return Math.hypot(dx, dy)
}

const onClipGrid = (outline: readonly Point[]) =>
  outline.map(([x, y]) => ({ x: Math.round(x * clipPerMetre), y: Math.round(y * clipPerMetre) }))

/**
 * Least distance from the corners of one outline to the edges of another, Infinity when it is more than `gap`. From each
 * to the other, this is the distance of two outlines that do not cross.
 */
function cornersToEdges(corners: readonly Point[], { outline, box }: Laid, gap: number): number {
  let least = Infinity
  for (const corner of corners) {
    const [x, y] = corner
    if (boxDistance({ minX: x, maxX: x, minY: y, maxY: y }, box) > gap) continue
    for (let i = 0; i < outline.length; i++) {
      least = Math.min(least, distanceToEdge(corner, outline[i], outline[(i + 1) % outline.length]))
    }
  }
  return least
}

function distanceToEdge([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const u = bx - ax
  const v = by - ay
  const along = (x - ax) * u + (y - ay) * v
  const share = along <= 0 ? 0 : Math.min(1, along / (u * u + v * v))
  return Math.hypot(x - ax - share * u, y - ay - share * v)
}
