/**
 * Where a piece must be cut because its weave cannot take the shear.
 *
 * Cells past the limit that touch each other make one patch. A patch that stays within 5 mm of the net line is trimmed off: the
 * ply stops short of it there. A deeper one is slit, from the nearest point of the net line to its innermost cell and half a
 * cell on. Beside such a cut the cloth need not turn by more than the limit, so that its lips part or lap by about
 *
 *   opening = length · tan(|gamma| − limit)        m at the mouth, gamma the patch's greatest shear
 *
 * The proposal is ours (common practice: cloth is slit where it bunches); how wide it opens is an estimate.
 */
import { distance, type Point } from '../../geometry/point.ts'
import { distanceToBoundary, type Polygon, sides } from '../../geometry/polygon.ts'

export interface ReliefCut {
  readonly kind: 'cut' | 'trim'
  /** On the net line, and the innermost end. */
  readonly from: Point
  readonly to: Point
  /** The patch's greatest shear, without its sign. */
  readonly shear: number
  readonly opening: number
  /** Area of the patch. */
  readonly area: number
}

/** Depth that can be trimmed off without baring the ply beneath by more than a step. */
const shallow = 5e-3

interface Cell {
  readonly at: Point
  readonly shear: number
}

export function reliefCuts(input: {
  readonly cells: readonly Cell[]
  readonly step: number
  readonly limit: number
  readonly net: Polygon
}): readonly ReliefCut[] {
  const { cells, step, limit, net } = input
  const past = cells.filter(({ shear }) => Math.abs(shear) > limit)
  return patchesOf(past, 1.6 * step).map((patch): ReliefCut => {
    const deepest = patch.reduce((a, b) => (distanceToBoundary(net, b.at) > distanceToBoundary(net, a.at) ? b : a))
    const from = nearestOn(net, deepest.at)
    const length = distance(from, deepest.at)
    const on = length > 0 ? (length + step / 2) / length : 1
    const to: Point = [from[0] + on * (deepest.at[0] - from[0]), from[1] + on * (deepest.at[1] - from[1])]
    const shear = Math.max(...patch.map((cell) => Math.abs(cell.shear)))
    return {
      kind: distance(from, to) <= shallow ? 'trim' : 'cut',
      from,
      to,
      shear,
      opening: distance(from, to) * Math.tan(shear - limit),
      area: patch.length * step ** 2,
    }
  })
}

/** Cells nearer to each other than `reach`, directly or through others. */
function patchesOf(cells: readonly Cell[], reach: number): readonly (readonly Cell[])[] {
  const left = new Set(cells)
  const patches: Cell[][] = []
  for (const first of cells) {
    if (!left.delete(first)) continue
    const patch = [first]
    for (let k = 0; k < patch.length; k++)
      for (const other of left)
        if (distance(other.at, patch[k]!.at) < reach) {
          left.delete(other)
          patch.push(other)
        }
    patches.push(patch)
  }
  return patches
}

function nearestOn(polygon: Polygon, p: Point): Point {
  let best: Point = polygon[0]!
  for (const [a, b] of sides(polygon)) {
    const [ux, uy] = [b[0] - a[0], b[1] - a[1]]
    const size = ux * ux + uy * uy
    const share = size > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / size)) : 0
    const q: Point = [a[0] + share * ux, a[1] + share * uy]
    if (distance(q, p) < distance(best, p)) best = q
  }
  return best
}
