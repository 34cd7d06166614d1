/**
 * Following the roots of the aeroelastic equations from one speed to the next, so that each keeps the mode it came from.
 *
 * Quasi-steady forces: all roots at once, paired with those before by likeness of shape and distance, the surest pair first.
 * Forces that depend on k: each root by iteration from where it was, k in step with its own frequency; two that settle on one
 * and the same root are not accepted.
 */
import { type Aeroelastic, growth, highest, likeness, type Root, rootNear, rootsAt } from './roots.ts'

/** Followed roots at one speed, in the order of the modes they come from; null once one no longer oscillates. */
export interface SweepPoint {
  readonly V: number
  readonly roots: readonly (Root | null)[]
}

/** Nearer than this share of their size, with shapes as alike, two followed roots are one. */
const sameRoot = 1e-6

/** Frequencies nearer than this share of them belong to twin modes, which air does not bring together. */
const twins = 1e-6

export type Advance =
  | {
      readonly kind: 'roots'
      readonly roots: readonly (Root | null)[]
      /** Largest growth of any oscillating root. */
      readonly worst: number
      /** Least likeness of a followed root to itself one step before. */
      readonly likeness: number
    }
  | { readonly kind: 'not-converged'; readonly iterations: number; readonly residual: number }

export function advance(system: Aeroelastic, from: SweepPoint, V: number): Advance {
  return system.forces.quasiSteady ? advanceAll(system, from, V) : advanceEach(system, from, V)
}

/**
 * An unstable speed between two stable ones, looked for where the frequencies of two followed roots pass each other: there,
 * and only there, hardly coupled modes can flutter over a stretch too short for any step. Null when none was found.
 *
 * The difference of two frequencies is taken as straight in V² for a first place, and again for a second.
 */
export function unstableMeeting(
  system: Aeroelastic,
  from: SweepPoint,
  to: SweepPoint,
  unstable: number,
): number | null {
  for (const [i, j] of passingPairs(from, to)) {
    const difference = (roots: SweepPoint['roots']): number => (roots[i]?.im ?? 0) - (roots[j]?.im ?? 0)
    let [a, b] = [
      { x: from.V ** 2, d: difference(from.roots) },
      { x: to.V ** 2, d: difference(to.roots) },
    ]
    for (let look = 0; look < 2; look++) {
      const x = (a.x * b.d - b.x * a.d) / (b.d - a.d)
      const there = advance(system, from, Math.sqrt(x))
      if (there.kind !== 'roots' || there.roots[i] === null || there.roots[j] === null) break
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
function advanceAll(system: Aeroelastic, from: SweepPoint, V: number): Advance {
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
  return { kind: 'roots', roots, worst: largestGrowth(found), likeness: least }
}

/** Each followed root by iteration from where it was, k in step with its own frequency. */
export function advanceEach(system: Aeroelastic, from: SweepPoint, V: number): Advance {
  const roots: (Root | null)[] = []
  let least = 1
  for (const before of from.roots) {
    const near = before === null ? null : rootNear(system, V, before)
    if (near !== null && near.kind === 'not-converged') return near
    const root = near?.kind === 'root' ? near.root : null
    if (before !== null && root !== null) least = Math.min(least, likeness(before.shape, root.shape))
    roots.push(root)
  }
  if (repeats(roots)) return { kind: 'not-converged', iterations: 0, residual: 1 }
  return { kind: 'roots', roots, worst: largestGrowth(roots), likeness: least }
}

function repeats(roots: readonly (Root | null)[]): boolean {
  return roots.some((a, i) =>
    roots.some(
      (b, j) =>
        j < i &&
        a !== null &&
        b !== null &&
        Math.hypot(a.re - b.re, a.im - b.im) < sameRoot * Math.hypot(a.re, a.im) &&
        likeness(a.shape, b.shape) > 1 - sameRoot,
    ),
  )
}

export function largestGrowth(roots: readonly ({ readonly re: number; readonly im: number } | null)[]): number {
  return roots.reduce((most, root) => (root === null ? most : Math.max(most, growth(root))), Number.NEGATIVE_INFINITY)
}
