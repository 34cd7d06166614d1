/**
 * Potential at points of the plane due to boxes of constant source strength, at one Mach number and any frequency.
 *
 *   φ(x, y, 0⁺)/V = −(1/π) ∬ (w/V) e^{−iμξ} cos(ν R)/R dξ dη       over the forward Mach cone
 *   μ = κ M²/β²,  ν = κ M/β²,  κ = ω/V,  R² = ξ² − β² η²
 *
 * cos(νR) is a smooth function of R², so f = e^{−iμξ} cos(νR) is smooth up to and across the cone and only 1/R needs care: its
 * integral over a box is exact (`cone-integral.ts`), and f is expanded about the 1/R-weighted centroid up to second order,
 *
 *   ∬ f/R = W [ f + ½ (f_ξξ v_ξξ + 2 f_ξη v_ξη + f_ηη v_ηη) ]
 *         = W e^{−iμξ} [ C + C′ T + 2 C″ G − ½ μ² C v_ξξ − iμ C′ H ]
 *   C = cos νR,  C′ = dC/dR²,  T = v_ξξ − β² v_ηη,  G = ξ² v_ξξ − 2 ξ β²η v_ξη + β⁴η² v_ηη,  H = 2 (ξ v_ξξ − β²η v_ξη)
 *
 * Boxes of all strips have one length, so an entry depends on the two strips and on the number of boxes between: it is computed
 * once for all pairs alike. Source of the potential: Garrick & Rubinow, NACA Rep. 872 (1947), eq. 12 (number recalled), as used
 * by Pines, Dugundji & Neuringer, J. Aero. Sci. 22 (1955) 693 (recalled); the weights are our own.
 */
import type { ComplexVector } from '../../numeric/complex-matrix.ts'
import { boxMoments } from './box-moments.ts'
import { type BoxInCone, boxIntegral } from './cone-integral.ts'
import type { Field } from './field.ts'

/** A point on a strip's centre line. */
export interface FieldPoint {
  readonly strip: number
  readonly x: number
}

/** Terms of entries, what does not depend on frequency. */
export interface Influence {
  readonly mach: number
  readonly rows: number
  readonly columns: number
  /** Entry of row r and box s at r · columns + s; −1 where the box does not reach. */
  readonly index: Int32Array
  readonly entries: number
  /** Entry each term belongs to: an entry is a box and, with a mirror, its image. */
  readonly entry: Int32Array
  readonly W: Float64Array
  readonly xi: Float64Array
  readonly R: Float64Array
  readonly vxi: Float64Array
  readonly T: Float64Array
  readonly G: Float64Array
  readonly H: Float64Array
}

export function influence(field: Field, mach: number, points: readonly FieldPoint[]): Influence {
  const { strips, boxes, lattice } = field
  const h = lattice.h
  const terms = termStore()
  const index = new Int32Array(points.length * boxes.length).fill(-1)
  const known = new Map<string, Int32Array>()
  const [firstLine, lastLine] = [Math.min(...boxes.map(({ line }) => line)), Math.max(...boxes.map(({ line }) => line))]
  points.forEach(({ strip, x }, r) => {
    const place = (x - strips[strip].lead) / h
    // Receiving points on lines agree to rounding.
    const whole = Math.floor(place + 1e-7)
    const share = place - whole
    const key = `${strip} ${share.toFixed(6)}`
    const width = lastLine - firstLine + 1
    let pattern = known.get(key)
    if (pattern === undefined) {
      pattern = new Int32Array(2 * width * strips.length).fill(unknown)
      known.set(key, pattern)
    }
    for (let s = 0, rs = r * boxes.length; s < boxes.length; s++, rs++) {
      const box = boxes[s]
      const apart = whole - box.line
      const at = box.strip * 2 * width + apart + width
      if (pattern[at] === unknown) pattern[at] = addEntry(terms, field, { strip, x: (apart + share) * h }, box.strip)
      index[rs] = pattern[at]
    }
  })
  return { mach, rows: points.length, columns: boxes.length, index, ...terms.taken() }
}

const unknown = -2

/** The entry of a box on line 0 of a strip at a point whose x is measured from line 0 of its own strip; −1 if it is nothing. */
function addEntry(terms: TermStore, { strips, beta, mirror, lattice: { h } }: Field, point: FieldPoint, s: number): number {
  const { yIn, yOut, slope, lead, middle } = strips[s]
  const { middle: y, lead: ownLead } = strips[point.strip]
  const x = point.x + ownLead
  let found = false
  for (const side of mirror === 0 ? ([1] as const) : ([1, -1] as const)) {
    const [eta1, eta2] = side > 0 ? [yIn - y, yOut - y] : [-yOut - y, -yIn - y]
    const a = x - lead - slope * (side * y - middle)
    const box = { a, h, t: -side * slope, eta1, eta2, beta }
    const W = boxIntegral(box)
    if (!(W > 0)) continue
    terms.add(box, side > 0 ? W : mirror * W, !found)
    found = true
  }
  return found ? terms.entries() - 1 : -1
}

interface TermStore {
  readonly add: (box: BoxInCone, W: number, opens: boolean) => void
  readonly entries: () => number
  readonly taken: () => Omit<Influence, 'mach' | 'rows' | 'columns' | 'index'>
}

function termStore(): TermStore {
  const columns: number[][] = Array.from({ length: 8 }, () => [])
  let entries = 0
  const add = (box: BoxInCone, W: number, opens: boolean): void => {
    if (opens) entries++
    const { xi, eta, xiXi, xiEta, etaEta } = boxMoments(box)
    const b2 = box.beta * box.beta
    const e = b2 * eta
    const R = Math.sqrt(Math.max(0, xi * xi - e * eta))
    const T = xiXi - b2 * etaEta
    const G = xi * xi * xiXi - 2 * xi * e * xiEta + e * e * etaEta
    const H = 2 * (xi * xiXi - e * xiEta)
    for (const [c, value] of [entries - 1, W, xi, R, xiXi, T, G, H].entries()) columns[c].push(value)
  }
  const taken = () => {
    const [W, xi, R, vxi, T, G, H] = columns.slice(1).map((column) => Float64Array.from(column))
    return { entries, entry: Int32Array.from(columns[0]), W, xi, R, vxi, T, G, H }
  }
  return { add, entries: () => entries, taken }
}

/** −(1/π) ∬ f/R of every entry at κ = ω/V. */
export function entriesAt(influence: Influence, beta: number, wavenumber: number): ComplexVector {
  const { entries, entry, W, xi, R, vxi, T, G, H, mach } = influence
  const values = { re: new Float64Array(entries), im: new Float64Array(entries) }
  const mu = (wavenumber * mach * mach) / (beta * beta)
  const nu = (wavenumber * mach) / (beta * beta)
  for (let n = 0; n < entry.length; n++) {
    const w = -W[n] / Math.PI
    if (wavenumber === 0) {
      values.re[entry[n]] += w
      continue
    }
    const p = nu * R[n]
    const C = Math.cos(p)
    // sin p / p and (p cos p − sin p) / p³
    const [s1, s2] = p < 1e-2 ? [1 - (p * p) / 6, -1 / 3 + (p * p) / 30] : ratios(p, C)
    const C1 = -0.5 * nu * nu * s1
    const C2 = -0.25 * nu ** 4 * s2
    const even = C + C1 * T[n] + 2 * C2 * G[n] - 0.5 * mu * mu * C * vxi[n]
    const odd = -mu * C1 * H[n]
    const [cos, sin] = [Math.cos(mu * xi[n]), Math.sin(mu * xi[n])]
    values.re[entry[n]] += w * (even * cos + odd * sin)
    values.im[entry[n]] += w * (odd * cos - even * sin)
  }
  return values
}

function ratios(p: number, cos: number): [number, number] {
  const s = Math.sin(p) / p
  return [s, (cos - s) / (p * p)]
}
