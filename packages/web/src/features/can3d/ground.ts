/**
 * What a ply of the bay map lies on in space, as facets that know both places of each corner: on the ply's own map (core's
 * pattern/bay-map.ts) and on the built bay (core's pattern/built/built-bay.ts) at the height that the ply is drawn at.
 *
 *   body     station a and a share of the way from the bay's centre line to the fillet's foot
 *   fillet   station a and a share tau of the arc from the fillet's top to its foot
 *   face     a place (x, y) of the fin: the map is moved there as it is, the fin is its core with shaped edges
 *
 * Past the root's ends the fillet runs out as the built bay does, with the arc lengths of the map; at the root's end the two are one.
 * A ply wrapped over an edge runs round the land and back on the other face. Space: x aft, y and z across, right-handed; seen
 * from the tail fins count clockwise, and fin 1 stands along y.
 */
import type { FinOutline } from '@finwright/core/geometry/fin-outline.ts'
import { finPolygon, finSides } from '@finwright/core/geometry/fin-outline.ts'
import type { Point } from '@finwright/core/geometry/point.ts'
import { bounds, isConvex } from '@finwright/core/geometry/polygon.ts'
import type { BayGeometry } from '@finwright/core/pattern/bay-geometry.ts'
import { type BuiltBay, builtBay, type Place, type Side } from '@finwright/core/pattern/built/built-bay.ts'

export type Space = readonly [number, number, number]

export interface Corner {
  readonly flat: Point
  readonly at: Space
}
export type Facet = readonly Corner[]

export interface CanBody {
  readonly geometry: BayGeometry
  readonly outline: FinOutline
  /** Stations where the can ends, where that is told. */
  readonly canEnds: { readonly forward: number | null; readonly aft: number | null }
}

export interface DrawnPly {
  /** Of its mid-surface from the bare surface: the height of its map; and the height it is drawn at. */
  readonly buildUp: number
  readonly lift: number
  /** Ends on the body. */
  readonly from: number
  readonly to: number
  /** Round an edge's land, of a ply that is wrapped there, and how far it then goes on. */
  readonly round: number
  readonly wrap: number
}

const sides: readonly Side[] = [1, -1]
/** Between corners: where edges are shaped or a fillet runs out, and elsewhere; m. */
const step = 5e-3
const coarse = 2e-2
const bodyParts = 8
/** Clear of the body, drawn with chords, that a fillet runs out on; m. */
export const filletLift = 1.2e-4
const filletParts = 9

/** The place in bay `bay`, counted from 0: between fin `bay` and the next. */
export function inCan([aft, across, out]: Place, bay: number, finCount: number): Space {
  const middle = ((2 * bay + 1) * Math.PI) / finCount
  const [cos, sin] = [Math.cos(middle), Math.sin(middle)]
  return [aft, out * cos - across * sin, -(out * sin + across * cos)]
}

/** Turned by so many bays. */
export function turned([x, y, z]: Space, bays: number, finCount: number): Space {
  const angle = (2 * Math.PI * bays) / finCount
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  return [x, y * cos + z * sin, z * cos - y * sin]
}

/** Of the first bay. */
export function groundOf(can: CanBody, ply: DrawnPly): Facet[] {
  return [
    ...bodyFacets(can, ply),
    ...sides.flatMap((side) => [...faceFacets(can, ply, side), ...flaps(can, ply, side)]),
  ]
}

/** The built bay at a height: with run-outs, and as the fin is, which has none. */
interface Drawn {
  readonly real: BuiltBay
  readonly fin: BuiltBay
  readonly flat: BuiltBay
}
const drawnAt = ({ geometry: { shape, flatShape } }: CanBody, lift: number): Drawn => ({
  real: builtBay(shape, lift),
  fin: builtBay({ ...shape, runOut: { forward: 0, aft: 0 } }, lift),
  flat: builtBay(flatShape, lift),
})

/** `w` from 0 at the centre line by 1 at the foot to 2 at the top. */
function onGround({ real, fin, flat }: Drawn, [a, w]: Point, side: Side): Place {
  const { x0, x1 } = real.shape
  const end = Math.min(x1, Math.max(x0, a))
  const S = arc(fin, end, [w, side]) * (w === 0 ? 1 : arc(flat, a, [w, side]) / arc(flat, end, [w, side]))
  return real.at(a, side * S)
}

/** Close to one another where a fillet runs out and where it meets a shaped edge. */
const rootPlaces = ({ shape: { x0, x1, runOut } }: BayGeometry): number[] => [
  ...breaks(x0 - runOut.forward, Math.min(x0 + 4 * step, x1), [x0]),
  ...breaks(Math.max(x0, x1 - 4 * step), x1 + runOut.aft, [x1]),
]

const shaped = ({ shape, flatShape }: BayGeometry, outline: FinOutline): boolean =>
  finSides(outline).some(({ a, b, name }) => {
    const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
    return name !== 'root' && shape.face(x, y) !== flatShape.face(x, y)
  })

function arc(bay: BuiltBay, a: number, [w, side]: readonly [number, Side]): number {
  const { foot, top } = bay.section(side, a)
  return w <= 1 ? w * foot : foot + (w - 1) * (top - foot)
}

function bodyFacets(can: CanBody, { buildUp, lift, from, to }: DrawnPly): Facet[] {
  const { geometry, canEnds } = can
  const { x0, x1, N } = geometry.shape
  const map = geometry.mapAt(buildUp)
  const drawn = drawnAt(can, lift)
  const [least, most] = [canEnds.forward ?? Number.NEGATIVE_INFINITY, canEnds.aft ?? Number.POSITIVE_INFINITY]
  const stations = breaks(
    Math.max(least, Math.min(from, x0) - step),
    Math.min(most, Math.max(to, x1) + 2 * step),
    rootPlaces(geometry),
    coarse,
  )
  const shares = [...breaks(0, 1, [], 1 / bodyParts), ...breaks(1, 2, [], 1 / filletParts).slice(1)]
  return sides.flatMap((side) =>
    cells(stations, shares, (a, w) => ({
      flat: w <= 1 ? map.onBody(a, w * map.footAngle(side, a)) : map.inFillet(side, a, 2 - w),
      at: inCan(onGround(drawn, [a, w], side), 0, N),
    })),
  )
}

/** From the fillet's top up; past the can's end from the root's own line up. */
function faceFacets(can: CanBody, ply: DrawnPly, side: Side): Facet[] {
  const { geometry, outline, canEnds } = can
  const { N, x0, x1 } = geometry.shape
  const map = geometry.mapAt(ply.buildUp)
  const { fin } = drawnAt(can, ply.lift)
  const { left, right, top: span } = bounds(outline.points)
  const past = ply.round + ply.wrap > 0 && !isConvex(finPolygon(outline)) ? ply.round + ply.wrap : 0
  const ends = [canEnds.forward, canEnds.aft].flatMap((end) => (end === null || end <= x0 || end >= x1 ? [] : [end]))
  const by = shaped(geometry, outline) ? step : coarse
  const xs = breaks(left - past - 1e-3, right + past + 1e-3, [x0, x1, ...ends], by)
  const high = span + past + 1e-3
  const tops = new Map(xs.map((x) => [x, { map: map.topHeight(side, x), drawn: topOf(fin, side, x) }]))
  const at = (x: number, share: number): Corner => {
    const top = tops.get(x)!
    const y = top.map + share * (high - top.map)
    const drawn = y + (top.drawn - top.map) * (1 - share) ** 4
    return { flat: map.onFace(side, [x, y]), at: inCan(fin.facePoint(side, x, drawn), 0, N) }
  }
  const facets = cells(xs, breaks(0, 1, [], by / high), at)
  const low = (x: number, share: number): Corner => {
    const y = share * tops.get(x)!.map
    return { flat: map.onFace(side, [x, y]), at: inCan(fin.facePoint(side, x, share * tops.get(x)!.drawn), 0, N) }
  }
  const [forward, aft] = [canEnds.forward, canEnds.aft]
  const beyond = [
    ...(forward !== null && forward > x0 ? [xs.filter((x) => x <= forward)] : []),
    ...(aft !== null && aft < x1 ? [xs.filter((x) => x >= aft)] : []),
  ]
  const all = [...facets, ...beyond.flatMap((some) => cells(some, [0, 0.5, 1], low))]
  return ply.wrap > 0 && past === 0 ? withinFin(all, outline, (p) => map.onFace(side, p)) : all
}

/** Cloth that goes round the edges of a fin whose outline bulges everywhere, edge by edge; mitres at its corners are not drawn. */
function flaps(can: CanBody, { buildUp, lift, round, wrap }: DrawnPly, side: Side): Facet[] {
  const { geometry, outline } = can
  if (wrap === 0 || !isConvex(finPolygon(outline))) return []
  const { N } = geometry.shape
  const map = geometry.mapAt(buildUp)
  const { fin } = drawnAt(can, lift)
  const middle = builtBay({ ...fin.shape, face: () => 0 }, 0)
  return finSides(outline).flatMap(({ a, b, name }) => {
    if (name === 'root') return []
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    const [tx, ty] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
    const at = (along: number, d: number): Corner => {
      const [ex, ey] = [a[0] + along * tx, a[1] + along * ty]
      const inside = Math.max(0, d - round)
      const [x, y] = [ex - inside * ty, ey + inside * tx]
      const share = Math.min(1, d / round)
      const [here, mid] = [fin.facePoint(side, x, y), middle.facePoint(side, x, y)]
      const place = here.map((value, i) => value + 2 * share * (mid[i]! - value)) as unknown as Place
      return { flat: map.onFace(side, [ex + d * ty, ey - d * tx]), at: inCan(place, 0, N) }
    }
    return cells(breaks(0, length, []), [0, round, round + wrap], at).filter((facet) =>
      facet.every(({ flat }) => Math.abs(flat[1]) > Math.abs(map.onFace(side, [0, map.greatestTop])[1])),
    )
  })
}

/** Cut off at the edges of a fin whose outline bulges everywhere: `onMap` keeps straight lines straight. */
function withinFin(facets: readonly Facet[], outline: FinOutline, onMap: (p: Point) => Point): Facet[] {
  const edges = finSides(outline).filter(({ name }) => name !== 'root')
  return edges.reduce<Facet[]>(
    (left, { a, b }) => {
      const [p, q, inward] = [onMap(a), onMap(b), onMap([a[0] - (b[1] - a[1]), a[1] + (b[0] - a[0])])]
      const keep = crossOf(p, q, inward) > 0 ? 1 : -1
      return left.flatMap((facet) => {
        const kept = cut(facet, (one) => keep * crossOf(p, q, one))
        return kept.length < 3 ? [] : [kept]
      })
    },
    [...facets],
  )
}

/** What of a convex facet lies where `depth`, linear on the map, is not negative. */
export function cut(facet: Facet, depth: (flat: Point) => number): Facet {
  const depths = facet.map(({ flat }) => depth(flat))
  if (depths.every((d) => d >= 0)) return facet
  return facet.flatMap((corner, i) => {
    const k = (i + 1) % facet.length
    const [d, e] = [depths[i]!, depths[k]!]
    const kept = d >= 0 ? [corner] : []
    return d >= 0 === e >= 0 ? kept : [...kept, betweenCorners(corner, facet[k]!, d / (d - e))]
  })
}

const betweenCorners = (a: Corner, b: Corner, share: number): Corner => ({
  flat: [mixed(a.flat[0], b.flat[0], share), mixed(a.flat[1], b.flat[1], share)],
  at: [mixed(a.at[0], b.at[0], share), mixed(a.at[1], b.at[1], share), mixed(a.at[2], b.at[2], share)],
})

const mixed = (a: number, b: number, share: number): number => a + share * (b - a)

export const crossOf = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

/** Height on the face of the fillet's top, at a place along the root. */
function topOf(bay: BuiltBay, side: Side, x: number): number {
  let a = x
  for (let k = 0; k < 3; k++) a = bay.stationOf(side, x, bay.section(side, a).y)
  return bay.section(side, a).y
}

/** In even steps from one place to another, with some places among them. */
export function breaks(from: number, to: number, among: readonly number[], by = step): number[] {
  const inner = [...among].sort((a, b) => a - b).filter((x) => x > from + 1e-9 && x < to - 1e-9)
  const fixed = [from, ...inner.filter((x, i) => i === 0 || x - inner[i - 1]! > 1e-9), to]
  return fixed.flatMap((a, i) => {
    const b = fixed[i + 1]
    if (b === undefined) return [a]
    const count = Math.max(1, Math.ceil((b - a) / by - 1e-9))
    return Array.from({ length: count }, (_, k) => a + ((b - a) * k) / count)
  })
}

/** Two triangles a cell. */
export function cells(us: readonly number[], vs: readonly number[], at: (u: number, v: number) => Corner): Facet[] {
  const grid = us.map((u) => vs.map((v) => at(u, v)))
  return grid.slice(1).flatMap((row, i) =>
    vs.slice(1).flatMap((_, j): Facet[] => {
      const [p, q, r, s] = [grid[i]![j]!, row[j]!, row[j + 1]!, grid[i]![j + 1]!]
      return [
        [p, q, r],
        [p, r, s],
      ]
    }),
  )
}

/** The bare can: body, fillets of one bay with what closes their ends, and fin 1. */
export interface BareCan {
  /** Wider than the fin: to be cut to its outline. */
  readonly faces: readonly Facet[]
  readonly edges: readonly Facet[]
  readonly fillets: readonly Facet[]
  /** Along the axis, with the body's radius there. */
  readonly body: readonly { readonly x: number; readonly radius: number }[]
}

export function bareCan(can: CanBody, reach: Reach): BareCan {
  const { geometry, outline, canEnds } = can
  const { N, x0, x1, runOut } = geometry.shape
  const drawn = drawnAt(can, filletLift)
  const { real } = drawn
  const { fin } = drawnAt(can, 0)
  const corner = (place: Place, flat: Point): Corner => ({ flat, at: inCan(place, 0, N) })
  const { left, right, top } = bounds(outline.points)
  const faces = sides.flatMap((side) =>
    cells(breaks(left, right, []), breaks(0, top, []), (x, y) => faceOf(fin, side, [x, y])),
  )
  // The root lies on the body, and is seen where it runs on past the can.
  const [least, most] = [canEnds.forward ?? left, canEnds.aft ?? right]
  const seen = (name: string, facet: Facet): boolean =>
    name !== 'root' || facet.every(({ flat: [x] }) => x <= least) || facet.every(({ flat: [x] }) => x >= most)
  const edges = finSides(outline).flatMap(({ a, b, name }) => {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    const ends = name === 'root' ? [least, most].map((x) => Math.abs(x - a[0])) : []
    return cells(breaks(0, length, ends), [1, -1], (along, side) => {
      const share = along / length
      const p: Point = [mixed(a[0], b[0], share), mixed(a[1], b[1], share)]
      return { ...faceOf(fin, side as Side, p), flat: p }
    }).filter((facet) => seen(name, facet))
  })
  const forward = Math.max(canEnds.forward ?? Number.NEGATIVE_INFINITY, x0 - runOut.forward)
  const aft = Math.min(canEnds.aft ?? Number.POSITIVE_INFINITY, x1 + runOut.aft)
  const stations = breaks(forward, aft, [x0, x1], 3e-3)
  const shares = breaks(1, 2, [], 1 / filletParts)
  const fillets = sides.flatMap((side) =>
    cells(stations, shares, (a, w) => corner(onGround(drawn, [a, w], side), [a, w])),
  )
  const crest = (a: number, side: number): Corner => {
    const one = corner(onGround(drawn, [a, 2], side as Side), [a, 3])
    return side === 1 ? { ...one, at: turned(one.at, -1, N) } : one
  }
  const crests = [stations.filter((a) => a <= x0), stations.filter((a) => a >= x1)].flatMap((some) =>
    cells(some, [1, -1], crest),
  )
  // An end that does not run out is filled between its curve and the corner of fin and body.
  const caps = [...(runOut.forward > 0 ? [] : [forward]), ...(runOut.aft > 0 ? [] : [aft])].flatMap((a) =>
    sides.flatMap((side): Facet[] => {
      const { foot, top: S } = real.section(side, a)
      const curve = shares.map((w) => corner(real.at(a, side * (foot + (w - 1) * (S - foot))), [a, w]))
      const inner = corner(cornerOf(real, a, side), [a, 0])
      return curve.slice(1).map((one, i) => [inner, curve[i]!, one])
    }),
  )
  return {
    faces,
    edges,
    fillets: [...fillets, ...crests, ...caps],
    body: bodyEnds(can, reach),
  }
}

interface Reach {
  readonly from: number
  readonly to: number
}

/** Of the body as it is drawn: to the can's own ends, else beyond all that lies on it. */
export function bodyEnds({ geometry, canEnds }: CanBody, { from, to }: Reach): BareCan['body'] {
  const { shape, straight } = geometry
  const { x0, x1, runOut } = shape
  const bare = builtBay(geometry.flatShape, 0)
  const rest = straight ? (x1 - x0) / 2 : 0.03
  const start = canEnds.forward ?? Math.min(from, x0 - runOut.forward) - rest
  const end = canEnds.aft ?? Math.max(to, x1 + runOut.aft) + rest
  return [start, end].map((a) => ({ x: a * Math.cos(bare.kappa), radius: bare.bodyRadius(a) }))
}

/** Of fin 1, which the first bay begins at and the last one ends at. */
export const faceOf = (bay: BuiltBay, side: Side, [x, y]: Point): Corner => {
  const at = inCan(bay.facePoint(side, x, y), 0, bay.shape.N)
  return { flat: [x, y], at: side === 1 ? turned(at, -1, bay.shape.N) : at }
}

/** Where the fin's face meets the body, near enough for what the fillet hides. */
function cornerOf(bay: BuiltBay, a: number, side: Side): Place {
  const { theta, bodyRadius } = bay.section(side, a)
  const [axial, across, out] = bay.facePoint(side, a, 0)
  const angle = Math.atan2(across, out)
  const kept = Math.min(Math.abs(angle), Math.PI / bay.shape.N + theta)
  return [axial, side * bodyRadius * Math.sin(kept), bodyRadius * Math.cos(kept)]
}

/** Where a point of a ply's own map lies; null outside the facets. */
export function placeOn(facets: readonly Facet[]): (p: Point) => Space | null {
  return (p) => {
    for (const [a, b, c] of facets as readonly (readonly [Corner, Corner, Corner])[]) {
      const whole = crossOf(a.flat, b.flat, c.flat)
      if (whole === 0) continue
      const u = crossOf(b.flat, c.flat, p) / whole
      const v = crossOf(c.flat, a.flat, p) / whole
      if (u < -1e-6 || v < -1e-6 || u + v > 1 + 1e-6) continue
      const of = (i: 0 | 1 | 2): number => u * a.at[i] + v * b.at[i] + (1 - u - v) * c.at[i]
      return [of(0), of(1), of(2)]
    }
    return null
  }
}
