/**
 * The outline of a union of overlapping convex polygons, and whether a point lies well inside it.
 *
 * Every edge of every polygon is cut where it meets another polygon; a piece of edge belongs to the outline when a point
 * just off its outer side lies in none of them. That is a few thousand products for the polygons met here, an order
 * of magnitude less than a general polygon clipper takes. Pieces shorter than `tiny` are left out: a hole of the outline
 * as short as that does not matter to `isDeepInside`, which measures distances above it.
 *
 * Corners are integers below 2^25, cuts are not rounded.
 */
import type { Loop } from './convex.ts'

/** Grid units. Above the rounding of a cut, below anything that can be cut in cloth. */
const tiny = 0.25

/**
 * Directed edges, the region on their left, in no order; and the convex parts that make up the region before it is
 * turned by `quarters` quarter turns.
 */
export interface Outline {
  readonly count: number
  readonly X: Float64Array
  readonly Y: Float64Array
  /** Edge vectors from (X, Y). */
  readonly U: Float64Array
  readonly V: Float64Array
  readonly parts: readonly Part[]
  readonly quarters: number
  readonly minX: number
  readonly maxX: number
  readonly minY: number
  readonly maxY: number
}

/** A convex polygon by its edges: origin, vector and length. */
export interface Part {
  readonly count: number
  readonly X: Float64Array
  readonly Y: Float64Array
  readonly U: Float64Array
  readonly V: Float64Array
  readonly L: Float64Array
}

export function unionOutline(loops: readonly Loop[]): Outline {
  const parts = withoutBuried(loops.map(partOf))
  const edges = parts.length === 1 ? edgesOf(parts[0]) : parts.flatMap((_, i) => outerPieces(parts, i))
  const count = edges.length
  const [X, Y, U, V] = Array.from({ length: 4 }, () => new Float64Array(count))
  edges.forEach(([x, y, u, v], e) => {
    X[e] = x
    Y[e] = y
    U[e] = u
    V[e] = v
  })
  const [minX, maxX, minY, maxY] = [Math.min(...X), Math.max(...X), Math.min(...Y), Math.max(...Y)]
  return { count, X, Y, U, V, parts, quarters: 0, minX, maxX, minY, maxY }
}

/** Turns an outline counter-clockwise about the origin by quarter turns. The parts stay as they are: points are turned back. */
export function turnedOutline(outline: Outline, quarters: number): Outline {
  if (quarters === 0) return outline
  const { count, parts } = outline
  const [X, Y] = turnedColumns(outline.X, outline.Y, quarters)
  const [U, V] = turnedColumns(outline.U, outline.V, quarters)
  const [x0, y0] = turnedPair(outline.minX, outline.minY, quarters)
  const [x1, y1] = turnedPair(outline.maxX, outline.maxY, quarters)
  const box = { minX: Math.min(x0, x1), maxX: Math.max(x0, x1), minY: Math.min(y0, y1), maxY: Math.max(y0, y1) }
  return { count, X, Y, U, V, parts, quarters: (outline.quarters + quarters) % 4, ...box }
}

function turnedColumns(X: Float64Array, Y: Float64Array, quarters: number): [Float64Array, Float64Array] {
  const A = new Float64Array(X.length)
  const B = new Float64Array(X.length)
  for (let e = 0; e < X.length; e++) [A[e], B[e]] = turnedPair(X[e], Y[e], quarters)
  return [A, B]
}

function turnedPair(x: number, y: number, quarters: number): [number, number] {
  if (quarters === 1) return [-y, x]
  return quarters === 2 ? [-x, -y] : [y, -x]
}

/** Whether (x, y) lies inside the region and more than `depth` from its outline; `depth` is above `tiny`. */
export function isDeepInside(outline: Outline, x: number, y: number, depth: number): boolean {
  const { minX, maxX, minY, maxY, parts, quarters } = outline
  if (!(x > minX + depth && x < maxX - depth && y > minY + depth && y < maxY - depth)) return false
  const px = quarters === 0 ? x : quarters === 1 ? y : quarters === 2 ? -x : -y
  const py = quarters === 0 ? y : quarters === 1 ? -x : quarters === 2 ? -y : x
  for (let i = 0; i < parts.length; i++) if (isInside(parts[i], px, py, depth)) return true
  if (parts.length === 1) return false
  for (let i = 0; i < parts.length; i++) {
    if (isInside(parts[i], px, py, -tiny)) return !isNearEdge(outline, x, y, depth)
  }
  return false
}

/** Whether (x, y) lies in a convex polygon and more than `depth` from each of its edges' lines. */
function isInside({ count, X, Y, U, V, L }: Part, x: number, y: number, depth: number): boolean {
  for (let e = 0; e < count; e++) if (!(U[e] * (y - Y[e]) - V[e] * (x - X[e]) > depth * L[e])) return false
  return true
}

function isNearEdge({ count, X, Y, U, V }: Outline, x: number, y: number, depth: number): boolean {
  for (let e = 0; e < count; e++) {
    const dx = x - X[e]
    const dy = y - Y[e]
    const share = Math.min(1, Math.max(0, (dx * U[e] + dy * V[e]) / (U[e] * U[e] + V[e] * V[e])))
    if ((dx - share * U[e]) ** 2 + (dy - share * V[e]) ** 2 <= depth * depth) return true
  }
  return false
}

function partOf(loop: Loop): Part {
  const count = loop.length
  const [X, Y, U, V, L] = Array.from({ length: 5 }, () => new Float64Array(count))
  for (let e = 0; e < count; e++) {
    const a = loop[e]
    const b = loop[(e + 1) % count]
    X[e] = a.x
    Y[e] = a.y
    U[e] = b.x - a.x
    V[e] = b.y - a.y
    L[e] = Math.hypot(U[e], V[e])
  }
  return { count, X, Y, U, V, L }
}

/** Leaves out parts that lie in another, and puts those first that are likeliest to hold a point. */
function withoutBuried(parts: readonly Part[]): Part[] {
  const kept = [...parts].sort((a, b) => girth(b) - girth(a))
  for (let i = kept.length - 1; i >= 0; i--) {
    if (kept.some((other) => other !== kept[i] && holds(other, kept[i]))) kept.splice(i, 1)
  }
  return kept
}

/** Sum of the edges' lengths: the greater, the larger the polygon. */
const girth = ({ L }: Part): number => L.reduce((sum, length) => sum + length, 0)

function holds(outer: Part, { count, X, Y }: Part): boolean {
  for (let e = 0; e < count; e++) if (!isInside(outer, X[e], Y[e], -tiny)) return false
  return true
}

type Edge = readonly [x: number, y: number, u: number, v: number]

function edgesOf({ count, X, Y, U, V }: Part): Edge[] {
  return Array.from({ length: count }, (_, e) => [X[e], Y[e], U[e], V[e]])
}

/** The pieces of the edges of one part that lie on the outline. */
function outerPieces(parts: readonly Part[], own: number): Edge[] {
  const { count, X, Y, U, V } = parts[own]
  const pieces: Edge[] = []
  for (let e = 0; e < count; e++) {
    if (isBuried(parts, own, e)) continue
    for (const [from, to] of outerSpans(parts, own, e)) {
      pieces.push([X[e] + from * U[e], Y[e] + from * V[e], (to - from) * U[e], (to - from) * V[e]])
    }
  }
  return pieces
}

/** Whether another part holds both ends of an edge, and so all of it. */
function isBuried(parts: readonly Part[], own: number, e: number): boolean {
  const { X, Y, U, V } = parts[own]
  for (let i = 0; i < parts.length; i++) {
    if (i === own || !isInside(parts[i], X[e], Y[e], tiny)) continue
    if (isInside(parts[i], X[e] + U[e], Y[e] + V[e], tiny)) return true
  }
  return false
}

/** Spans of one edge, as shares of it, outside which no other part lies. */
function outerSpans(parts: readonly Part[], own: number, e: number): [number, number][] {
  const cuts = cutsOf(parts, own, e)
  const spans: [number, number][] = []
  for (let n = 0; n + 1 < cuts.length; n++) {
    if ((cuts[n + 1] - cuts[n]) * parts[own].L[e] < tiny) continue
    if (!isOuter(parts, own, e, (cuts[n] + cuts[n + 1]) / 2)) continue
    const latest = spans[spans.length - 1]
    if (latest !== undefined && latest[1] === cuts[n]) latest[1] = cuts[n + 1]
    else spans.push([cuts[n], cuts[n + 1]])
  }
  return spans
}

/** Where other parts cut an edge, as shares of it in rising order, with both ends. */
function cutsOf(parts: readonly Part[], own: number, e: number): number[] {
  const { X, Y, U, V, L } = parts[own]
  const cuts = [0, 1]
  const offer = (s: number): void => {
    if (s > 0 && s < 1) cuts.push(s)
  }
  for (let i = 0; i < parts.length; i++) {
    if (i === own) continue
    const part = parts[i]
    for (let f = 0; f < part.count; f++) {
      const dx = part.X[f] - X[e]
      const dy = part.Y[f] - Y[e]
      const den = U[e] * part.V[f] - V[e] * part.U[f]
      if (den !== 0) {
        const t = (dx * V[e] - dy * U[e]) / den
        if (t >= 0 && t <= 1) offer((dx * part.V[f] - dy * part.U[f]) / den)
      } else if (Math.abs(U[e] * dy - V[e] * dx) < tiny * L[e]) {
        const s = (dx * U[e] + dy * V[e]) / L[e] ** 2
        offer(s)
        offer(s + (part.U[f] * U[e] + part.V[f] * V[e]) / L[e] ** 2)
      }
    }
  }
  return cuts.sort((a, b) => a - b)
}

/** Whether just outside a point of an edge there is no other part, and no earlier part has the same edge there. */
function isOuter(parts: readonly Part[], own: number, e: number, s: number): boolean {
  const { X, Y, U, V, L } = parts[own]
  const x = X[e] + s * U[e]
  const y = Y[e] + s * V[e]
  const offX = x + (tiny * V[e]) / L[e]
  const offY = y - (tiny * U[e]) / L[e]
  for (let i = 0; i < parts.length; i++) if (i !== own && isInside(parts[i], offX, offY, 0)) return false
  for (let i = 0; i < own; i++) if (hasEdgeAt(parts[i], x, y, U[e], V[e])) return false
  return true
}

/** Whether a part has an edge through (x, y) in the direction (u, v). */
function hasEdgeAt({ count, X, Y, U, V, L }: Part, x: number, y: number, u: number, v: number): boolean {
  for (let f = 0; f < count; f++) {
    if (u * V[f] - v * U[f] !== 0 || u * U[f] + v * V[f] <= 0) continue
    const across = Math.abs(U[f] * (y - Y[f]) - V[f] * (x - X[f])) / L[f]
    const along = (U[f] * (x - X[f]) + V[f] * (y - Y[f])) / L[f]
    if (across < tiny && along >= 0 && along <= L[f]) return true
  }
  return false
}
