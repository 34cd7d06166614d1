/**
 * Pieces on a strip that may overlap, and by how much.
 *
 * The overlap of two pieces is the depth of the one's origin in the no-fit region of the other, the least distance that
 * parts them; it counts from one grid unit, as in `strip.ts`. A pair's loss is its depth times (a a′)^¼, a the area of a
 * piece as a share of the mean, so that a large piece is not pushed about by small ones. Every pair has a weight, 1 at first.
 *
 * All pieces always lie on the strip; what is fixed comes after the pieces and stays where it is. Grid units; positions
 * are integers.
 */
import { convexHull, type GridPoint, type Loop } from './convex.ts'
import { addField, depthAt, emptyStore, type FieldStore } from './field.ts'
import { type NoFitTable, turnedLoops } from './no-fit.ts'
import type { Part } from './outline.ts'
import type { Spot, Variant } from './strip.ts'

/** Two pieces count as apart up to this depth, which the growth of the shapes covers (`shape.ts`). */
const apart = 1

export interface CrowdShape {
  readonly area: number
  /** Quarter turns worth trying, at most four. */
  readonly turns: readonly number[]
}

export interface CrowdProblem {
  readonly shapes: readonly CrowdShape[]
  /** Four a shape, by quarter turn. */
  readonly variants: readonly (Variant | null)[]
  readonly pairs: PairTable
  /** Across the strip. */
  readonly width: number
}

export interface Crowd {
  readonly problem: CrowdProblem
  /** Pieces and fixed ones; the pieces alone. */
  readonly count: number
  readonly free: number
  readonly X: Float64Array
  readonly Y: Float64Array
  /** 4 × shape + quarter turn. */
  readonly at: Int32Array
  /** By pair, symmetric. */
  readonly weight: Float64Array
  readonly scale: Float64Array
  /** The neighbours of a piece in up to four turns, and those near one place. */
  readonly around: readonly Around[]
  readonly close: Around
  length: number
  /** Least sum of losses, without weights, that the last parting came to. */
  loss: number
}

/** No-fit fields by pair of variants, made on first use. */
export interface PairTable {
  readonly size: number
  readonly noFit: NoFitTable
  readonly store: FieldStore
  /** Where the field of a pair begins in the store; -1 until it is made. */
  readonly fields: Int32Array
  readonly quarters: Int8Array
  /** Box of the turned region: four a pair. */
  readonly boxes: Float64Array
  readonly byParts: Map<readonly Part[], number>
  /** Best places of a pair against each other (`mates.ts`), made on first use. */
  readonly mates: (readonly GridPoint[] | undefined)[]
  /** Hull of a variant, grown. */
  readonly hulls: (variant: number) => Loop
  /** Depths asked for: the measure of effort. */
  work: number
}

/** Other pieces as one variant of a piece meets them. */
export interface Around {
  count: number
  /** Where the piece's origin meets the other's region at all: left, right, lower, upper. */
  readonly box: Float64Array
  readonly pair: Int32Array
  readonly x: Float64Array
  readonly y: Float64Array
  readonly weight: Float64Array
}

/** Of shapes, defects included, by their convex parts. */
export function pairTable(noFit: NoFitTable, parts: readonly (readonly Loop[])[]): PairTable {
  const size = 4 * parts.length
  const hulls = parts.map((loops) => convexHull(loops.flat()))
  return {
    ...{ size, noFit, store: emptyStore(), fields: new Int32Array(size * size).fill(-1), work: 0 },
    ...{ quarters: new Int8Array(size * size), boxes: new Float64Array(4 * size * size), byParts: new Map() },
    ...{ mates: new Array(size * size), hulls: (variant) => turnedLoops([hulls[variant >> 2]], variant % 4)[0] },
  }
}

export function crowdOf(problem: CrowdProblem, spots: readonly Spot[], fixed: readonly Spot[], length: number): Crowd {
  const count = spots.length + fixed.length
  const all = [...spots, ...fixed]
  const areas = spots.map(({ variant }) => problem.shapes[variant >> 2].area)
  const mean = areas.reduce((sum, area) => sum + area, 0) / spots.length
  return {
    ...{ problem, count, free: spots.length, length, loss: 0 },
    ...{ X: Float64Array.from(all, ({ x }) => x), Y: Float64Array.from(all, ({ y }) => y) },
    at: Int32Array.from(all, ({ variant }) => variant),
    weight: new Float64Array(count * count).fill(1),
    scale: Float64Array.from(all, (_, i) => (i < areas.length ? Math.sqrt(Math.sqrt(areas[i] / mean)) : 1)),
    around: Array.from({ length: 4 }, () => emptyAround(count)),
    close: emptyAround(count),
  }
}

/** The pieces as they lie, without what is fixed. */
export const spotsOf = ({ X, Y, at, free }: Crowd): Spot[] =>
  Array.from({ length: free }, (_, i) => ({ variant: at[i], x: X[i], y: Y[i], score: 0 }))

function emptyAround(count: number): Around {
  return {
    ...{ count: 0, box: new Float64Array(4 * count), pair: new Int32Array(count), x: new Float64Array(count) },
    ...{ y: new Float64Array(count), weight: new Float64Array(count) },
  }
}

/** Fills an `Around` with the others that piece i meets as `variant`. */
export function lookAround(crowd: Crowd, around: Around, i: number, variant: number): void {
  const { count, X, Y, at, weight, scale } = crowd
  const { pairs } = crowd.problem
  const { boxes } = pairs
  let k = 0
  for (let j = 0; j < count; j++) {
    if (j === i) continue
    const pair = at[j] * pairs.size + variant
    if (pairs.fields[pair] < 0) makePair(pairs, pair)
    around.pair[k] = pair
    around.x[k] = X[j]
    around.y[k] = Y[j]
    around.box[4 * k] = X[j] + boxes[4 * pair]
    around.box[4 * k + 1] = X[j] + boxes[4 * pair + 1]
    around.box[4 * k + 2] = Y[j] + boxes[4 * pair + 2]
    around.box[4 * k + 3] = Y[j] + boxes[4 * pair + 3]
    around.weight[k] = weight[i * count + j] * scale[i] * scale[j]
    k++
  }
  around.count = k
}

/** Copies to `out` the neighbours that can be met within `reach` of (x, y). */
export function narrow(around: Around, x: number, y: number, reach: number, out: Around): void {
  const { count, box } = around
  let n = 0
  for (let k = 0, b = 0; k < count; k++, b += 4) {
    if (x + reach <= box[b] || x - reach >= box[b + 1] || y + reach <= box[b + 2] || y - reach >= box[b + 3]) continue
    out.box[4 * n] = box[b]
    out.box[4 * n + 1] = box[b + 1]
    out.box[4 * n + 2] = box[b + 2]
    out.box[4 * n + 3] = box[b + 3]
    out.pair[n] = around.pair[k]
    out.x[n] = around.x[k]
    out.y[n] = around.y[k]
    out.weight[n] = around.weight[k]
    n++
  }
  out.count = n
}

/** Weighted loss of a piece at (x, y); may stop early, once it is no less than `bound`. */
export function lossAt(pairs: PairTable, around: Around, x: number, y: number, bound: number): number {
  const { count, box } = around
  let sum = 0
  for (let k = 0, b = 0; k < count; k++, b += 4) {
    if (x <= box[b] || x >= box[b + 1] || y <= box[b + 2] || y >= box[b + 3]) continue
    const d = turnedDepth(pairs, around.pair[k], x - around.x[k], y - around.y[k])
    if (d <= apart) continue
    sum += d * around.weight[k]
    if (sum >= bound) return sum
  }
  return sum
}

/** Depth of the pair i, j as it lies. */
export function pairDepth({ X, Y, at, problem: { pairs } }: Crowd, i: number, j: number): number {
  const pair = at[i] * pairs.size + at[j]
  if (pairs.fields[pair] < 0) makePair(pairs, pair)
  const dx = X[j] - X[i]
  const dy = Y[j] - Y[i]
  const { boxes } = pairs
  if (dx <= boxes[4 * pair] || dx >= boxes[4 * pair + 1] || dy <= boxes[4 * pair + 2] || dy >= boxes[4 * pair + 3]) {
    return 0
  }
  const d = turnedDepth(pairs, pair, dx, dy)
  return d <= apart ? 0 : d
}

function turnedDepth(pairs: PairTable, pair: number, dx: number, dy: number): number {
  pairs.work++
  const { store } = pairs
  const field = pairs.fields[pair]
  const quarters = pairs.quarters[pair]
  if (quarters === 0) return depthAt(store, field, dx, dy)
  if (quarters === 2) return depthAt(store, field, -dx, -dy)
  return quarters === 1 ? depthAt(store, field, dy, -dx) : depthAt(store, field, -dy, dx)
}

function makePair(pairs: PairTable, pair: number): void {
  const outline = pairs.noFit(Math.floor(pair / pairs.size), pair % pairs.size)
  let field = pairs.byParts.get(outline.parts)
  if (field === undefined) {
    field = addField(pairs.store, outline)
    pairs.byParts.set(outline.parts, field)
  }
  pairs.fields[pair] = field
  pairs.quarters[pair] = outline.quarters
  pairs.boxes.set([outline.minX, outline.maxX, outline.minY, outline.maxY], 4 * pair)
}
