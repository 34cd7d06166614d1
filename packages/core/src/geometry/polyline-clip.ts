/** The parts of a polyline inside a polygon, and segments put back together as polylines. */
import { between, distance, type Point, turn } from './point.ts'
import { contains, type Polygon } from './polygon.ts'

export type Segment = readonly [Point, Point]
export type Polyline = readonly Point[]

/** A segment that runs along a side of the polygon may come out inside or outside. */
export function polylineInside(polygon: Polygon, line: Polyline): readonly Polyline[] {
  return joined(line.slice(1).flatMap((b, i) => segmentInside(polygon, line[i]!, b)))
}

function segmentInside(polygon: Polygon, a: Point, b: Point): Segment[] {
  const cuts = [0, 1]
  polygon.forEach((p, i) => {
    const q = polygon[i + 1 < polygon.length ? i + 1 : 0]!
    const sa = turn(p, q, a)
    const sb = turn(p, q, b)
    if (sa > 0 === sb > 0 || turn(a, b, p) > 0 === turn(a, b, q) > 0) return
    cuts.push(sa / (sa - sb))
  })
  cuts.sort((s, t) => s - t)
  return cuts.slice(1).flatMap((t, i): Segment[] => {
    const s = cuts[i]!
    if ((t - s) * distance(a, b) < 1e-9 || !contains(polygon, between(a, b, (s + t) / 2))) return []
    return [[s === 0 ? a : between(a, b, s), t === 1 ? b : between(a, b, t)]]
  })
}

/** Segments that follow each other become one polyline; the first may go on where the last ends. */
export function joined(segments: readonly Segment[]): readonly Polyline[] {
  const lines: Point[][] = []
  for (const [a, b] of segments) {
    const last = lines.at(-1)
    if (last !== undefined && distance(last.at(-1)!, a) < 1e-9) last.push(b)
    else lines.push([a, b])
  }
  const first = lines[0]
  const last = lines.at(-1)
  if (first !== undefined && last !== undefined && first !== last && distance(last.at(-1)!, first[0]!) < 1e-9) {
    lines.shift()
    lines[lines.length - 1] = [...last, ...first.slice(1)]
  }
  return lines
}
