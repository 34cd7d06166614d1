/** Cloth as faint lines: the warp solid, the weft lighter, both lying as they lie on the part. */
import { type Lines, pen, type XY } from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'

export interface WeaveStyle {
  /** Of the warp on the page, rad, clockwise from the right. */
  readonly turn: number
  readonly spacing: number
  readonly origin: XY
  /** Lines of the warp only: a cloth whose weft would hide the picture. */
  readonly warpOnly?: boolean
}

/** Inside the outlines by the even-odd rule. */
export function weave(outlines: readonly (readonly XY[])[], { turn, spacing, origin, warpOnly }: WeaveStyle): Lines[] {
  const warp: Lines = {
    kind: 'lines',
    layer: 'weave',
    pairs: hatched(outlines, { angle: turn, spacing, origin }),
    stroke: { ink: 'mid', width: pen.hair },
  }
  if (warpOnly) return [warp]
  const weft: Lines = {
    kind: 'lines',
    layer: 'weave',
    pairs: hatched(outlines, { angle: turn + Math.PI / 2, spacing, origin }),
    stroke: { ink: 'light', width: 0.09 },
  }
  return [weft, warp]
}
