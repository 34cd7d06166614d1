/**
 * Centroid and second moments of a box inside the forward Mach cone, weighted with 1/R.
 *
 *   ⟨f⟩ = ∬ f dξ dη/R / ∬ dξ dη/R        over the box inside the cone
 *   centroid (⟨ξ⟩, ⟨η⟩), variances ⟨ξ²⟩ − ⟨ξ⟩², ⟨ξη⟩ − ⟨ξ⟩⟨η⟩, ⟨η²⟩ − ⟨η⟩²
 *
 * The integral over ξ is exact,  ∫ dξ/R = acosh(ξ/β|η|),  ∫ ξ dξ/R = R,  ∫ ξ² dξ/R = (ξ R + β² η² acosh(ξ/β|η|))/2,  the one over
 * η by Gauss's rule between the places where the region's edges break. All weights are positive, so variances are, too.
 */
import { type BoxInCone, clipToCone } from './cone-integral.ts'

export interface BoxMoments {
  readonly xi: number
  readonly eta: number
  readonly xiXi: number
  readonly xiEta: number
  readonly etaEta: number
}

/** Gauss-Legendre, 4 points (Abramowitz & Stegun, Table 25.4), on [0, 1]. */
const gauss = [
  [0.069_431_844_202_973_7, 0.173_927_422_568_727],
  [0.330_009_478_207_572, 0.326_072_577_431_273],
  [0.669_990_521_792_428, 0.326_072_577_431_273],
  [0.930_568_155_797_026, 0.173_927_422_568_727],
] as const

/** Sums of 1, ξ, η, ξ², ξη, η² with weight 1/R. */
type Sums = [number, number, number, number, number, number]

export function boxMoments(box: BoxInCone): BoxMoments {
  const sums: Sums = [0, 0, 0, 0, 0, 0]
  const { t, eta1, eta2 } = box
  if (eta2 > 0) addHalf(sums, box, t, Math.max(0, eta1), eta2, 1)
  if (eta1 < 0) addHalf(sums, box, -t, Math.max(0, -eta2), -eta1, -1)
  const [s, sx, sy, sxx, sxy, syy] = sums
  const [xi, eta] = [sx / s, sy / s]
  return { xi, eta, xiXi: sxx / s - xi * xi, xiEta: sxy / s - xi * eta, etaEta: syy / s - eta * eta }
}

function addHalf(sums: Sums, { a, h, beta }: BoxInCone, t: number, eta1: number, eta2: number, side: 1 | -1): void {
  const inside = clipToCone(a, t, eta1, eta2, beta)
  if (inside === null) return
  const [lo, hi] = inside
  // Where the rear edge leaves the cone the region's lower limit turns from the edge to the cone.
  const turn = t === beta ? lo : -(a - h) / (t - beta)
  if (turn > lo && turn < hi) {
    addSegment(sums, { a, h, t, beta, side }, lo, turn)
    addSegment(sums, { a, h, t, beta, side }, turn, hi)
  } else addSegment(sums, { a, h, t, beta, side }, lo, hi)
}

interface Half {
  readonly a: number
  readonly h: number
  readonly t: number
  readonly beta: number
  readonly side: 1 | -1
}

function addSegment(sums: Sums, { a, h, t, beta, side }: Half, lo: number, hi: number): void {
  for (const [node, weight] of gauss) {
    const eta = lo + node * (hi - lo)
    const cone = beta * eta
    const front = a + t * eta
    const rear = Math.max(cone, front - h)
    const [rootFront, rootRear] = [rootOf(front, cone), rootOf(rear, cone)]
    const i0 = Math.acosh(Math.max(1, front / cone)) - Math.acosh(Math.max(1, rear / cone))
    const i1 = rootFront - rootRear
    const i2 = (front * rootFront - rear * rootRear + cone * cone * i0) / 2
    const w = weight * (hi - lo)
    const y = side * eta
    sums[0] += w * i0
    sums[1] += w * i1
    sums[2] += w * i0 * y
    sums[3] += w * i2
    sums[4] += w * i1 * y
    sums[5] += w * i0 * y * y
  }
}

const rootOf = (xi: number, cone: number): number => Math.sqrt(Math.max(0, (xi - cone) * (xi + cone)))
