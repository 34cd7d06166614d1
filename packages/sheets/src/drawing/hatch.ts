/**
 * Parallel lines inside an outline: the weave of a cloth, a hatched section.
 *
 * With the even-odd rule over all outlines together, so that an outline inside another is a hole. The lines are those
 * through `origin` + k · spacing, whatever the outline, so that neighbouring areas of one cloth match.
 */
import type { XY } from './drawing.ts'

export interface Hatch {
  /** Direction of the lines, rad, from +x towards +y of the page. */
  readonly angle: number
  readonly spacing: number
  readonly origin?: XY
}

export function hatched(outlines: readonly (readonly XY[])[], { angle, spacing, origin = [0, 0] }: Hatch): [XY, XY][] {
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  // u along the lines, v across them
  const turned = outlines.map((outline) =>
    outline.map(([x, y]): XY => {
      const dx = x - origin[0]
      const dy = y - origin[1]
      return [c * dx + s * dy, -s * dx + c * dy]
    }),
  )
  const V = turned.flatMap((outline) => outline.map(([, v]) => v))
  if (V.length === 0) return []
  const first = Math.ceil(Math.min(...V) / spacing)
  const last = Math.floor(Math.max(...V) / spacing)
  const back = (u: number, v: number): XY => [origin[0] + c * u - s * v, origin[1] + s * u + c * v]
  const pairs: [XY, XY][] = []
  for (let k = first; k <= last; k++) {
    const v = k * spacing
    const U = crossings(turned, v)
    for (let i = 0; i + 1 < U.length; i += 2) {
      if (U[i + 1] - U[i] > 1e-9) pairs.push([back(U[i], v), back(U[i + 1], v)])
    }
  }
  return pairs
}

/** Where the line v = const crosses the outlines, in order; half-open edges, so that a corner counts once. */
function crossings(outlines: readonly (readonly XY[])[], v: number): number[] {
  const U: number[] = []
  for (const outline of outlines) {
    let [u0, v0] = outline[outline.length - 1]
    for (const [u1, v1] of outline) {
      if (v0 <= v !== v1 <= v) U.push(u0 + ((v - v0) / (v1 - v0)) * (u1 - u0))
      u0 = u1
      v0 = v1
    }
  }
  return U.sort((a, b) => a - b)
}
