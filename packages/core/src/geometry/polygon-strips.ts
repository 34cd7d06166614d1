/**
 * Shifted outlines by polygon clipping: for outlines with notches, curves or almost straight joins.
 *
 * Step-backs come off first: for each side the strip from the side to its shifted line. Overhangs are then added to what is
 * left, along those of its sides that still lie on the fin's edge. With β the inside angle at a corner, d₁ and d₂ the shifts
 * of the side that ends there and of the next one (positive inward), the two shifted lines meet at
 *
 *   e = −(d₂ + d₁ cos β) / sin β        m, along the first side past the corner
 *
 * A strip's end is drawn out to there, so that corners are as sharp as the outline's own. Where two edges with different
 * shifts run into each other almost straight it ends square instead.
 */
import { differenceOf, intersectionOf, unionOf } from './clipping.ts'
import type { NamedSide } from './fin-outline.ts'
import { distance, distanceToSegment, type Point } from './point.ts'
import { bounds, type Polygon, signedArea } from './polygon.ts'

/** A corner that turns by less joins its two sides smoothly: no shifted line is drawn out past it. 15°. */
export const smoothTurn = Math.PI / 12
/** How far past a corner an overhang's strip reaches at most, in overhangs: √(2² − 1²), for a mitre of two overhangs. */
export const mitreReach = Math.sqrt(3)
/** The same for a step-back, in step-backs: e at β = 165°. */
const stepReach = 3.74

export function shiftByClipping(
  sides: readonly NamedSide[],
  shift: readonly number[],
  root: number,
): readonly Polygon[] {
  const fin = sides.map(({ a }) => a)
  const steps = shift.map((d) => Math.max(0, d))
  const taken = strips(sides, steps, 'inward')
  const rest = taken.length > 0 ? differenceOf([fin], taken).map(withoutSlivers) : [fin]
  const net = rest.filter((part) => signedArea(part) > 0)
  const added = net.flatMap((part) => overhangStrips(part, sides, shift))
  const whole = added.length > 0 ? unionOf([...net, ...added]) : net
  const { left, right, top } = bounds(whole.flat())
  if (whole.length === 0 || top <= root) return []
  const above: Polygon = [
    [left - 1, root],
    [right + 1, root],
    [right + 1, top + 1],
    [left - 1, top + 1],
  ]
  return intersectionOf(whole, [above]).filter((part) => signedArea(part) > 0)
}

/** Shorter sides come from rounding to the grid and point anywhere. 1 µm, ten steps of the grid. */
const shortestSide = 1e-6

/** What is taken off reaches this far past the side's ends and outside it, so that rounding leaves no sliver there. 2 µm. */
const overlap = 2e-6

function withoutSlivers(part: Polygon): Polygon {
  const kept: Point[] = []
  for (const p of part) if (kept.length === 0 || distance(kept.at(-1)!, p) > shortestSide) kept.push(p)
  while (kept.length > 1 && distance(kept[0]!, kept.at(-1)!) <= shortestSide) kept.pop()
  return kept.length >= 3 ? kept : []
}

/** Strips along those sides of a stepped-back part that are still the fin's own edge and have an overhang. */
function overhangStrips(part: Polygon, sides: readonly NamedSide[], shift: readonly number[]): readonly Polygon[] {
  const outer = sides.map((side, i) => ({ side, d: shift[i]! })).filter(({ d }) => d < 0)
  if (outer.length === 0) return []
  const own = part.map((a, i): NamedSide => ({ a, b: part[(i + 1) % part.length]!, name: 'root' }))
  const shifts = own.map(({ a, b }) => {
    const on = outer.find(
      ({ side }) =>
        distanceToSegment(a, side.a, side.b) < shortestSide && distanceToSegment(b, side.a, side.b) < shortestSide,
    )
    return on?.d ?? 0
  })
  return strips(own, shifts, 'outward')
}

function strips(sides: readonly NamedSide[], shift: readonly number[], way: Way): readonly Polygon[] {
  const n = sides.length
  const ends = sides.map(({ a, b }, i) => {
    const d = shift[i]!
    const before = (i + n - 1) % n
    const after = (i + 1) % n
    const length = distance(a, b)
    const one = { d, way, length }
    let start = reach({ ...one, other: shift[before]!, beta: insideAngle(sides[before]!, sides[i]!) })
    let stop = reach({ ...one, other: shift[after]!, beta: insideAngle(sides[i]!, sides[after]!) })
    if (start + stop < -length) start = stop = -length / 2
    const more = way === 'inward' ? overlap : 0
    return {
      a: beside(a, b, -more, -more),
      b: beside(a, b, length + more, -more),
      to: beside(a, b, length + stop + more, d),
      from: beside(a, b, -start - more, d),
    }
  })
  const made: Polygon[] = []
  ends.forEach(({ a, b, to, from }, i) => {
    if (shift[i] === 0) return
    const after = (i + 1) % n
    made.push([a, b, to, from])
    if (way === 'outward' && shift[after] !== 0) made.push([b, ends[after]!.from, to])
  })
  return made.map((strip) => (signedArea(strip) < 0 ? [...strip].reverse() : strip))
}

type Way = 'inward' | 'outward'

/** How far past the corner the strip's far line runs; negative when it stops short. */
function reach({
  d,
  other,
  beta,
  way,
  length,
}: {
  readonly d: number
  readonly other: number
  readonly beta: number
  readonly way: Way
  readonly length: number
}): number {
  const sine = Math.sin(beta)
  if (Math.abs(sine) < 1e-9) return 0
  const e = -(other + d * Math.cos(beta)) / sine
  const size = Math.max(Math.abs(d), Math.abs(other))
  if (Math.abs(Math.PI - beta) < smoothTurn && d !== other) return 0
  const most = size * (way === 'inward' || other === 0 ? stepReach : mitreReach)
  const least = way === 'outward' && other === 0 ? -length : 0
  return Math.min(most, Math.max(least, e))
}

/** The point `along` the side from a and `inward` of it. */
function beside(a: Point, b: Point, along: number, inward: number): Point {
  const length = distance(a, b)
  const tx = (b[0] - a[0]) / length
  const ty = (b[1] - a[1]) / length
  return [a[0] + along * tx - inward * ty, a[1] + along * ty + inward * tx]
}

/** Between two sides that follow each other, on their left: less than π at a corner that points outward. */
function insideAngle(first: NamedSide, second: NamedSide): number {
  const ux = first.b[0] - first.a[0]
  const uy = first.b[1] - first.a[1]
  const vx = second.b[0] - second.a[0]
  const vy = second.b[1] - second.a[1]
  return Math.PI - Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
}
