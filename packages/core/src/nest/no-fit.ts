/**
 * No-fit regions: where a moving piece B may not put its origin once A is placed with its own origin at zero.
 *
 *   N(A, B) = A ⊕ (−B) = { a − b : a in A, b in B }           B + t overlaps A exactly when t lies inside N
 *
 * A and B are unions of convex parts, so N is the union of the Minkowski sums of their pairs, each of which is a merge
 * of two edge lists by direction (de Berg et al., Computational Geometry, 3rd ed. (2008), section 13.3; recalled).
 * Summing filled parts, not outlines, leaves no false hole where one piece would lie inside the other. Slots of zero
 * width vanish.
 *
 * A shape is turned by whole quarter turns only, so of the sixteen pairs of orientations four are computed and the rest
 * follow from N(RA, RB) = R N(A, B) and N(B, A) = −N(A, B). Grid units, micrometres.
 */
import type { Loop } from './convex.ts'
import { type Outline, turnedOutline, unionOutline } from './outline.ts'

export type NoFitTable = (placed: number, moving: number) => Outline

/**
 * No-fit regions by variant number, 4 × shape + quarter turns, computed on first use. `shapes` are convex parts about
 * each shape's own origin.
 */
export function noFitTable(shapes: readonly (readonly Loop[])[]): NoFitTable {
  const size = 4 * shapes.length
  const table: (Outline | undefined)[] = new Array(size * size)
  const basic = new Map<number, Outline>()

  const outlineOf = (i: number, j: number, turn: number): Outline => {
    const key = (i * shapes.length + j) * 4 + turn
    const known = basic.get(key)
    if (known !== undefined) return known
    const outline =
      i <= j
        ? unionOutline(noFitParts(shapes[i], turnedLoops(shapes[j], turn)))
        : turnedOutline(outlineOf(j, i, (4 - turn) % 4), (turn + 2) % 4)
    basic.set(key, outline)
    return outline
  }

  return (placed, moving) => {
    const at = placed * size + moving
    const known = table[at]
    if (known !== undefined) return known
    const quarters = placed % 4
    const outline = turnedOutline(outlineOf(placed >> 2, moving >> 2, ((moving % 4) - quarters + 4) % 4), quarters)
    table[at] = outline
    return outline
  }
}

/** Turns loops counter-clockwise by quarter turns about the origin, exactly. */
export function turnedLoops(loops: readonly Loop[], quarters: number): readonly Loop[] {
  if (quarters === 0) return loops
  return loops.map((loop) =>
    loop.map(({ x, y }) => {
      if (quarters === 1) return { x: -y, y: x }
      return quarters === 2 ? { x: -x, y: -y } : { x: y, y: -x }
    }),
  )
}

/** Convex polygons whose union is A ⊕ (−B), of A and B as unions of convex parts. */
export function noFitParts(A: readonly Loop[], B: readonly Loop[]): readonly Loop[] {
  const mirrored = turnedLoops(B, 2)
  return A.flatMap((P) => mirrored.map((Q) => convexSum(P, Q)))
}

/** Minkowski sum of two convex counter-clockwise loops. */
export function convexSum(P: Loop, Q: Loop): Loop {
  const p0 = lowest(P)
  const q0 = lowest(Q)
  const sum: { x: number; y: number }[] = []
  let x = P[p0].x + Q[q0].x
  let y = P[p0].y + Q[q0].y
  for (let i = 0, j = 0; i < P.length || j < Q.length; ) {
    const [px, py] = edge(P, p0 + i)
    const [qx, qy] = edge(Q, q0 + j)
    const turn = i === P.length ? -1 : j === Q.length ? 1 : px * qy - py * qx
    sum.push({ x, y })
    if (turn >= 0) {
      x += px
      y += py
      i++
    }
    if (turn <= 0) {
      x += qx
      y += qy
      j++
    }
  }
  return sum
}

/** Lowest, and of those leftmost, corner: where the edges begin in order of direction. */
function lowest(P: Loop): number {
  let least = 0
  for (let i = 1; i < P.length; i++) {
    if (P[i].y < P[least].y || (P[i].y === P[least].y && P[i].x < P[least].x)) least = i
  }
  return least
}

function edge(P: Loop, start: number): readonly [number, number] {
  const a = P[start % P.length]
  const b = P[(start + 1) % P.length]
  return [b.x - a.x, b.y - a.y]
}
