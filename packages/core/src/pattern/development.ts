/**
 * One bay unrolled, at a ply's own mid-surface.
 *
 * The surface the cloth lies on is ruled along the tube's axis: flat on the fin's face, a hollow of radius r in the fillet,
 * round on the body. At the distance z out from the bare surface all three keep their tangent points and the radii become
 * r − z and R + z, so that in bay axes (X aft, Y across from the centre line)
 *
 *   foot = (R + z) (π/N − theta)       m, Y of the fillet's foot on the body
 *   top  = foot + (r − z) phi          m, Y of the fillet's top on the fin's face
 *   tip  = top + (R + span − xc)       m, half the developed width
 *
 * with R, N, theta, phi, xc of the section. The surface is developable: lengths on the map are lengths on the surface.
 * A point's height is its distance from the body along the fin's mid-plane, y in fin axes:
 *
 *   face    y = Y − top + yTop,  yTop = xc − R          fillet   y = yTop − (r − z) sin((top − Y) / (r − z))
 */
import type { BaySection } from '../bond/section.ts'
import type { Point } from '../geometry/point.ts'

export interface Development {
  readonly section: BaySection
  readonly z: number
  /** Radii of the ply's mid-surface. */
  readonly bodyRadius: number
  readonly filletRadius: number
  readonly foot: number
  readonly top: number
  readonly tip: number
  /** Heights of the fillet's top and foot above the body; the foot of a bare fillet lies a little below zero. */
  readonly topHeight: number
  readonly footHeight: number
}

/** A place on a ply: aft along the tube, across towards the next fin, out from the tube's axis through the bay's centre line. */
export interface BayPosition {
  readonly aft: number
  readonly across: number
  readonly out: number
}

/** Needs z below the fillet's radius. */
export function development(section: BaySection, z: number): Development {
  const { R, N, r, xc, theta, phi, span } = section
  const foot = (R + z) * (Math.PI / N - theta)
  const top = foot + (r - z) * phi
  return {
    section,
    z,
    bodyRadius: R + z,
    filletRadius: r - z,
    foot,
    top,
    tip: top + (R + span - xc),
    topHeight: xc - R,
    footHeight: xc - R - (r - z) * Math.sin(phi),
  }
}

/** How far round the fillet a height lies: 0 at its top and above, 1 at its foot and below. */
export function filletShare({ section, filletRadius, topHeight }: Development, height: number): number {
  if (height >= topHeight) return 0
  const sine = (topHeight - height) / filletRadius
  return sine >= Math.sin(section.phi) ? 1 : Math.asin(sine) / section.phi
}

/** Y, on the next fin's side, of the point of the face or fillet at a height. */
export function acrossAt(dev: Development, height: number): number {
  if (height >= dev.topHeight) return dev.top + (height - dev.topHeight)
  return dev.top - filletShare(dev, height) * (dev.top - dev.foot)
}

/** Height of the point of the face or fillet at |Y|; that of the foot for points on the body. */
export function heightAt({ top, foot, filletRadius, topHeight, footHeight }: Development, across: number): number {
  const Y = Math.abs(across)
  if (Y >= top) return topHeight + (Y - top)
  return Y <= foot ? footHeight : topHeight - filletRadius * Math.sin((top - Y) / filletRadius)
}

/** Where a point of the map lies in space. */
export function positionOn(dev: Development, [X, Y]: Point): BayPosition {
  const side = Y < 0 ? -1 : 1
  const [u, v] = sectionPoint(dev, Math.abs(Y))
  return { aft: X, across: side * u, out: v }
}

/** The point of the map for a place on the ply: the inverse of `positionOn`. */
export function mapPoint(dev: Development, { aft, across, out }: BayPosition): Point {
  const { section, bodyRadius, filletRadius, foot, top } = dev
  const { N, theta, phi, xc, h, r } = section
  const side = across < 0 ? -1 : 1
  const beta = Math.PI / N
  const psi = Math.atan2(Math.abs(across), out)
  if (psi <= beta - theta) return [aft, side * bodyRadius * psi]
  // Along the fin and square to it.
  const p = Math.abs(across) * Math.sin(beta) + out * Math.cos(beta)
  const q = -Math.abs(across) * Math.cos(beta) + out * Math.sin(beta)
  if (p >= xc) return [aft, side * (top + (p - xc))]
  const turned = Math.min(phi, Math.atan2(xc - p, h + r - q))
  return [aft, side * (foot + filletRadius * (phi - turned))]
}

/** In the plane of the section: across from the centre line, out from the axis. */
function sectionPoint({ section, bodyRadius, filletRadius, foot, top, z }: Development, Y: number): Point {
  const { N, xc, h, r } = section
  if (Y <= foot) return [bodyRadius * Math.sin(Y / bodyRadius), bodyRadius * Math.cos(Y / bodyRadius)]
  if (Y >= top) return fromFinAxes(N, xc + (Y - top), h + z)
  const turned = (top - Y) / filletRadius
  return fromFinAxes(N, xc - filletRadius * Math.sin(turned), h + r - filletRadius * Math.cos(turned))
}

function fromFinAxes(N: number, p: number, q: number): Point {
  const beta = Math.PI / N
  return [p * Math.sin(beta) - q * Math.cos(beta), p * Math.cos(beta) + q * Math.sin(beta)]
}
