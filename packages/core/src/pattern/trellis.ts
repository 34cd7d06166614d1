/**
 * How a woven cloth narrows when it is pulled off its square.
 *
 * Woven cloth shears like a trellis: the yarns keep their length and pivot where they cross. Pulled along X until warp and
 * weft have closed by the angle g, each yarn has turned g/2 towards X, and a length that lay along Y has shrunk by
 *
 *   lambda = cos a · cos(a + g/2) + sin a · sin(a − g/2) = cos(g/2) − sin(2a) sin(g/2)        0 ≤ a ≤ π/2
 *
 * where a is the warp's angle from Y. At a = 45° this is sin(45° − g/2) / sin 45°; between 0 and 90° it is largest there.
 * The model is that of Mack & Taylor, The fitting of woven cloth to surfaces, J. Textile Inst. 47 (1956) T477 (recalled).
 * A ply with its warp along X or Y is pulled along its yarns and does not shear.
 */

/** Warps nearer than this to X or Y count as along it: half a degree, less than a hand can place. */
const alongAxis = Math.PI / 360

export function isBias(angle: number): boolean {
  return Math.abs(Math.sin(2 * angle)) > Math.sin(2 * alongAxis)
}

/** Width kept, 0–1, by a ply whose warp lies at `angle` from Y, after a shear of `shear`; 1 for a ply along the axes. */
export function widthKept(angle: number, shear: number): number {
  return isBias(angle) ? Math.cos(shear / 2) - Math.abs(Math.sin(2 * angle)) * Math.sin(shear / 2) : 1
}

/** Length gained, 1 and more, by the same pull. */
export function lengthGained(angle: number, shear: number): number {
  return isBias(angle) ? Math.cos(shear / 2) + Math.abs(Math.sin(2 * angle)) * Math.sin(shear / 2) : 1
}

/**
 * What is left of the overhang on each side when a piece is cut from a print of the wrong scale and then pulled. Negative:
 * the tip stays bare by as much.
 */
export function overhangLeft(input: {
  readonly netWidth: number
  readonly overhang: number
  /** Added to the whole width for the pull that was allowed for. */
  readonly allowance: number
  /** Printed over true length, across the bay. */
  readonly printScale: number
  readonly angle: number
  readonly shear: number
}): number {
  const { netWidth, overhang, allowance, printScale, angle, shear } = input
  const cut = (netWidth + 2 * overhang + allowance) * printScale
  return (cut * widthKept(angle, shear) - netWidth) / 2
}
