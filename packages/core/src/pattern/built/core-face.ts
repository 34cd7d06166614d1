/**
 * Half the core's thickness as a smooth function of the place on the fin, with shaped edges drawn on past the outline.
 *
 *   f(x, y) = least over the shaped sides of { h, profile(d) }        m, h half the core's thickness, d the depth from a side
 *
 *   bevel   l/2 + (h − l/2) d / w            for every d: past the edge, where no fin is, the plane runs on
 *   round   l/2 + (h − l/2) √(1 − (1 − d/w)²), and its tangent from where it falls by more than 0.3: cloth laid over a
 *           rounding is not pressed further round it (common practice, no source). One narrower than 4 mm is no surface to
 *           lay cloth on and counts as unshaped.
 *
 * d is measured from the side's whole line, which is right for an outline that bulges outward everywhere; another outline is
 * taken as unshaped. Where two of these surfaces meet they are joined by a parabola over 1.5 mm to each side of the crease:
 * cloth folds no sharper (common practice, no source). At the mitre of two bevels the same join rounds the corner.
 */
import type { EdgeProfiles } from '../../geometry/edge-profile.ts'
import { type FinOutline, finPolygon, finSides } from '../../geometry/fin-outline.ts'
import { distance } from '../../geometry/point.ts'
import { isConvex } from '../../geometry/polygon.ts'

export type CoreFace = (x: number, y: number) => number

const creaseHalfWidth = 1.5e-3
const narrowest = 4e-3

export function coreFace(input: {
  readonly outline: FinOutline
  readonly thickness: number
  readonly edges: EdgeProfiles
}): CoreFace {
  const { outline, thickness, edges } = input
  const h = thickness / 2
  const shaped = isConvex(finPolygon(outline)) ? shapedSides(outline, edges) : []
  if (shaped.length === 0) return () => h
  return (x, y) => {
    let least = h
    for (const { ax, ay, nx, ny, w, land, round } of shaped) {
      const d = (x - ax) * nx + (y - ay) * ny
      const slope = (h - land) / w
      const other = round ? land + (h - land) * roundRise(d / w, slope) : land + slope * d
      const band = Math.min(slope, steepest) * creaseHalfWidth
      least = softLeast(least, other, band)
    }
    return least
  }
}

function shapedSides(outline: FinOutline, edges: EdgeProfiles) {
  return finSides(outline).flatMap(({ a, b, name }) => {
    if (name === 'root' || edges[name].kind === 'square') return []
    if (edges[name].kind === 'round' && edges[name].width < narrowest) return []
    const length = distance(a, b)
    const { kind, width, land } = edges[name]
    return [
      {
        ax: a[0],
        ay: a[1],
        nx: -(b[1] - a[1]) / length,
        ny: (b[0] - a[0]) / length,
        w: width,
        land: land / 2,
        round: kind === 'round',
      },
    ]
  })
}

const steepest = 0.3

/** Rise over the greatest, `slope` the mean fall over the width. */
function roundRise(share: number, slope: number): number {
  if (share >= 1) return 1 + (share - 1)
  const k = steepest / slope
  const from = 1 - k / Math.hypot(1, k)
  if (share >= from) return Math.sqrt(1 - (1 - share) ** 2)
  return Math.sqrt(1 - (1 - from) ** 2) + k * (share - from)
}

/** The lesser of two, rounded off where they differ by less than the band. */
export function softLeast(a: number, b: number, band: number): number {
  const gap = Math.max(band - Math.abs(a - b), 0)
  return Math.min(a, b) - (band > 0 ? (gap * gap) / (4 * band) : 0)
}
