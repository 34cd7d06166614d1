/**
 * Thickness of a fin's core where its edges are bevelled or rounded.
 *
 * With d the distance to an edge, square to it, w the width shaped, t the core's thickness and l the land left at the edge:
 *
 *   bevel   t(d) = l + (t − l) d / w                          m, for d < w; straight
 *   round   t(d) = l + (t − l) √(1 − (1 − d / w)²)            m, for d < w; a quarter of an ellipse, level at d = w
 *   square  t(d) = t
 *
 * Near a corner the edge that leaves less counts. A shaped edge runs on straight past a sharp corner that points outward, as
 * a cutter does, for at most four widths; elsewhere the distance beyond the end of an edge is that to the end itself.
 */
import { type EdgeName, edgeNames, type FinOutline, finSides, type NamedSide } from './fin-outline.ts'
import { distance, type Point, turn } from './point.ts'
import { smoothTurn } from './polygon-strips.ts'

/** `width` measured in the plane of the fin, square to the edge; `land` the thickness left at the edge. */
export interface EdgeProfile {
  readonly kind: 'square' | 'bevel' | 'round'
  readonly width: number
  readonly land: number
}

export type EdgeProfiles = { readonly [edge in EdgeName]: EdgeProfile }

/** A function of the place on the fin, in fin axes; outside the outline it gives what the nearest edge would. */
export function coreThickness(input: {
  readonly outline: FinOutline
  readonly thickness: number
  readonly edges: EdgeProfiles
}): (at: Point) => number {
  const { outline, thickness, edges } = input
  const sides = finSides(outline)
  const shaped = sides.flatMap((side, i) => {
    if (side.name === 'root') return []
    const { kind, width, land } = edges[side.name]
    const before = sharpOutward(sides[(i + sides.length - 1) % sides.length]!, side)
    const after = sharpOutward(side, sides[(i + 1) % sides.length]!)
    const depth = depthFrom(side, before ? 4 * width : 0, after ? 4 * width : 0)
    return kind !== 'square' && width > 0 ? [{ depth, kind, width, land }] : []
  })
  return (at) => {
    let least = thickness
    for (const { depth, kind, width, land } of shaped) {
      const share = depth(at) / width
      if (share >= 1) continue
      const rise = kind === 'bevel' ? share : Math.sqrt(1 - (1 - share) ** 2)
      least = Math.min(least, land + (thickness - land) * rise)
    }
    return least
  }
}

/** Distance to the side, drawn out past its ends by the given lengths. */
function depthFrom({ a, b }: NamedSide, before: number, after: number): (at: Point) => number {
  const length = distance(a, b)
  const tx = (b[0] - a[0]) / length
  const ty = (b[1] - a[1]) / length
  return ([x, y]) => {
    const along = (x - a[0]) * tx + (y - a[1]) * ty
    const past = Math.max(0, -before - along, along - length - after)
    return Math.hypot(past, (y - a[1]) * tx - (x - a[0]) * ty)
  }
}

function sharpOutward(first: NamedSide, second: NamedSide): boolean {
  const sine = turn(first.a, first.b, second.b) / (distance(first.a, first.b) * distance(second.a, second.b))
  const cosine =
    ((first.b[0] - first.a[0]) * (second.b[0] - second.a[0]) +
      (first.b[1] - first.a[1]) * (second.b[1] - second.a[1])) /
    (distance(first.a, first.b) * distance(second.a, second.b))
  return Math.atan2(sine, cosine) >= smoothTurn
}

/** How far inward the shaping of each edge reaches; 0 for a square edge. */
export const shapedWidths = (edges: EdgeProfiles): { readonly [edge in EdgeName]: number } =>
  Object.fromEntries(edgeNames.map((edge) => [edge, edges[edge].kind === 'square' ? 0 : edges[edge].width])) as {
    readonly [edge in EdgeName]: number
  }
