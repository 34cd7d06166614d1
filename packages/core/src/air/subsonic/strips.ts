/**
 * Streamwise strips of a fin outline for a lattice of boxes.
 *
 * The span is first cut where the outline's character changes: at every height where it turns back, runs streamwise, or bends by
 * more than `cornerAngle`; then each part into equal strips. The last strip ends `tipInset` of its own width inside the tip:
 * with n strips in a part of length l their width is l / (n + tipInset). Between its two ends every strip is bounded by straight
 * edges. Where the outline folds back over itself (a notch, a hook) a strip has several pieces, front to back.
 *
 * Tip inset of a quarter: Hough, Remarks on vortex-lattice methods, J. Aircraft 10 (1973) 314-317 (recalled; the tests show
 * what it buys). Outline in fin axes: x aft, y outboard from the body surface, closed, in either sense.
 */
import { invariant } from '../../issue.ts'

export type Point = readonly [number, number]

/** Edges of one piece of a strip: x of its leading and trailing edge at the strip's inboard and outboard end. */
export interface Piece {
  readonly leadIn: number
  readonly leadOut: number
  readonly trailIn: number
  readonly trailOut: number
}

export interface Strip {
  readonly yIn: number
  readonly yOut: number
  readonly pieces: readonly Piece[]
}

/** A bend of the outline sharper than this starts a new strip. */
const cornerAngle = (8 * Math.PI) / 180
/** Parts shorter than this share of a strip are joined to their neighbour, if only a bend divides them. */
const shortestPart = 0.4

/** Strips from y = 0 to the tip, inboard first; about `count` of them. */
export function finStrips(outline: readonly Point[], count: number, tipInset = 0.25): Strip[] {
  const span = Math.max(...outline.map(([, y]) => y))
  invariant(outline.length >= 3 && span > 0, `fin outline of ${outline.length} points and span ${span}`)
  const cuts = spanCuts(outline, span, span / count)
  const strips: Strip[] = []
  for (let part = 1; part < cuts.length; part++) {
    const [from, length] = [cuts[part - 1], cuts[part] - cuts[part - 1]]
    const n = Math.max(1, Math.round((length / span) * count))
    const width = length / (part === cuts.length - 1 ? n + tipInset : n)
    for (let j = 0; j < n; j++) strips.push(strip(outline, from + j * width, from + (j + 1) * width))
  }
  return strips.filter(({ pieces }) => pieces.length > 0)
}

/** Heights at which a strip must or should end: 0, …, span. */
function spanCuts(outline: readonly Point[], span: number, stripWidth: number): number[] {
  const folds: number[] = []
  const bends: number[] = []
  for (let i = 0; i < outline.length; i++) {
    const before = outline[(i + outline.length - 1) % outline.length]
    const here = outline[i]
    const after = outline[(i + 1) % outline.length]
    if (!(here[1] > 0 && here[1] < span)) continue
    const [ux, uy] = [here[0] - before[0], here[1] - before[1]]
    const [vx, vy] = [after[0] - here[0], after[1] - here[1]]
    if (uy * vy <= 0) folds.push(here[1])
    else if (Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)) > cornerAngle) bends.push(here[1])
  }
  const cuts = [0, ...distinct(folds, 1e-6 * span), span]
  for (const y of bends) {
    if (cuts.every((cut) => Math.abs(cut - y) > shortestPart * stripWidth)) cuts.push(y)
  }
  return cuts.sort((p, q) => p - q)
}

function distinct(values: readonly number[], gap: number): number[] {
  const sorted = [...values].sort((p, q) => p - q)
  return sorted.filter((value, i) => i === 0 || value - sorted[i - 1] > gap)
}

function strip(outline: readonly Point[], yIn: number, yOut: number): Strip {
  const middle = crossings(outline, (yIn + yOut) / 2, (yIn + yOut) / 2)
  // The edges met a hair inside, followed to the end itself: streamwise edges at the end are not met.
  const hair = 1e-6 * (yOut - yIn)
  const [inner, outer] = [crossings(outline, yIn + hair, yIn), crossings(outline, yOut - hair, yOut)].map((found) =>
    found.length === middle.length ? found : middle,
  )
  const pieces: Piece[] = []
  for (let i = 0; i + 1 < middle.length; i += 2) {
    pieces.push({ leadIn: inner[i], leadOut: outer[i], trailIn: inner[i + 1], trailOut: outer[i + 1] })
  }
  return { yIn, yOut, pieces: pieces.filter((p) => p.trailIn + p.trailOut > p.leadIn + p.leadOut) }
}

/** x at height y of the edges that cross the height `probe`, front to back. */
function crossings(outline: readonly Point[], probe: number, y: number): number[] {
  const found: number[] = []
  for (let i = 0; i < outline.length; i++) {
    const [x0, y0] = outline[i]
    const [x1, y1] = outline[(i + 1) % outline.length]
    if (y0 > probe !== y1 > probe) found.push(x0 + ((y - y0) / (y1 - y0)) * (x1 - x0))
  }
  return found.sort((p, q) => p - q)
}
