/**
 * The surface that a bay's cloth is laid on, in space: a fin's face, its fillet, the body, the next fillet, the next face.
 *
 * Stations a run along the body's surface in the middle of the bay, a = x at a fin without cant. In the plane square to the
 * axis at a station, with p outward along a fin's nominal mid-plane and q from it towards the bay,
 *
 *   body    circle of radius R(a) + z / cos κ,  R(a) = R − (a − x0) sin κ,  sin κ = (R − R1) / root length
 *   face    the fin's own surface f(x, y) + z (core-face.ts), its frame turned by the cant δ about the line square to the body
 *           through the middle of the root:  e_x = (cos δ cos κ, −cos δ sin κ, ± sin δ),  e_y = (sin κ, cos κ, 0),  e_z = e_x × e_y
 *   fillet  the circle of radius r(a) − z that touches both: found as the height y on the face whose normal, r − z long,
 *           ends at the distance R + r from the axis. r(a) is linear from one end of the root to the other.
 *
 * So a round tool held square to the axis draws the fillet; on a straight can without cant this is the exact rolling circle.
 * Ahead of and behind the root the fillet runs out: over the run-out's length the hump of adhesive narrows and leans over
 * until it lies on the body,
 *
 *   rho = (1 + cos(π d / length)) / 2,   half thickness rho f,   lean (1 − rho) 80°,   tool radius kept
 *
 * with d the distance past the root's end. That shape is our own assumption, of a run-out faired with a fingertip: common
 * practice, no source. Where the can ends before the root there is no run-out. The ply's mid-surface lies z out from all this.
 */
import { invariant } from '../../issue.ts'
import type { CoreFace } from './core-face.ts'

/** Aft along the axis, across towards the next fin, out through the bay's middle; m. */
export type Place = readonly [number, number, number]

/** Of the two fins, the one with the next number (+1, Y > 0) or the one before (−1). */
export type Side = 1 | -1

export interface BayShape {
  readonly N: number
  /** Body radius at the root's forward and aft end. */
  readonly R: number
  readonly R1: number
  /** Of the root, in fin axes. */
  readonly x0: number
  readonly x1: number
  readonly face: CoreFace
  /** Rolls the rocket clockwise seen from the tail when positive. */
  readonly cant: number
  /** Of the fillet, at the root's forward and aft end. */
  readonly r: number
  readonly r1: number
  /** Length over which the fillet runs out past the root; 0 where the can ends before the root does. */
  readonly runOut: { readonly forward: number; readonly aft: number }
}

/** One side's section at a station: arc lengths from the middle of the bay, and the fillet's circle. */
export interface SideSection {
  /** Arc length to the fillet's foot and top. */
  readonly foot: number
  readonly top: number
  /** In the fin's section axes. */
  readonly centre: readonly [number, number]
  readonly radius: number
  readonly bodyRadius: number
  /** Angle of the body from the fin's mid-plane to the foot; arc of the fillet. */
  readonly theta: number
  readonly phi: number
  /** Height of the fillet's top on the face, and its place along the root. */
  readonly y: number
  readonly x: number
  /** Height gained on the face per length along the section at the fillet's top. */
  readonly rise: number
}

export interface Surface {
  /** The point at the station a and the arc length s across, of the sign of its side. */
  readonly at: (a: number, s: number) => Place
}

export interface BuiltBay extends Surface {
  readonly shape: BayShape
  readonly z: number
  /** Half-angle of the body's cone, positive where it narrows aft. */
  readonly kappa: number
  readonly section: (side: Side, a: number) => SideSection
  readonly facePoint: (side: Side, x: number, y: number) => Place
  /** The station of a point of the face. */
  readonly stationOf: (side: Side, x: number, y: number) => number
  readonly bodyRadius: (a: number) => number
}

const greatestLean = (80 * Math.PI) / 180
/** Stations of the table of contacts. */
const tableStep = 5e-4

export function builtBay(shape: BayShape, z: number): BuiltBay {
  const { N, R, R1, x0, x1, cant } = shape
  const sinK = (R - R1) / (x1 - x0)
  invariant(Math.abs(sinK) < 0.9, 'the body narrows by less than its length')
  const kappa = Math.asin(sinK)
  const cosK = Math.cos(kappa)
  const middle = (x0 + x1) / 2
  const bare = (a: number) => R - (a - x0) * sinK
  const bodyRadius = (a: number) => bare(a) + z / cosK
  const beta = Math.PI / N
  const sinB = Math.sin(beta)
  const cosB = Math.cos(beta)
  const inSpace = (side: Side, axial: number, p: number, q: number): Place => [
    axial,
    side * (p * sinB - q * cosB),
    p * cosB + q * sinB,
  ]
  const remains = remainsOf(shape)
  const sides = new Map<Side, ReturnType<typeof sideOf>>([
    [1, sideOf(1)],
    [-1, sideOf(-1)],
  ])

  function sideOf(side: Side) {
    const sinD = side * Math.sin(cant)
    const cosD = Math.cos(cant)
    const ex = [cosD * cosK, -cosD * sinK, sinD] as const
    const ez = [-sinD * cosK, sinD * sinK, cosD] as const
    const O = [middle * (cosK - ex[0]), bare(middle) - middle * ex[1], -middle * ex[2]] as const
    const height = (x: number, y: number) => {
      return remains(x) * shape.face(x, y) + z
    }
    const inFrame = (x: number, y: number): Place => {
      const F = height(x, y)
      return [
        O[0] + x * ex[0] + y * sinK + F * ez[0],
        O[1] + x * ex[1] + y * cosK + F * ez[1],
        O[2] + x * ex[2] + F * ez[2],
      ]
    }
    /** Place along the root of the face's point at a station and a height. */
    const along = (a: number, y: number): number => {
      let x = (a * cosK - O[0] - y * sinK) / ex[0]
      if (ez[0] !== 0) for (let k = 0; k < 4; k++) x = (a * cosK - O[0] - y * sinK - height(x, y) * ez[0]) / ex[0]
      return x
    }
    const curve = (a: number, y: number): readonly [number, number] => {
      const [, p, q] = inFrame(along(a, y), y)
      const rho = remains(a)
      if (rho === 1) return [p, q]
      const lean = (1 - rho) * greatestLean
      const pivot = bare(a)
      return [
        pivot + (p - pivot) * Math.cos(lean) + q * Math.sin(lean),
        -(p - pivot) * Math.sin(lean) + q * Math.cos(lean),
      ]
    }
    const radius = (a: number) => {
      const share = Math.min(1, Math.max(0, (a - x0) / (x1 - x0)))
      return shape.r + share * (shape.r1 - shape.r) - z
    }
    const circle = (a: number, y: number) => {
      const [p, q] = curve(a, y)
      const e = 1e-6
      const [p2, q2] = curve(a, y + e)
      const [p1, q1] = curve(a, y - e)
      const length = Math.hypot(p2 - p1, q2 - q1)
      const r = radius(a)
      const [np, nq] = [-(q2 - q1) / length, (p2 - p1) / length]
      return { np, nq, r, cp: p + r * np, cq: q + r * nq, rise: (2 * e) / length }
    }
    const miss = (a: number, y: number) => {
      const { cp, cq, r } = circle(a, y)
      return Math.hypot(cp, cq) - bodyRadius(a) - r
    }
    const solved = (a: number, guess: number): number => {
      let y0 = guess
      let y1 = guess + 1e-4
      let m0 = miss(a, y0)
      for (let k = 0; k < 40; k++) {
        const m1 = miss(a, y1)
        if (Math.abs(m1) < 1e-13 || m1 === m0) break
        const move = Math.max(-5e-3, Math.min(5e-3, (-m1 * (y1 - y0)) / (m1 - m0)))
        y0 = y1
        m0 = m1
        y1 += move
        if (Math.abs(move) < 1e-13) break
      }
      return y1
    }
    const table = new Map<number, number>()
    const atKnot = (k: number): number => {
      const known = table.get(k)
      if (known !== undefined) return known
      const r = radius(k * tableStep)
      const Rb = bodyRadius(k * tableStep)
      const c = shape.face(middle, 0) + z
      const guess = Math.sqrt(Math.max((Rb + r) ** 2 - (c + r) ** 2, 0)) - Rb
      const y = solved(k * tableStep, table.get(k - 1) ?? table.get(k + 1) ?? guess)
      table.set(k, y)
      return y
    }
    const contact = (a: number): number => {
      const k = Math.floor(a / tableStep)
      const t = a / tableStep - k
      const [A, B, C, D] = [atKnot(k - 1), atKnot(k), atKnot(k + 1), atKnot(k + 2)]
      // Catmull–Rom cubic through the four knots.
      return B + 0.5 * t * (C - A + t * (2 * A - 5 * B + 4 * C - D + t * (3 * (B - C) + D - A)))
    }
    const section = (a: number): SideSection => {
      const y = contact(a)
      const { np, nq, r, cp, cq, rise } = circle(a, y)
      const theta = Math.atan2(cq, cp)
      const Rb = bodyRadius(a)
      // Counter-clockwise in (p, q) from the foot, where the circle faces the axis, to the top, where it faces the fin.
      const phi = angleBetween(-cp, -cq, -np, -nq)
      const foot = Rb * (beta - theta)
      return {
        foot,
        top: foot + r * phi,
        centre: [cp, cq],
        radius: r,
        bodyRadius: Rb,
        theta,
        phi,
        y,
        x: along(a, y),
        rise,
      }
    }
    let lastStation = Number.NaN
    let last: SideSection | undefined
    const held = (a: number): SideSection => {
      if (a !== lastStation || last === undefined) {
        last = section(a)
        lastStation = a
      }
      return last
    }
    return { section: held, curve, inFrame }
  }

  const section = (side: Side, a: number) => sides.get(side)!.section(a)
  return {
    shape,
    z,
    kappa,
    bodyRadius,
    section,
    at: (a, s) => {
      const side: Side = s < 0 ? -1 : 1
      const S = Math.abs(s)
      const one = sides.get(side)!
      const { foot, top, centre, radius, bodyRadius: Rb, y, rise } = one.section(a)
      if (S <= foot) {
        const psi = S / Rb
        return [a * cosK, side * Rb * Math.sin(psi), Rb * Math.cos(psi)]
      }
      if (S < top) {
        // Turned from the foot's direction towards the fin's.
        const turned = (S - foot) / radius
        const [cp, cq] = centre
        const size = Math.hypot(cp, cq)
        const [u, v] = [-cp / size, -cq / size]
        const [cos, sin] = [Math.cos(turned), Math.sin(turned)]
        return inSpace(side, a * cosK, cp + radius * (u * cos - v * sin), cq + radius * (u * sin + v * cos))
      }
      const [p, q] = one.curve(a, y + rise * (S - top))
      return inSpace(side, a * cosK, p, q)
    },
    facePoint: (side, x, y) => {
      const [axial, p, q] = sides.get(side)!.inFrame(x, y)
      return inSpace(side, axial, p, q)
    },
    stationOf: (side, x, y) => sides.get(side)!.inFrame(x, y)[0] / cosK,
  }
}

/** Share of the hump that remains: 1 along the root, 0 past the run-out. */
function remainsOf({ x0, x1, runOut }: BayShape): (x: number) => number {
  return (x) => {
    const past = x < x0 ? x0 - x : x > x1 ? x - x1 : 0
    if (past === 0) return 1
    const length = x < x0 ? runOut.forward : runOut.aft
    if (length <= 0) return 1
    return past >= length ? 0 : (1 + Math.cos((Math.PI * past) / length)) / 2
  }
}

function angleBetween(ux: number, uy: number, vx: number, vy: number): number {
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
}
