/**
 * The flat map of a bay that is not straight: canted fins, a body that narrows, a fillet that tapers.
 *
 *   body    unrolls exactly: at the distance rho from the cone's apex and the angle psi round the axis,
 *           X = X0 + rho0 − rho cos(psi sin κ),  Y = rho sin(psi sin κ);  a cylinder is the limit κ = 0
 *   face    is flat and is moved as it is: one turn and one shift a side, T(x, y)
 *   fillet  at a station the section's circle is laid flat from the foot on, keeping its length and its curvature in the
 *           surface, heading' = (curvature vector) · (n × t); what is left between its end and the fin's T is shared out along it
 *
 * T is the turn and shift that bring the fillet's top on the face nearest to the ends of the flattened circles along the
 * root, in the sense of least squares. Were the fillet to unroll they would meet; the greatest distance left is `misfit`, the
 * error of this map. Body and faces are exact each for itself.
 */
import type { Point } from '../../geometry/point.ts'
import type { BayMap, MapSide } from '../bay-map.ts'
import type { BuiltBay, Place, SideSection } from './built-bay.ts'

export interface BayChart extends BayMap {
  /** Greatest distance between a fillet's top as part of the face and as the end of the flattened section, m. */
  readonly misfit: number
  /** Flat place of the surface's point (a, s). */
  readonly flat: (a: number, s: number) => Point
}

interface Rigid {
  readonly cos: number
  readonly sin: number
  readonly X: number
  readonly Y: number
}

/** Places along the root at which the face is fitted; points along a flattened section. */
const stations = 25
const parts = 24

export function bayChart(bay: BuiltBay): BayChart {
  const { shape } = bay
  const { x0, x1 } = shape
  const sinK = Math.sin(bay.kappa)
  const body = (a: number, s: number): Point => {
    const v = (s / bay.bodyRadius(a)) * sinK
    return [a + s * (v === 0 ? 0 : (1 - Math.cos(v)) / v), s * (v === 0 ? 1 : Math.sin(v) / v)]
  }
  const heading = (a: number, s: number): number => (s / bay.bodyRadius(a)) * sinK
  const memo = new Map<string, readonly Point[]>()
  /** From foot to top. */
  const unrolledSection = (side: MapSide, a: number): readonly Point[] => {
    const key = `${side} ${a.toFixed(9)}`
    const known = memo.get(key)
    if (known !== undefined) return known
    const made = flattened(
      bay,
      side,
      a,
      body(a, side * bay.section(side, a).foot),
      heading(a, bay.section(side, a).foot),
    )
    memo.set(key, made)
    return made
  }
  const along = Array.from({ length: stations }, (_, k) => x0 + ((x1 - x0) * k) / (stations - 1))
  const fits = new Map<MapSide, { readonly T: Rigid; readonly misfit: number }>(
    ([1, -1] as const).map((side) => {
      const pairs = along.map((a) => {
        const { x, y } = bay.section(side, a)
        return { from: [x, y] as Point, to: unrolledSection(side, a).at(-1)! }
      })
      const T = nearest(pairs, side)
      const misfit = Math.max(...pairs.map(({ from, to }) => apart(moved(T, from, side), to)))
      return [side, { T, misfit }]
    }),
  )
  const onFace = (side: MapSide, p: Point): Point => moved(fits.get(side)!.T, p, side)
  const inFillet = (side: MapSide, a: number, tau: number): Point => {
    const line = unrolledSection(side, a)
    const share = (1 - tau) * parts
    const k = Math.min(parts - 1, Math.floor(share))
    const [p, q] = [line[k]!, line[k + 1]!]
    const here: Point = [p[0] + (share - k) * (q[0] - p[0]), p[1] + (share - k) * (q[1] - p[1])]
    const { x, y } = bay.section(side, a)
    const top = onFace(side, [x, y])
    const end = line.at(-1)!
    return [here[0] + (1 - tau) * (top[0] - end[0]), here[1] + (1 - tau) * (top[1] - end[1])]
  }
  const sectionAt = (side: MapSide, x: number): SideSection => {
    let a = x
    for (let k = 0; k < 3; k++) a = bay.stationOf(side, x, bay.section(side, a).y)
    return bay.section(side, a)
  }
  const ends = ([1, -1] as const).flatMap((side) => along.map((x) => sectionAt(side, x)))
  return {
    mirrored: false,
    misfit: Math.max(fits.get(1)!.misfit, fits.get(-1)!.misfit),
    greatestTop: Math.max(...ends.map(({ y }) => y)),
    footHeight: Math.min(...ends.map(({ y, radius, phi }) => y - radius * Math.sin(phi))),
    topHeight: (side, x) => sectionAt(side, x).y,
    share: (side, [x, y]) => {
      const { y: top, radius, phi } = sectionAt(side, x)
      if (y >= top) return 0
      const sine = (top - y) / radius
      return sine >= Math.sin(phi) ? 1 : Math.asin(sine) / phi
    },
    onFace,
    station: (side, [x, y]) => bay.stationOf(side, x, Math.max(y, sectionAt(side, x).y)),
    inFillet,
    acrossBody: (a) => {
      const [from, to] = [-bay.section(-1, a).foot, bay.section(1, a).foot]
      const count = sinK === 0 ? 1 : 16
      return Array.from({ length: count + 1 }, (_, k) => body(a, from + ((to - from) * k) / count))
    },
    onBody: (a, angle) => body(a, bay.bodyRadius(a) * angle),
    footAngle: (side, a) => {
      const { foot, bodyRadius } = bay.section(side, a)
      return (side * foot) / bodyRadius
    },
    hollow: null,
    flat: (a, s) => {
      const side: MapSide = s < 0 ? -1 : 1
      const { foot, top, y, rise } = bay.section(side, a)
      const S = Math.abs(s)
      if (S <= foot) return body(a, s)
      if (S < top) return inFillet(side, a, (top - S) / (top - foot))
      const height = y + rise * (S - top)
      return onFace(side, [placeAlong(bay, side, a, height), height])
    },
  }
}

/** The place along the root of the face's point at a station and a height. */
function placeAlong(bay: BuiltBay, side: MapSide, a: number, y: number): number {
  let x = a
  for (let k = 0; k < 6; k++) x += a - bay.stationOf(side, x, y)
  return x
}

/** Lays a section's circle flat from its foot, step by step, turning by its curvature within the surface. */
function flattened(bay: BuiltBay, side: MapSide, a: number, start: Point, turned: number): readonly Point[] {
  const { foot, top } = bay.section(side, a)
  const ds = (top - foot) / parts
  const points: Point[] = [start]
  let [X, Y] = start
  let heading = turned
  for (let k = 0; k < parts; k++) {
    const bend = geodesicCurvature(bay, side, a, foot + (k + 0.5) * ds)
    const middle = heading + (bend * ds) / 2
    X += ds * Math.sin(middle)
    Y += side * ds * Math.cos(middle)
    heading += bend * ds
    points.push([X, Y])
  }
  return points
}

/** Of the section's curve within the surface, towards aft. */
function geodesicCurvature(bay: BuiltBay, side: MapSide, a: number, S: number): number {
  const e = 1e-5
  const at = (da: number, dS: number): Place => bay.at(a + da, side * (S + dS))
  const [u, v, w] = [at(0, -e), at(0, 0), at(0, e)]
  const t = [0, 1, 2].map((i) => (w[i]! - u[i]!) / (2 * e))
  const { radius, centre } = bay.section(side, a)
  // The circle's curvature points from the surface to its centre.
  const beta = Math.PI / bay.shape.N
  const [cp, cq] = centre
  const C = [v[0], side * (cp * Math.sin(beta) - cq * Math.cos(beta)), cp * Math.cos(beta) + cq * Math.sin(beta)]
  const curvature = [0, 1, 2].map((i) => (C[i]! - v[i]!) / radius ** 2)
  const [b, f] = [at(-e, 0), at(e, 0)]
  const aft = [0, 1, 2].map((i) => (f[i]! - b[i]!) / (2 * e))
  const along = dot(aft, t)
  const across = aft.map((value, i) => value - along * t[i]!)
  return dot(curvature, across) / Math.hypot(across[0]!, across[1]!, across[2]!)
}

const dot = (u: readonly number[], v: readonly number[]): number => u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!

/** Turn and shift of fin axes (x aft, y outboard) into the map; the previous fin's face is seen mirrored. */
function nearest(pairs: readonly { readonly from: Point; readonly to: Point }[], side: MapSide): Rigid {
  const n = pairs.length
  const mean = (pick: (pair: (typeof pairs)[number]) => number) => pairs.reduce((sum, pair) => sum + pick(pair), 0) / n
  const [fx, fy] = [mean(({ from }) => from[0]), mean(({ from }) => side * from[1])]
  const [tx, ty] = [mean(({ to }) => to[0]), mean(({ to }) => to[1])]
  let same = 0
  let crossed = 0
  for (const { from, to } of pairs) {
    const [u, v, p, q] = [from[0] - fx, side * from[1] - fy, to[0] - tx, to[1] - ty]
    same += u * p + v * q
    crossed += u * q - v * p
  }
  const size = Math.hypot(same, crossed)
  const [cos, sin] = [same / size, crossed / size]
  return { cos, sin, X: tx - (cos * fx - sin * fy), Y: ty - (sin * fx + cos * fy) }
}

const moved = ({ cos, sin, X, Y }: Rigid, [x, y]: Point, side: MapSide): Point => [
  X + cos * x - sin * side * y,
  Y + sin * x + cos * side * y,
]

const apart = (p: Point, q: Point): number => Math.hypot(q[0] - p[0], q[1] - p[1])
