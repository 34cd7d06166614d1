/**
 * Lines that mark out the bare body before anything is laid on it, for any bay: canted fins, a body that narrows or widens, a fillet
 * that tapers.
 *
 * A place on the body is a station a along its surface (bay axes, X) and an angle round the axis, positive towards the next fin: of
 * a fin's lines from that fin's nominal mid-plane through the middle of its root, of a bay's ticks from the bay's centre line. A fin's
 * lines are where its mid-plane and the planes of its two faces, in the frame of `built-bay.ts`, cut the bare body: the height y
 * above the root at which a point of the plane lies at the body's radius,
 *
 *   |P(x, y)| across the axis = R − (a − x0) sin κ,      a = axial place / cos κ
 *
 * from x0 to x1, by the secant method. Fillet feet are those of the bare surface; a ply's own foot stands at the same angle
 * (development.ts), within 0.02 mm where the bay is not straight. On paper of thickness t that is wrapped round it, the cone's
 * mid-surface has the radius Rp(a) = R − (a − x0) sin κ + t / (2 cos κ) and unrolls about its apex (`paperPoint`):
 *
 *   v = angle sin κ,      X = a + Rp angle (1 − cos v) / v,      Y = Rp angle sin v / v
 */
import type { Point } from '../geometry/point.ts'
import type { BayGeometry } from './bay-geometry.ts'
import { type BayShape, type BuiltBay, builtBay, type Side } from './built/built-bay.ts'
import { type LandingTick, landingPlaces } from './landing.ts'
import type { PlyShape } from './patterns.ts'
import { comesOff, type PatternInput } from './schedule.ts'

/** Station and angle. */
export type TubePlace = readonly [a: number, angle: number]

export interface TubeEnd {
  readonly ply: string
  /** A patch ends on its own side only. */
  readonly side: Side | null
  readonly a: number
}

export interface TubeLines {
  /** At the root's forward end, and the half-angle of the body's cone, positive where it narrows aft. */
  readonly radius: number
  readonly kappa: number
  readonly finCount: number
  readonly root: { readonly forward: number; readonly aft: number }
  /** Where the can ends, if that is told. */
  readonly canEnds: { readonly forward: number | null; readonly aft: number | null }
  /** Of the fillets: how far they run out past the root. */
  readonly runOut: { readonly forward: number; readonly aft: number }
  readonly fin: {
    readonly middle: readonly TubePlace[]
    readonly nextFace: readonly TubePlace[]
    readonly previousFace: readonly TubePlace[]
    /** Of the fillet in the next bay and of that in the bay before, over all that the plies cover and a margin. */
    readonly nextFoot: readonly TubePlace[]
    readonly previousFoot: readonly TubePlace[]
  }
  readonly ends: readonly TubeEnd[]
  /** Lines along which patches stop on the body, from the bay's centre line. */
  readonly stops: readonly { readonly ply: string; readonly points: readonly TubePlace[] }[]
  /** In every bay, from its centre line: those of its plies, each once. */
  readonly ticks: readonly LandingTick[]
}

export interface TubeLinesInput {
  readonly geometry: BayGeometry
  readonly shapes: readonly PlyShape[]
  readonly input: Pick<PatternInput, 'tube' | 'plies'>
}

/** Points along a fin's lines; and how far beyond the plies a fillet's foot is drawn. */
const along = 36
const margin = 0.032
const pastCan = 0.012

export function tubeLines({ geometry, shapes, input }: TubeLinesInput): TubeLines {
  const { shape, flatShape } = geometry
  const { x0, x1, N } = shape
  const beta = Math.PI / N
  const bare = builtBay(flatShape, 0)
  const foot = (side: Side, a: number): number => side * (beta - bare.section(side, a).theta)
  const radius = (a: number): number => bare.bodyRadius(a)
  const { ahead, behind } = input.tube
  const canEnds = { forward: ahead === null ? null : x0 - ahead, aft: behind === null ? null : x1 + behind }
  const onCan = ([a]: TubePlace): boolean =>
    a >= (canEnds.forward ?? -Infinity) - 1e-9 && a <= (canEnds.aft ?? Infinity) + 1e-9
  const stations = shapes.flatMap(({ bodyEnds: { forward, aft } }) => [forward, aft])
  const from = Math.max(Math.min(x0, ...stations) - margin, (canEnds.forward ?? -Infinity) - pastCan)
  const to = Math.min(Math.max(x1, ...stations) + margin, (canEnds.aft ?? Infinity) + pastCan)
  const footLine = (side: Side): TubePlace[] => sampled(from, to, (a) => [a, foot(side, a) - side * beta])
  const ticks = shapes.flatMap((ply) =>
    landingPlaces({ cover: ply.cover, bodyEnds: ply.bodyEnds, root: { forward: x0, aft: x1 }, foot, radius }),
  )
  return {
    radius: shape.R,
    kappa: bare.kappa,
    finCount: N,
    root: { forward: x0, aft: x1 },
    canEnds,
    runOut: shape.runOut,
    fin: {
      middle: trace(flatShape, -1, 0).filter(onCan),
      nextFace: trace(flatShape, -1, flatShape.face((x0 + x1) / 2, 0)).filter(onCan),
      previousFace: trace(flatShape, 1, flatShape.face((x0 + x1) / 2, 0)).filter(onCan),
      nextFoot: footLine(-1),
      previousFoot: footLine(1),
    },
    ends: shapes.flatMap(({ ply, cover, role, bodyEnds: { forward, aft } }): TubeEnd[] => {
      if (comesOff(role)) return []
      const side = cover === 'bay' ? null : cover === 'next' ? 1 : -1
      return [forward, aft].map((a) => ({ ply, side, a }))
    }),
    stops: shapes.flatMap(({ ply, cover, buildUp, bodyEnds: { forward, aft } }) => {
      const reach = input.plies.find(({ id }) => id === ply)?.onBody ?? 0
      if (cover === 'bay' || reach === 0) return []
      const side: Side = cover === 'next' ? 1 : -1
      const stop = (a: number): number => foot(side, a) - (side * reach) / (radius(a) + buildUp)
      const points = sampled(forward, aft, (a): TubePlace => [a, stop(a)])
      return points.every(([, angle]) => side * angle > 0) ? [{ ply, points }] : []
    }),
    ticks: once(ticks),
  }
}

/** Where the plane of a fin's face, half the core's thickness off its mid-plane, cuts the bare body: from the fin's nominal mid-plane. */
function trace(flatShape: BayShape, side: Side, half: number): TubePlace[] {
  const plane = builtBay({ ...flatShape, face: () => half }, 0)
  const { x0, x1, N } = flatShape
  return sampled(x0, x1, (x) => {
    const [axial, across, out] = plane.facePoint(side, x, heightOnBody(plane, side, x))
    const angle = Math.atan2(across, out) - (side * Math.PI) / N
    return [axial / Math.cos(plane.kappa), angle]
  })
}

function heightOnBody(plane: BuiltBay, side: Side, x: number): number {
  const miss = (y: number): number => {
    const [axial, across, out] = plane.facePoint(side, x, y)
    return Math.hypot(across, out) - plane.bodyRadius(axial / Math.cos(plane.kappa))
  }
  let [y0, y1] = [0, -1e-4]
  let m0 = miss(y0)
  for (let k = 0; k < 30; k++) {
    const m1 = miss(y1)
    if (Math.abs(m1) < 1e-14 || m1 === m0) break
    ;[y0, y1, m0] = [y1, y1 - (m1 * (y1 - y0)) / (m1 - m0), m1]
  }
  return y1
}

const sampled = (from: number, to: number, at: (a: number) => TubePlace): TubePlace[] =>
  Array.from({ length: along + 1 }, (_, k) => at(from + ((to - from) * k) / along))

/** Ticks that fall on one another are one. */
function once(ticks: readonly LandingTick[]): LandingTick[] {
  const known = new Map<string, LandingTick>()
  for (const tick of ticks) known.set(tick.flatMap((place) => place.map((one) => one.toFixed(9))).join(' '), tick)
  return [...known.values()]
}

export interface Paper {
  readonly radius: number
  readonly kappa: number
  readonly rootForward: number
  readonly thickness: number
}

/** Where a place of the body lies on the unrolled paper: X aft, Y round it towards the next fin, from the line at angle 0. */
export function paperPoint({ radius, kappa, rootForward, thickness }: Paper, [a, angle]: TubePlace): Point {
  const s = (radius - (a - rootForward) * Math.sin(kappa) + thickness / (2 * Math.cos(kappa))) * angle
  const v = angle * Math.sin(kappa)
  return v === 0 ? [a, s] : [a + (s * (1 - Math.cos(v))) / v, (s * Math.sin(v)) / v]
}
