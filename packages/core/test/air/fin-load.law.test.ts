import fc from 'fast-check'
import { expect, test } from 'vitest'
import { finForm } from '../../src/air/fin-form.ts'
import { finNormalForce, subsonicEnd, subsonicSlope, supersonicStart } from '../../src/air/fin-load.ts'
import { deltaSlope, ellipticE, rectangularSlope, twoDimensionalSlope } from '../../src/air/supersonic-slope.ts'

const trapezoid = fc.record({
  root: fc.double({ min: 0.05, max: 0.6, noNaN: true }),
  tip: fc.double({ min: 0.02, max: 0.6, noNaN: true }),
  span: fc.double({ min: 0.03, max: 0.5, noNaN: true }),
  offset: fc.double({ min: -0.2, max: 0.5, noNaN: true }),
  r: fc.double({ min: 0.01, max: 0.2, noNaN: true }),
})
type Trapezoid = typeof trapezoid extends fc.Arbitrary<infer T> ? T : never

const pointsOf = ({ root, tip, span, offset }: Trapezoid): [number, number][] => [
  [0, 0],
  [offset, span],
  [offset + tip, span],
  [root, 0],
]

test('form of a trapezoid: area, centroid, sweep and taper in closed form', () => {
  fc.assert(
    fc.property(trapezoid, (fin) => {
      const { root, tip, span, offset, r } = fin
      const form = finForm(pointsOf(fin), r)
      expect(form.area / ((span * (root + tip)) / 2)).toBeCloseTo(1, 10)
      expect(form.centroidSpan / (((span / 3) * (root + 2 * tip)) / (root + tip))).toBeCloseTo(1, 10)
      expect(Math.tan(form.midChordSweep)).toBeCloseTo((offset + tip / 2 - root / 2) / span, 8)
      expect(form.taper / (tip / root)).toBeCloseTo(1, 6)
    }),
  )
})

test('points put on straight edges and a corner at half span change nothing', () => {
  const plain = finForm(pointsOf({ root: 0.3, tip: 0.12, span: 0.11, offset: 0.15, r: 0.051 }), 0.051)
  const dense: [number, number][] = [
    [0, 0],
    [0.075, 0.055],
    [0.15, 0.11],
    [0.2, 0.11],
    [0.27, 0.11],
    [0.285, 0.055],
    [0.3, 0],
  ]
  const form = finForm(dense, 0.051)
  for (const key of ['area', 'midChordSweep', 'centroidSpan', 'centroidChord'] as const) {
    expect(form[key] / plain[key]).toBeCloseTo(1, 10)
  }
})

test('a triangle has its centroid at a third and a taper of nought', () => {
  const form = finForm(
    [
      [0, 0],
      [0.2, 0.12],
      [0.2, 0],
    ],
    0.05,
  )
  expect(form.centroidSpan).toBeCloseTo(0.04, 12)
  expect(form.centroidChord).toBeCloseTo((0 + 0.2 + 0.2) / 3, 12)
  expect(form.taper).toBeLessThan(1e-6)
})

test('slender and slender-wing limits of the subsonic slope', () => {
  const form = { span: 0.1, bodyRadius: 0.05, centroidSpan: 0.05, midChordSweep: 0 }
  expect(subsonicSlope({ ...form, aspectRatio: 1e-4 }, 0) / ((Math.PI / 2) * 1e-4)).toBeCloseTo(1, 6)
  expect(subsonicSlope({ ...form, aspectRatio: 1e5 }, 0) / (2 * Math.PI)).toBeCloseTo(1, 4)
})

test('the transonic envelope lies on or above both of its ends and joins the supersonic one', () => {
  fc.assert(
    fc.property(trapezoid, fc.double({ min: 0.8001, max: 1.1999, noNaN: true }), (fin, mach) => {
      const form = finForm(pointsOf(fin), fin.r)
      const inside = finNormalForce(form, mach).slope
      expect(inside).toBeGreaterThanOrEqual(finNormalForce(form, subsonicEnd).slope)
      expect(inside).toBeGreaterThanOrEqual(finNormalForce(form, supersonicStart).slope)
    }),
  )
})

test('two-dimensional slope bounds rectangular and delta wings', () => {
  for (const mach of [1.2, 1.5, 2, 3, 5]) {
    for (const A of [1.6, 2, 4]) expect(rectangularSlope(mach, A)).toBeLessThan(twoDimensionalSlope(mach))
    for (const angle of [0.1, 0.4, 0.8, 1.2]) {
      expect(deltaSlope(mach, angle)).toBeLessThanOrEqual(twoDimensionalSlope(mach) * (1 + 1e-12))
    }
  }
})

test('complete elliptic integral at its ends and by quadrature', () => {
  expect(ellipticE(0)).toBeCloseTo(Math.PI / 2, 14)
  expect(ellipticE(1)).toBe(1)
  const [k, n] = [0.8, 2000]
  let sum = 0
  for (let i = 0; i < n; i++) sum += Math.sqrt(1 - (k * Math.sin(((i + 0.5) / n) * (Math.PI / 2))) ** 2)
  expect(ellipticE(k)).toBeCloseTo((sum / n) * (Math.PI / 2), 12)
})
