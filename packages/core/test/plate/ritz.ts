/**
 * Modes of a rectangular plate 0 ≤ x ≤ a, 0 ≤ y ≤ b clamped along y = 0, by Rayleigh–Ritz with products of Legendre
 * polynomials: shear-deformable, any section at any point, bending and stretching coupled. Shares nothing with the code under
 * test but the meaning of a section. Upper bounds, so they fall as the degree rises.
 */
import { CholeskyDecomposition, EigenvalueDecomposition, Matrix, solve } from 'ml-matrix'
import type { PlateSection } from '../../src/plate/section.ts'

export interface RitzPlate {
  readonly a: number
  readonly b: number
  readonly section: (x: number, y: number) => PlateSection
  /** Lines x = const at which the section has kinks or jumps. */
  readonly cuts?: readonly number[]
  /** Terms along x and along y. */
  readonly terms: readonly [number, number]
  readonly coupled?: boolean
  /** Gauss points a piece, each way. Default: two more than the terms. */
  readonly points?: number
}

/** Values and slopes of the first n Legendre polynomials on −1 … 1. */
function legendre(n: number, t: number): { value: number[]; slope: number[] } {
  const value = [1, t]
  const slope = [0, 1]
  for (let k = 2; k < n; k++) {
    value.push(((2 * k - 1) * t * value[k - 1] - (k - 1) * value[k - 2]) / k)
    slope.push(slope[k - 2] + (2 * k - 1) * value[k - 1])
  }
  return { value, slope }
}

/** Gauss–Legendre by Newton's iteration. */
function gauss(n: number): { t: number; weight: number }[] {
  return Array.from({ length: n }, (_, i) => {
    let t = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5))
    for (let k = 0; k < 50; k++) {
      const { value, slope } = legendre(n + 1, t)
      t -= value[n] / slope[n]
    }
    const { slope } = legendre(n + 1, t)
    return { t, weight: 2 / ((1 - t * t) * slope[n] ** 2) }
  })
}

/** Lowest circular frequencies, ascending. */
export function ritzFrequencies({ a, b, section, cuts = [], terms, coupled = false, points }: RitzPlate): number[] {
  const [p, q] = terms
  const perField = p * q
  const fields = coupled ? 5 : 3
  const n = fields * perField
  const K = Matrix.zeros(n, n)
  const M = Matrix.zeros(n, n)
  const ends = [0, ...cuts, a]
  for (let piece = 0; piece + 1 < ends.length; piece++) {
    for (const gx of gauss(points ?? p + 2)) {
      for (const gy of gauss(points ?? q + 2)) {
        const half = (ends[piece + 1] - ends[piece]) / 2
        const x = ends[piece] + half * (1 + gx.t)
        const y = (b / 2) * (1 + gy.t)
        addPoint(K, M, { x, y, a, b, p, q, coupled, weight: gx.weight * gy.weight * half * (b / 2), at: section(x, y) })
      }
    }
  }
  const L = new CholeskyDecomposition(M).lowerTriangularMatrix
  const half = solve(L, K)
  const reduced = solve(L, half.transpose())
  const { realEigenvalues } = new EigenvalueDecomposition(reduced, { assumeSymmetric: true })
  return realEigenvalues.map((lambda) => Math.sqrt(Math.max(0, lambda))).sort((u, v) => u - v)
}

interface Sample {
  readonly x: number
  readonly y: number
  readonly a: number
  readonly b: number
  readonly p: number
  readonly q: number
  readonly coupled: boolean
  readonly weight: number
  readonly at: PlateSection
}

function addPoint(K: Matrix, M: Matrix, { x, y, a, b, p, q, coupled, weight, at }: Sample): void {
  const along = legendre(p, (2 * x) / a - 1)
  const out = legendre(q, (2 * y) / b - 1)
  const N: number[] = []
  const Nx: number[] = []
  const Ny: number[] = []
  for (let i = 0; i < p; i++) {
    for (let j = 0; j < q; j++) {
      N.push((along.value[i] * out.value[j] * y) / b)
      Nx.push(((2 / a) * along.slope[i] * out.value[j] * y) / b)
      Ny.push((along.value[i] * ((2 / b) * out.slope[j] * y + out.value[j])) / b)
    }
  }
  const m = N.length
  const zero = N.map(() => 0)
  // rows of strain over the fields w, φx, φy, u, v
  const rows = [
    [zero, Nx, zero, zero, zero],
    [zero, zero, Ny, zero, zero],
    [zero, Ny, Nx, zero, zero],
    [Nx, N, zero, zero, zero],
    [Ny, zero, N, zero, zero],
    [zero, zero, zero, Nx, zero],
    [zero, zero, zero, zero, Ny],
    [zero, zero, zero, Ny, Nx],
  ]
    .slice(0, coupled ? 8 : 5)
    .map((row) => row.slice(0, coupled ? 5 : 3).flat())
  const C = (i: number, j: number): number => {
    if (i < 3 && j < 3) return at.D[3 * i + j]
    if (i >= 5 && j >= 5) return at.A[3 * (i - 5) + j - 5]
    if (i < 3 && j >= 5) return at.B[3 * i + j - 5]
    if (i >= 5 && j < 3) return at.B[3 * (i - 5) + j]
    return i >= 3 && j >= 3 && i < 5 && j < 5 ? at.S[2 * (i - 3) + j - 3] : 0
  }
  const B = new Matrix(rows)
  const stiffness = new Matrix(rows.map((_, i) => rows.map((__, j) => weight * C(i, j))))
  K.add(B.transpose().mmul(stiffness.mmul(B)))
  for (let field = 0; field < (coupled ? 5 : 3); field++) {
    const inertia = weight * (field === 1 || field === 2 ? at.rotaryInertia : at.massPerArea)
    for (let i = 0; i < m; i++) {
      for (let j = 0; j < m; j++) {
        const [r, c] = [field * m + i, field * m + j]
        M.set(r, c, M.get(r, c) + inertia * (N[i] * N[j]))
      }
    }
  }
}
