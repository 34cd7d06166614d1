/**
 * The bare bay on its flat map, for drawing: fillet feet and tops, the root's ends, the core's outline on both faces, and how wide its
 * parts are at the two ends of the root. Taken from the bay's own map, so that cant, a body that narrows and a fillet that tapers show.
 * Widths are lengths of cloth across the bay, by chords.
 */
import type { FinOutline } from '../geometry/fin-outline.ts'
import { between, distance, type Point } from '../geometry/point.ts'
import { bounds } from '../geometry/polygon.ts'
import type { Polyline } from '../geometry/polyline-clip.ts'
import type { BayGeometry } from './bay-geometry.ts'
import type { BayMap, MapSide } from './bay-map.ts'
import { builtBay } from './built/built-bay.ts'
import { bareOutline, type Ends } from './outlines.ts'

export interface BayEnd {
  readonly station: number
  /** Of the tool there, and the arc that it draws, between the flats of a gauge. */
  readonly filletRadius: number
  readonly filletArc: number
  /** From the previous fin's fillet to the next fin's. */
  readonly parts: { readonly previousFillet: number; readonly body: number; readonly nextFillet: number }
  /** Fillet's top, foot, foot, top on the map. */
  readonly at: readonly Point[]
}

export interface BareBay {
  /** Whether feet and tops are straight lines along the bay. */
  readonly straight: boolean
  /** Across, from the one tip to the other. */
  readonly width: number
  readonly feet: readonly Polyline[]
  readonly tops: readonly Polyline[]
  readonly rootEnds: readonly Polyline[]
  /** From the root's forward end over the tip to its aft end, outboard of the fillet: the previous fin's, the next fin's. */
  readonly core: readonly Polyline[]
  readonly ends: readonly BayEnd[]
}

const sides: readonly MapSide[] = [-1, 1]
const parts = 24

export function bareBay({
  geometry,
  outline,
  reach,
}: {
  geometry: BayGeometry
  outline: FinOutline
  reach: Ends
}): BareBay {
  const map = geometry.mapAt(0)
  const { x0, x1 } = geometry.shape
  const bare = builtBay(geometry.flatShape, 0)
  const count = geometry.straight ? 1 : parts
  const along = (side: MapSide, tau: number): Polyline =>
    steps(count, (share) => map.inFillet(side, reach.forward + share * (reach.aft - reach.forward), tau))
  const { top, bottom } = bounds(bareOutline({ outline, map }))
  return {
    straight: geometry.straight,
    width: top - bottom,
    feet: sides.map((side) => along(side, 1)),
    tops: sides.map((side) => along(side, 0)),
    rootEnds: [x0, x1].map((a) => {
      const { previous, body, next } = across(map, a)
      return [...previous, ...body.slice(1, -1), ...next]
    }),
    core: sides.map((side) => outboard(map, side, outline.points).map((p) => map.onFace(side, p))),
    ends: [x0, x1].map((station): BayEnd => {
      const { previous, body, next } = across(map, station)
      return {
        station,
        filletRadius: bare.section(1, station).radius,
        filletArc: (bare.section(1, station).phi + bare.section(-1, station).phi) / 2,
        parts: { previousFillet: length(previous), body: length(body), nextFillet: length(next) },
        at: [previous[0]!, previous.at(-1)!, next[0]!, next.at(-1)!],
      }
    }),
  }
}

const steps = <T>(count: number, at: (share: number) => T): T[] =>
  Array.from({ length: count + 1 }, (_, k) => at(k / count))

const length = (line: Polyline): number => line.slice(1).reduce((sum, p, i) => sum + distance(line[i]!, p), 0)

function across(map: BayMap, a: number) {
  const fillet = (side: MapSide, share: number): Point => map.inFillet(side, a, share)
  return {
    previous: steps(parts, (share) => fillet(-1, share)),
    body: map.acrossBody(a),
    next: steps(parts, (share) => fillet(1, 1 - share)),
  }
}

/** The part of the outline above the fillet's top, cut off where it crosses that. */
function outboard(map: BayMap, side: MapSide, points: readonly Point[]): Point[] {
  const above = ([x, y]: Point): number => y - map.topHeight(side, x)
  return points.flatMap((p, i) => {
    const before = points[i - 1]
    const kept = above(p) >= 0 ? [p] : []
    if (before === undefined || above(before) < 0 === above(p) < 0) return kept
    let [low, high] = above(before) < 0 ? [before, p] : [p, before]
    for (let k = 0; k < 50; k++) {
      const middle = between(low, high, 0.5)
      if (above(middle) < 0) low = middle
      else high = middle
    }
    return [high, ...kept]
  })
}
