/**
 * Source strengths off a fin and potential on it, for given normalwash.
 *
 *   diaphragm   Σ A_rs σ_s = 0                                   r: receiving point of the box
 *   wake        Σ (A_rs − e^{−iκ(x_r − x_t)} A_ts) σ_s = 0       t: trailing edge ahead of it on the same strip
 *   fin         σ = w/V
 *   φ/V at the stations = Σ A_rs σ_s
 *
 * A box acts only downstream, so with the unknowns in the order of their receiving points the matrix is lower triangular but for
 * the boxes beside each other; it is factored in that band, without pivoting, which keeps the band: a box feels itself most or
 * nearly so. The tests measure the residual.
 */
import { invariant } from '../../issue.ts'
import { type ComplexVector, complexVector } from '../../numeric/complex-matrix.ts'
import { type Field, sourceField } from './field.ts'
import { entriesAt, type Influence, influence } from './influence.ts'
import type { SourceLattice } from './lattice.ts'
import type { Mirror } from './reach.ts'

/** A fin at one Mach number. */
export interface SupersonicFlow {
  readonly field: Field
  readonly mach: number
  readonly influence: Influence
  /** Boxes of unknown strength, in the order they are solved for. */
  readonly unknowns: Int32Array
  /** Boxes of the fin. */
  readonly known: Int32Array
}

/** The flow at one frequency. */
export interface HarmonicFlow {
  readonly flow: SupersonicFlow
  readonly wavenumber: number
  readonly A: ComplexVector
  /** Factors of the unknowns' matrix, n × n row-major: L below the diagonal with ones on it, U on and above. */
  readonly re: Float64Array
  readonly im: Float64Array
  /** Last column of U in each row. */
  readonly last: Int32Array
}

/** `mirror`: 1 for a flow symmetric about y = 0 (default), −1 for an antisymmetric one, 0 for the fin alone. */
export function supersonicFlow(lattice: SourceLattice, mach: number, mirror: Mirror = 1): SupersonicFlow {
  invariant(mach > 1, `supersonic surface at Mach ${mach}`)
  const field = sourceField(lattice, Math.sqrt(mach * mach - 1), mirror)
  const order = field.boxes.map((_, s) => s)
  const known = Int32Array.from(order.filter((s) => field.boxes[s].kind === 'fin'))
  const unknowns = Int32Array.from(
    order.filter((s) => field.boxes[s].kind !== 'fin').sort((p, q) => field.boxes[p].x - field.boxes[q].x),
  )
  const points = [...Array.from(unknowns, (s) => field.boxes[s]), ...field.stations]
  return { field, mach, influence: influence(field, mach, points), unknowns, known }
}

export function harmonicFlow(flow: SupersonicFlow, wavenumber: number): HarmonicFlow {
  const A = entriesAt(flow.influence, flow.field.beta, wavenumber)
  const n = flow.unknowns.length
  const [re, im] = [new Float64Array(n * n), new Float64Array(n * n)]
  const harmonic: HarmonicFlow = { flow, wavenumber, A, re, im, last: new Int32Array(n) }
  for (let r = 0; r < n; r++) {
    equation(harmonic, r, flow.unknowns, re, im, r * n)
    let last = n - 1
    while (last > r && re[r * n + last] === 0 && im[r * n + last] === 0) last--
    harmonic.last[r] = last
  }
  factor(harmonic, n)
  return harmonic
}

/** Coefficients of equation r on the boxes given, into re, im from `to` on. */
function equation(
  { flow, wavenumber, A }: HarmonicFlow,
  r: number,
  boxes: Int32Array,
  re: Float64Array,
  im: Float64Array,
  to: number,
): void {
  const { index, columns } = flow.influence
  const { boxes: all, stations } = flow.field
  const box = all[flow.unknowns[r]]
  for (let j = 0; j < boxes.length; j++) {
    const e = index[r * columns + boxes[j]]
    re[to + j] = e < 0 ? 0 : A.re[e]
    im[to + j] = e < 0 ? 0 : A.im[e]
  }
  if (box.kind !== 'wake') return
  const angle = wavenumber * (box.x - stations[box.trail].x)
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
  const row = (flow.unknowns.length + box.trail) * columns
  for (let j = 0; j < boxes.length; j++) {
    const e = index[row + boxes[j]]
    if (e < 0) continue
    re[to + j] -= cos * A.re[e] + sin * A.im[e]
    im[to + j] -= cos * A.im[e] - sin * A.re[e]
  }
}

/** L U in place, row by row, no pivoting. */
function factor({ re, im, last }: HarmonicFlow, n: number): void {
  for (let i = 1; i < n; i++) {
    for (let k = 0; k < i; k++) {
      const ik = i * n + k
      if (re[ik] === 0 && im[ik] === 0) continue
      const kk = k * n + k
      const square = re[kk] * re[kk] + im[kk] * im[kk]
      const fRe = (re[ik] * re[kk] + im[ik] * im[kk]) / square
      const fIm = (im[ik] * re[kk] - re[ik] * im[kk]) / square
      re[ik] = fRe
      im[ik] = fIm
      const row = k * n
      for (let j = k + 1, ij = ik + 1; j <= last[k]; j++, ij++) {
        re[ij] -= fRe * re[row + j] - fIm * im[row + j]
        im[ij] -= fRe * im[row + j] + fIm * re[row + j]
      }
      last[i] = Math.max(last[i], last[k])
    }
  }
}

/** Source strengths of all boxes for normalwashes w/V on the boxes of the fin's lattice. */
export function sourceStrengths(harmonic: HarmonicFlow, normalwashes: readonly ComplexVector[]): ComplexVector[] {
  const { unknowns, known, field } = harmonic.flow
  const strengths = normalwashes.map((wash) => {
    const sigma = complexVector(field.boxes.length)
    for (const s of known) {
      sigma.re[s] = wash.re[field.boxes[s].fin]
      sigma.im[s] = wash.im[field.boxes[s].fin]
    }
    return sigma
  })
  const row = complexVector(known.length)
  for (let r = 0; r < unknowns.length; r++) {
    equation(harmonic, r, known, row.re, row.im, 0)
    for (const sigma of strengths) forward(harmonic, sigma, r, row)
  }
  for (const sigma of strengths) backward(harmonic, sigma)
  return strengths
}

/** Row r of L x = −(what the fin's sources give); x stands in the places of the unknowns. */
function forward(
  { flow: { unknowns, known }, re, im }: HarmonicFlow,
  sigma: ComplexVector,
  r: number,
  row: ComplexVector,
): void {
  let [sumRe, sumIm] = [0, 0]
  for (let j = 0; j < known.length; j++) {
    const s = known[j]
    sumRe -= row.re[j] * sigma.re[s] - row.im[j] * sigma.im[s]
    sumIm -= row.re[j] * sigma.im[s] + row.im[j] * sigma.re[s]
  }
  for (let j = 0, rj = r * unknowns.length; j < r; j++, rj++) {
    const s = unknowns[j]
    sumRe -= re[rj] * sigma.re[s] - im[rj] * sigma.im[s]
    sumIm -= re[rj] * sigma.im[s] + im[rj] * sigma.re[s]
  }
  sigma.re[unknowns[r]] = sumRe
  sigma.im[unknowns[r]] = sumIm
}

/** U x = y in place. */
function backward({ flow: { unknowns }, re, im, last }: HarmonicFlow, sigma: ComplexVector): void {
  const n = unknowns.length
  for (let r = n - 1; r >= 0; r--) {
    const [rr, at] = [r * n + r, unknowns[r]]
    let [sumRe, sumIm] = [sigma.re[at], sigma.im[at]]
    for (let j = r + 1, rj = rr + 1; j <= last[r]; j++, rj++) {
      const s = unknowns[j]
      sumRe -= re[rj] * sigma.re[s] - im[rj] * sigma.im[s]
      sumIm -= re[rj] * sigma.im[s] + im[rj] * sigma.re[s]
    }
    const square = re[rr] * re[rr] + im[rr] * im[rr]
    sigma.re[at] = (sumRe * re[rr] + sumIm * im[rr]) / square
    sigma.im[at] = (sumIm * re[rr] - sumRe * im[rr]) / square
  }
}

/** φ/V on the upper face at the field's stations. */
export function potentialAtStations({ flow, A }: HarmonicFlow, sigma: ComplexVector): ComplexVector {
  const { index, columns } = flow.influence
  const phi = complexVector(flow.field.stations.length)
  for (let p = 0; p < phi.re.length; p++) {
    const row = (flow.unknowns.length + p) * columns
    let [sumRe, sumIm] = [0, 0]
    for (let s = 0; s < columns; s++) {
      const e = index[row + s]
      if (e < 0) continue
      sumRe += A.re[e] * sigma.re[s] - A.im[e] * sigma.im[s]
      sumIm += A.re[e] * sigma.im[s] + A.im[e] * sigma.re[s]
    }
    phi.re[p] = sumRe
    phi.im[p] = sumIm
  }
  return phi
}

/**
 * κ = ω/V up to which the boxes resolve the shorter of the two waves that travel with the flow, of wavenumber κ M/(M − 1): two
 * radians a box, where two-dimensional lift and moment are good to about a per cent (docs/methods/air-supersonic.md).
 */
export const highestWavenumber = ({ h }: SourceLattice, mach: number): number => (2 * (mach - 1)) / (mach * h)
