/**
 * Boxes of the plane around a fin, strip by strip: those of the fin and ahead of it, those of gaps and the wake, those beside it.
 */
import { leadOf, type SourceLattice, trailOf } from './lattice.ts'
import type { Reach } from './reach.ts'

/**
 * Receiving point of a box ahead of the leading edge, from its front, in box lengths. With constant sources in a half-infinite row
 * of boxes and the potential zero 0.2153 of a box outside the edge the effective edge is the edge itself
 * (docs/methods/air-supersonic.md).
 */
export const diaphragmPoint = 1 - 0.215_3
export const wakePoint = 0.5
/**
 * Line 0 of the wake lies this far behind the trailing edge, in box lengths; the fin's normalwash goes on up to there. With the
 * potential of a row of constant sources held at `wakePoint` the flow leaves the edge smoothly this far ahead of the row.
 */
export const wakeSetback = 0.2014

/** A strip of the plane with its lattice of lines; a fin's strip and the wake behind it are two. */
export interface FieldStrip {
  readonly yIn: number
  readonly yOut: number
  readonly middle: number
  readonly slope: number
  /** x of line 0 on the centre line. */
  readonly lead: number
}

export interface FieldBox {
  readonly strip: number
  /** Between lines `line` and `line + 1` of its strip. */
  readonly line: number
  readonly kind: 'fin' | 'diaphragm' | 'wake'
  /** Receiving point, on the centre line; fin boxes have none. */
  readonly x: number
  /** Number of the fin's box in the lattice, −1 off the fin. */
  readonly fin: number
  /** Station of the trailing edge ahead of a wake box, −1 elsewhere. */
  readonly trail: number
  /** The trailing edge that cuts the box, if any. */
  readonly cut: FieldStrip | null
}

/** Where the potential at a trailing edge is asked, and the number of that station. */
export interface TrailStation {
  readonly x: number
  readonly station: number
}

/** Slack in x, in box lengths, against rounding. */
const slack = 1e-9

/** The fin's boxes of a strip, cut at the wake if there is one, and those ahead of its leading edge. */
export function boxesOfFin(
  { strips, h, stripStart }: SourceLattice,
  s: number,
  { front }: Reach,
  wake: FieldStrip | null,
): FieldBox[] {
  const { lead, middle, yIn, yOut, pieces } = strips[s]
  const ahead: FieldBox[] = []
  for (let line = -1; ; line--) {
    const x = lead + (line + diaphragmPoint) * h
    if (!(x > front(middle) + slack * h)) break
    ahead.push({ strip: s, line, kind: 'diaphragm', x, fin: -1, trail: -1, cut: null })
  }
  const boxes: FieldBox[] = []
  const { leadIn, leadOut } = pieces[0]
  const count = stripStart[s + 1] - stripStart[s]
  // How far the wake's line 0 lies behind line 0 of the strip, at its ends.
  const ends = wake === null ? [] : [wakeAt(wake, yIn) - leadIn, wakeAt(wake, yOut) - leadOut]
  const lines = Math.max(count, ...ends.map((x) => Math.ceil(x / h - slack)))
  for (let line = 0; line < lines; line++) {
    const centre = lead + (line + 0.5) * h
    if (line > 0 && inGap(pieces, centre)) continue
    const cut = wake !== null && (line + 1) * h > Math.min(...ends) + slack * h ? wake : null
    if (cut !== null && line * h >= Math.max(...ends)) break
    const fin = stripStart[s] + Math.min(line, count - 1)
    boxes.push({ strip: s, line, kind: 'fin', x: Number.NaN, fin, trail: -1, cut })
  }
  return [...ahead.reverse(), ...boxes]
}

const wakeAt = ({ lead, slope, middle }: FieldStrip, y: number): number => lead + slope * (y - middle)

/** Between two pieces of a strip; a box there is one of the fin or of the wake as its middle decides. */
function inGap(pieces: SourceLattice['strips'][number]['pieces'], centre: number): boolean {
  return pieces.some((piece, p) => p > 0 && centre >= trailOf(pieces[p - 1]) && centre < leadOf(piece))
}

export interface StripPlace {
  readonly lattice: SourceLattice
  readonly s: number
  readonly reach: Reach
  readonly trails: readonly TrailStation[]
}

/** Boxes in gaps between the pieces of a strip, and those of the wake behind the last. */
export function boxesOfGapsAndWake(
  { lattice: { strips, h, stripStart }, s, reach, trails }: StripPlace,
  wake: { readonly strip: FieldStrip; readonly index: number } | null,
): FieldBox[] {
  const { lead, pieces } = strips[s]
  const boxes: FieldBox[] = []
  const add = (strip: number, line: number, x: number, trail: TrailStation) => {
    boxes.push({ strip, line, kind: 'wake', x, fin: -1, trail: trail.station, cut: null })
  }
  for (let line = 1; line < stripStart[s + 1] - stripStart[s]; line++) {
    const centre = lead + (line + 0.5) * h
    if (!inGap(pieces, centre)) continue
    add(s, line, lead + (line + wakePoint) * h, trails.filter(({ x }) => x <= centre).at(-1) ?? trails[0])
  }
  if (wake === null) return boxes
  for (let line = 0; seen(wake.strip, wake.strip.lead + line * h, reach, h); line++) {
    add(wake.index, line, wake.strip.lead + (line + wakePoint) * h, trails[trails.length - 1])
  }
  return boxes
}

/** Boxes of a strip beside the fin; their receiving points lie on their rear edges. */
export function boxesBeside(strip: FieldStrip, index: number, h: number, reach: Reach): FieldBox[] {
  const boxes: FieldBox[] = []
  const from = Math.floor((reach.front(strip.middle) - strip.lead) / h + slack)
  for (let line = from; seen(strip, strip.lead + line * h, reach, h); line++) {
    const x = strip.lead + (line + 1) * h
    boxes.push({ strip: index, line, kind: 'diaphragm', x, fin: -1, trail: -1, cut: null })
  }
  return boxes
}

/** Whether the fin feels anything behind a line of a strip that passes the centre line at x. */
function seen({ yIn, middle, yOut, slope }: FieldStrip, x: number, { rear }: Reach, h: number): boolean {
  return [yIn, middle, yOut].some((y) => rear(y) - (x + slope * (y - middle)) > slack * h)
}
