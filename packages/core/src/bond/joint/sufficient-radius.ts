/**
 * The least fillet radius whose margin is at least the one asked for, everything else as it is.
 *
 * A larger radius lowers the stresses of the joint while there is body left between the fillets, so ln(margin + 1) rises with
 * ln r; where it passes the one asked for is found by false position (Illinois), after Dowell & Jarratt, BIT 11 (1971) 168-174
 * (recalled). The radius returned lies on the safe side.
 */
import { type Checked, invariant } from '../../issue.ts'
import { type BaySection, baySection, filletRadiusLimits } from '../section.ts'
import { jointIssues, leastFilletRadius } from './joint-issues.ts'
import { type RootJointInput, rootJoint } from './root-joint.ts'

export type SufficientRadius =
  | { readonly kind: 'found'; readonly radius: number; readonly margin: number; readonly evaluations: number }
  /** No load: any radius is enough. */
  | { readonly kind: 'unloaded' }
  /** None that fits between the fins and below the tip is enough; `best` has the greatest margin of those tried. */
  | { readonly kind: 'none-fits'; readonly best: number; readonly margin: number; readonly evaluations: number }

/** Radii, and ratios of allowable to stress, closer than this are one for a builder. */
const closeEnough = 5e-3
/** Radii tried from above, as shares of the one at which fillets meet or reach the tip: next to it, room on the body runs out. */
const ofLimit = [0.9, 0.65, 0.45]
const mostSteps = 25

interface Tried {
  readonly r: number
  readonly f: number
}

export function sufficientFilletRadius(input: RootJointInput, requiredMargin = 0): Checked<SufficientRadius> {
  const { section } = input
  const limits = filletRadiusLimits({
    tubeRadius: section.R,
    coreThickness: 2 * section.h,
    finCount: section.N,
    span: section.span,
  })
  const large = ofLimit.map((share) => share * Math.min(limits.neighbour, limits.tip))
  const smallest = Math.min(large[0], smallestRadius(input))
  const start = Math.min(large[0], Math.max(smallest, section.r))
  const issues = jointIssues({ ...input, section: sectionOf(section, start) })
  if (issues.length > 0) return { ok: false, issues }
  return { ok: true, value: search(input, requiredMargin, { start, smallest, large }), warnings: [] }
}

interface Bounds {
  readonly start: number
  readonly smallest: number
  /** From the largest down. */
  readonly large: readonly number[]
}

function search(input: RootJointInput, requiredMargin: number, { start, smallest, large }: Bounds): SufficientRadius {
  let evaluations = 0
  const margin = (r: number): number | null => {
    evaluations++
    const joint = rootJoint({ ...input, section: sectionOf(input.section, r) })
    invariant(joint.ok, `a joint with a fillet of ${r} m can be computed`)
    return joint.value.margin
  }
  const f = (value: number | null): number => (value === null ? 0 : Math.log((value + 1) / (requiredMargin + 1)))
  const first = margin(start)
  if (first === null) return { kind: 'unloaded' }
  const tried = (r: number): Tried => ({ r, f: f(margin(r)) })
  const marginAt = (at: Tried): number => Math.exp(at.f) * (requiredMargin + 1) - 1
  const found = bracketed({ own: { r: start, f: f(first) }, smallest, large, tried })
  if (found.high === null) return { kind: 'none-fits', best: found.low.r, margin: marginAt(found.low), evaluations }
  const enough = found.low === null ? found.high : crossing({ low: found.low, high: found.high, tried })
  return { kind: 'found', radius: enough.r, margin: marginAt(enough), evaluations }
}

interface From extends Omit<Bounds, 'start'> {
  readonly own: Tried
  readonly tried: (r: number) => Tried
}

/** A radius that is enough with one that is not (none where the least radius is enough), or the best of those that are not. */
type Found = { readonly high: Tried; readonly low: Tried | null } | { readonly high: null; readonly low: Tried }

/** Steps towards the crossing with the slope of the last two, from the radius that is there. */
function bracketed({ own, smallest, large, tried }: From): Found {
  let [best, last, slope] = [own, own, usualSlope]
  const upwards = own.f < 0
  const end = upwards ? large[0] : smallest
  for (let n = 0; n < mostSteps && last.r !== end; n++) {
    // a little beyond, so that the crossing lies between
    const aim = last.r * Math.exp(((upwards ? overshoot : -overshoot) - last.f) / slope)
    const next = tried(upwards ? Math.min(end, aim) : Math.max(end, aim))
    if (next.f >= 0 !== own.f >= 0) return upwards ? { high: next, low: last } : { high: last, low: next }
    slope = Math.max(leastSlope, (next.f - last.f) / Math.log(next.r / last.r))
    last = next
    best = better(best, next)
  }
  if (!upwards) return { high: last, low: null }
  for (const r of large.slice(1)) {
    const next = tried(r)
    if (next.f >= 0) return { high: next, low: own.r < r ? own : tried(smallest) }
    best = better(best, next)
  }
  return { high: null, low: best }
}

/** d ln(margin + 1) / d ln r of fins between 5 and 25 mm, and the least that is believed. */
const usualSlope = 1
const leastSlope = 0.4
/** How far beyond the crossing to aim, in ln(margin + 1). */
const overshoot = 0.02

interface Bracket {
  readonly low: Tried
  readonly high: Tried
  readonly tried: (r: number) => Tried
}

/** The upper end of a bracket closed round the radius where f passes zero. */
function crossing({ low: below, high: above, tried }: Bracket): Tried {
  let [low, high] = [below, above]
  let [weightLow, weightHigh] = [1, 1]
  let replaced: 'low' | 'high' | null = null
  for (let n = 0; n < mostSteps && high.r / low.r > 1 + closeEnough && high.f > closeEnough; n++) {
    // half-way into what is close enough, so that rounding and curvature seldom end below zero
    const [a, b] = [(low.f - closeEnough / 2) * weightLow, (high.f - closeEnough / 2) * weightHigh]
    const next = tried(Math.exp((b * Math.log(low.r) - a * Math.log(high.r)) / (b - a)))
    if (next.f < 0) {
      if (replaced === 'low') weightHigh /= 2
      ;[low, weightLow, replaced] = [next, 1, 'low']
    } else {
      if (replaced === 'high') weightLow /= 2
      ;[high, weightHigh, replaced] = [next, 1, 'high']
    }
  }
  return high
}

const better = (a: Tried, b: Tried): Tried => (b.f > a.f ? b : a)

/** Least radius that skin and base bond leave room for. */
const smallestRadius = ({ skin, adhesive }: RootJointInput): number =>
  Math.max(leastFilletRadius(skin.t), bondLines * adhesive.bondLine)

/** A fillet at least this many bond lines in radius stands two bond lines high on any tube that a fin fits on. */
const bondLines = 4

function sectionOf({ R, h, N, span }: BaySection, filletRadius: number): BaySection {
  const made = baySection({ tubeRadius: R, coreThickness: 2 * h, finCount: N, span, filletRadius })
  invariant(made.ok, `a fillet of ${filletRadius} m fits`)
  return made.value
}
