/**
 * Following the roots of the aeroelastic equations from one speed to the next, so that each keeps the mode it came from.
 *
 * Quasi-steady forces: all roots at once, paired with those before by likeness of shape and distance, the surest pair first.
 * Forces that depend on k: each root by iteration from where it was, k in step with its own frequency; two that settle on one
 * and the same root are not accepted.
 */
import { type Aeroelastic, growth, likeness, type Root, rootNear, rootsAt } from './roots.ts'

/** Followed roots at one speed, in the order of the modes they come from; null once one no longer oscillates. */
export interface SweepPoint {
  readonly V: number
  readonly roots: readonly (Root | null)[]
}

/** Nearer than this share of their size, with shapes as alike, two followed roots are one. */
const sameRoot = 1e-6

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

/** True when two followed roots changed the order of their frequencies. */
export function passEachOther(before: readonly (Root | null)[], after: readonly (Root | null)[]): boolean {
  const known = before.flatMap((root, i) => {
    const now = after[i]
    return root === null || now === null ? [] : [{ was: root.im, is: now.im }]
  })
  return known.some((a, i) => known.slice(0, i).some((b) => (a.was - b.was) * (a.is - b.is) < 0))
}

/** All roots at once, then each given to the followed root it continues: pairs by shape and distance, the surest first. */
function advanceAll(system: Aeroelastic, from: SweepPoint, V: number): Advance {
  const found = rootsAt(system, V, 0)
  const roots: (Root | null)[] = from.roots.map(() => null)
  const scale = system.omegas[system.forces.n - 1]
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
