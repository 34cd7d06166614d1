/**
 * Lattice of trapezoidal boxes on a plane fin: where each box sends (a doublet line along its quarter chord) and where it
 * receives (three quarters of its chord, in the middle of its strip).
 *
 * Box i of a piece with n boxes lies between the lines at i/n and (i + 1)/n of the chord. A pressure difference Δc_p on a box is
 * a force q A Δc_p at its quarter-chord point. Source: Albano & Rodden, A doublet-lattice method for calculating lift
 * distributions on oscillating surfaces in subsonic flows, AIAA J. 7 (1969) 279-285; the quarter and three-quarter points make
 * the steady two-dimensional lift and moment of a flat plate exact for any n: James, Comput. Methods Appl. Mech. Eng. 1 (1972) 59.
 */
import { invariant } from '../../issue.ts'
import { finStrips, type Point, type Strip } from './strips.ts'

/** Boxes are numbered strip by strip from the root, in a strip from the leading edge aft; arrays are one entry a box. */
export interface Lattice {
  readonly count: number
  /** x of the doublet line at the strip's inboard and outboard end. */
  readonly lineIn: Float64Array
  readonly lineOut: Float64Array
  /** Span of the strip's ends. */
  readonly yIn: Float64Array
  readonly yOut: Float64Array
  /** Middle of the strip. */
  readonly y: Float64Array
  /** x of the receiving point. */
  readonly receiveX: Float64Array
  /** x of the point where the force acts. */
  readonly forceX: Float64Array
  /** Chord of the box in the middle of its strip. */
  readonly chord: Float64Array
  readonly area: Float64Array
  /** First box of each strip, and the count of boxes at the end: strips + 1 entries. */
  readonly stripStart: Int32Array
}

export interface LatticeSize {
  /** Boxes along the chord of a whole strip. */
  readonly chordwise: number
  /** Strips over the span, as nearly as the outline's corners let. */
  readonly spanwise: number
  /** Share of the last strip's width left free inside the tip; default 0.25. */
  readonly tipInset?: number
}

/** Boxes on a fin outline (x aft, y outboard from the body surface). */
export function finLattice(outline: readonly Point[], { chordwise, spanwise, tipInset = 0.25 }: LatticeSize): Lattice {
  return latticeOfStrips(finStrips(outline, spanwise, tipInset), chordwise)
}

/**
 * A lattice fit for the fin, about `boxes` in all (default 120): boxes `shape` times as long in span as in chord.
 */
export function finLatticeSize(outline: readonly Point[], boxes = 120): LatticeSize {
  const span = Math.max(...outline.map(([, y]) => y))
  const ratio = span ** 2 / Math.abs(signedArea(outline))
  const spanwise = Math.round(Math.min(boxes / 6, Math.max(6, Math.sqrt((boxes * ratio) / shape))))
  return { spanwise, chordwise: Math.max(4, Math.round(boxes / spanwise)) }
}

/** Width of a box over its chord: measured, see docs/methods/air-subsonic.md. */
const shape = 1

export function latticeOfStrips(strips: readonly Strip[], chordwise: number): Lattice {
  const boxes = strips.map((strip) => boxesOfStrip(strip, chordwise))
  const all = boxes.flat()
  invariant(all.length > 0, 'lattice without boxes')
  const column = (key: keyof Box) => Float64Array.from(all, (box) => box[key])
  const stripStart = new Int32Array(boxes.length + 1)
  boxes.forEach((list, s) => {
    stripStart[s + 1] = stripStart[s] + list.length
  })
  return {
    count: all.length,
    lineIn: column('lineIn'),
    lineOut: column('lineOut'),
    yIn: column('yIn'),
    yOut: column('yOut'),
    y: column('y'),
    receiveX: column('receiveX'),
    forceX: column('forceX'),
    chord: column('chord'),
    area: column('area'),
    stripStart,
  }
}

type Box = { readonly [key in Exclude<keyof Lattice, 'count' | 'stripStart'>]: number }

function boxesOfStrip({ yIn, yOut, pieces }: Strip, chordwise: number): Box[] {
  const chords = pieces.map((p) => (p.trailIn + p.trailOut - p.leadIn - p.leadOut) / 2)
  const whole = chords.reduce((sum, c) => sum + c, 0)
  return pieces.flatMap(({ leadIn, leadOut, trailIn, trailOut }, p) => {
    const n = Math.max(1, Math.round((chordwise * chords[p]) / whole))
    const along = (share: number) => ({
      inner: leadIn + share * (trailIn - leadIn),
      outer: leadOut + share * (trailOut - leadOut),
    })
    return Array.from({ length: n }, (_, i) => {
      const [line, receive] = [along((i + 0.25) / n), along((i + 0.75) / n)]
      return {
        lineIn: line.inner,
        lineOut: line.outer,
        yIn,
        yOut,
        y: (yIn + yOut) / 2,
        receiveX: (receive.inner + receive.outer) / 2,
        forceX: (line.inner + line.outer) / 2,
        chord: chords[p] / n,
        area: (chords[p] / n) * (yOut - yIn),
      }
    })
  })
}

function signedArea(outline: readonly Point[]): number {
  let sum = 0
  outline.forEach(([x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]
    sum += x0 * y1 - x1 * y0
  })
  return sum / 2
}
