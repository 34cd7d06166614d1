/** A shape cut out of facets: the outline in triangles, and of each facet what lies in each of them. */
import type { Point } from '@finwright/core/geometry/point.ts'
import { ShapeUtils, Vector2 } from 'three'
import { crossOf, cut, type Facet } from './ground.ts'

export function laid(facets: readonly Facet[], outline: readonly Point[]): Facet[] {
  const triangles = ShapeUtils.triangulateShape(
    outline.map(([x, y]) => new Vector2(x, y)),
    [],
  ).map((corners) => corners.map((i) => outline[i]!) as [Point, Point, Point])
  const boxes = facets.map((facet) => boxOf(facet.map(({ flat }) => flat)))
  return triangles.flatMap(([a, b, c]) => {
    const [p, q, r] = crossOf(a, b, c) >= 0 ? [a, b, c] : [a, c, b]
    const box = boxOf([p, q, r])
    return facets.flatMap((facet, i): Facet[] => {
      if (!meet(boxes[i]!, box)) return []
      let kept = facet
      for (const [u, v] of [
        [p, q],
        [q, r],
        [r, p],
      ] as const) {
        if (kept.length < 3) return []
        kept = cut(kept, (flat) => crossOf(u, v, flat))
      }
      return kept.length < 3 ? [] : [kept]
    })
  })
}

/** Corners of triangles in turn, three numbers a corner. */
export function positionsOf(facets: readonly Facet[]): Float32Array {
  let triangles = 0
  for (const facet of facets) triangles += facet.length - 2
  const out = new Float32Array(9 * triangles)
  let to = 0
  for (const facet of facets) {
    for (let i = 2; i < facet.length; i++) {
      out.set(facet[0]!.at, to)
      out.set(facet[i - 1]!.at, to + 3)
      out.set(facet[i]!.at, to + 6)
      to += 9
    }
  }
  return out
}

type Box = readonly [number, number, number, number]

function boxOf(points: readonly Point[]): Box {
  let [left, low, right, high] = [points[0]![0], points[0]![1], points[0]![0], points[0]![1]]
  for (const point of points) {
    left = Math.min(left, point[0])
    low = Math.min(low, point[1])
    right = Math.max(right, point[0])
    high = Math.max(high, point[1])
  }
  return [left, low, right, high]
}

const meet = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
