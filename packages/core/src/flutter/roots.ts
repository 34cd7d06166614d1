/**
 * Roots of the aeroelastic equations at one speed, on modes of unit modal mass.
 *
 *   (s² I + (1 + i g) Ω² − q A₀(k) − q (b/V) s A₁(k)) ξ = 0          q = ½ ρ V²
 *
 * Ω are the modes' circular frequencies, g the structural damping (hysteretic, so the equation is exact at s = i ω). Only
 * roots that oscillate, Im s > 0, are physical with i g. Two ways to them: all roots at a given k as eigenvalues of
 *
 *   [ 0                        I             ]
 *   [ −(1 + i g) Ω² + q A₀     q (b/V) A₁    ]      scaled with the highest Ω,
 *
 * or one root from a nearby guess by inverse iteration on the equation itself, k following Im s (the p-k idea).
 * Source of the p-k idea: Hassig, J. Aircraft 8 (1971) 885–889 (recalled).
 */
import { complexEigenvalues } from '../numeric/complex-eigen.ts'
import {
  type ComplexMatrix,
  type ComplexVector,
  complexLu,
  complexMatrix,
  complexSolve,
  complexVector,
} from '../numeric/complex-matrix.ts'
import type { ForceMatrices, GeneralizedForces } from './forces.ts'

export interface Aeroelastic {
  /** Circular frequencies of the modes in vacuum, above zero. */
  readonly omegas: ArrayLike<number>
  /** g: twice the share of critical damping at resonance. */
  readonly structuralDamping: number
  readonly forces: GeneralizedForces
  readonly density: number
}

/** s = re + i im, 1/s; shape in modal coordinates, of unit length. */
export interface Root {
  readonly re: number
  readonly im: number
  readonly shape: ComplexVector
}

/** Roots whose frequency is below this share of their size do not oscillate: divergence looks after them. */
const leastOscillation = 1e-4

/** Imposed frequencies need not rise. */
export const highest = (omegas: ArrayLike<number>): number => Math.max(...Array.from(omegas))

/** Frequencies and growth of all oscillating roots at a reduced frequency, without their shapes. */
export function rootValues(system: Aeroelastic, V: number, k: number): { re: number; im: number }[] {
  const { forces, omegas, structuralDamping: g } = system
  const n = forces.n
  const { A0, A1 } = forces.at(k)
  const scale = highest(omegas)
  const q = 0.5 * system.density * V * V
  const [stiffness, damping] = [q / scale ** 2, (q * forces.referenceLength) / (V * scale)]
  const A = complexMatrix(2 * n)
  for (let i = 0; i < n; i++) {
    A.re[i * 2 * n + n + i] = 1
    const row = (n + i) * 2 * n
    for (let j = 0; j < n; j++) {
      A.re[row + j] = stiffness * A0[i * n + j]
      A.re[row + n + j] = damping * A1[i * n + j]
    }
    A.re[row + i] -= (omegas[i] / scale) ** 2
    A.im[row + i] -= g * (omegas[i] / scale) ** 2
  }
  const { re, im } = complexEigenvalues(A)
  return Array.from(re, (v, j) => ({ re: v * scale, im: im[j] * scale })).filter(oscillates)
}

/** All oscillating roots at a reduced frequency with their shapes, frequency rising. */
export function rootsAt(system: Aeroelastic, V: number, k: number): Root[] {
  const matrices = system.forces.at(k)
  return rootValues(system, V, k)
    .sort((a, b) => a.im - b.im)
    .map((s) => ({ ...s, shape: shapeOf(system, V, matrices, s) }))
}

export type Iteration =
  | { readonly kind: 'root'; readonly root: Root }
  /** The root no longer oscillates. */
  | { readonly kind: 'static' }
  /** `residual`: last change of s over its size. */
  | { readonly kind: 'not-converged'; readonly iterations: number; readonly residual: number }

export const iterationTolerance = 1e-9
const mostIterations = 40

/** The root near a guess, with k = Im(s) b / V kept in step. */
export function rootNear(system: Aeroelastic, V: number, guess: Root): Iteration {
  const { forces } = system
  let { re, im, shape } = guess
  let residual = Number.POSITIVE_INFINITY
  for (let iterations = 1; iterations <= mostIterations; iterations++) {
    const matrices = forces.at((im * forces.referenceLength) / V)
    const F = complexLu(dynamicStiffness(system, V, matrices, { re, im }))
    if (F.singularAt >= 0) return { kind: 'root', root: { re, im, shape } }
    const z = complexSolve(F, derivativeTimes(system, V, matrices, { re, im }, shape))
    const { re: pRe, im: pIm } = dot(shape, z)
    const square = pRe ** 2 + pIm ** 2
    const [stepRe, stepIm] = [-pRe / square, pIm / square]
    re += stepRe
    im += stepIm
    shape = normalised(z)
    residual = Math.hypot(stepRe, stepIm) / Math.hypot(re, im)
    if (!oscillates({ re, im })) return amongAll(system, V, guess)
    if (residual < iterationTolerance) return { kind: 'root', root: { re, im, shape } }
  }
  return amongAll(system, V, guess)
}

/** The same by all roots at each k: slower, for where the iteration from a guess does not settle. */
function amongAll(system: Aeroelastic, V: number, guess: Root): Iteration {
  const { forces, omegas } = system
  const scale = highest(omegas)
  const cost = (root: Root): number =>
    1 - likeness(root.shape, guess.shape) + Math.hypot(root.re - guess.re, root.im - guess.im) / scale
  let im = guess.im
  let residual = Number.POSITIVE_INFINITY
  for (let iterations = 1; iterations <= mostIterations; iterations++) {
    const found = rootsAt(system, V, (im * forces.referenceLength) / V)
    if (found.length === 0) return { kind: 'static' }
    const root = found.reduce((best, other) => (cost(other) < cost(best) ? other : best))
    residual = Math.abs(root.im - im) / root.im
    // Less likely the same root than another: it has stopped oscillating and what is left belongs to its neighbours.
    if (found.length < forces.n && likeness(root.shape, guess.shape) < 0.5) return { kind: 'static' }
    if (residual < iterationTolerance) return { kind: 'root', root }
    im = root.im
  }
  return { kind: 'not-converged', iterations: mostIterations, residual }
}

/** Share by which two shapes are the same up to a complex factor: |aᴴ b|² for unit lengths. */
export function likeness(a: ComplexVector, b: ComplexVector): number {
  const { re, im } = dot(a, b)
  return re * re + im * im
}

export const growth = ({ re, im }: { readonly re: number; readonly im: number }): number => re / Math.hypot(re, im)

function oscillates({ re, im }: { readonly re: number; readonly im: number }): boolean {
  return im > leastOscillation * Math.hypot(re, im)
}

/** s² I + (1 + i g) Ω² − q A₀ − q (b/V) s A₁ */
function dynamicStiffness(
  { omegas, structuralDamping: g, density, forces }: Aeroelastic,
  V: number,
  { A0, A1 }: ForceMatrices,
  s: { readonly re: number; readonly im: number },
): ComplexMatrix {
  const n = forces.n
  const F = complexMatrix(n)
  const q = 0.5 * density * V * V
  const c = (q * forces.referenceLength) / V
  for (let ij = 0; ij < n * n; ij++) {
    F.re[ij] = -q * A0[ij] - c * s.re * A1[ij]
    F.im[ij] = -c * s.im * A1[ij]
  }
  for (let i = 0; i < n; i++) {
    F.re[i * n + i] += s.re * s.re - s.im * s.im + omegas[i] ** 2
    F.im[i * n + i] += 2 * s.re * s.im + g * omegas[i] ** 2
  }
  return F
}

/** (2 s I − q (b/V) A₁) x: the derivative of the dynamic stiffness by s at fixed k. */
function derivativeTimes(
  { density, forces }: Aeroelastic,
  V: number,
  { A1 }: ForceMatrices,
  s: { readonly re: number; readonly im: number },
  x: ComplexVector,
): ComplexVector {
  const n = forces.n
  const y = complexVector(n)
  const c = (0.5 * density * V * V * forces.referenceLength) / V
  for (let i = 0; i < n; i++) {
    y.re[i] = 2 * (s.re * x.re[i] - s.im * x.im[i])
    y.im[i] = 2 * (s.re * x.im[i] + s.im * x.re[i])
    for (let j = 0; j < n; j++) {
      y.re[i] -= c * A1[i * n + j] * x.re[j]
      y.im[i] -= c * A1[i * n + j] * x.im[j]
    }
  }
  return y
}

/** Shape of a root already known, by inverse iteration a hair beside it. */
function shapeOf(
  system: Aeroelastic,
  V: number,
  matrices: ForceMatrices,
  s: { re: number; im: number },
): ComplexVector {
  const hair = 1e-9 * Math.hypot(s.re, s.im)
  const F = complexLu(dynamicStiffness(system, V, matrices, { re: s.re + hair, im: s.im }))
  const n = system.forces.n
  const x = complexVector(n)
  // No mode shape of a sane structure is orthogonal to this start.
  for (let i = 0; i < n; i++) x.re[i] = 1 + 0.1 * Math.cos(3 * i)
  // One solution is enough: it enlarges the wanted shape over the others by the roots' distance over the hair.
  return F.singularAt >= 0 ? normalised(x) : normalised(complexSolve(F, x))
}

function dot(a: ComplexVector, b: ComplexVector): { re: number; im: number } {
  let [re, im] = [0, 0]
  for (let i = 0; i < a.re.length; i++) {
    re += a.re[i] * b.re[i] + a.im[i] * b.im[i]
    im += a.re[i] * b.im[i] - a.im[i] * b.re[i]
  }
  return { re, im }
}

function normalised(x: ComplexVector): ComplexVector {
  let sum = 0
  for (let i = 0; i < x.re.length; i++) sum += x.re[i] ** 2 + x.im[i] ** 2
  const length = Math.sqrt(sum)
  return { re: x.re.map((v) => v / length), im: x.im.map((v) => v / length) }
}
