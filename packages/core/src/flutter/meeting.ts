/**
 * Flutter of two followed roots just where their frequencies pass each other: hardly coupled modes flutter over a narrow hump there that no
 * step of either need show. The meeting is found on the branches' cubics; both roots are corrected there or, should they settle on one, all
 * roots at that frequency are taken as eigenvalues.
 */
import { alike, type Branch, frequencyAt, interpolate } from './branch.ts'
import { crossing } from './crossing.ts'
import { leastNeutral, type Neutral } from './neutral-points.ts'
import { type RootKernel, type RootState, rootState } from './root-kernel.ts'
import { type Aeroelastic, growth, rootValues } from './roots.ts'

interface Ceiling {
  readonly ceiling: number
  readonly unstable: number
}

/** Flutter of two roots whose frequencies pass each other below the ceiling. */
export function unstableMeeting(
  system: Aeroelastic,
  kernel: RootKernel,
  branches: readonly Branch[],
  { ceiling, unstable }: Ceiling,
): Neutral | null {
  let least: Neutral | null = null
  for (let i = 0; i < branches.length; i++) {
    for (let j = 0; j < i; j++) {
      for (const V of meetings(branches[i], branches[j], least?.V ?? ceiling)) {
        const met = meetingAt(system, kernel, { a: branches[i], b: branches[j], V, unstable })
        if (met !== null && met.V < (least?.V ?? ceiling)) least = met
      }
    }
  }
  return least
}

/** Frequencies nearer than this share of them belong to twin modes, which air does not bring together. */
const twins = 1e-6

/** Speeds at which the frequencies of two branches are the same. */
function meetings(a: Branch, b: Branch, ceiling: number): number[] {
  const end = Math.min(ceiling, a.nodes[a.nodes.length - 1].V, b.nodes[b.nodes.length - 1].V)
  const difference = (V: number): number => frequencyAt(a, V) - frequencyAt(b, V)
  const apart = (d: number): boolean => Math.abs(d) > twins * a.nodes[0].im
  const found: number[] = []
  let last = { V: 0, d: a.nodes[0].im - b.nodes[0].im }
  for (const V of mergedSpeeds(a, b, end)) {
    const d = difference(V)
    if (d * last.d < 0 && apart(d) && apart(last.d)) {
      const f = last.d < 0 ? difference : (x: number): number => -difference(x)
      const bracket = { a: last.V, b: V, fa: -Math.abs(last.d), fb: Math.abs(d) }
      found.push(crossing(f, bracket, 1e-6 * V).b)
    }
    last = { V, d }
  }
  return found
}

function mergedSpeeds(a: Branch, b: Branch, end: number): number[] {
  const speeds: number[] = []
  let [i, j] = [1, 1]
  while (true) {
    const V = Math.min(a.nodes[i]?.V ?? end, b.nodes[j]?.V ?? end, end)
    if (V > (speeds[speeds.length - 1] ?? 0)) speeds.push(V)
    if (V >= end) return speeds
    while (i < a.nodes.length && a.nodes[i].V <= V) i++
    while (j < b.nodes.length && b.nodes[j].V <= V) j++
  }
}

interface Meeting {
  readonly a: Branch
  readonly b: Branch
  readonly V: number
  readonly unstable: number
}

/** Flutter just where two branches meet: both roots corrected there or, should they be one, all roots at that frequency. */
function meetingAt(system: Aeroelastic, kernel: RootKernel, { a, b, V, unstable }: Meeting): Neutral | null {
  const [p, q] = [rootState(kernel.n), rootState(kernel.n)]
  interpolate(a, V, p)
  interpolate(b, V, q)
  const frequency = p.im
  const two = kernel.correct(p) && kernel.correct(q) && !sameRoot(p, q)
  let worst = growth(p) > growth(q) ? p : q
  if (!two) {
    const values = rootValues(system, V, (frequency * system.forces.referenceLength) / V)
    const near = values.filter(({ im }) => Math.abs(im - frequency) < 0.1 * frequency)
    const most = near.reduce((x, y) => (growth(y) > growth(x) ? y : x), near[0])
    if (most === undefined || growth(most) <= unstable) return null
    interpolate(a, V, p)
    p.re = most.re
    p.im = most.im
    if (!kernel.correct(p)) return null
    worst = p
  }
  if (growth(worst) <= unstable) return null
  const mode = worst === p ? a.mode : b.mode
  const seen = { ...worst, x: worst.x.slice(), mode }
  // The hump's lower end lies close by.
  if (kernel.neutral(worst) && worst.V <= V && worst.V > 0.9 * V) return { ...worst, mode }
  const swept = leastNeutral(system, kernel, { from: 0.8 * V, to: V })
  return swept === null ? seen : { ...swept, mode }
}

/** Nearer than this share of their size, with shapes as alike, two roots are one. */
const asOne = 1e-6

export function sameRoot(p: RootState, q: RootState): boolean {
  const apart = Math.hypot(p.re - q.re, p.im - q.im)
  return apart < asOne * Math.hypot(p.re, p.im) && alike(p.x, q.x) > 1 - asOne
}
