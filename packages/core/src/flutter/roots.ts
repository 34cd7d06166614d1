/**
 * Roots of the aeroelastic equations at one speed, on modes of unit modal mass.
 *
 *   (s² I + (1 + i g) Ω² − q A₀(k) − q (b/V) s A₁(k)) ξ = 0          q = ½ ρ V²
 *
 * Ω are the modes' circular frequencies, g the structural damping (hysteretic, so the equation is exact at s = i ω). Only
 * roots that oscillate, Im s > 0, are physical with i g. All roots at a given k are eigenvalues of
 *
 *   [ 0                        I             ]
 *   [ −(1 + i g) Ω² + q A₀     q (b/V) A₁    ]      scaled with the highest Ω,
 *
 * One root from a nearby guess, k following Im s (the p-k idea): root-kernel.ts. Source of the p-k idea: Hassig, J. Aircraft 8 (1971) 885–889 (recalled).
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
import type { RootState } from './root-kernel.ts'

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

/** s = i ω sqrt(1 + i g) of a mode without air, its shape the mode itself. */
export function vacuumRoot({ omegas, structuralDamping: g, forces: { n } }: Aeroelastic, mode: number): RootState {
  const angle = Math.atan(g) / 2
  const size = omegas[mode] * (1 + g * g) ** 0.25
  const x = new Float64Array(2 * n)
  x[mode] = 1
  return { V: 0, re: -size * Math.sin(angle), im: size * Math.cos(angle), x }
}

/** Share by which two shapes are the same up to a complex factor: |aᴴ b|² for unit lengths. */
export function likeness(a: ComplexVector, b: ComplexVector): number {
  const { re, im } = dot(a, b)
  return re * re + im * im
}

export function largestGrowth(roots: readonly ({ readonly re: number; readonly im: number } | null)[]): number {
  return roots.reduce((most, root) => (root === null ? most : Math.max(most, growth(root))), Number.NEGATIVE_INFINITY)
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
