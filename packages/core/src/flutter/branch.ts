/**
 * One root of the aeroelastic equations followed over the speed, from its mode in vacuum.
 *
 * Predictor: tangents at the last two speeds, s ≈ s₀ + h s′ + ½ h² (s′ − s′₋₁)/h₋₁ and the shape alike; corrector: Newton
 * (root-kernel.ts). A step stands when the corrected root lies near the predicted one and its shape is still alike; else it is
 * halved. So each root has its own steps: modes that the air hardly touches take few. Between its speeds a branch is the cubic
 * through values and slopes.
 */
import { type RootKernel, type RootState, rootState } from './root-kernel.ts'

export interface BranchNode {
  readonly V: number
  readonly re: number
  readonly im: number
  /** Derivatives by V. */
  readonly dRe: number
  readonly dIm: number
  /** n real parts, then n imaginary parts, of unit length; the derivative at right angles. */
  readonly x: Float64Array
  readonly dx: Float64Array
}

export interface Branch {
  /** Place of the mode it comes from. */
  readonly mode: number
  /** Speed rising, the first 0. */
  readonly nodes: BranchNode[]
  /** `static`: it has stopped oscillating; `stuck`: it could not be followed further. */
  end: 'open' | 'static' | 'stuck'
  /** Next step to try. */
  h: number
}

/** How close the steps of a branch are: shares of a unit shape, and of the root. 1 is the usual. */
export interface Closeness {
  readonly closeness: number
}

/** Departure of the corrected root from the predicted one at which a step is right, and beyond which it does not stand. */
const rightDeparture = 0.04
const mostDeparture = 0.15
/** Least |aᴴ b|² of the shapes at the two ends of a step. */
const leastLikeness = 0.8
/** Least step as a share of the speed. */
const leastStep = 1e-6
/** A root whose frequency is below this share of its size, and falling, is held to have stopped oscillating. */
const hardlyOscillating = 0.03

/** Null when not even the root in vacuum is a simple one. */
export function branchFrom(kernel: RootKernel, vacuum: RootState, mode: number, firstStep: number): Branch | null {
  const node = nodeOf(kernel, vacuum, false)
  return node === null ? null : { mode, nodes: [node], end: 'open', h: firstStep }
}

function nodeOf(kernel: RootKernel, state: RootState, justCorrected: boolean): BranchNode | null {
  const tangent = { re: 0, im: 0, x: new Float64Array(2 * kernel.n) }
  if (!kernel.tangent(state, tangent, justCorrected)) return null
  const { V, re, im, x } = state
  return { V, re, im, dRe: tangent.re, dIm: tangent.im, x: x.slice(), dx: tangent.x }
}

/** One step more, to `upTo` at most; or the branch ends. */
export function step(kernel: RootKernel, branch: Branch, upTo: number, closeness: number): void {
  const { nodes } = branch
  const from = nodes[nodes.length - 1]
  const left = upTo - from.V
  let h = left < 1.25 * branch.h ? left : branch.h
  const { state, before } = scratchOf(kernel)
  while (true) {
    predict(branch, h, state)
    before.set(state.x)
    const { re, im } = state
    if (im > 0 && kernel.correct(state)) {
      const apart = closeness * departure(state, { re, im, x: before })
      const node = apart < mostDeparture && alike(from.x, state.x) > leastLikeness ? nodeOf(kernel, state, true) : null
      if (node !== null) {
        nodes.push(node)
        branch.h = h * Math.min(3, Math.max(0.4, Math.cbrt(rightDeparture / apart)))
        if (node.im < hardlyOscillating * Math.hypot(node.re, node.im) && node.dIm < 0) branch.end = 'static'
        return
      }
    }
    h /= 2
    if (h < leastStep * (from.V + h)) {
      branch.end = from.im < 0.3 * Math.hypot(from.re, from.im) && from.dIm < 0 ? 'static' : 'stuck'
      return
    }
  }
}

const scratch = new WeakMap<RootKernel, { readonly state: RootState; readonly before: Float64Array }>()

function scratchOf(kernel: RootKernel) {
  const known = scratch.get(kernel)
  if (known !== undefined) return known
  const made = { state: rootState(kernel.n), before: new Float64Array(2 * kernel.n) }
  scratch.set(kernel, made)
  return made
}

/** Beyond this many times the last step the second derivative is not used. */
const farthest = 4

function predict({ nodes }: Branch, h: number, out: RootState): void {
  const last = nodes[nodes.length - 1]
  const past = nodes.length > 1 ? nodes[nodes.length - 2] : last
  const width = last.V - past.V
  const bend = width > 0 && h < farthest * width ? (h * h) / (2 * width) : 0
  out.V = last.V + h
  out.re = last.re + h * last.dRe + bend * (last.dRe - past.dRe)
  out.im = last.im + h * last.dIm + bend * (last.dIm - past.dIm)
  let square = 0
  for (let i = 0; i < out.x.length; i++) {
    const v = last.x[i] + h * last.dx[i] + bend * (last.dx[i] - past.dx[i])
    out.x[i] = v
    square += v * v
  }
  const length = 1 / Math.sqrt(square)
  for (let i = 0; i < out.x.length; i++) out.x[i] *= length
}

function departure(
  { re, im, x }: RootState,
  guess: { readonly re: number; readonly im: number; readonly x: Float64Array },
) {
  let square = 0
  for (let i = 0; i < x.length; i++) square += (x[i] - guess.x[i]) ** 2
  return Math.max(Math.sqrt(square), Math.hypot(re - guess.re, im - guess.im) / Math.hypot(re, im))
}

/** |aᴴ b|² of shapes of unit length. */
export function alike(a: Float64Array, b: Float64Array): number {
  const n = a.length / 2
  let re = 0
  let im = 0
  for (let i = 0; i < n; i++) {
    re += a[i] * b[i] + a[n + i] * b[n + i]
    im += a[i] * b[n + i] - a[n + i] * b[i]
  }
  return re * re + im * im
}

/** Place of the last node at or below V. */
function below(nodes: readonly BranchNode[], V: number): number {
  let i = nodes.length - 2
  while (i > 0 && nodes[i].V > V) i--
  return i
}

/** Root and shape at a speed within the branch, from the cubic between its nodes; not corrected. */
export function interpolate({ nodes }: Branch, V: number, out: RootState): void {
  const i = below(nodes, V)
  const [a, b] = [nodes[i], nodes[i + 1]]
  const h = b.V - a.V
  const t = (V - a.V) / h
  const [h01, h10, h11] = [t * t * (3 - 2 * t), h * t * (1 - t) * (1 - t), -h * t * t * (1 - t)]
  const h00 = 1 - h01
  out.V = V
  out.re = h00 * a.re + h01 * b.re + h10 * a.dRe + h11 * b.dRe
  out.im = h00 * a.im + h01 * b.im + h10 * a.dIm + h11 * b.dIm
  let square = 0
  for (let j = 0; j < out.x.length; j++) {
    const v = h00 * a.x[j] + h01 * b.x[j] + h10 * a.dx[j] + h11 * b.dx[j]
    out.x[j] = v
    square += v * v
  }
  const length = 1 / Math.sqrt(square)
  for (let j = 0; j < out.x.length; j++) out.x[j] *= length
}

/** Frequency at a speed within the branch. */
export function frequencyAt({ nodes }: Branch, V: number): number {
  const i = below(nodes, V)
  const [a, b] = [nodes[i], nodes[i + 1]]
  const h = b.V - a.V
  const t = (V - a.V) / h
  return a.im + (b.im - a.im) * t * t * (3 - 2 * t) + h * t * (1 - t) * ((1 - t) * a.dIm - t * b.dIm)
}

/**
 * Where in the last step the real part of the root is greatest, if that lies inside the step: there a short stretch of
 * instability shows that neither end has. Null when it does not.
 */
export function innerPeak({ nodes }: Branch): number | null {
  if (nodes.length < 2) return null
  const [a, b] = [nodes[nodes.length - 2], nodes[nodes.length - 1]]
  if (!(a.dRe > 0 && b.dRe < 0)) return null
  // Derivative of the cubic, a quadratic in t: p t² + q t + r.
  const h = b.V - a.V
  const rise = b.re - a.re
  const [p, q, r] = [3 * (h * (a.dRe + b.dRe) - 2 * rise), 6 * rise - h * (4 * a.dRe + 2 * b.dRe), h * a.dRe]
  const root = Math.sqrt(Math.max(0, q * q - 4 * p * r))
  const t = (2 * r) / (-q + root)
  return a.V + h * (t > 0 && t < 1 ? t : 0.5)
}
