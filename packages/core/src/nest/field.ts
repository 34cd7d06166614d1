/**
 * How deep a point lies inside a no-fit region: the distance to the region's outline, exact near it.
 *
 * A grid of square cells is laid over the region. A cell that the outline cannot reach is wholly outside (depth 0) or
 * wholly inside (bilinear between exact distances at its corners). Any other cell lists what it takes to answer exactly:
 *
 *   edges    those that can be the nearest to a point of the cell: their distance from its middle is at most that of
 *            the outline plus the cell's diagonal
 *   parts    of the convex parts that reach the cell, the sides that cross it; one that covers it says "inside"
 *
 * With one edge in reach its side and distance are the answer, without the parts. Depth of a pair of pieces by its
 * no-fit region: the least distance that parts them (Umetani, Yagiura, Imahori, Imamichi, Nonobe & Ibaraki, Solving the
 * irregular strip packing problem via guided local search for overlap minimization, International Transactions in
 * Operational Research 16 (2009) 661–683; recalled). A grid of distances bounded by an exact answer where it matters is ours.
 *
 * Grid units, in the frame of the region's parts, before any turn.
 */
import type { Outline, Part } from './outline.ts'

/** Cells along the longer side of a region. Finer costs time to build, coarser time to ask. */
const cellsAlong = 24
const outside = -1
const inside = -2

/** Fields side by side in a few columns: what is asked a million times a second must not chase references. */
export interface FieldStore {
  /** Nine a field: x0, y0, cells a grid unit, nx, ny, where its cells, corner depths and edges begin, count of edges. */
  frame: Float64Array
  /** A cell's kind, or where its list begins. */
  code: Int32Array
  /** Depth at the corners of inside cells, (nx + 1) a row. */
  depth: Float32Array
  list: Int32Array
  /** Start, unit direction and length: five an edge. */
  edges: Float64Array
  /** a x + b y + c, positive inside and in units of length: three a side of a part. */
  sides: Float64Array
  readonly used: { frame: number; code: number; depth: number; list: number; edges: number; sides: number }
}

export function emptyStore(): FieldStore {
  return {
    ...{ frame: new Float64Array(64), code: new Int32Array(1024), depth: new Float32Array(1024) },
    ...{ list: new Int32Array(1024), edges: new Float64Array(1024), sides: new Float64Array(1024) },
    used: { frame: 0, code: 0, depth: 0, list: 0, edges: 0, sides: 0 },
  }
}

/** Adds the field of a region whose outline is given and says where its frame begins; turned outlines share a field. */
export function addField(store: FieldStore, outline: Outline): number {
  const edges = edgesBeforeTurn(outline)
  const box = boxOf(edges)
  const size = Math.max(box.maxX - box.minX, box.maxY - box.minY) / cellsAlong
  const nx = Math.ceil((box.maxX - box.minX) / size) + 1
  const ny = Math.ceil((box.maxY - box.minY) / size) + 1
  const grid = { x0: box.minX - size / 2, y0: box.minY - size / 2, size, nx, ny }
  const { sides, starts } = sidesOf(outline.parts)
  const code = new Int32Array(nx * ny)
  const depth = new Float32Array((nx + 1) * (ny + 1)).fill(-1)
  const list: number[] = []
  const { used } = store
  const making = { grid, edges, parts: outline.parts, sides, starts, list, before: { ...used } }
  for (let j = 0; j < ny; j++) for (let i = 0; i < nx; i++) code[j * nx + i] = cellCode(making, i, j)
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) if (code[j * nx + i] === inside) cornerDepths(grid, edges, depth, i, j)
  }
  const at = used.frame
  const frame = [grid.x0, grid.y0, 1 / size, nx, ny, used.code, used.depth, used.edges, outline.count]
  store.frame = appended(store.frame, used.frame, frame)
  store.code = appended(store.code, used.code, code)
  store.depth = appended(store.depth, used.depth, depth)
  store.list = appended(store.list, used.list, list)
  store.edges = appended(store.edges, used.edges, edges)
  store.sides = appended(store.sides, used.sides, sides)
  used.frame += frame.length
  used.code += code.length
  used.depth += depth.length
  used.list += list.length
  used.edges += edges.length
  used.sides += sides.length
  return at
}

type Column = Float64Array | Float32Array | Int32Array

function appended<C extends Column>(column: C, used: number, more: ArrayLike<number>): C {
  let room = column
  if (used + more.length > column.length) {
    room = new (column.constructor as new (length: number) => C)(2 * (used + more.length))
    room.set(column)
  }
  room.set(more, used)
  return room
}

/** Depth of (x, y) in the field at `f`, 0 outside. */
export function depthAt(store: FieldStore, f: number, x: number, y: number): number {
  const { frame } = store
  const gx = (x - frame[f]) * frame[f + 2]
  const gy = (y - frame[f + 1]) * frame[f + 2]
  const nx = frame[f + 3]
  if (!(gx >= 0 && gy >= 0 && gx < nx && gy < frame[f + 4])) return 0
  const i = gx | 0
  const j = gy | 0
  const code = store.code[frame[f + 5] + j * nx + i]
  if (code === outside) return 0
  if (code !== inside) return exactDepth(store, code, x, y)
  const { depth } = store
  const at = frame[f + 6] + j * (nx + 1) + i
  const up = at + nx + 1
  const s = gx - i
  const low = depth[at] + s * (depth[at + 1] - depth[at])
  return low + (gy - j) * (depth[up] + s * (depth[up + 1] - depth[up]) - low)
}

function exactDepth({ list, edges, sides }: FieldStore, code: number, x: number, y: number): number {
  const edgeCount = list[code]
  const partCount = list[code + 1]
  let at = code + 2
  if (partCount === lone) {
    const e = list[at]
    const d = edges[e + 2] * (y - edges[e + 1]) - edges[e + 3] * (x - edges[e])
    return Math.max(0, d)
  }
  const firstEdge = at
  at += edgeCount
  let isIn = partCount === covered
  for (let k = 0; k < partCount && !isIn; k++) {
    const last = at + list[at]
    isIn = true
    while (++at <= last) {
      const s = list[at]
      if (sides[s] * x + sides[s + 1] * y + sides[s + 2] > 0) continue
      isIn = false
      break
    }
    at = last + 1
  }
  if (!isIn) return 0
  let least = Infinity
  for (let k = 0; k < edgeCount; k++) {
    const d = squareTo(edges, list[firstEdge + k], x, y)
    if (d < least) least = d
  }
  return Math.sqrt(least)
}

/** Square of the distance to an edge. */
function squareTo(edges: Float64Array, e: number, x: number, y: number): number {
  const dx = x - edges[e]
  const dy = y - edges[e + 1]
  const tx = edges[e + 2]
  const ty = edges[e + 3]
  const along = dx * tx + dy * ty
  if (along <= 0) return dx * dx + dy * dy
  const length = edges[e + 4]
  if (along < length) {
    const across = dx * ty - dy * tx
    return across * across
  }
  const ex = dx - length * tx
  const ey = dy - length * ty
  return ex * ex + ey * ey
}

/** In place of a count of parts: the one edge's side answers; one part covers the cell. */
const lone = -1
const covered = -2

interface Grid {
  readonly x0: number
  readonly y0: number
  readonly size: number
  readonly nx: number
  readonly ny: number
}

interface Making {
  readonly grid: Grid
  readonly edges: Float64Array
  readonly parts: readonly Part[]
  readonly sides: Float64Array
  /** Where each part's sides begin. */
  readonly starts: readonly number[]
  readonly list: number[]
  /** Columns of the store taken by earlier fields. */
  readonly before: FieldStore['used']
}

function cellCode(making: Making, i: number, j: number): number {
  const { grid, edges, list, before } = making
  const x = grid.x0 + (i + 0.5) * grid.size
  const y = grid.y0 + (j + 0.5) * grid.size
  const diagonal = Math.SQRT2 * grid.size
  const distances = squares(edges, x, y)
  let least = Infinity
  for (let e = 0; e < edges.length / 5; e++) least = Math.min(least, distances[e])
  const nearest = Math.sqrt(least)
  if (nearest > 0.51 * diagonal + 1) return isInSome(making, x, y) ? inside : outside
  const code = list.length
  list.push(0, 0)
  for (let e = 0; e < edges.length / 5; e++)
    if (distances[e] <= (nearest + diagonal + 1) ** 2) list.push(before.edges + 5 * e)
  list[code] = list.length - code - 2
  list[code + 1] = list[code] === 1 ? lone : listParts(making, x, y)
  return before.list + code
}

let scratch = new Float64Array(256)

function squares(edges: Float64Array, x: number, y: number): Float64Array {
  const count = edges.length / 5
  if (scratch.length < count) scratch = new Float64Array(2 * count)
  for (let e = 0; e < count; e++) scratch[e] = squareTo(edges, 5 * e, x, y)
  return scratch
}

function isInSome({ parts, sides, starts }: Making, x: number, y: number): boolean {
  for (let p = 0; p < parts.length; p++) {
    let s = starts[p]
    const end = s + 3 * parts[p].count
    while (s < end && sides[s] * x + sides[s + 1] * y + sides[s + 2] > 0) s += 3
    if (s === end) return true
  }
  return false
}

/** Adds the parts that reach the cell about (x, y) to the list and says how many, or that one covers it. */
function listParts({ parts, sides, starts, grid, list, before }: Making, x: number, y: number): number {
  const reach = 0.71 * grid.size + 1
  const begun = list.length
  let count = 0
  for (let p = 0; p < parts.length; p++) {
    const at = list.length
    list.push(0)
    let away = false
    for (let s = starts[p]; s < starts[p] + 3 * parts[p].count && !away; s += 3) {
      const d = sides[s] * x + sides[s + 1] * y + sides[s + 2]
      away = d < -reach
      if (!away && d <= reach) list.push(before.sides + s)
    }
    list[at] = list.length - at - 1
    if (away) list.length = at
    else if (list[at] === 0) {
      list.length = begun
      return covered
    } else count++
  }
  return count
}

function cornerDepths({ x0, y0, size, nx }: Grid, edges: Float64Array, depth: Float32Array, i: number, j: number) {
  for (let b = j; b <= j + 1; b++) {
    for (let a = i; a <= i + 1; a++) {
      const at = b * (nx + 1) + a
      if (depth[at] >= 0) continue
      const distances = squares(edges, x0 + a * size, y0 + b * size)
      let least = Infinity
      for (let e = 0; e < edges.length / 5; e++) least = Math.min(least, distances[e])
      depth[at] = Math.sqrt(least)
    }
  }
}

function edgesBeforeTurn({ count, X, Y, U, V, quarters }: Outline): Float64Array {
  const edges = new Float64Array(5 * count)
  for (let e = 0; e < count; e++) {
    const length = Math.hypot(U[e], V[e])
    const [x, y] = turnedBack(X[e], Y[e], quarters)
    const [u, v] = turnedBack(U[e], V[e], quarters)
    edges.set([x, y, u / length, v / length, length], 5 * e)
  }
  return edges
}

function turnedBack(x: number, y: number, quarters: number): [number, number] {
  if (quarters === 0) return [x, y]
  if (quarters === 1) return [y, -x]
  return quarters === 2 ? [-x, -y] : [-y, x]
}

function boxOf(edges: Float64Array) {
  const box = { minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity }
  for (let e = 0; e < edges.length; e += 5) {
    for (const [x, y] of [
      [edges[e], edges[e + 1]],
      [edges[e] + edges[e + 2] * edges[e + 4], edges[e + 1] + edges[e + 3] * edges[e + 4]],
    ]) {
      box.minX = Math.min(box.minX, x)
      box.maxX = Math.max(box.maxX, x)
      box.minY = Math.min(box.minY, y)
      box.maxY = Math.max(box.maxY, y)
    }
  }
  return box
}

function sidesOf(parts: readonly Part[]): { sides: Float64Array; starts: number[] } {
  const starts: number[] = []
  const sides: number[] = []
  for (const { count, X, Y, U, V, L } of parts) {
    starts.push(sides.length)
    for (let e = 0; e < count; e++) {
      const a = -V[e] / L[e]
      const b = U[e] / L[e]
      sides.push(a, b, -(a * X[e] + b * Y[e]))
    }
  }
  return { sides: Float64Array.from(sides), starts }
}
