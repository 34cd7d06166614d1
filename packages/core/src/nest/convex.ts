/**
 * A simple polygon as a union of convex parts: ears are cut off, then parts are joined across every diagonal whose
 * removal leaves both ends convex (Hertel & Mehlhorn, Fast triangulation of simple polygons, FCT 1983: at most four
 * times the least number of parts; recalled).
 *
 * Coordinates are integers below 2^25, so that every cross product is exact in a double. Loops are counter-clockwise.
 * Should no ear be found (a loop that touches itself) the rest is covered by its convex hull: too large, never too small.
 */
export interface GridPoint {
  readonly x: number
  readonly y: number
}

export type Loop = readonly GridPoint[]

export function convexParts(loop: Loop): Loop[] {
  const outline = withoutCollinear(loop)
  return isConvex(outline) ? [outline] : merged(triangles(outline))
}

/** Twice the signed area of the triangle a, b, c; positive when c lies left of a → b. */
export const cross = (a: GridPoint, b: GridPoint, c: GridPoint): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)

export function isConvex(loop: Loop): boolean {
  const n = loop.length
  for (let i = 0; i < n; i++) if (cross(loop[i], loop[(i + 1) % n], loop[(i + 2) % n]) < 0) return false
  return true
}

export function convexHull(points: Loop): Loop {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y)
  const lower = chain(sorted)
  const upper = chain(sorted.reverse())
  return [...lower.slice(0, -1), ...upper.slice(0, -1)]
}

function chain(points: Loop): GridPoint[] {
  const hull: GridPoint[] = []
  for (const point of points) {
    while (hull.length >= 2 && cross(hull[hull.length - 2], hull[hull.length - 1], point) <= 0) hull.pop()
    hull.push(point)
  }
  return hull
}

/** Drops repeated points and points on the line between their neighbours. */
function withoutCollinear(loop: Loop): Loop {
  const n = loop.length
  const kept = loop.filter((point, i) => cross(loop[(i + n - 1) % n], point, loop[(i + 1) % n]) !== 0)
  return kept.length === n || kept.length < 3 ? kept : withoutCollinear(kept)
}

function triangles(outline: Loop): Loop[] {
  const rest = [...outline]
  const parts: Loop[] = []
  while (rest.length > 3) {
    const ear = rest.findIndex((_, i) => isEar(rest, i))
    if (ear < 0) return [...parts, convexHull(rest)]
    const n = rest.length
    parts.push([rest[(ear + n - 1) % n], rest[ear], rest[(ear + 1) % n]])
    rest.splice(ear, 1)
  }
  return cross(rest[0], rest[1], rest[2]) > 0 ? [...parts, rest] : parts
}

function isEar(loop: Loop, i: number): boolean {
  const n = loop.length
  const a = loop[(i + n - 1) % n]
  const b = loop[i]
  const c = loop[(i + 1) % n]
  if (cross(a, b, c) <= 0) return false
  return loop.every((p) => isSame(p, a) || isSame(p, b) || isSame(p, c) || !isInTriangle(p, a, b, c))
}

const isSame = (p: GridPoint, q: GridPoint): boolean => p.x === q.x && p.y === q.y

const isInTriangle = (p: GridPoint, a: GridPoint, b: GridPoint, c: GridPoint): boolean =>
  cross(a, b, p) >= 0 && cross(b, c, p) >= 0 && cross(c, a, p) >= 0

function merged(parts: Loop[]): Loop[] {
  const result = [...parts]
  for (let i = 0; i < result.length; i++) {
    for (let j = i + 1; j < result.length; j++) {
      const joined = joinedAcrossDiagonal(result[i], result[j])
      if (joined === null) continue
      result[i] = joined
      result.splice(j, 1)
      j = i
    }
  }
  return result
}

/** The convex union of two convex loops with an edge in common, or null. */
function joinedAcrossDiagonal(P: Loop, Q: Loop): Loop | null {
  for (let i = 0; i < P.length; i++) {
    const a = P[i]
    const b = P[(i + 1) % P.length]
    for (let j = 0; j < Q.length; j++) {
      if (!isSame(Q[j], b) || !isSame(Q[(j + 1) % Q.length], a)) continue
      const joined = [...rotatedLoop(P, i + 1), ...rotatedLoop(Q, j + 1).slice(1, -1)]
      if (isConvex(joined)) return withoutCollinear(joined)
    }
  }
  return null
}

const rotatedLoop = (loop: Loop, start: number): Loop => {
  const s = start % loop.length
  return [...loop.slice(s), ...loop.slice(0, s)]
}
