/**
 * A simple polygon as a union of convex parts: cut along a diagonal from a hollow corner, one that leaves both its ends
 * full on both sides if there is one, the shortest of those; then each side alike. A swept bay piece falls into its
 * strip on the body and its two fin faces.
 *
 * Coordinates are integers below 2^25, so that every cross product is exact in a double. Loops are counter-clockwise.
 * Should there be no diagonal (a loop that touches itself) the loop's convex hull is taken: too large, never too small.
 */
export interface GridPoint {
  readonly x: number
  readonly y: number
}

export type Loop = readonly GridPoint[]

export function convexParts(loop: Loop): Loop[] {
  const outline = withoutCollinear(loop)
  if (outline.length < 3) return []
  if (isConvex(outline)) return [outline]
  const cut = bestDiagonal(outline)
  if (cut === null) return [convexHull(outline)]
  return cut.flatMap(convexParts)
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

/** The two sides of the diagonal that leaves the fewest hollow corners, the shorter of equals. */
function bestDiagonal(loop: Loop): readonly [Loop, Loop] | null {
  const n = loop.length
  let best: readonly [Loop, Loop] | null = null
  let least = Infinity
  for (let i = 0; i < n; i++) {
    if (!isHollow(loop, i)) continue
    for (let j = 0; j < n; j++) {
      const apart = (j - i + n) % n
      if (apart < 2 || apart > n - 2 || !isDiagonal(loop, i, j)) continue
      const sides = [between(loop, i, j), between(loop, j, i)] as const
      // Whole numbers of hollow corners decide, the length, as a share below 1, among equals.
      const length = Math.hypot(loop[j].x - loop[i].x, loop[j].y - loop[i].y)
      const cost = hollows(sides[0]) + hollows(sides[1]) + length / (1 + length)
      if (cost >= least) continue
      least = cost
      best = sides
    }
  }
  return best
}

const hollows = (loop: Loop): number => loop.reduce((sum, _, i) => sum + (isHollow(loop, i) ? 1 : 0), 0)

function isHollow(loop: Loop, i: number): boolean {
  const n = loop.length
  return cross(loop[(i + n - 1) % n], loop[i], loop[(i + 1) % n]) < 0
}

/** Corners i to j, both included, in order. */
function between(loop: Loop, i: number, j: number): Loop {
  return i < j ? loop.slice(i, j + 1) : [...loop.slice(i), ...loop.slice(0, j + 1)]
}

/** Whether the line between two corners runs inside the loop and meets nothing else of it. */
function isDiagonal(loop: Loop, i: number, j: number): boolean {
  const n = loop.length
  const a = loop[i]
  const b = loop[j]
  if (!opensTo(loop, i, b) || !opensTo(loop, j, a)) return false
  for (let k = 0; k < n; k++) {
    const p = loop[k]
    const q = loop[(k + 1) % n]
    if (k !== i && k !== j && cross(a, b, p) === 0 && isBetween(p, a, b)) return false
    if (cross(a, b, p) * cross(a, b, q) < 0 && cross(p, q, a) * cross(p, q, b) < 0) return false
  }
  return true
}

/** Whether the direction from corner i to a point runs into the loop. */
function opensTo(loop: Loop, i: number, to: GridPoint): boolean {
  const n = loop.length
  const before = loop[(i + n - 1) % n]
  const after = loop[(i + 1) % n]
  const leftOfOut = cross(loop[i], after, to) > 0
  const leftOfIn = cross(before, loop[i], to) > 0
  return isHollow(loop, i) ? leftOfOut || leftOfIn : leftOfOut && leftOfIn
}

const isBetween = (p: GridPoint, a: GridPoint, b: GridPoint): boolean =>
  (p.x - a.x) * (p.x - b.x) + (p.y - a.y) * (p.y - b.y) <= 0
