/**
 * The numbers of a fin's plan form that the normal-force formulas ask for, from an outline of any shape.
 *
 *   area     A_f = ∫ c dy                        aspect ratio  AR = 2 s² / A_f (fin and its mirror image, as Barrowman has it)
 *   spanwise centroid  ȳ = ∫ c y dy / A_f        mid-chord line x_m(y) ≈ x₀ + y tan Γ, fitted with weight c
 *
 * Integrals over strips that end at the outline's corners, with Gauss's two points in each: exact for straight edges but the
 * fit, which is exact when both edges are straight. Outline in fin axes: x aft, y outboard, from the root leading edge over
 * the tip to the root trailing edge; where an outline folds back over itself the chord is the sum of its pieces.
 */
import { invariant } from '../issue.ts'

export interface FinForm {
  readonly area: number
  /** Exposed semispan s, from the body surface to the outermost point. */
  readonly span: number
  readonly aspectRatio: number
  /** Of the line through the middles of the chords, rad, aft positive. */
  readonly midChordSweep: number
  /** Spanwise centroid of the area, where a uniform pressure has its resultant; from the body surface. */
  readonly centroidSpan: number
  /** Chordwise centroid, from the root leading edge. */
  readonly centroidChord: number
  readonly meanChord: number
  /** Tip chord over root chord; 0 for a pointed tip. */
  readonly taper: number
  readonly bodyRadius: number
}

type Point = readonly [number, number]

const gauss = [0.5 - Math.sqrt(3) / 6, 0.5 + Math.sqrt(3) / 6]
/** Strips between two corners; more than one only matters where an edge was drawn with many short segments. */
const stripsBetweenCorners = 4

export function finForm(points: readonly Point[], bodyRadius: number): FinForm {
  const span = Math.max(...points.map(([, y]) => y))
  invariant(points.length >= 3 && span > 0, `fin outline of ${points.length} points and span ${span}`)
  let [area, momentY, momentX] = [0, 0, 0]
  let [sw, swy, swyy, swm, swym] = [0, 0, 0, 0, 0]
  for (const { y, width } of stations(points, span)) {
    const { chord, middle } = chordAt(points, y)
    const dA = chord * width
    area += dA
    momentY += dA * y
    momentX += dA * middle
    sw += dA
    swy += dA * y
    swyy += dA * y * y
    swm += dA * middle
    swym += dA * y * middle
  }
  invariant(area > 0, `fin outline encloses no area`)
  const tangent = (sw * swym - swy * swm) / (sw * swyy - swy * swy)
  return {
    area,
    span,
    aspectRatio: (2 * span * span) / area,
    midChordSweep: Math.atan(tangent),
    centroidSpan: momentY / area,
    centroidChord: momentX / area,
    meanChord: area / span,
    taper: chordAt(points, span * (1 - 1e-9)).chord / chordAt(points, span * 1e-9).chord,
    bodyRadius,
  }
}

function stations(points: readonly Point[], span: number): { y: number; width: number }[] {
  const corners = [...new Set([0, ...points.map(([, y]) => y).filter((y) => y > 0), span])].sort((p, q) => p - q)
  const found: { y: number; width: number }[] = []
  for (let i = 1; i < corners.length; i++) {
    const strip = (corners[i] - corners[i - 1]) / stripsBetweenCorners
    for (let j = 0; j < stripsBetweenCorners; j++) {
      for (const share of gauss) found.push({ y: corners[i - 1] + (j + share) * strip, width: strip / 2 })
    }
  }
  return found
}

/** Chord and middle of the chord at height y, by the crossings of the outline with that height. */
export function chordAt(points: readonly Point[], y: number): { chord: number; middle: number } {
  const crossings: number[] = []
  for (let i = 0; i < points.length; i++) {
    const [x0, y0] = points[i]
    const [x1, y1] = points[(i + 1) % points.length]
    if (y0 > y !== y1 > y) crossings.push(x0 + ((y - y0) / (y1 - y0)) * (x1 - x0))
  }
  crossings.sort((p, q) => p - q)
  let [chord, moment] = [0, 0]
  for (let i = 0; i + 1 < crossings.length; i += 2) {
    const piece = crossings[i + 1] - crossings[i]
    chord += piece
    moment += (piece * (crossings[i] + crossings[i + 1])) / 2
  }
  return { chord, middle: chord > 0 ? moment / chord : 0 }
}
