/**
 * What of a lattice's influence depends on its geometry alone, whatever the Mach number and frequency.
 *
 * The kernel is sampled at three points of every doublet line; lines that meet share their ends, so each point is evaluated
 * once. The spanwise distances between receiving points and samples take few values, one a strip and `column` (distinct span
 * of the samples); so do the weights of the samples. The body surface y = 0 is a mirror: the image of a box sends with weight
 * `reflection`, 1 for a symmetric flow, −1 for an antisymmetric one, 0 for a surface alone.
 */
import { type DoubletLine, parabolaWeights } from './doublet-line.ts'
import type { Lattice } from './lattice.ts'

/** Influence of the boxes themselves, or of their images in the mirror. */
export interface SideGeometry {
  /** +1 for the boxes, −1 for their images, whose span is negative. */
  readonly mirror: 1 | -1
  /** What the side counts: 1 for the boxes, the reflection for their images. */
  readonly factor: number
  /** Weights of a box's samples (outboard end, middle, inboard end) by receiving strip and sending strip, 3 each. */
  readonly weights: Float64Array
  /** |y − η| by receiving strip and column. */
  readonly distance: Float64Array
}

export interface LiftingSurface {
  readonly lattice: Lattice
  readonly strips: number
  /** Strip of each box. */
  readonly stripOf: Int32Array
  readonly pointX: Float64Array
  readonly pointY: Float64Array
  readonly pointColumn: Int32Array
  readonly columns: number
  /** Samples of a box: outboard end, middle, inboard end; 3 a box. */
  readonly pointOf: Int32Array
  readonly sides: readonly SideGeometry[]
  /** 1 where the next box lies behind this one on the same piece of a strip. */
  readonly hasNext: Uint8Array
  /** ∫ ln|t| dt − Σ w t² ln|t| on the strip itself: what the parabola misses of the kernel's logarithm. */
  readonly ownLogarithm: Float64Array
}

export function liftingSurface(lattice: Lattice, reflection = 1): LiftingSurface {
  const samples = samplePoints(lattice)
  const strips = lattice.stripStart.length - 1
  const stripOf = new Int32Array(lattice.count)
  for (let s = 0; s < strips; s++) stripOf.fill(s, lattice.stripStart[s], lattice.stripStart[s + 1])
  const hasNext = Uint8Array.from({ length: lattice.count }, (_, i) => (follows(lattice, i) ? 1 : 0))
  const side = (mirror: 1 | -1, factor: number) => sideGeometry(lattice, samples.columnY, mirror, factor)
  const sides = reflection === 0 ? [side(1, 1)] : [side(1, 1), side(-1, reflection)]
  const { columnY, ...points } = samples
  return {
    lattice,
    strips,
    stripOf,
    ...points,
    columns: columnY.length,
    sides,
    hasNext,
    ownLogarithm: ownLogarithms(lattice),
  }
}

/** The doublet line of box j, or of its image, as box i sees it. */
export function doubletLine(lattice: Lattice, i: number, j: number, mirror: 1 | -1, mach: number): DoubletLine {
  const { lineIn, lineOut, yIn, yOut, y, receiveX } = lattice
  const b = ((lineOut[j] - lineIn[j]) / (yOut[j] - yIn[j])) * mirror
  const a = receiveX[i] - lineIn[j] - (y[i] - mirror * yIn[j]) * b
  const [p, q] = [y[i] - mirror * yOut[j], y[i] - mirror * yIn[j]]
  return { t1: Math.min(p, q), t2: Math.max(p, q), a, b, mach }
}

function follows({ count, y, forceX, chord }: Lattice, i: number): boolean {
  const gap = forceX[i + 1] - forceX[i] - (chord[i] + chord[i + 1]) / 2
  return i + 1 < count && y[i + 1] === y[i] && Math.abs(gap) < 1e-6 * chord[i]
}

function samplePoints({ count, lineIn, lineOut, yIn, yOut, y }: Lattice) {
  const [xs, ys, pointColumn, columnY]: [number[], number[], number[], number[]] = [[], [], [], []]
  const known = new Map<string, number>()
  const columnOf = new Map<string, number>()
  // Ends of neighbouring lines agree to rounding; a nanometre tells them apart from lines that do not meet.
  const key = (value: number) => value.toFixed(9)
  const point = (px: number, py: number): number => {
    const place = `${key(px)} ${key(py)}`
    const found = known.get(place)
    if (found !== undefined) return found
    const column = columnOf.get(key(py)) ?? columnY.push(py) - 1
    columnOf.set(key(py), column)
    known.set(place, xs.length)
    pointColumn.push(column)
    ys.push(py)
    return xs.push(px) - 1
  }
  const pointOf = new Int32Array(3 * count)
  for (let j = 0; j < count; j++) {
    pointOf[3 * j] = point(lineOut[j], yOut[j])
    pointOf[3 * j + 1] = point((lineIn[j] + lineOut[j]) / 2, y[j])
    pointOf[3 * j + 2] = point(lineIn[j], yIn[j])
  }
  const [pointX, pointY] = [Float64Array.from(xs), Float64Array.from(ys)]
  return { pointX, pointY, pointColumn: Int32Array.from(pointColumn), pointOf, columnY }
}

function sideGeometry(lattice: Lattice, columnY: readonly number[], mirror: 1 | -1, factor: number): SideGeometry {
  const { stripStart, y, yIn, yOut } = lattice
  const strips = stripStart.length - 1
  const weights = new Float64Array(3 * strips * strips)
  const distance = new Float64Array(strips * columnY.length)
  for (let r = 0; r < strips; r++) {
    const yr = y[stripStart[r]]
    columnY.forEach((py, c) => {
      const apart = Math.abs(yr - mirror * py)
      // The receiving point of a strip and the middle sample of the same strip share their span, to rounding.
      distance[r * columnY.length + c] = apart < 1e-12 * yr ? 0 : apart
    })
    for (let s = 0; s < strips; s++) {
      const [outer, inner] = [yr - mirror * yOut[stripStart[s]], yr - mirror * yIn[stripStart[s]]]
      // Weights in the order of the samples; an image's outboard end lies at the far end of t.
      const w = mirror > 0 ? parabolaWeights(outer, inner) : parabolaWeights(inner, outer).reverse()
      weights.set(w, 3 * (r * strips + s))
    }
  }
  return { mirror, factor, weights, distance }
}

function ownLogarithms({ stripStart, y, yIn, yOut }: Lattice): Float64Array {
  return Float64Array.from({ length: stripStart.length - 1 }, (_, s) => {
    const i = stripStart[s]
    const nodes = [y[i] - yOut[i], 0, y[i] - yIn[i]]
    const w = parabolaWeights(nodes[0], nodes[2])
    const log = (t: number) => Math.log(Math.abs(t))
    const exact = nodes[2] * (log(nodes[2]) - 1) - nodes[0] * (log(nodes[0]) - 1)
    return exact - w[0] * nodes[0] ** 2 * log(nodes[0]) - w[2] * nodes[2] ** 2 * log(nodes[2])
  })
}
