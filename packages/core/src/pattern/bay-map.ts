/**
 * What outlines and marks need of one ply's flat map, whether the bay is straight (development.ts) or not (built/bay-chart.ts).
 *
 * A side is +1 towards the next fin, −1 towards the one before. `station` is the place along the body's middle line that a
 * point of a fin belongs to; tau runs from 0 at the fillet's top to 1 at its foot.
 */
import type { Point } from '../geometry/point.ts'
import { type Development, filletShare } from './development.ts'

export type MapSide = 1 | -1

export interface BayMap {
  /** True where one half of the map is the other's mirror image. */
  readonly mirrored: boolean
  /** Height on the fin below which a ply may be in the fillet, and the lowest that is still on it. */
  readonly greatestTop: number
  readonly footHeight: number
  /** Height of the fillet's top at a place along the root. */
  readonly topHeight: (side: MapSide, x: number) => number
  readonly share: (side: MapSide, p: Point) => number
  /** On the face's plane, which runs on below the fillet's top where the root runs past the can. */
  readonly onFace: (side: MapSide, p: Point) => Point
  readonly station: (side: MapSide, p: Point) => number
  readonly inFillet: (side: MapSide, station: number, tau: number) => Point
  /** Across the body at a station, from the foot on the previous fin's side to that on the next fin's. */
  readonly acrossBody: (station: number) => readonly Point[]
  /** The body's point at a station and an angle round the axis from the bay's centre line; the fillet's foot stands at `footAngle`. */
  readonly onBody: (station: number, angle: number) => Point
  readonly footAngle: (side: MapSide, station: number) => number
  /** Radius of the fillet's hollow, for the spacing of points on a curve; 0 where points stand at even distances. */
  readonly hollow: { readonly radius: number; readonly phi: number } | null
}

export function straightMap(dev: Development): BayMap {
  const height = dev.topHeight
  return {
    mirrored: true,
    greatestTop: height,
    footHeight: dev.footHeight,
    topHeight: () => height,
    share: (_, [, y]) => filletShare(dev, y),
    onFace: (side, [x, y]) => [x, side * (dev.top + (y - height))],
    station: (_, [x]) => x,
    inFillet: (side, station, tau) => [station, side * (dev.top - tau * (dev.top - dev.foot))],
    acrossBody: (station) => [
      [station, -dev.foot],
      [station, dev.foot],
    ],
    onBody: (station, angle) => [station, dev.bodyRadius * angle],
    footAngle: (side) => (side * dev.foot) / dev.bodyRadius,
    hollow: { radius: dev.filletRadius, phi: dev.section.phi },
  }
}
