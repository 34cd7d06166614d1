/**
 * A triangle mesh of the inside of any simple polygon: convex or not, with notches, strakes and collapsed tips.
 *
 *   1. The outline is cut into edges of the local size h (mesh-size.ts).
 *   2. Inside go the points of a triangular lattice of side `size` along the longest segment, where h leaves room for them.
 *   3. While a triangle's circumradius exceeds 0.75 h (0.58 h is equilateral), its circumcentre is added, or its centroid
 *      where the circumcentre lies outside or at the outline. Points keep a distance from the outline and each other, so
 *      this ends. Ruppert, A Delaunay refinement algorithm for quality 2-dimensional mesh generation, J. Algorithms 18
 *      (1995) 548–585, gives the idea; his bound on the angles is not claimed, since outline edges are not cut further.
 *   4. Interior points move to the mean of their neighbours where that does not narrow the smallest angle around them.
 *
 * The same outline and size give the same mesh, number for number.
 */
import { invariant } from '../issue.ts'
import type { Mesh } from './mesh.ts'
import { cutSegment, type OutlineSegment, outlineSegments, type SizeField, sizeField } from './mesh-size.ts'
import { smallestSine, triangulate } from './mesh-triangulation.ts'
import { distanceToSegment, type Point } from './point.ts'
import { contains, signedArea } from './polygon.ts'

export interface MeshOptions {
  /** Closed polygon, counter-clockwise, not repeating the first point; segment i runs from point i to point i + 1. */
  readonly outline: readonly Point[]
  /** Longest element edge aimed at, m. */
  readonly size: number
}

/** Lattice points keep this share of h from the outline, added points the next; new points keep the third apart. */
const clearance = { lattice: 0.6, added: 0.35, apart: 0.6 }
const largestCircumradius = 0.75
const mostPasses = 40
const smoothingRounds = 4

interface Outline {
  readonly polygon: readonly Point[]
  readonly segments: readonly OutlineSegment[]
  readonly h: SizeField
}

export function meshOutline({ outline, size }: MeshOptions): Mesh {
  invariant(size > 0, `mesh size is ${size}`)
  invariant(signedArea(outline) > 0, 'mesh outline must be counter-clockwise')
  const segments = outlineSegments(outline)
  const h = sizeField(segments, size)
  const shape: Outline = { polygon: segments.map(({ from }) => from), segments, h }
  const boundary: Point[] = []
  const segmentOf: number[] = []
  for (const segment of segments) {
    const points = [segment.from, ...cutSegment(segment, h)]
    boundary.push(...points)
    segmentOf.push(...points.map(() => segment.segment))
  }
  const m = boundary.length
  let X = Float64Array.from([...boundary, ...latticePoints(shape, size)].flat())
  let T = triangulate(X, m)
  for (let pass = 0; pass < mostPasses; pass++) {
    const added = missingPoints({ X, T, shape })
    if (added.length === 0) break
    X = Float64Array.from([...X, ...added.flat()])
    T = triangulate(X, m)
  }
  for (let round = 0; round < smoothingRounds; round++) {
    smooth(X, T, m)
    T = triangulate(X, m)
  }
  const mesh = { X, T, boundary: segmentOf.map((segment, a) => ({ a, b: (a + 1) % m, segment })) }
  checkMesh(mesh, signedArea(shape.polygon))
  return mesh
}

const isInside = ({ polygon, segments }: Outline, p: Point, room: number): boolean =>
  contains(polygon, p) && segments.every(({ from, to }) => distanceToSegment(p, from, to) >= room)

function latticePoints(shape: Outline, size: number): Point[] {
  const { segments, h } = shape
  const longest = segments.reduce((a, b) => (b.length > a.length * (1 + 1e-9) ? b : a))
  const [ex, ey] = [0, 1].map((i) => (longest.to[i] - longest.from[i]) / longest.length)
  const local = segments.map(({ from: [x, y] }) => {
    const [dx, dy] = [x - longest.from[0], y - longest.from[1]]
    return { s: dx * ex + dy * ey, t: dy * ex - dx * ey }
  })
  const [s, t] = [local.map((p) => p.s), local.map((p) => p.t)]
  const rise = (Math.sqrt(3) / 2) * size
  const points: Point[] = []
  for (let row = Math.floor(Math.min(...t) / rise); row * rise < Math.max(...t); row++) {
    const offset = row % 2 === 0 ? 0 : 0.5
    for (let column = Math.floor(Math.min(...s) / size); column * size < Math.max(...s); column++) {
      const [u, v] = [(column + offset) * size, row * rise]
      const p: Point = [longest.from[0] + u * ex - v * ey, longest.from[1] + u * ey + v * ex]
      const local = h(p[0], p[1])
      if (local > 0.8 * size && isInside(shape, p, clearance.lattice * local)) points.push(p)
    }
  }
  return points
}

/** Points to add where triangles are too large for the size field. */
function missingPoints({ X, T, shape }: { X: Float64Array; T: Int32Array; shape: Outline }): Point[] {
  const added: Point[] = []
  for (let e = 0; e < T.length; e += 3) {
    const corners = [T[e], T[e + 1], T[e + 2]].map((i): Point => [X[2 * i], X[2 * i + 1]])
    const { centre, radius } = circumcircle(corners)
    const centroid: Point = [0, 1].map((i) => (corners[0][i] + corners[1][i] + corners[2][i]) / 3) as [number, number]
    if (radius <= largestCircumradius * shape.h(centroid[0], centroid[1])) continue
    for (const p of [centre, centroid]) {
      const h = shape.h(p[0], p[1])
      const apart = ([x, y]: Point): boolean => Math.hypot(x - p[0], y - p[1]) >= clearance.apart * h
      if (!corners.every(apart) || !added.every(apart) || !isInside(shape, p, clearance.added * h)) continue
      if (nearestNode(X, p) < clearance.apart * h) continue
      added.push(p)
      break
    }
  }
  return added
}

function nearestNode(X: Float64Array, [x, y]: Point): number {
  let square = Number.POSITIVE_INFINITY
  for (let i = 0; i < X.length; i += 2) square = Math.min(square, (X[i] - x) ** 2 + (X[i + 1] - y) ** 2)
  return Math.sqrt(square)
}

function circumcircle([a, b, c]: readonly Point[]): { centre: Point; radius: number } {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]]
  const twice = 2 * (ux * vy - uy * vx)
  const [uu, vv] = [ux * ux + uy * uy, vx * vx + vy * vy]
  const [x, y] = [(vy * uu - uy * vv) / twice, (ux * vv - vx * uu) / twice]
  return { centre: [a[0] + x, a[1] + y], radius: Math.hypot(x, y) }
}

/** One sweep over the interior nodes, in order. */
function smooth(X: Float64Array, T: Int32Array, m: number): void {
  const star: number[][] = Array.from({ length: X.length / 2 }, () => [])
  for (let e = 0; e < T.length; e++) star[T[e]].push(e - (e % 3))
  const worst = (node: number): number =>
    star[node].reduce((least, e) => Math.min(least, smallestSine(X, T[e], T[e + 1], T[e + 2])), 1)
  for (let node = m; node < star.length; node++) {
    invariant(star[node].length >= 3, `mesh node ${node} has ${star[node].length} triangles`)
    const before = worst(node)
    const [x, y] = [X[2 * node], X[2 * node + 1]]
    let [sumX, sumY] = [0, 0]
    for (const e of star[node]) {
      for (let k = e; k < e + 3; k++) {
        sumX += X[2 * T[k]]
        sumY += X[2 * T[k] + 1]
      }
    }
    // each neighbour appears in two triangles, the node itself in all
    const n = star[node].length
    X[2 * node] = (sumX - n * x) / (2 * n)
    X[2 * node + 1] = (sumY - n * y) / (2 * n)
    if (worst(node) < before) {
      X[2 * node] = x
      X[2 * node + 1] = y
    }
  }
}

function checkMesh({ X, T, boundary }: Mesh, area: number): void {
  let sum = 0
  const sides = new Set<number>()
  const n = X.length / 2
  for (let e = 0; e < T.length; e += 3) {
    const [a, b, c] = [T[e], T[e + 1], T[e + 2]]
    const [ax, ay] = [X[2 * a], X[2 * a + 1]]
    const twice = (X[2 * b] - ax) * (X[2 * c + 1] - ay) - (X[2 * b + 1] - ay) * (X[2 * c] - ax)
    invariant(twice > 0, `triangle ${e / 3} of the mesh has area ${twice / 2}`)
    sum += twice / 2
    sides
      .add(a * n + b)
      .add(b * n + c)
      .add(c * n + a)
  }
  invariant(Math.abs(sum - area) <= 1e-12 * area, `mesh area ${sum} is not the outline's ${area}`)
  for (const { a, b } of boundary) invariant(sides.has(a * n + b), `outline edge ${a}–${b} is not in the mesh`)
}
