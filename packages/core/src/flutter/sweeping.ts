/**
 * First flutter of quasi-steady forces: all roots at once as eigenvalues, from one speed to the next, so that each keeps the mode it came
 * from. Undamped roots that truly meet, where no root can be followed by itself, are in its reach.
 *
 * Roots are paired with those before by likeness of shape and distance, the surest pair first; a step in speed stands only when every root
 * keeps its shape, else it is halved. An unstable speed is approached from below by halves until it lies within `coarsestBracket` of a
 * stable one; then the crossing itself is narrowed down. Where two frequencies pass each other within a step, the place where they meet is
 * looked at by itself: flutter of two hardly coupled modes is a narrow hump just there.
 */
import { invariant } from '../issue.ts'
import { crossing } from './crossing.ts'
import type { FollowLimits } from './following.ts'
import { isDamped } from './limits.ts'
import { rootKernel } from './root-kernel.ts'
import {
  type Aeroelastic,
  growth,
  highest,
  largestGrowth,
  likeness,
  type Root,
  rootsAt,
  rootValues,
  vacuumRoot,
} from './roots.ts'

/** Followed roots at one speed, in the order of the modes they come from; null once one no longer oscillates. */
export interface SweepPoint {
  readonly V: number
  readonly roots: readonly (Root | null)[]
}

/** Frequencies nearer than this share of them belong to twin modes, which air does not bring together. */
const twins = 1e-6

export interface Advance {
  readonly roots: readonly (Root | null)[]
  /** Largest growth of any oscillating root. */
  readonly worst: number
  /** Least likeness of a followed root to itself one step before. */
  readonly likeness: number
}

/** Width to which the flutter speed is narrowed down, share of it. */
const speedTolerance = 1e-7
/** Steps as shares of the speed: largest where shapes change (else the speed itself), least, and the widest bracket. */
const largestStep = 0.35
const leastStep = 1e-2
const coarsestBracket = 0.06
/** Least likeness of a root's shape from one step to the next. */
const leastLikeness = 0.8

export type Swept =
  /** `mode`: the one the root comes from. */
  | { readonly kind: 'flutter'; readonly V: number; readonly root: Root; readonly mode: number }
  | { readonly kind: 'none-below'; readonly V: number }

export function swept(system: Aeroelastic, { firstStep, speedLimit, unstable }: FollowLimits): Swept {
  let last: SweepPoint = vacuumPoint(system)
  let h = firstStep
  /** Least speed known to be unstable. */
  let ceiling = Number.POSITIVE_INFINITY
  while (true) {
    if (last.V > 0 && ceiling - last.V <= coarsestBracket * last.V) return narrowed(system, last, ceiling, unstable)
    const V = Math.min(last.V + h, speedLimit, (last.V + ceiling) / 2)
    const size = V - last.V
    const least = last.V === 0 ? size : leastStep * last.V
    const trial = advance(system, last, V)
    if (trial.worst > unstable) {
      if (last.V === 0) return narrowed(system, last, V, unstable)
      ceiling = V
    } else if (trial.likeness < leastLikeness && size > least) {
      h = Math.max(size / 2, least)
    } else {
      const hump = unstableMeeting(system, last, { V, roots: trial.roots }, unstable)
      if (hump !== null) {
        ceiling = hump
        continue
      }
      last = { V, roots: trial.roots }
      if (V >= speedLimit) return { kind: 'none-below', V }
      h = nextStep(trial, size, V)
    }
  }
}

const nextStep = (trial: Advance, size: number, V: number): number =>
  Math.min((trial.likeness > 0.95 ? 2 : 1.2) * size, (trial.likeness > 0.995 ? 1 : largestStep) * V)

/** Roots at speeds that rise, each in the place of its mode. */
export function sweptAt(system: Aeroelastic, speeds: readonly number[], firstStep: number): SweepPoint[] {
  let last = vacuumPoint(system)
  let h = firstStep
  return speeds.map((speed) => {
    while (last.V < speed) {
      const V = Math.min(last.V + h, speed)
      const size = V - last.V
      const trial = advance(system, last, V)
      if (trial.likeness < closeLikeness && size > 1e-4 * V) {
        h = size / 2
        continue
      }
      last = { V, roots: trial.roots }
      h = Math.max(h, nextStep(trial, size, V))
    }
    return last
  })
}

/** Of a step that goes to a curve. */
const closeLikeness = 0.9

const vacuumPoint = (system: Aeroelastic): SweepPoint => ({
  V: 0,
  roots: Array.from({ length: system.forces.n }, (_, i) => {
    const { re, im, x } = vacuumRoot(system, i)
    return { re, im, shape: { re: x.slice(0, system.forces.n), im: x.slice(system.forces.n) } }
  }),
})

/** The crossing between the last stable point and an unstable speed. */
function narrowed(system: Aeroelastic, stable: SweepPoint, unstableAt: number, unstable: number): Swept {
  const excess = (V: number): number => largestGrowth(rootValues(system, V, 0)) - unstable
  const a = stable.V > 0 ? stable.V : 1e-3 * unstableAt
  const fa = Math.min(0, largestGrowth(stable.roots) - unstable)
  const { b } = crossing(excess, { a, b: unstableAt, fa, fb: excess(unstableAt) }, speedTolerance * unstableAt)
  const { roots } = advance(system, stable, b)
  const mode = roots.reduce((most, root, i) => (root !== null && growth(root) >= growthOf(roots[most]) ? i : most), 0)
  const root = roots[mode]
  invariant(root !== null, `no root oscillates at ${b} m/s, where one flutters`)
  return { kind: 'flutter', ...(exactly(system, b, root) ?? { V: b, root }), mode }
}

/** Newton's step closes less than this share of the speed. */
const mostCorrection = 1e-3

/** The neutral point itself, just below where the growth counts as unstable; null where two undamped roots have met, or none is near. */
function exactly(system: Aeroelastic, V: number, { im, shape }: Root): { V: number; root: Root } | null {
  const { n } = system.forces
  const at = { V, re: 0, im, x: Float64Array.of(...shape.re, ...shape.im) }
  if (!isDamped(system) || !rootKernel(system).neutral(at)) return null
  if (!(at.V <= V && at.V > V * (1 - mostCorrection))) return null
  return { V: at.V, root: { re: 0, im: at.im, shape: { re: at.x.slice(0, n), im: at.x.slice(n) } } }
}

const growthOf = (root: Root | null): number => (root === null ? Number.NEGATIVE_INFINITY : growth(root))

/**
 * An unstable speed between two stable ones, looked for where the frequencies of two followed roots pass each other: there,
 * and only there, hardly coupled modes can flutter over a stretch too short for any step. Null when none was found.
 *
 * The difference of two frequencies is taken as straight in V² for a first place, and again for a second.
 */
function unstableMeeting(system: Aeroelastic, from: SweepPoint, to: SweepPoint, unstable: number): number | null {
  for (const [i, j] of passingPairs(from, to)) {
    const difference = (roots: SweepPoint['roots']): number => (roots[i]?.im ?? 0) - (roots[j]?.im ?? 0)
    let [a, b] = [
      { x: from.V ** 2, d: difference(from.roots) },
      { x: to.V ** 2, d: difference(to.roots) },
    ]
    for (let look = 0; look < 2; look++) {
      const x = (a.x * b.d - b.x * a.d) / (b.d - a.d)
      const there = advance(system, from, Math.sqrt(x))
      if (there.roots[i] === null || there.roots[j] === null) break
      if (there.worst > unstable) return Math.sqrt(x)
      const d = difference(there.roots)
      if (d * a.d > 0) a = { x, d }
      else b = { x, d }
    }
  }
  return null
}

/** Pairs of followed roots that changed the order of their frequencies, twins that only differ by rounding apart. */
function passingPairs(from: SweepPoint, to: SweepPoint): [number, number][] {
  const pairs: [number, number][] = []
  for (let i = 0; i < from.roots.length; i++) {
    for (let j = 0; j < i; j++) {
      const [a, b, c, d] = [from.roots[i], from.roots[j], to.roots[i], to.roots[j]]
      if (a === null || b === null || c === null || d === null) continue
      const [was, is] = [(a.im - b.im) / a.im, (c.im - d.im) / c.im]
      if (was * is < 0 && Math.min(Math.abs(was), Math.abs(is)) > twins) pairs.push([i, j])
    }
  }
  return pairs
}

/** All roots at once, then each given to the followed root it continues: pairs by shape and distance, the surest first. */
function advance(system: Aeroelastic, from: SweepPoint, V: number): Advance {
  const found = rootsAt(system, V, 0)
  const roots: (Root | null)[] = from.roots.map(() => null)
  const scale = highest(system.omegas)
  const taken = new Set<number>()
  const alike = from.roots.map((before) =>
    found.map((root) => (before === null ? 0 : likeness(before.shape, root.shape))),
  )
  const cost = (i: number, j: number): number => {
    const before = from.roots[i]
    if (before === null) return Number.POSITIVE_INFINITY
    return 1 - alike[i][j] + Math.hypot(found[j].re - before.re, found[j].im - before.im) / scale
  }
  let least = 1
  while (taken.size < found.length) {
    let best: { readonly i: number; readonly j: number; readonly cost: number } | null = null
    for (let i = 0; i < roots.length; i++) {
      for (let j = 0; j < found.length && roots[i] === null; j++) {
        const c = taken.has(j) ? Number.POSITIVE_INFINITY : cost(i, j)
        if (c < (best?.cost ?? Number.POSITIVE_INFINITY)) best = { i, j, cost: c }
      }
    }
    if (best === null) break
    roots[best.i] = found[best.j]
    taken.add(best.j)
    least = Math.min(least, alike[best.i][best.j])
  }
  // A root that oscillates again takes the place of one that had stopped.
  for (const [j, root] of found.entries()) if (!taken.has(j)) roots[roots.indexOf(null)] = root
  return { roots, worst: largestGrowth(found), likeness: least }
}
