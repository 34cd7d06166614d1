/**
 * Shaped edges laid flat: how far a ply that follows a bevel or a rounding reaches past the fin's projected outline.
 *
 * A bevel falls by (t − l)/2 over its width w, at the angle gamma, tan gamma = (t − l) / (2 w). On a ply whose mid-surface lies z
 * out from the core the crease stands at the depth w − z tan(gamma/2) from the edge, and cloth from there to the depth d is
 *
 *   (w − z tan(gamma/2) − d) / cos gamma        m long; longer than its projection by
 *   gain(d) = (w − z tan(gamma/2) − d) (1/cos gamma − 1)
 *
 * A rounding (a quarter of an ellipse, edge-profile.ts) gains the arc's length over its projection from the core's own surface
 * offset by z square to it, by 400 chords; the ply ends where it crosses the plane of the depth d. Past the edge itself cloth
 * hangs free. Exact for one edge; where two shaped edges meet at a corner the face does not unroll (built/core-face.ts).
 */
import type { EdgeProfile, EdgeProfiles } from '../geometry/edge-profile.ts'
import { edgeNames } from '../geometry/fin-outline.ts'
import type { EdgeShifts } from '../geometry/polygon-shift.ts'

export interface Unfolding {
  readonly edges: EdgeProfiles
  readonly coreThickness: number
  /** Of the ply's mid-surface from the core. */
  readonly z: number
}

/** The same shifts on the flat: an edge that lies within the shaped width moves out by what the shaping gains. */
export const unfoldedShifts = (shifts: EdgeShifts, unfolding: Unfolding): EdgeShifts =>
  Object.fromEntries(
    edgeNames.map((edge) => [edge, shifts[edge] - unfoldGain(Math.max(0, shifts[edge]), edge, unfolding)]),
  ) as EdgeShifts

/** Depth from the edge at which the crease of a bevel stands on the ply, as drawn on the flat; 0 for a square edge. */
export function creaseDepth(edge: EdgeProfile, coreThickness: number, z: number): number {
  if (edge.kind === 'square') return 0
  if (edge.kind === 'round') return edge.width
  return edge.width - z * Math.tan(bevelAngle(edge, coreThickness) / 2)
}

export const bevelAngle = ({ width, land }: EdgeProfile, coreThickness: number): number =>
  Math.atan((coreThickness - land) / (2 * width))

export function unfoldGain(depth: number, edge: keyof EdgeProfiles, { edges, coreThickness, z }: Unfolding): number {
  const profile = edges[edge]
  if (profile.kind === 'square' || depth >= profile.width) return 0
  if (profile.kind === 'round') return roundGain(depth, profile, coreThickness, z)
  const gamma = bevelAngle(profile, coreThickness)
  return Math.max(0, creaseDepth(profile, coreThickness, z) - depth) * (1 / Math.cos(gamma) - 1)
}

const chords = 400

function roundGain(depth: number, { width, land }: EdgeProfile, coreThickness: number, z: number): number {
  const fall = (coreThickness - land) / 2
  // t from 0 where the rounding begins to π/2 at the edge: depth w (1 − sin t), height fall cos t, offset z along the normal.
  const at = (t: number): readonly [number, number] => {
    const [nx, ny] = [fall * Math.sin(t), width * Math.cos(t)]
    const size = Math.hypot(nx, ny)
    return [width * (1 - Math.sin(t)) - (z * nx) / size, fall * Math.cos(t) + (z * ny) / size]
  }
  let length = 0
  let [d0, f0] = at(0)
  for (let k = 1; k <= chords; k++) {
    const [d1, f1] = at((k / chords) * (Math.PI / 2))
    const piece = Math.hypot(d1 - d0, f1 - f0)
    if (d1 <= depth) {
      length += piece * ((d0 - depth) / (d0 - d1))
      break
    }
    length += piece
    ;[d0, f0] = [d1, f1]
  }
  return Math.max(0, length - (width - depth))
}

/** Cloth from a fin's edge round its land to the start of the other face, both corners rounded about the core's. */
export const roundTheLand = (land: number, z: number): number => land + Math.PI * z
