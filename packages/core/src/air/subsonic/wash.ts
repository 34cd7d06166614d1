/**
 * Matrix of normalwash over pressure, w/V = D Δc_p, of a lattice at one Mach number and frequency. The fast version of
 * `kernel.ts`.
 *
 *   D_ij = (c_j / 8π) [ ∫ (1 + x₀/R)/t² dt − iκ ∫ (x₀ + R + M² t²/R)/t² dt + Σ_n w_n P̃(x_n, t_n) + δ κ² Λ e^{−iκ x₀} ]
 *          − iκ c_j (ln 2 / 8π) (1 + b²)/sqrt(β² + b²)      for the boxes j just ahead of and just behind the receiving point
 *   P̃ = P − (1 + x₀/R) + iκ (x₀ + R + M² t²/R)
 *
 * over the doublet line of box j, chord c_j, and its image; w is up, Δc_p = (lower − upper)/q is up too; b is the tangent of
 * the line's sweep. The first two integrals are exact; P̃ = O(κ²) is a parabola between its three samples, and on the strip
 * itself (δ = 1 for boxes ahead of the receiving point) its logarithm κ² t² ln|t| is integrated exactly. The last term makes
 * the chordwise sum second order in the chord of a box where the plain lattice is first order.
 * Source: Rodden, Giesing & Kálmán, Refinement of the nonplanar aspects of the subsonic doublet-lattice lifting surface
 * method, J. Aircraft 9 (1972) 69-73 (parabola); the exact linear term and both logarithms are our own, derived in
 * docs/methods/air-subsonic.md.
 */
import { type ComplexMatrix, complexMatrix } from '../../numeric/complex-matrix.ts'
import { scaledK1 } from './bessel.ts'
import { exponentialFit } from './kernel.data.ts'
import type { LiftingSurface } from './surface.ts'
import type { SideAtMach, SurfaceAtMach } from './surface-at-mach.ts'

/** D at κ = ω/V (1/m). Row i: receiving box; column j: sending box. */
export function washMatrix(at: SurfaceAtMach, wavenumber: number): ComplexMatrix {
  const { surface, D0, D1 } = at
  const n = surface.lattice.count
  const D = complexMatrix(n)
  D.re.set(D0)
  if (wavenumber === 0) return D
  for (let ij = 0; ij < n * n; ij++) D.im[ij] = -wavenumber * D1[ij]
  const turn = pointPhases(surface, wavenumber)
  for (const side of at.sides) addRemainder(D, at, side, wavenumber, turn)
  addOwnLogarithm(D, surface, wavenumber)
  addChordLogarithm(D, at, wavenumber)
  return D
}

interface Phases {
  readonly cos: Float64Array
  readonly sin: Float64Array
}

function pointPhases({ pointX }: LiftingSurface, wavenumber: number): Phases {
  return { cos: pointX.map((x) => Math.cos(wavenumber * x)), sin: pointX.map((x) => Math.sin(wavenumber * x)) }
}

function addRemainder(D: ComplexMatrix, at: SurfaceAtMach, side: SideAtMach, wavenumber: number, turn: Phases): void {
  const { lattice, strips, pointX, columns } = at.surface
  const table = new Float64Array(2 * terms * columns)
  const bessel = new Float64Array(columns)
  const sample = { re: new Float64Array(pointX.length), im: new Float64Array(pointX.length) }
  for (let r = 0; r < strips; r++) {
    fillTables(table, bessel, side.distance, r * columns, wavenumber)
    for (let i = lattice.stripStart[r]; i < lattice.stripStart[r + 1]; i++) {
      sampleRemainder(sample, at, side, { i, r, wavenumber }, table, bessel, turn)
      gather(D, at.surface, side, i, r, sample)
    }
  }
}

const terms = exponentialFit.a.length
/** An exponential below this no longer counts beside the sum. */
const negligible = 1e-18

/** By column: a_n / (c_n + i k₁), and 2 k₁ K₁(k₁). */
function fillTables(
  table: Float64Array,
  bessel: Float64Array,
  distance: Float64Array,
  start: number,
  wavenumber: number,
): void {
  const { a, b } = exponentialFit
  for (let column = 0; column < bessel.length; column++) {
    const k1 = wavenumber * distance[start + column]
    bessel[column] = 2 * scaledK1(k1)
    for (let n = 0, c = 2 * b, to = 2 * terms * column; n < terms; n++, c *= 2, to += 2) {
      const share = a[n] / (c * c + k1 * k1)
      table[to] = share * c
      table[to + 1] = -share * k1
    }
  }
}

/** P̃ at every sample as box i of strip r sees it. */
function sampleRemainder(
  sample: { readonly re: Float64Array; readonly im: Float64Array },
  { surface, mach }: SurfaceAtMach,
  { ahead, steady, linear, phase, decay, distance }: SideAtMach,
  { i, r, wavenumber }: { readonly i: number; readonly r: number; readonly wavenumber: number },
  table: Float64Array,
  bessel: Float64Array,
  turn: Phases,
): void {
  const { pointColumn, columns, lattice } = surface
  const m = pointColumn.length
  const xr = lattice.receiveX[i]
  const [cosR, sinR] = [Math.cos(wavenumber * xr), Math.sin(wavenumber * xr)]
  for (let p = 0, k = i * m; p < m; p++, k++) {
    const column = pointColumn[p]
    let E = decay[k]
    let [sumRe, sumIm] = [0, 0]
    for (let from = 2 * terms * column, end = from + 2 * terms; from < end && E > negligible; from += 2) {
      sumRe += E * table[from]
      sumIm += E * table[from + 1]
      E *= E
    }
    const k1 = wavenumber * distance[r * columns + column]
    let re = ahead[k] === 1 ? steady[k] + k1 * sumIm : steady[k] - k1 * sumIm
    let im = -k1 * sumRe
    if (mach > 0) {
      const psi = wavenumber * phase[k]
      const [cos, sin] = [Math.cos(psi), Math.sin(psi)]
      const turned = re * cos + im * sin
      im = im * cos - re * sin
      re = turned
    }
    if (ahead[k] === 0) {
      const rest = bessel[column]
      re += rest * (cosR * turn.cos[p] + sinR * turn.sin[p]) - 2
      im += rest * (cosR * turn.sin[p] - sinR * turn.cos[p])
    }
    sample.re[p] = re - steady[k]
    sample.im[p] = im + wavenumber * linear[k]
  }
}

/** Row i of D gains the weighted samples of every box. */
function gather(
  D: ComplexMatrix,
  { lattice, strips, stripOf, pointOf }: LiftingSurface,
  { weights, factor }: SideAtMach,
  i: number,
  r: number,
  { re, im }: { readonly re: Float64Array; readonly im: Float64Array },
): void {
  for (let j = 0, ij = i * lattice.count; j < lattice.count; j++, ij++) {
    const w = 3 * (r * strips + stripOf[j])
    const [w0, w1, w2] = [weights[w], weights[w + 1], weights[w + 2]]
    const [p0, p1, p2] = [pointOf[3 * j], pointOf[3 * j + 1], pointOf[3 * j + 2]]
    const scale = (factor * lattice.chord[j]) / (8 * Math.PI)
    D.re[ij] += scale * (w0 * re[p0] + w1 * re[p1] + w2 * re[p2])
    D.im[ij] += scale * (w0 * im[p0] + w1 * im[p1] + w2 * im[p2])
  }
}

function addOwnLogarithm(
  D: ComplexMatrix,
  { lattice, strips, ownLogarithm }: LiftingSurface,
  wavenumber: number,
): void {
  const { stripStart, receiveX, forceX, chord, count } = lattice
  for (let s = 0; s < strips; s++) {
    for (let i = stripStart[s]; i < stripStart[s + 1]; i++) {
      for (let j = stripStart[s]; j < stripStart[s + 1]; j++) {
        const x = receiveX[i] - forceX[j]
        if (!(x > 0)) continue
        const size = ((chord[j] * wavenumber ** 2) / (8 * Math.PI)) * ownLogarithm[s]
        D.re[i * count + j] += size * Math.cos(wavenumber * x)
        D.im[i * count + j] -= size * Math.sin(wavenumber * x)
      }
    }
  }
}

/**
 * The chordwise sum of boxes reads iκ ln|x₀| at half-integer distances from the receiving point, where ∫ ln is too large by
 * c_j ln 2 (Stirling); taken off the two boxes about the point.
 */
function addChordLogarithm(D: ComplexMatrix, { surface, mach }: SurfaceAtMach, wavenumber: number): void {
  const { count, chord, lineIn, lineOut, yIn, yOut } = surface.lattice
  for (let j = 0; j < count; j++) {
    const b = (lineOut[j] - lineIn[j]) / (yOut[j] - yIn[j])
    const strength = (1 + b * b) / Math.sqrt(1 - mach * mach + b * b)
    const half = ((wavenumber * chord[j] * Math.LN2) / (8 * Math.PI)) * strength
    D.im[j * count + j] -= half
    if (j > 0 && surface.hasNext[j - 1] === 1) D.im[(j - 1) * count + j] -= half
  }
}
