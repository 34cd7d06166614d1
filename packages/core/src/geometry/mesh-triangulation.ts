/**
 * Triangles inside a closed polygon through given points: Delaunay, then the polygon's edges forced in, then edges turned
 * wherever that widens the smaller angle.
 *
 * Forcing an edge in: every edge that crosses it and is the diagonal of a convex quadrilateral is turned until none
 * crosses. Source: Sloan, A fast algorithm for generating constrained Delaunay triangulations, Computers & Structures 47
 * (1993) 441–450 (recalled). Delaunay triangles by the library delaunator. Half-edge e runs from node T[e] to the node of
 * the next half-edge of its triangle; `twin[e]` is the same edge seen from the neighbour, −1 where there is none.
 */
import Delaunator from 'delaunator'
import { invariant } from '../issue.ts'
import { orientation } from './mesh-orientation.ts'

interface Triangulation {
  readonly X: Float64Array
  readonly T: Int32Array
  readonly twin: Int32Array
}

const next = (e: number): number => (e % 3 === 2 ? e - 2 : e + 1)
const previous = (e: number): number => (e % 3 === 0 ? e + 2 : e - 1)

/**
 * X: coordinates, 2 per node. Nodes 0 … m − 1 are the polygon, counter-clockwise; the rest lie strictly inside.
 * Returns 3 nodes per triangle, counter-clockwise.
 */
export function triangulate(X: Float64Array, m: number): Int32Array {
  const delaunay = delaunayTriangles(X)
  for (const a of missingEdges(delaunay, m)) forceEdge(delaunay, a, (a + 1) % m)
  const inside = insideTriangles(delaunay, m)
  widenAngles(inside)
  return inside.T
}

function delaunayTriangles(X: Float64Array): Triangulation {
  const { triangles, halfedges } = new Delaunator(X)
  const T = Int32Array.from(triangles)
  invariant(T.length > 0, 'outline without area')
  const twin = Int32Array.from(halfedges)
  // The library's sense of rotation depends on which way its y runs: settle it here.
  if (turn(X, T[0], T[1], T[2]) > 0) return { X, T, twin }
  for (let t = 0; t < T.length; t += 3) [T[t], T[t + 1]] = [T[t + 1], T[t]]
  const mirrored = (e: number): number => (e < 0 ? -1 : e % 3 === 0 ? e : e % 3 === 1 ? e + 1 : e - 1)
  return { X, T, twin: twin.map((_, e) => mirrored(twin[mirrored(e)])) }
}

const turn = (X: Float64Array, a: number, b: number, c: number): number =>
  orientation(X[2 * a], X[2 * a + 1], X[2 * b], X[2 * b + 1], X[2 * c], X[2 * c + 1])

/** Polygon edges a → a + 1 that no triangle has. */
function missingEdges({ T }: Triangulation, m: number): number[] {
  const present = new Uint8Array(m)
  for (let e = 0; e < T.length; e++) {
    const p = T[e]
    if (p >= m) continue
    const q = T[next(e)]
    if (q === (p + 1) % m) present[p] = 1
    if (p === (q + 1) % m) present[q] = 1
  }
  return Array.from(present.keys()).filter((a) => present[a] === 0)
}

function hasEdge({ T }: Triangulation, a: number, b: number): boolean {
  for (let e = 0; e < T.length; e++) {
    const [from, to] = [T[e], T[next(e)]]
    if ((from === a && to === b) || (from === b && to === a)) return true
  }
  return false
}

function forceEdge(mesh: Triangulation, a: number, b: number): void {
  if (hasEdge(mesh, a, b)) return
  const { X, T, twin } = mesh
  const crosses = (e: number): boolean => {
    const [p, q] = [T[e], T[next(e)]]
    if (p === a || p === b || q === a || q === b) return false
    return turn(X, a, b, p) * turn(X, a, b, q) < 0 && turn(X, p, q, a) * turn(X, p, q, b) < 0
  }
  const queue: number[] = []
  for (let e = 0; e < T.length; e++) if (twin[e] > e && crosses(e)) queue.push(e)
  // Each turn removes a crossing or leaves it for a later one; n² bounds every order in which they can be taken.
  for (let left = 16 + queue.length ** 2 * 4; queue.length > 0; left--) {
    invariant(left > 0, `outline edge ${a}–${b} cannot be recovered: the outline crosses itself`)
    const e = queue.shift() as number
    if (!crosses(e)) continue
    if (!isConvex(mesh, e)) queue.push(e)
    else {
      turnEdge(mesh, e)
      if (crosses(next(e))) queue.push(next(e))
    }
  }
  invariant(hasEdge(mesh, a, b), `outline edge ${a}–${b} is not in the mesh: a node lies on it`)
}

/** Whether the two triangles at edge e make a strictly convex quadrilateral. */
function isConvex({ X, T, twin }: Triangulation, e: number): boolean {
  const f = twin[e]
  const [a, b, c, d] = [T[e], T[next(e)], T[previous(e)], T[previous(f)]]
  return turn(X, a, d, c) > 0 && turn(X, d, b, c) > 0
}

/** (a, b, c), (b, a, d) become (a, d, c), (b, c, d); the new edge d–c is half-edge next(e). */
function turnEdge({ T, twin }: Triangulation, e: number): void {
  const f = twin[e]
  const [e1, e2, f1, f2] = [next(e), previous(e), next(f), previous(f)]
  const [c, d] = [T[e2], T[f2]]
  const outer = { bc: twin[e1], ad: twin[f1] }
  T[e1] = d
  T[f1] = c
  const pair = (p: number, q: number): void => {
    twin[p] = q
    if (q >= 0) twin[q] = p
  }
  pair(e, outer.ad)
  pair(f, outer.bc)
  pair(e1, f1)
}

/** The triangles to the left of the polygon's edges and all that can be reached from them without crossing one. */
function insideTriangles({ X, T, twin }: Triangulation, m: number): Triangulation {
  const isBoundary = (e: number): boolean => {
    const p = T[e]
    if (p >= m) return false
    const q = T[next(e)]
    return q < m && (q === (p + 1) % m || p === (q + 1) % m)
  }
  const number = new Int32Array(T.length / 3).fill(-1)
  const kept: number[] = []
  const keep = (t: number): void => {
    if (number[t] >= 0) return
    number[t] = kept.length
    kept.push(t)
  }
  for (let e = 0; e < T.length; e++) if (T[e] < m && T[next(e)] === (T[e] + 1) % m) keep((e - (e % 3)) / 3)
  for (let i = 0; i < kept.length; i++) {
    for (let e = 3 * kept[i]; e < 3 * kept[i] + 3; e++) {
      if (!isBoundary(e) && twin[e] >= 0) keep((twin[e] - (twin[e] % 3)) / 3)
    }
  }
  kept.sort((s, t) => s - t)
  kept.forEach((t, i) => {
    number[t] = i
  })
  const renumbered = (e: number): number => (e < 0 || isBoundary(e) ? -1 : 3 * number[(e - (e % 3)) / 3] + (e % 3))
  const edges = kept.flatMap((t) => [3 * t, 3 * t + 1, 3 * t + 2])
  return {
    X,
    T: Int32Array.from(edges, (e) => T[e]),
    twin: Int32Array.from(edges, (e) => (isBoundary(e) ? -1 : renumbered(twin[e]))),
  }
}

/** Turns interior edges while that raises the smaller angle of the two triangles; the boundary stays. */
function widenAngles(mesh: Triangulation): void {
  const { X, T, twin } = mesh
  const queue = Array.from(T.keys())
  const gain = 1e-9 // of a sine: a turn that gains less than rounding could be undone for ever
  while (queue.length > 0) {
    const e = queue.pop() as number
    const f = twin[e]
    if (f < 0 || !isConvex(mesh, e)) continue
    const [a, b, c, d] = [T[e], T[next(e)], T[previous(e)], T[previous(f)]]
    const before = Math.min(smallestSine(X, a, b, c), smallestSine(X, b, a, d))
    const after = Math.min(smallestSine(X, a, d, c), smallestSine(X, b, c, d))
    if (after <= before + gain) continue
    turnEdge(mesh, e)
    queue.push(e, previous(e), f, previous(f))
  }
}

/** Sine of the smallest angle of a triangle, negative when it is clockwise. */
export function smallestSine(X: Float64Array, a: number, b: number, c: number): number {
  const ux = X[2 * b] - X[2 * a]
  const uy = X[2 * b + 1] - X[2 * a + 1]
  const vx = X[2 * c] - X[2 * a]
  const vy = X[2 * c + 1] - X[2 * a + 1]
  const p = ux * ux + uy * uy
  const q = vx * vx + vy * vy
  const r = (ux - vx) ** 2 + (uy - vy) ** 2
  // twice the area over the product of the two longest sides
  return (ux * vy - uy * vx) / Math.sqrt(Math.max(p * q, q * r, r * p))
}
