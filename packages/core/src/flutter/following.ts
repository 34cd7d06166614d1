/**
 * First flutter where anything damps: every root is followed from its mode in vacuum (branch.ts), the one that lags first, up to
 * the least speed at which one of them passes neutral stability; that point is solved for directly, s = i ω (root-kernel.ts).
 *
 * Three things are looked at besides the ends of the steps: the peak of the growth inside a step; the place where the frequencies of two
 * roots pass each other, for hardly coupled modes flutter over a narrow hump just there; and whether two branches have run into one. If
 * they have, or a root cannot be followed, all is done again in closer steps. What is left then is for others to solve: the neutral points
 * over k (neutral-points.ts), or all roots at once (sweeping.ts).
 */
import { alike, type Branch, type BranchNode, branchFrom, innerPeak, interpolate, step } from './branch.ts'
import { crossing } from './crossing.ts'
import { sameRoot, unstableMeeting } from './meeting.ts'
import { leastNeutral, type Neutral } from './neutral-points.ts'
import { type RootKernel, rootKernel, rootState } from './root-kernel.ts'
import { type Aeroelastic, growth, vacuumRoot } from './roots.ts'

export type Followed =
  | { readonly kind: 'flutter'; readonly at: Neutral }
  | { readonly kind: 'none-below'; readonly V: number }

export interface FollowLimits {
  readonly firstStep: number
  readonly speedLimit: number
  /** Growth above which a root counts as unstable. */
  readonly unstable: number
  /** Divergence speed, or infinite. */
  readonly diverges: number
}

/** Steps the usual size, then this many times closer. */
export const closenesses = [1, 4, 16]

/** Null when two branches become one, or one cannot be followed, however close the steps. */
export function followed(system: Aeroelastic, limits: FollowLimits): Followed | null {
  const kernel = rootKernel(system)
  for (const closeness of closenesses) {
    const found = followedOnce(system, kernel, { ...limits, closeness })
    if (found !== null) return found
  }
  return null
}

/** The same by the neutral points over k alone. That none was found proves nothing: then null. */
export function byNeutralPoints(system: Aeroelastic, { firstStep, speedLimit }: FollowLimits): Followed | null {
  const first = leastNeutral(system, rootKernel(system), { from: firstStep / 2, to: speedLimit })
  return first === null ? null : { kind: 'flutter', at: first }
}

interface Following extends FollowLimits {
  readonly closeness: number
}

/** Null when two branches have become one, or one is stuck. */
function followedOnce(system: Aeroelastic, kernel: RootKernel, following: Following): Followed | null {
  const { firstStep, speedLimit, unstable, closeness } = following
  const branches: Branch[] = []
  for (let mode = 0; mode < kernel.n; mode++) {
    const branch = branchFrom(kernel, vacuumRoot(system, mode), mode, firstStep)
    if (branch === null) return null
    branches.push(branch)
  }
  let found: Neutral | null = null
  let ceiling = speedLimit
  for (let branch = lagging(branches, ceiling); branch !== null; branch = lagging(branches, ceiling)) {
    step(kernel, branch, ceiling, closeness)
    if (branch.end === 'stuck') return null
    const neutral = neutralInStep(kernel, branch, unstable)
    if (neutral === 'lost') return null
    if (neutral !== null && neutral.V < ceiling) {
      found = neutral
      ceiling = neutral.V
    }
  }
  const met = unstableMeeting(system, kernel, branches, { ceiling, unstable })
  if (met !== null) found = met
  else if (becameOne(kernel, branches, ceiling)) return null
  found = oscillatingAgain(system, kernel, branches, Math.min(found?.V ?? ceiling, following.diverges)) ?? found
  return found === null ? { kind: 'none-below', V: speedLimit } : { kind: 'flutter', at: found }
}

/**
 * A root that has stopped oscillating may begin again, by itself or with another, and flutter: no branch leads there, so neutral points are
 * looked for from where the first one stopped. Beyond divergence it does not matter any more.
 */
function oscillatingAgain(
  system: Aeroelastic,
  kernel: RootKernel,
  branches: readonly Branch[],
  ceiling: number,
): Neutral | null {
  const stopped = branches.filter(({ end }) => end === 'static').map(({ nodes }) => nodes[nodes.length - 1].V)
  const from = Math.min(...stopped)
  return from < ceiling ? leastNeutral(system, kernel, { from, to: ceiling * (1 - 1e-6) }) : null
}

/** The branch that has come least far of those still below the ceiling. */
export function lagging(branches: readonly Branch[], ceiling: number): Branch | null {
  let least: Branch | null = null
  let at = ceiling
  for (const branch of branches) {
    const { V } = branch.nodes[branch.nodes.length - 1]
    if (branch.end === 'open' && V < at) {
      least = branch
      at = V
    }
  }
  return least
}

/** The crossing into instability in the branch's last step, if there is one. */
function neutralInStep(kernel: RootKernel, branch: Branch, unstable: number): Neutral | null | 'lost' {
  const { nodes, mode } = branch
  if (nodes.length < 2) return null
  const [a, b] = [nodes[nodes.length - 2], nodes[nodes.length - 1]]
  if (growth(b) > unstable) return neutralBetween(kernel, branch, { a, to: b.V, unstable })
  const peak = innerPeak(branch)
  if (peak === null) return null
  const at = rootState(kernel.n)
  interpolate(branch, peak, at)
  if (!kernel.correct(at)) return null
  return growth(at) > unstable ? neutralBetween(kernel, { ...branch, mode }, { a, to: peak, unstable }) : null
}

interface Span {
  readonly a: BranchNode
  readonly to: number
  readonly unstable: number
}

/** Between a stable node and an unstable speed of one branch. */
function neutralBetween(kernel: RootKernel, branch: Branch, { a, to, unstable }: Span): Neutral | 'lost' {
  const at = rootState(kernel.n)
  interpolate(branch, cubicCrossing(branch, a.V, to), at)
  const guess = at.x.slice()
  const slack = 1e-3 * (to - a.V)
  const direct = a.re < 0 || a.dRe < 0 ? kernel.neutral(at) : false
  if (direct && at.V > a.V - slack && at.V < to + slack && alike(guess, at.x) > 0.5) {
    return { ...at, mode: branch.mode }
  }
  return narrowed(kernel, branch, { a, to, unstable })
}

/** Width to which a crossing is narrowed down where it cannot be solved for directly, share of the speed. */
const narrowWidth = 1e-7

function narrowed(kernel: RootKernel, branch: Branch, { a, to, unstable }: Span): Neutral | 'lost' {
  const at = rootState(kernel.n)
  let lost = false
  const excess = (V: number): number => {
    interpolate(branch, V, at)
    lost ||= !kernel.correct(at)
    return growth(at) - unstable
  }
  const fb = excess(to)
  if (lost || !(fb > 0)) return 'lost'
  const from = a.V > 0 ? a.V : 1e-6 * to
  const fa = a.V > 0 ? Math.min(0, growth(a) - unstable) : Math.min(0, excess(from))
  const { b } = crossing(excess, { a: from, b: to, fa, fb }, narrowWidth * to)
  excess(b)
  return lost ? 'lost' : { ...at, mode: branch.mode }
}

/** Where the cubic of the real part passes from below zero to above, by halving. */
function cubicCrossing(branch: Branch, from: number, to: number): number {
  const at = rootState(branch.nodes[0].x.length / 2)
  let [a, b] = [from, to]
  for (let i = 0; i < 12; i++) {
    const middle = (a + b) / 2
    interpolate(branch, middle, at)
    if (at.re > 0) b = middle
    else a = middle
  }
  return (a + b) / 2
}

/** Whether two branches are on one root at a speed both have reached. */
function becameOne(kernel: RootKernel, branches: readonly Branch[], V: number): boolean {
  const reached = branches.filter(({ nodes }) => nodes[nodes.length - 1].V >= V)
  const states = reached.map((branch) => {
    const at = rootState(kernel.n)
    interpolate(branch, V, at)
    return at
  })
  for (let i = 0; i < states.length; i++) {
    for (let j = 0; j < i; j++) {
      const [p, q] = [states[i], states[j]]
      const near = Math.hypot(p.re - q.re, p.im - q.im) < 1e-2 * Math.hypot(p.re, p.im) && alike(p.x, q.x) > 0.98
      if (!near) continue
      const [a, b] = [p, q].map((state) => ({ ...state, x: state.x.slice() }))
      if (!kernel.correct(a) || !kernel.correct(b) || sameRoot(a, b)) return true
    }
  }
  return false
}
