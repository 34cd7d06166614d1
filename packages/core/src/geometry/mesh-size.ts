/**
 * How large triangles may be at each point of an outline, and the outline cut into edges of that length.
 *
 *   h(p) = min(size, min over features (hᵢ + grading · |p − pᵢ|))
 *
 * Features: the middle of each segment shorter than `size` (h = its length) and each corner that another, not adjacent,
 * segment comes near to (h = the distance). A segment is cut into n = ceil(∫ ds / h) edges of equal ∫ ds / h.
 */
import { invariant } from '../issue.ts'
import { between, distance, distanceToSegment, type Point } from './point.ts'

export type SizeField = (x: number, y: number) => number

/** h grows by this much per length away from a feature: neighbouring edges differ by about as much. */
const grading = 0.35
/** Segments shorter than this share of the outline's extent are one point: rounding of a collapsed tip. */
const collapsed = 1e-9

export interface OutlineSegment {
  readonly from: Point
  readonly to: Point
  readonly length: number
  /** Index into the outline as given. */
  readonly segment: number
}

/** The outline's segments that have a length, counter-clockwise. Corners closer than rounding are joined. */
export function outlineSegments(outline: readonly Point[]): OutlineSegment[] {
  const xs = outline.map(([x]) => x)
  const ys = outline.map(([, y]) => y)
  const extent = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys))
  invariant(extent > 0 && Number.isFinite(extent), `outline of extent ${extent}`)
  const kept = outline
    .map((point, segment) => ({ point, segment, length: distance(point, outline[(segment + 1) % outline.length]) }))
    .filter(({ length }) => length > collapsed * extent)
  invariant(kept.length >= 3, `outline has ${kept.length} segments of some length`)
  return kept.map(({ point, segment }, i) => {
    const to = kept[(i + 1) % kept.length].point
    return { from: point, to, length: distance(point, to), segment }
  })
}

export function sizeField(segments: readonly OutlineSegment[], size: number): SizeField {
  const features: { x: number; y: number; h: number }[] = []
  const n = segments.length
  segments.forEach(({ from, to, length }, i) => {
    if (length < size) features.push({ x: (from[0] + to[0]) / 2, y: (from[1] + to[1]) / 2, h: length })
    let gap = Number.POSITIVE_INFINITY
    for (let j = 0; j < n; j++) {
      if (j !== i && j !== (i + n - 1) % n)
        gap = Math.min(gap, distanceToSegment(from, segments[j].from, segments[j].to))
    }
    if (gap < size) features.push({ x: from[0], y: from[1], h: gap })
  })
  return (x, y) => {
    let h = size
    for (const f of features) {
      const most = f.h + grading * Math.hypot(x - f.x, y - f.y)
      if (most < h) h = most
    }
    return h
  }
}

/** Interior points of a segment, from its start, at equal steps of ∫ ds / h. */
export function cutSegment({ from, to, length }: OutlineSegment, h: SizeField): Point[] {
  const samples = 64
  const integral = [0]
  for (let i = 0; i < samples; i++) {
    const [x, y] = between(from, to, (i + 0.5) / samples)
    integral.push(integral[i] + length / samples / h(x, y))
  }
  // A hundredth of an edge too long is better than one edge more.
  const edges = Math.max(1, Math.ceil(integral[samples] - 0.01))
  const points: Point[] = []
  for (let k = 1, i = 0; k < edges; k++) {
    const target = (k / edges) * integral[samples]
    while (integral[i + 1] < target) i++
    const share = (i + (target - integral[i]) / (integral[i + 1] - integral[i])) / samples
    points.push(between(from, to, share))
  }
  return points
}
