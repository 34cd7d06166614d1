/**
 * A net of inextensible yarns, pin-jointed where they cross, laid on a bay's surface from its middle outward.
 *
 * Two straightest lines (geodesics) through the start carry the first warp and the first weft yarn. Every other joint is the
 * place one yarn length L along the surface from its two neighbours towards the start, so that the whole net follows:
 *
 *   |P(i−1, j) → P(i, j)| = |P(i, j−1) → P(i, j)| = L
 *
 * The length between two joints is that of the surface's curve that is straight in (a, s) between them, by one midpoint and
 * Richardson's extrapolation of the chords, (4 (c1 + c2) − c) / 3. Laid flat the joint (i, j) lies at i L along the warp and
 * j L along the weft. A cell's four sides are L, so its shear follows from its diagonals,
 *
 *   gamma = π/2 − 2 atan(d1 / d2)        rad, closing along d2: zero where the surface unrolls
 *
 * Kinematics of Mack & Taylor, The fitting of woven cloth to surfaces, J. Textile Inst. 47 (1956) T477 (recalled): no slip of
 * yarns at crossings, no stretch, no locking, no bending. A joint without an answer stays null and stops its quadrant there.
 */
import type { Point } from '../../geometry/point.ts'
import type { Place, Surface } from './built-bay.ts'
import { straightestLine } from './straightest-line.ts'

/** A joint in the surface's own coordinates, and in space. */
export interface Joint {
  readonly a: number
  readonly s: number
  readonly place: Place
}

export interface NetCell {
  /** Middle of the cell on the flat cloth. */
  readonly at: Point
  /** Signed: positive where the cell is longer along the sum of warp and weft than along their difference. */
  readonly shear: number
  readonly joint: Joint
}

export interface YarnNet {
  readonly step: number
  readonly cells: readonly NetCell[]
  /** Flat places of wanted joints that the net did not reach. */
  readonly unreached: readonly Point[]
  /** Every joint wanted, flat and on the surface. */
  readonly joints: readonly { readonly flat: Point; readonly joint: Joint }[]
}

export interface NetInput {
  readonly bay: Surface
  /** Station of the start, on the bay's middle line. */
  readonly start: number
  /** Of the warp, from Y towards X. */
  readonly angle: number
  readonly step: number
  /** Whether a place of the flat cloth, in bay axes, is wanted. */
  readonly wanted: (flat: Point) => boolean
  /** How far the wanted cloth reaches from the start, m. */
  readonly reach: number
}

export function yarnNet({ bay, start, angle, step, wanted, reach }: NetInput): YarnNet {
  const warp: Point = [Math.sin(angle), Math.cos(angle)]
  const weft: Point = [Math.cos(angle), -Math.sin(angle)]
  const most = Math.ceil(reach / step) + 1
  const flat = (i: number, j: number): Point => [
    start + step * (i * warp[0] + j * weft[0]),
    step * (i * warp[1] + j * weft[1]),
  ]
  const line = ([X, Y]: Point, sign: number) =>
    straightestLine(bay, { a: start, s: 0, da: sign * X, ds: sign * Y, step, count: most })
  const axes = { warp: [line(warp, 1), line(warp, -1)], weft: [line(weft, 1), line(weft, -1)] } as const
  const width = 2 * most + 1
  const known = new Map<number, Joint | null>()
  const jointAt = (i: number, j: number): Joint | null => {
    const key = (i + most) * width + (j + most)
    const made = known.get(key)
    if (made !== undefined) return made
    const joint = joined(i, j)
    known.set(key, joint)
    return joint
  }
  const joined = (i: number, j: number): Joint | null => {
    if (j === 0) return axes.warp[i < 0 ? 1 : 0][Math.abs(i)] ?? null
    if (i === 0) return axes.weft[j < 0 ? 1 : 0][Math.abs(j)] ?? null
    const si = Math.sign(i)
    const sj = Math.sign(j)
    const [one, other, corner] = [jointAt(i - si, j), jointAt(i, j - sj), jointAt(i - si, j - sj)]
    if (one === null || other === null || corner === null) return null
    return fourthCorner(bay, one, other, corner, step)
  }
  const cells: NetCell[] = []
  const joints: { flat: Point; joint: Joint }[] = []
  const unreached: Point[] = []
  // Nearest the start first, so that no joint waits for a long chain.
  for (let ring = 0; ring <= most; ring++)
    for (let i = -ring; i <= ring; i++)
      for (let j = -ring; j <= ring; j += Math.abs(i) === ring ? 1 : Math.max(1, 2 * ring)) {
        const here = flat(i, j)
        if (!wanted(here)) continue
        const joint = jointAt(i, j)
        if (joint === null) unreached.push(here)
        else joints.push({ flat: here, joint })
      }
  for (let i = -most; i < most; i++)
    for (let j = -most; j < most; j++) {
      const at = flat(i + 0.5, j + 0.5)
      if (!wanted(at)) continue
      const [p, q, u, v] = [jointAt(i, j), jointAt(i + 1, j), jointAt(i, j + 1), jointAt(i + 1, j + 1)]
      if (p === null || q === null || u === null || v === null) continue
      const shear = Math.PI / 2 - 2 * Math.atan(surfaceLength(bay, q, u) / surfaceLength(bay, p, v))
      cells.push({ at, shear, joint: middleOf(bay, p, v) })
    }
  return { step, cells, unreached, joints }
}

const middleOf = (bay: Surface, p: Joint, q: Joint): Joint => {
  const a = (p.a + q.a) / 2
  const s = (p.s + q.s) / 2
  return { a, s, place: bay.at(a, s) }
}

const chord = (p: Place, q: Place): number => Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2])

export function surfaceLength(bay: Surface, p: Joint, q: Joint): number {
  const m = middleOf(bay, p, q).place
  return (4 * (chord(p.place, m) + chord(m, q.place)) - chord(p.place, q.place)) / 3
}

/** Newton's method on both lengths from the parallelogram's corner, with the surface's two directions as derivatives. */
function fourthCorner(bay: Surface, one: Joint, other: Joint, corner: Joint, step: number): Joint | null {
  let a = one.a + other.a - corner.a
  let s = one.s + other.s - corner.s
  const e = 1e-6
  for (let k = 0; k < 60; k++) {
    const place = bay.at(a, s)
    const here = { a, s, place }
    const m1 = surfaceLength(bay, one, here) - step
    const m2 = surfaceLength(bay, other, here) - step
    if (Math.abs(m1) + Math.abs(m2) < 1e-8 * step) {
      // The mirror answer, folded back over the corner, is none.
      return chord(corner.place, place) > 0.3 * step ? here : null
    }
    const [ax, ay, az] = bay.at(a + e, s)
    const [sx, sy, sz] = bay.at(a, s + e)
    const da = [(ax - place[0]) / e, (ay - place[1]) / e, (az - place[2]) / e] as const
    const ds = [(sx - place[0]) / e, (sy - place[1]) / e, (sz - place[2]) / e] as const
    const [u1, u2] = [towards(one.place, place), towards(other.place, place)]
    const [g11, g12] = [dot(u1, da), dot(u1, ds)]
    const [g21, g22] = [dot(u2, da), dot(u2, ds)]
    const det = g11 * g22 - g12 * g21
    if (!(Math.abs(det) > 1e-6)) return null
    // Across a crease the two ends of a step may disagree on the slope: shorter steps settle it.
    const limit = 0.5 * step * 0.8 ** Math.max(0, k - 8)
    a -= clamp((m1 * g22 - m2 * g12) / det, limit)
    s -= clamp((m2 * g11 - m1 * g21) / det, limit)
  }
  return null
}

const towards = (p: Place, q: Place): Place => {
  const length = chord(p, q)
  return [(q[0] - p[0]) / length, (q[1] - p[1]) / length, (q[2] - p[2]) / length]
}

const dot = (u: Place, v: Place): number => u[0] * v[0] + u[1] * v[1] + u[2] * v[2]

const clamp = (value: number, most: number): number => Math.max(-most, Math.min(most, value))
