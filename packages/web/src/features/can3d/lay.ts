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
export const positionsOf = (facets: readonly Facet[]): number[] =>
  facets.flatMap((facet) => facet.slice(2).flatMap((corner, i) => [...facet[0]!.at, ...facet[i + 1]!.at, ...corner.at]))

type Box = readonly [number, number, number, number]

function boxOf(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)]
}

const meet = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
