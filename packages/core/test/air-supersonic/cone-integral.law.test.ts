import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { boxMoments } from '../../src/air/supersonic/box-moments.ts'
import { type BoxInCone, bandIntegral, boxIntegral } from '../../src/air/supersonic/cone-integral.ts'
import { gaussLegendre } from './quadrature.ts'

const beta = 0.7
/** Millionths: numbers a geometry can hold. */
const number = (min: number, max: number) => fc.integer({ min: min * 1e6, max: max * 1e6 }).map((n) => n / 1e6)
const strip = fc.tuple(number(-1, 1), number(0.05, 1)).map(([eta1, width]) => ({ eta1, eta2: eta1 + width }))
/** Edges faster and slower than the Mach line, and exactly along it. */
const slope = fc.oneof(number(-2, 2), fc.constantFrom(beta, -beta, 0))

/** ∫ f dη over the strip, cut where the line leaves the cone and at η = 0; nodes gather at the cuts. */
function overStrip(f: (eta: number) => number, a: number, t: number, eta1: number, eta2: number): number {
  const cuts = [eta1, eta2, 0, -a / (t - beta), -a / (t + beta)].filter((v) => v >= eta1 && v <= eta2)
  cuts.sort((p, q) => p - q)
  let sum = 0
  for (let i = 1; i < cuts.length; i++) {
    if (cuts[i] - cuts[i - 1] < 1e-12) continue
    const [middle, half] = [(cuts[i] + cuts[i - 1]) / 2, (cuts[i] - cuts[i - 1]) / 2]
    // η = middle + half · s(3 − s²)/2: the weight vanishes like a square at both ends.
    for (const { x: s, w } of gaussLegendre(60))
      sum += w * half * 1.5 * (1 - s * s) * f(middle + (half * s * (3 - s * s)) / 2)
  }
  return sum
}

describe('integral of 1/R behind a line', () => {
  test('against numerical integration', () => {
    fc.assert(
      fc.property(number(-1, 2), slope, strip, (a, t, { eta1, eta2 }) => {
        const direct = overStrip(
          (eta) => Math.acosh(Math.max(1, (a + t * eta) / (beta * Math.abs(eta)))),
          a,
          t,
          eta1,
          eta2,
        )
        expect(bandIntegral(a, t, eta1, eta2, beta)).toBeCloseTo(direct, 4)
      }),
      { numRuns: 300 },
    )
  })

  test('the whole cone up to a line across the stream: π a/β', () => {
    expect(bandIntegral(0.3, 0, -2, 2, beta)).toBeCloseTo((Math.PI * 0.3) / beta, 12)
  })

  test('a strip is the sum of its parts', () => {
    fc.assert(
      fc.property(number(-1, 2), slope, strip, number(0, 1), (a, t, { eta1, eta2 }, share) => {
        const cut = eta1 + share * (eta2 - eta1)
        const parts = bandIntegral(a, t, eta1, cut, beta) + bandIntegral(a, t, cut, eta2, beta)
        expect(bandIntegral(a, t, eta1, eta2, beta)).toBeCloseTo(parts, 8)
      }),
    )
  })

  test('a line on the Mach line through the point has nothing behind it, to rounding either way', () => {
    for (const off of [-1e-16, 0, 1e-16, 3e-17]) {
      for (const t of [beta, beta * (1 + 2e-16), beta * (1 - 2e-16)]) {
        expect(Math.abs(bandIntegral(off, t, 0.1, 0.6, beta))).toBeLessThan(1e-7)
        expect(Math.abs(bandIntegral(off, -t, -0.6, -0.1, beta))).toBeLessThan(1e-7)
      }
    }
  })
})

/** As wide as boxes are: up to five times their length. */
const narrowStrip = fc.tuple(number(-1, 1), number(0.05, 0.25)).map(([eta1, width]) => ({ eta1, eta2: eta1 + width }))
const box = fc
  .record({ a: number(-0.5, 2), h: number(0.05, 0.5), t: slope, strip: narrowStrip })
  .map(({ a, h, t, strip: { eta1, eta2 } }): BoxInCone => ({ a, t, aRear: a - h, tRear: t, eta1, eta2, beta }))

/** ∬ f/R over the box in the cone, ξ = β|η| cosh u. */
function direct(f: (xi: number, eta: number) => number, { a, t, aRear, eta1, eta2 }: BoxInCone): number {
  const column = (eta: number): number => {
    const cone = beta * Math.abs(eta)
    const [lo, hi] = [aRear + t * eta, a + t * eta].map((xi) => Math.acosh(Math.max(1, xi / cone)))
    let sum = 0
    for (const { x, w } of gaussLegendre(12))
      sum += w * (hi - lo) * 0.5 * f(cone * Math.cosh((lo + hi + x * (hi - lo)) / 2), eta)
    return sum
  }
  const ends = [eta1, eta2, 0, ...[a, aRear].flatMap((v) => [-v / (t - beta), -v / (t + beta)])]
  const cuts = ends.filter((v) => v >= eta1 && v <= eta2).sort((p, q) => p - q)
  return cuts
    .slice(1)
    .reduce((sum, to, i) => sum + (to - cuts[i] > 1e-12 ? overStrip(column, 1e9, 0, cuts[i], to) : 0), 0)
}

describe('moments of a box in the cone', () => {
  test('variances are positive and bounded by the box', () => {
    fc.assert(
      fc.property(box, (b) => {
        fc.pre(boxIntegral(b) > 1e-6)
        const { xi, eta, xiXi, xiEta, etaEta } = boxMoments(b)
        expect(xi).toBeGreaterThanOrEqual(beta * Math.abs(eta) - 1e-9)
        expect(xiXi).toBeGreaterThan(-1e-12)
        expect(etaEta).toBeGreaterThan(-1e-12)
        expect(xiEta ** 2).toBeLessThan(xiXi * etaEta * (1 + 1e-6) + 1e-12)
        expect(etaEta).toBeLessThan((b.eta2 - b.eta1) ** 2 / 4 + 1e-12)
      }),
      { numRuns: 300 },
    )
  })

  // Four nodes across the strip: worst of 20 000 random boxes 5 % of the box, where its side passes the receiving point.
  test('centroid against numerical integration', () => {
    fc.assert(
      fc.property(box, (b) => {
        const W = boxIntegral(b)
        fc.pre(W > 1e-3)
        const size = Math.hypot(b.a - b.aRear, b.eta2 - b.eta1)
        const { xi, eta } = boxMoments(b)
        expect(Math.abs(direct(() => 1, b) / W - 1)).toBeLessThan(0.02)
        expect(Math.abs(direct((x) => x, b) / W - xi)).toBeLessThan(0.07 * size)
        expect(Math.abs(direct((_, y) => y, b) / W - eta)).toBeLessThan(0.07 * size)
      }),
      { numRuns: 300 },
    )
  })
})
