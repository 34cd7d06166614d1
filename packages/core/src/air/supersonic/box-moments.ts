/**
 * Centroid and second moments of a box inside the forward Mach cone, weighted with 1/R.
 *
 *   ⟨f⟩ = ∬ f dξ dη/R / ∬ dξ dη/R        over the box inside the cone
 *   centroid (⟨ξ⟩, ⟨η⟩), variances ⟨ξ²⟩ − ⟨ξ⟩², ⟨ξη⟩ − ⟨ξ⟩⟨η⟩, ⟨η²⟩ − ⟨η⟩²
 *
 * The integral over ξ is exact,  ∫ dξ/R = acosh(ξ/β|η|),  ∫ ξ dξ/R = R,  ∫ ξ² dξ/R = (ξ R + β² η² acosh(ξ/β|η|))/2,  the one over
 * η by Gauss's rule between the places where the region's edges break. All weights are positive, so variances are, too.
 */
import { type BoxInCone, clipToCone, hair } from './cone-integral.ts'

export interface BoxMoments {
  readonly xi: number
  readonly eta: number
  readonly xiXi: number
  readonly xiEta: number
  readonly etaEta: number
}

/** Gauss-Legendre on [0, 1] (Abramowitz & Stegun, Table 25.4): nodes and weights. */
const gauss4 = {
  nodes: [0.069_431_844_202_973_7, 0.330_009_478_207_572, 0.669_990_521_792_428, 0.930_568_155_797_026],
  weights: [0.173_927_422_568_727, 0.326_072_577_431_273, 0.326_072_577_431_273, 0.173_927_422_568_727],
}
const gauss2 = { nodes: [0.211_324_865_405_187, 0.788_675_134_594_813], weights: [0.5, 0.5] }

/** Inside the cone by this factor at its corners a box has a smooth integrand: two nodes do. */
const wellInside = 1.5

/** Sums of 1, ξ, η, ξ², ξη, η² with weight 1/R. */
const sums = new Float64Array(6)

export function boxMoments(box: BoxInCone): BoxMoments {
  sums.fill(0)
  const { eta1, eta2 } = box
  const least = hair * (eta2 - eta1)
  if (eta2 > least) addHalf(box, eta1 > least ? eta1 : 0, eta2, 1)
  if (-eta1 > least) addHalf(box, -eta2 > least ? -eta2 : 0, -eta1, -1)
  const [s, sx, sy, sxx, sxy, syy] = sums
  const [xi, eta] = [sx / s, sy / s]
  return { xi, eta, xiXi: sxx / s - xi * xi, xiEta: sxy / s - xi * eta, etaEta: syy / s - eta * eta }
}

/** The side of η with the sign of `side`; eta1 and eta2 are distances. */
function addHalf(box: BoxInCone, eta1: number, eta2: number, side: 1 | -1): void {
  const { a, aRear, beta } = box
  const [t, tRear] = [side * box.t, side * box.tRear]
  const half = { a, t, aRear, tRear, beta, side }
  const least = Math.min(
    aRear + tRear * eta1 - wellInside * beta * eta1,
    aRear + tRear * eta2 - wellInside * beta * eta2,
  )
  if (eta1 > 0 && least > 0) {
    addSegment(half, eta1, eta2, gauss2)
    return
  }
  const inside = clipToCone(a, t, eta1, eta2, beta)
  if (inside === null) return
  const [lo, hi] = inside
  // Where the rear edge leaves the cone the region's lower limit turns from the edge to the cone.
  const turn = tRear === beta ? lo : -aRear / (tRear - beta)
  if (turn > lo && turn < hi) {
    addSegment(half, lo, turn, gauss4)
    addSegment(half, turn, hi, gauss4)
  } else addSegment(half, lo, hi, gauss4)
}

interface Half {
  readonly a: number
  readonly t: number
  readonly aRear: number
  readonly tRear: number
  readonly beta: number
  readonly side: 1 | -1
}

function addSegment({ a, t, aRear, tRear, beta, side }: Half, lo: number, hi: number, rule: typeof gauss4): void {
  for (let n = 0; n < rule.nodes.length; n++) {
    const eta = lo + rule.nodes[n] * (hi - lo)
    const cone = beta * eta
    const front = a + t * eta
    const rear = Math.max(cone, aRear + tRear * eta)
    const rootFront = rootOf(a + (t - beta) * eta, front + cone)
    const rootRear = rootOf(aRear + (tRear - beta) * eta, rear + cone)
    // acosh(front/cone) − acosh(rear/cone)
    const i0 = Math.log((front + rootFront) / (rear + rootRear))
    const i1 = rootFront - rootRear
    const i2 = (front * rootFront - rear * rootRear + cone * cone * i0) / 2
    const w = rule.weights[n] * (hi - lo)
    const y = side * eta
    sums[0] += w * i0
    sums[1] += w * i1
    sums[2] += w * i0 * y
    sums[3] += w * i2
    sums[4] += w * i1 * y
    sums[5] += w * i0 * y * y
  }
}

const rootOf = (beyond: number, sum: number): number => Math.sqrt(Math.max(0, beyond * sum))
