/**
 * Whether every ply still reaches its net line, and still covers what it has to, when a print that just passes its check and
 * the shear of a hand-laid bias ply add up.
 *
 * A piece is cut from a print scaled by s, 1 ± `allowedAnisotropy` (the half millimetre on 100 that the check square allows), laid
 * with its centre line and the middle of its body in place, and, on the bias, sheared by any angle up to `layup.biasShear`
 * (`trellis.ts`: Y times widthKept, X times lengthGained). What is cut beyond the net line is trimmed there. So an edge
 * lies, at worst,
 *
 *   short  at the smallest print, sheared or not        long  at the largest print, sheared or not, but never beyond the net
 *                                                             line of a ply that is trimmed there
 *
 * and a later ply covers an earlier one by the least distance from the earlier's edge at its longest to the later's at its
 * shortest, anywhere round the piece. The earlier is first moved to the later's development, narrower on each side by `narrowing`
 * times the build-up between them (phi + theta − π/N, `development.ts`).
 */

import { millimetres } from '../geometry/dimension-text.ts'
import { between, type Point } from '../geometry/point.ts'
import { bounds, contains, distanceToBoundary, type Polygon, sides } from '../geometry/polygon.ts'
import type { Issue } from '../issue.ts'
import type { PlyShape } from './patterns.ts'
import { allowedAnisotropy } from './printing.ts'
import type { ScheduledPly } from './schedule.ts'
import { comesOff } from './schedule.ts'
import { isBias, lengthGained, widthKept } from './trellis.ts'

export interface PlyAllowance {
  readonly ply: string
  /** Least that is left beyond the net line where the ply is trimmed; null for a ply that is trimmed nowhere. */
  readonly left: number | null
  /** How far its own edges may lie inside their net line, at worst, where nothing is trimmed. */
  readonly short: number
  /** Of a bias ply, shear past which a trimmed net line stays bare on the smallest print, rad. */
  readonly bareAtShear: number | null
  /** Least cover of each ply beneath, anywhere, after all that; peel ply covers nothing. */
  readonly covers: readonly { readonly ply: string; readonly least: number }[]
}

type AllowedPly = Pick<ScheduledPly, 'id' | 'role' | 'overhang'>

export interface AllowanceInput {
  readonly shapes: readonly PlyShape[]
  readonly plies: readonly AllowedPly[]
  readonly biasShear: number
  /** Half width lost for each unit of build-up. */
  readonly narrowing: number
}

export function allowances({ shapes, plies, biasShear, narrowing }: AllowanceInput): readonly PlyAllowance[] {
  const laid = shapes.map((shape) => spread(shape, biasShear))
  return laid.map((one, k) => {
    const beneath = comesOff(plies[k]!.role) ? [] : laid.slice(0, k).filter((_, i) => !comesOff(plies[i]!.role))
    return {
      ply: one.shape.ply,
      left: one.trimmed.length === 0 ? null : leastInside(one.short, one.trimmed),
      short: Math.max(0, -leastInside(one.short, one.shape.netOutline)),
      bareAtShear: one.trimmed.length === 0 || !isBias(one.shape.angle) ? null : bareAt(one.shape, one.trimmed),
      covers: beneath.map((other) => ({ ply: other.shape.ply, least: leastCover(one, other, narrowing) })),
    }
  })
}

/** A broken one is a warning, as the other rules. */
export function allowanceRules(input: AllowanceInput, found: readonly PlyAllowance[]): readonly Issue[] {
  const { plies, biasShear } = input
  const structural = plies.flatMap(({ role }, i) => (role === 'structural' ? [i] : []))
  const print = `a print ${(100 * allowedAnisotropy).toFixed(1)} % off`
  const sheared = (angle: number): string =>
    isBias(angle) ? ` and ${((biasShear * 180) / Math.PI).toFixed(0)}° of shear` : ''
  const bare = found.flatMap(({ ply, left }, index): Issue[] =>
    left === null || left >= 0
      ? []
      : [
          {
            code: 'pattern/net-bare',
            path: `plies[${index}].overhang.edges`,
            value: plies[index]!.overhang.edges,
            message: `${ply} can end ${millimetres(-left)} short of its net line: ${print}${sheared(input.shapes[index]!.angle)} take more than its overhang.`,
            hint: `Give ${ply} ${millimetres(Math.ceil((plies[index]!.overhang.edges - left) * 1e3 + 1) * 1e-3, 0)} of overhang or more.`,
          },
        ],
  )
  const uncovered = structural.slice(0, -1).flatMap((index): Issue[] => {
    const own = plies[index]!.id
    const later = structural.filter((i) => i > index)
    const best = later
      .map((i) => ({ i, least: found[i]!.covers.find(({ ply }) => ply === own)?.least ?? 0 }))
      .reduce((a, b) => (b.least > a.least ? b : a))
    const nominal = leastInside([input.shapes[best.i]!.netOutline], input.shapes[index]!.netOutline)
    if (best.least >= 0 || nominal <= 1e-6) return []
    return [
      {
        code: 'pattern/cover-lost',
        path: `plies[${index}].stepBack`,
        value: null,
        message: `${own} is covered by ${plies[best.i]!.id} as drawn, but with ${print} and the shear of bias plies its edge can come out by ${millimetres(-best.least)}.`,
        hint: `Step ${own} back further, or print and cut truer than the check asks.`,
      },
    ]
  })
  return [...bare, ...uncovered]
}

interface Spread {
  readonly shape: PlyShape
  /** The cut line at its smallest: on the map, unsheared and sheared. The net line is inside all of them, or bare. */
  readonly short: readonly Polygon[]
  readonly long: readonly Polygon[]
  /** Points of the net line where cloth is cut beyond it. */
  readonly trimmed: readonly Point[]
}

/** Cut beyond the net line by more than this, apart from what allows for shear, cloth is trimmed there. */
const trimmedBeyond = 5e-4

function spread(shape: PlyShape, biasShear: number): Spread {
  const { outline, netOutline, angle } = shape
  const shears = isBias(angle) ? [0, biasShear] : [0]
  const scaled = (print: number): Polygon[] =>
    shears.map((shear) => laidAs(shape, { X: print * lengthGained(angle, shear), Y: print * widthKept(angle, shear) }))
  // what the cut line is without its allowance for shear
  const kept = outline.map(([X, Y]): Point => [X, Y * widthKept(angle, biasShear)])
  return {
    shape,
    short: scaled(1 - allowedAnisotropy),
    long: scaled(1 + allowedAnisotropy),
    trimmed: sampled(netOutline).filter((p) => distanceToBoundary(kept, p) > trimmedBeyond),
  }
}

/** About the centre line and the middle of the body. */
function laidAs({ outline, netOutline }: PlyShape, scale: { readonly X: number; readonly Y: number }): Polygon {
  const { left, right } = bounds(netOutline)
  const middle = (left + right) / 2
  return outline.map(([X, Y]): Point => [middle + scale.X * (X - middle), scale.Y * Y])
}

/** Corners and middles of the sides. */
const sampled = (polygon: Polygon): Point[] => sides(polygon).flatMap(([a, b]) => [a, between(a, b, 0.5)])

const inside = (polygon: Polygon, p: Point): number =>
  contains(polygon, p) ? distanceToBoundary(polygon, p) : -distanceToBoundary(polygon, p)

/** Least distance of the points inside every one of the polygons; negative outside. */
const leastInside = (polygons: readonly Polygon[], points: readonly Point[]): number =>
  Math.min(...polygons.flatMap((polygon) => points.map((p) => inside(polygon, p))))

function leastCover(later: Spread, earlier: Spread, narrowing: number): number {
  const lost = narrowing * (later.shape.buildUp - earlier.shape.buildUp)
  const edges = earlier.long
    .flatMap((cut) => sampled(cut))
    .map((p) => heldBy(earlier, p))
    .map(([X, Y]): Point => [X, Math.sign(Y) * Math.max(0, Math.abs(Y) - lost)])
  return Math.min(leastInside(later.short, edges), leastInside([later.shape.netOutline], edges))
}

/** Where the earlier ply is trimmed its edge is the net line, however much was cut. */
function heldBy({ shape, trimmed }: Spread, p: Point): Point {
  if (trimmed.length === 0 || contains(shape.netOutline, p)) return p
  return nearestOn(shape.netOutline, p)
}

function nearestOn(polygon: Polygon, p: Point): Point {
  let best: Point = polygon[0]!
  let least = Number.POSITIVE_INFINITY
  for (const [a, b] of sides(polygon)) {
    const [ux, uy] = [b[0] - a[0], b[1] - a[1]]
    const share = ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / (ux * ux + uy * uy || 1)
    const q = between(a, b, Math.min(1, Math.max(0, share)))
    const away = Math.hypot(q[0] - p[0], q[1] - p[1])
    if (away < least) {
      least = away
      best = q
    }
  }
  return best
}

/** By halving; null where even 45° of shear leaves cloth over. */
function bareAt(shape: PlyShape, trimmed: readonly Point[]): number | null {
  const print = 1 - allowedAnisotropy
  const left = (shear: number): number =>
    leastInside(
      [laidAs(shape, { X: print * lengthGained(shape.angle, shear), Y: print * widthKept(shape.angle, shear) })],
      trimmed,
    )
  let [safe, bare] = [0, Math.PI / 4]
  if (left(bare) >= 0) return null
  if (left(safe) < 0) return 0
  for (let i = 0; i < 40; i++) {
    const middle = (safe + bare) / 2
    if (left(middle) >= 0) safe = middle
    else bare = middle
  }
  return safe
}
