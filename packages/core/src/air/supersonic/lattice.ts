/**
 * Boxes of a fin in supersonic flow: streamwise strips, in each of them boxes of one common length h between lines parallel to
 * the strip's leading edge. The leading edge is a box line, so it is met exactly, whatever its sweep; the trailing edge cuts boxes.
 *
 *   line i of a strip:  x = lead(y) + i h          box i lies between lines i and i + 1
 *
 * Boxes are numbered strip by strip from the root, in a strip from the leading edge aft, until the last one of which any part
 * lies ahead of the trailing edge. A box's normalwash is taken, and its force acts, in the middle of what the outline leaves of it
 * on the strip's centre line. Nothing here depends on the Mach number. The last strip ends `tipInset` of its width inside the
 * tip: with boxes of constant source strength outside a streamwise edge the flow sees that edge that much farther out. The number
 * is the shift of a half-infinite row of constant sources, computed in docs/methods/air-supersonic.md.
 */
import { invariant } from '../../issue.ts'
import { finStrips, type Piece, type Point, type Strip } from '../subsonic/strips.ts'

/** Shift of the effective edge, in widths of a strip: 1/4 − Σ n cₙ of the factored symbol, docs/methods/air-supersonic.md. */
export const tipInset = 0.174_65

export interface SourceStrip extends Strip {
  /** Streamwise slope dx/dy of its box lines. */
  readonly slope: number
  /** x of line 0 on the centre line. */
  readonly lead: number
  readonly middle: number
}

/** A part of the fin between two stations of a strip's centre line on which the mean pressure is known from the potential. */
export interface Panel {
  readonly box: number
  readonly strip: number
  readonly from: number
  readonly to: number
  /** Starts at the leading edge of a piece / ends at its trailing edge. */
  readonly atLead: boolean
  readonly atTrail: boolean
}

/** Arrays are one entry a box. */
export interface SourceLattice {
  readonly count: number
  /** Length of the boxes. */
  readonly h: number
  readonly strips: readonly SourceStrip[]
  /** First box of each strip, and the count of boxes at the end. */
  readonly stripStart: Int32Array
  readonly stripOf: Int32Array
  readonly y: Float64Array
  /** Where the normalwash is taken. */
  readonly receiveX: Float64Array
  /** Where the force acts: the same points. */
  readonly forceX: Float64Array
  /** Area on which the box's pressure acts; 0 where nothing of it lies on the fin at the strip's centre. */
  readonly area: Float64Array
  readonly panels: readonly Panel[]
}

export interface SourceLatticeSize {
  /** Boxes along the longest chord. */
  readonly chordwise: number
  /** Strips over the span, as nearly as the outline's corners let. */
  readonly spanwise: number
}

/** Boxes on a fin outline (x aft, y outboard from the body surface). */
export function sourceLattice(outline: readonly Point[], { chordwise, spanwise }: SourceLatticeSize): SourceLattice {
  const strips = finStrips(outline, spanwise, tipInset).map(sourceStrip)
  invariant(strips.length > 0, 'fin outline without strips')
  const h = Math.max(...strips.map(longestLine)) / chordwise
  const stripStart = new Int32Array(strips.length + 1)
  strips.forEach((strip, s) => {
    stripStart[s + 1] = stripStart[s] + Math.max(1, Math.ceil(longestLine(strip) / h - 1e-9))
  })
  const count = stripStart[strips.length]
  const stripOf = new Int32Array(count)
  strips.forEach((_, s) => {
    stripOf.fill(s, stripStart[s], stripStart[s + 1])
  })
  const panels = strips.flatMap((strip, s) => panelsOfStrip(strip, s, h, stripStart[s]))
  return { count, h, strips, stripStart, stripOf, panels, ...pointsOfBoxes(strips, stripOf, stripStart, h, panels) }
}

/** A lattice of about `boxes` boxes (default 150): as wide as long, but neither few strips nor few boxes along the chord. */
export function sourceLatticeSize(outline: readonly Point[], boxes = 150): SourceLatticeSize {
  const span = Math.max(...outline.map(([, y]) => y))
  const chord = Math.max(...finStrips(outline, 12, 0).map(({ pieces }) => chordOf(pieces)))
  const fill = Math.abs(areaOf(outline)) / (span * chord)
  const ratio = Math.min(squarest.most, Math.max(squarest.least, span / chord))
  const spanwise = Math.max(6, Math.round(Math.sqrt((boxes * ratio) / fill)))
  return { spanwise, chordwise: Math.max(6, Math.round(boxes / (fill * spanwise))) }
}

/** Strips to boxes along the longest chord: measured, see docs/methods/air-supersonic.md. */
const squarest = { least: 0.6, most: 1.6 }

function sourceStrip(strip: Strip): SourceStrip {
  const { yIn, yOut, pieces } = strip
  const [{ leadIn, leadOut }] = pieces
  return {
    ...strip,
    slope: (leadOut - leadIn) / (yOut - yIn),
    lead: (leadIn + leadOut) / 2,
    middle: (yIn + yOut) / 2,
  }
}

/** Longest extent of the strip along x behind its leading edge, first piece to last. */
function longestLine({ pieces }: Strip): number {
  const [{ leadIn, leadOut }] = pieces
  return Math.max(...pieces.flatMap(({ trailIn, trailOut }) => [trailIn - leadIn, trailOut - leadOut]))
}

export const leadOf = ({ leadIn, leadOut }: Piece): number => (leadIn + leadOut) / 2
export const trailOf = ({ trailIn, trailOut }: Piece): number => (trailIn + trailOut) / 2

function panelsOfStrip({ pieces, lead }: SourceStrip, strip: number, h: number, first: number): Panel[] {
  const panels: Panel[] = []
  for (const piece of pieces) {
    const [start, end] = [leadOf(piece), trailOf(piece)]
    const i0 = Math.floor((start - lead) / h + 1e-9)
    // A sliver behind the last line is joined to the panel before it.
    const i1 = Math.max(i0, Math.ceil((end - lead) / h - sliver) - 1)
    for (let i = i0; i <= i1; i++) {
      panels.push({
        box: first + i,
        strip,
        from: i === i0 ? start : lead + i * h,
        to: i === i1 ? end : lead + (i + 1) * h,
        atLead: i === i0,
        atTrail: i === i1,
      })
    }
  }
  return panels
}

/** In boxes. */
const sliver = 0.05

function pointsOfBoxes(
  strips: readonly SourceStrip[],
  stripOf: Int32Array,
  stripStart: Int32Array,
  h: number,
  panels: readonly Panel[],
) {
  const y = Float64Array.from(stripOf, (s) => strips[s].middle)
  const area = new Float64Array(stripOf.length)
  const moment = new Float64Array(stripOf.length)
  for (const { box, strip, from, to } of panels) {
    const dA = (to - from) * (strips[strip].yOut - strips[strip].yIn)
    area[box] += dA
    moment[box] += (dA * (from + to)) / 2
  }
  const receiveX = area.map((A, box) => {
    if (A > 0) return moment[box] / A
    const { lead, pieces } = strips[stripOf[box]]
    return nearestOnPieces(pieces, lead + (box - stripStart[stripOf[box]] + 0.5) * h)
  })
  return { y, area, receiveX, forceX: receiveX }
}

function nearestOnPieces(pieces: readonly Piece[], x: number): number {
  const ends = pieces.flatMap((piece) => [leadOf(piece), trailOf(piece)])
  return ends.reduce((best, end) => (Math.abs(end - x) < Math.abs(best - x) ? end : best))
}

const chordOf = (pieces: readonly Piece[]): number =>
  pieces.reduce((sum, piece) => sum + trailOf(piece) - leadOf(piece), 0)

function areaOf(outline: readonly Point[]): number {
  return outline.reduce((sum, [x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]
    return sum + (x0 * y1 - x1 * y0) / 2
  }, 0)
}
