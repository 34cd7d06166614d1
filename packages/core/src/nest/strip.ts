/**
 * One strip of cloth filled piece by piece, each put where a score is least.
 *
 * A piece in one orientation can lie wherever its origin is inside the rectangle that keeps it on the cloth and outside
 * the no-fit regions of all pieces already there. The best position of a score that grows to the right lies at a corner
 * of that set: a corner of a no-fit region, a crossing of two of them, or a crossing of one with the rectangle's edge
 * (Dowsland, Vaid & Dowsland, An algorithm for polygon placement using a bottom-left strategy, European Journal of
 * Operational Research 141 (2002) 371–381; recalled). Those corners are kept per orientation and brought up to date
 * after every piece, so that placing is reading the least off a list.
 *
 * Grid units, micrometres: positions are integers. A crossing is rounded by at most 0.71 and a position is refused when
 * it is `depth` inside a region; the growth of the shapes covers both (`shape.ts`).
 */
import type { NoFitTable } from './no-fit.ts'
import { isDeepInside, type Outline } from './outline.ts'

/** Refused when this far inside a no-fit region; above the rounding of a crossing, √2/2. */
const depth = 1

/** One orientation of one shape: how far the cut outline reaches from the origin. */
export interface Variant {
  readonly minX: number
  readonly maxX: number
  readonly minY: number
  readonly maxY: number
}

export interface StripSize {
  /** Between the selvedges. */
  readonly width: number
  /** Infinity for as long as it takes. */
  readonly length: number
}

export interface Spot {
  readonly variant: number
  readonly x: number
  readonly y: number
  readonly score: number
}

/** Score of an orientation at a position, from its left and right extent and its lower edge: the least wins. */
export type Score = (left: number, right: number, bottom: number, top: number) => number

export interface Strip {
  /** The best spot for one of the variants, or null when none fits. */
  readonly best: (variants: readonly number[], score: Score) => Spot | null
  readonly place: (spot: Spot) => void
  /** What was there at first, then what was placed. */
  readonly placed: readonly Spot[]
  /** Edge comparisons made so far: the measure of effort. */
  readonly work: () => number
}

/** Corners of the free set of one variant, up to date with the first `seen` pieces. */
interface FreeCorners {
  seen: number
  X: number[]
  Y: number[]
}

export function emptyStrip(
  variants: readonly (Variant | null)[],
  noFit: NoFitTable,
  size: StripSize,
  fixed: readonly Spot[] = [],
): Strip {
  const placed: Spot[] = [...fixed]
  const corners: (FreeCorners | undefined)[] = []
  let work = 0
  let scratch = new Int32Array(64)

  function scratchFor({ count }: Outline): Int32Array {
    if (count > scratch.length) scratch = new Int32Array(2 * count)
    return scratch
  }

  function cornersOf(variant: number): FreeCorners {
    const known = corners[variant]
    if (known !== undefined) return known
    const { loX, loY, hiX, hiY } = range(variants[variant]!, size)
    const fits = hiX >= loX && hiY >= loY
    const first = { seen: 0, X: fits ? [loX, loX] : [], Y: fits ? [loY, hiY] : [] }
    corners[variant] = first
    return first
  }

  function refresh(variant: number, free: FreeCorners): void {
    for (; free.seen < placed.length; free.seen++) {
      const latest = placed[free.seen]
      const region = noFit(latest.variant, variant)
      work += free.X.length
      dropInside(free, region, latest)
      addCorners(variant, free, region, latest)
    }
  }

  function addCorners(variant: number, free: FreeCorners, region: Outline, at: Spot): void {
    const box = range(variants[variant]!, size)
    const near: Near[] = []
    for (let i = 0; i < free.seen; i++) {
      const other = noFit(placed[i].variant, variant)
      if (boxesMeet(region, at, other, placed[i])) near.push({ region: other, at: placed[i] })
    }
    // The region that refused the last corner is the likeliest to refuse the next.
    let latest = 0
    const offer = (x: number, y: number): void => {
      if (x < box.loX || x > box.hiX || y < box.loY || y > box.hiY) return
      for (let n = 0; n < near.length; n++) {
        const k = n === 0 ? latest : n <= latest ? n - 1 : n
        const other = near[k]
        work += other.region.count
        if (!isDeepInside(other.region, x - other.at.x, y - other.at.y, depth)) continue
        latest = k
        return
      }
      free.X.push(x)
      free.Y.push(y)
    }
    for (let e = 0; e < region.count; e++) offer(Math.round(region.X[e]) + at.x, Math.round(region.Y[e]) + at.y)
    crossBox(region, at, box, offer)
    for (const other of near) work += crossRegions(region, at, other.region, other.at, scratchFor(other.region), offer)
  }

  return {
    placed,
    work: () => work,
    place: (spot) => {
      placed.push(spot)
    },
    best: (candidates, score) => {
      let best: Spot | null = null
      for (const variant of candidates) {
        const free = cornersOf(variant)
        refresh(variant, free)
        const { minX, maxX, minY, maxY } = variants[variant]!
        for (let i = 0; i < free.X.length; i++) {
          const x = free.X[i]
          const y = free.Y[i]
          const value = score(x + minX, x + maxX, y + minY, y + maxY)
          if (best === null || value < best.score) best = { variant, x, y, score: value }
        }
      }
      return best
    },
  }
}

interface Near {
  readonly region: Outline
  readonly at: Spot
}

interface Range {
  readonly loX: number
  readonly hiX: number
  readonly loY: number
  readonly hiY: number
}

/** Where the origin may be for the cut outline to stay on the cloth. */
function range({ minX, maxX, minY, maxY }: Variant, { width, length }: StripSize): Range {
  return { loX: -minX, hiX: length - maxX, loY: -minY, hiY: width - maxY }
}

function boxesMeet(a: Outline, p: Spot, b: Outline, q: Spot): boolean {
  return (
    a.minX + p.x <= b.maxX + q.x &&
    b.minX + q.x <= a.maxX + p.x &&
    a.minY + p.y <= b.maxY + q.y &&
    b.minY + q.y <= a.maxY + p.y
  )
}

function dropInside(free: FreeCorners, region: Outline, at: Spot): void {
  let kept = 0
  for (let i = 0; i < free.X.length; i++) {
    if (isDeepInside(region, free.X[i] - at.x, free.Y[i] - at.y, depth)) continue
    free.X[kept] = free.X[i]
    free.Y[kept] = free.Y[i]
    kept++
  }
  free.X.length = kept
  free.Y.length = kept
}

type Offer = (x: number, y: number) => void

/** Where a region's edges meet the rectangle's sides. */
function crossBox({ count, X, Y, U, V }: Outline, at: Spot, { loX, hiX, loY, hiY }: Range, offer: Offer): void {
  for (let e = 0; e < count; e++) {
    const x = X[e] + at.x
    const y = Y[e] + at.y
    const u = U[e]
    const v = V[e]
    if (crosses(loY, y, v)) offer(Math.round(x + (u * (loY - y)) / v), loY)
    if (crosses(hiY, y, v)) offer(Math.round(x + (u * (hiY - y)) / v), hiY)
    if (crosses(loX, x, u)) offer(loX, Math.round(y + (v * (loX - x)) / u))
    if (crosses(hiX, x, u)) offer(hiX, Math.round(y + (v * (hiX - x)) / u))
  }
}

const crosses = (side: number, from: number, step: number): boolean =>
  (from <= side && side < from + step) || (from + step < side && side <= from)

/** Where the outlines of two regions cross. Only edges that reach into the box common to both are compared. */
function crossRegions(A: Outline, p: Spot, B: Outline, q: Spot, scratch: Int32Array, offer: Offer): number {
  const dx = q.x - p.x
  const dy = q.y - p.y
  const loX = Math.max(A.minX, B.minX + dx)
  const hiX = Math.min(A.maxX, B.maxX + dx)
  const loY = Math.max(A.minY, B.minY + dy)
  const hiY = Math.min(A.maxY, B.maxY + dy)
  let near = 0
  for (let b = 0; b < B.count; b++) if (reaches(B, b, loX - dx, hiX - dx, loY - dy, hiY - dy)) scratch[near++] = b
  let compared = 0
  for (let a = 0; a < A.count; a++) {
    if (!reaches(A, a, loX, hiX, loY, hiY)) continue
    compared += near
    const ax = A.X[a]
    const ay = A.Y[a]
    const au = A.U[a]
    const av = A.V[a]
    for (let n = 0; n < near; n++) {
      const b = scratch[n]
      const bu = B.U[b]
      const bv = B.V[b]
      const den = au * bv - av * bu
      if (den === 0) continue
      const cx = B.X[b] + dx - ax
      const cy = B.Y[b] + dy - ay
      const s = (cx * bv - cy * bu) / den
      if (!(s >= 0 && s <= 1)) continue
      const t = (cx * av - cy * au) / den
      if (t >= 0 && t <= 1) offer(Math.round(ax + s * au + p.x), Math.round(ay + s * av + p.y))
    }
  }
  return compared
}

/** Whether the box of an edge meets a box. */
function reaches({ X, Y, U, V }: Outline, e: number, loX: number, hiX: number, loY: number, hiY: number): boolean {
  const x = X[e]
  const y = Y[e]
  const u = U[e]
  const v = V[e]
  return (
    (u > 0 ? x <= hiX && x + u >= loX : x + u <= hiX && x >= loX) &&
    (v > 0 ? y <= hiY && y + v >= loY : y + v <= hiY && y >= loY)
  )
}
