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
import { lineReach } from './cone-integral.ts'
import type { Field } from './field.ts'
import type { FieldStrip } from './field-boxes.ts'
import { type TermStore, type Terms, termStore, width } from './terms.ts'

/** A point on a strip's centre line. */
export interface FieldPoint {
  readonly strip: number
  readonly x: number
}

export interface Influence {
  readonly mach: number
  readonly rows: number
  readonly columns: number
  /** Entry of row r and box s at r · columns + s; −1 where the box does not reach. */
  readonly index: Int32Array
  /** An entry is a box and, with a mirror, its image. */
  readonly terms: Terms
}

export function influence(field: Field, mach: number, points: readonly FieldPoint[]): Influence {
  const { strips, boxes, lattice } = field
  const h = lattice.h
  const store = termStore()
  const index = new Int32Array(points.length * boxes.length)
  const known = new Map<string, Int32Array>()
  const lines = boxes.map(({ line }) => line)
  const span = 2 * (Math.max(...lines) - Math.min(...lines) + longestReach(points, field))
  // Where the pattern of a box begins, for points on line 0; −1 for cut boxes, which have none.
  const place0 = Int32Array.from(boxes, ({ strip, line, cut }) => (cut === null ? strip * span - line + span / 2 : -1))
  points.forEach(({ strip, x }, r) => {
    const place = (x - strips[strip].lead) / h
    // Receiving points on lines agree to rounding.
    const whole = Math.floor(place + 1e-7)
    const key = `${strip} ${(place - whole).toFixed(6)}`
    const pattern = known.get(key) ?? new Int32Array(span * strips.length).fill(unknown)
    known.set(key, pattern)
    for (let s = 0, rs = r * boxes.length; s < boxes.length; s++, rs++) {
      if (place0[s] < 0) {
        const { strip: sending, line, cut } = boxes[s]
        index[rs] = addEntry(store, field, strip, x, sending, line, cut)
        continue
      }
      const at = place0[s] + whole
      if (pattern[at] === unknown)
        pattern[at] = addEntry(store, field, strip, x - boxes[s].line * h, boxes[s].strip, 0, null)
      index[rs] = pattern[at]
    }
  })
  return { mach, rows: points.length, columns: boxes.length, index, terms: store.taken() }
}

/** Lines by which a point can lie beside those of its own strip's boxes. */
function longestReach(points: readonly FieldPoint[], { strips, lattice: { h } }: Field): number {
  return Math.ceil(Math.max(...points.map(({ strip, x }) => Math.abs(x - strips[strip].lead) / h))) + 1
}

const unknown = -2

/** The entry of a box at a point x of a strip's centre line; −1 if it is nothing. */
function addEntry(
  store: TermStore,
  { strips, beta, mirror, lattice: { h } }: Field,
  receiving: number,
  x: number,
  sending: number,
  line: number,
  cut: FieldStrip | null,
): number {
  const { yIn, yOut, lead, slope, middle } = strips[sending]
  const y = strips[receiving].middle
  for (let side = 1; side >= (mirror === 0 ? 1 : -1); side -= 2) {
    const eta1 = side > 0 ? yIn - y : -yOut - y
    const eta2 = side > 0 ? yOut - y : -yIn - y
    const t = -side * slope
    const a = x - lead - line * h - slope * (side * y - middle)
    if (!(lineReach(a, t, eta1, eta2, beta) > 0)) continue
    const factor = side > 0 ? 1 : mirror
    if (cut === null) store.add({ a, t, aRear: a - h, tRear: t, eta1, eta2, beta }, factor)
    else {
      const trail = { a: x - cut.lead - cut.slope * (side * y - cut.middle), t: -side * cut.slope }
      for (const part of partsAhead({ a, t }, h, trail, eta1, eta2)) store.add({ a, t, ...part, beta }, factor)
    }
  }
  return store.close()
}

/** ξ = a + t η */
interface Line {
  readonly a: number
  readonly t: number
}

/** The parts of a box of length h that lie ahead of a line (a trailing edge) across it, each between two straight edges. */
function partsAhead(front: Line, h: number, trail: Line, eta1: number, eta2: number) {
  const rear = { a: front.a - h, t: front.t }
  const meet = (p: Line): number => (p.t === trail.t ? eta1 : (trail.a - p.a) / (p.t - trail.t))
  const breaks = [eta1, meet(front), meet(rear), eta2].map((eta) => Math.min(eta2, Math.max(eta1, eta)))
  breaks.sort((p, q) => p - q)
  const at = ({ a, t }: Line, eta: number) => a + t * eta
  return breaks.slice(1).flatMap((to, i) => {
    const from = breaks[i]
    const middle = (from + to) / 2
    if (!(to - from > 1e-9 * (eta2 - eta1)) || at(front, middle) <= at(trail, middle)) return []
    const behind = at(rear, middle) > at(trail, middle) ? rear : trail
    return [{ eta1: from, eta2: to, aRear: behind.a, tRear: behind.t }]
  })
}

/** −(1/π) ∬ f/R of every entry at κ = ω/V. */
export function entriesAt({ terms, mach }: Influence, beta: number, wavenumber: number): ComplexVector {
  const { count, entries, entry, values } = terms
  const [re, im] = [new Float64Array(entries), new Float64Array(entries)]
  const mu = (wavenumber * mach * mach) / (beta * beta)
  const nu = (wavenumber * mach) / (beta * beta)
  for (let n = 0, at = 0; n < count; n++, at += width) {
    const w = -values[at] / Math.PI
    if (wavenumber === 0) {
      re[entry[n]] += w
      continue
    }
    const [xi, R, vxi, T, G, H] = [
      values[at + 1],
      values[at + 2],
      values[at + 3],
      values[at + 4],
      values[at + 5],
      values[at + 6],
    ]
    const p = nu * R
    const C = Math.cos(p)
    // sin p / p and (p cos p − sin p) / p³
    const s1 = p < 1e-2 ? 1 - (p * p) / 6 : Math.sin(p) / p
    const s2 = p < 1e-2 ? -1 / 3 + (p * p) / 30 : (C - s1) / (p * p)
    const C1 = -0.5 * nu * nu * s1
    const C2 = -0.25 * nu * nu * nu * nu * s2
    const even = C + C1 * T + 2 * C2 * G - 0.5 * mu * mu * C * vxi
    const odd = -mu * C1 * H
    const [cos, sin] = [Math.cos(mu * xi), Math.sin(mu * xi)]
    re[entry[n]] += w * (even * cos + odd * sin)
    im[entry[n]] += w * (odd * cos - even * sin)
  }
  return { re, im }
}
