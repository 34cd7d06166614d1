/**
 * Where a piece's label goes: the largest upright box about the centre line that stays inside the net line, or a tab outside
 * it where that box is too small to write in.
 *
 * A label needs 60 × 16 mm: two lines of capitals at least 3 mm high with room to read them (common practice, no source).
 */
import type { Point } from '../geometry/point.ts'
import { bounds, type Polygon } from '../geometry/polygon.ts'

export interface LabelPlace {
  /** Middle of the box, or of the tab. */
  readonly at: Point
  /** Room along X and across. */
  readonly length: number
  readonly width: number
  /** True when the label stands on a tab outside the cut line. */
  readonly onTab: boolean
}

const needed = { length: 0.06, width: 0.016 }
/** Kept clear of the net line. */
const clear = 0.003
const rows = 48

export function labelPlace(net: Polygon, cut: Polygon, middle = 0): LabelPlace {
  const box = boxAbout(net, middle)
  if (box.length >= needed.length && box.width >= needed.width) return { ...box, onTab: false }
  const aft = bounds(cut).right
  return { at: [aft + clear + needed.length / 2, middle], length: needed.length, width: needed.width, onTab: true }
}

const boxAbout = (net: Polygon, middle: number): Omit<LabelPlace, 'onTab'> => {
  const box = largestBox(middle === 0 ? net : net.map(([X, Y]): Point => [X, Y - middle]))
  return { ...box, at: [box.at[0], box.at[1] + middle] }
}

/** Grows a box outward from the centre line row by row and keeps the largest. */
function largestBox(net: Polygon): Omit<LabelPlace, 'onTab'> {
  const { top, bottom } = bounds(net)
  const half = Math.max(top, -bottom)
  const first = rangeAt(net, 0)
  if (first === null) return { at: [0, 0], length: 0, width: 0 }
  const middle = (first[0] + first[1]) / 2
  let [forward, aft] = first
  let best = { forward, aft, Y: 0, size: 0 }
  for (let k = 1; k <= rows; k++) {
    const Y = (k / rows) * half
    const range = rangeAt(net, Y * (1 - 1e-9), middle)
    if (range === null) break
    for (const [x, y] of net) {
      if (Math.abs(y) > Y || Math.abs(y) < Y - half / rows) continue
      if (x < middle) forward = Math.max(forward, x)
      else aft = Math.min(aft, x)
    }
    forward = Math.max(forward, range[0])
    aft = Math.min(aft, range[1])
    const size = (aft - forward - 2 * clear) * (Y - clear)
    if (aft - forward > 2 * clear && size > best.size) best = { forward, aft, Y, size }
  }
  return {
    at: [(best.forward + best.aft) / 2, 0],
    length: Math.max(0, best.aft - best.forward - 2 * clear),
    width: Math.max(0, 2 * (best.Y - clear)),
  }
}

/** Ends of the polygon's crossing at Y that holds `through`, or of its whole reach there; null where it is not. */
export function rangeAt(polygon: Polygon, Y: number, through?: number): readonly [number, number] | null {
  const crossings: number[] = []
  for (let i = 0; i < polygon.length; i++) {
    const a = polygon[i]!
    const b = polygon[i + 1 < polygon.length ? i + 1 : 0]!
    if (a[1] > Y !== b[1] > Y) crossings.push(a[0] + ((Y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]))
  }
  crossings.sort((a, b) => a - b)
  if (crossings.length < 2) return null
  if (through === undefined) return [crossings[0]!, crossings.at(-1)!]
  for (let i = 0; i + 1 < crossings.length; i += 2)
    if (crossings[i]! <= through && through <= crossings[i + 1]!) return [crossings[i]!, crossings[i + 1]!]
  return null
}
