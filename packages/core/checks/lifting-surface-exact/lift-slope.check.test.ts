/** Steady lift slopes of planforms known closely; see source.md. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { rectangle, rigidCoefficients } from '../lattice-coefficients.ts'

const source = 'lifting-surface-exact'

const areaOf = (outline: readonly Point[]) =>
  Math.abs(
    outline.reduce((sum, [x0, y0], i) => {
      const [x1, y1] = outline[(i + 1) % outline.length]
      return sum + (x0 * y1 - x1 * y0) / 2
    }, 0),
  )

const slope = (outline: readonly Point[], chordwise: number, spanwise: number, mach = 0) =>
  rigidCoefficients({
    ...{ outline, area: areaOf(outline), chord: 1, axis: 0, mach, k: 0 },
    ...{ size: { chordwise, spanwise } },
  }).liftPerPitch.re

const circle: Point[] = Array.from({ length: 361 }, (_, i) => {
  const t = (i * Math.PI) / 360
  return [-Math.cos(t), Math.sin(t)]
})

describe('known closely', () => {
  test('circle and square', () => {
    expectPublished({
      ...{ source, quantity: 'C_Lα, circle, 10 × 10 boxes', printed: '1.790', computed: slope(circle, 10, 10) },
      methodError: 0.001,
    })
    expectPublished({
      ...{
        source,
        quantity: 'C_Lα, square, 10 × 10 boxes',
        printed: '1.460',
        computed: slope(rectangle(1, 0.5), 10, 10),
      },
      methodError: 0.001,
    })
  })

  test('both converge towards the exact number', () => {
    for (const [outline, exact] of [
      [circle, 1.790021],
      [rectangle(1, 0.5), 1.460227],
    ] as const) {
      const errors = [5, 10, 20].map((n) => Math.abs(slope(outline, n, n) - exact))
      expect(errors[1]).toBeLessThan(errors[0] / 2.5)
      expect(errors[2]).toBeLessThan(errors[1] / 2.5)
    }
  })

  test('slender delta', () => {
    const s = 0.02
    const delta: Point[] = [
      [0, 0],
      [1, 0],
      [1, s],
    ]
    const aspect = 4 * s
    expectPublished({
      ...{ source, quantity: 'C_Lα / (π A / 2), delta of A = 0.08', printed: '1.000' },
      ...{ computed: slope(delta, 14, 14) / ((Math.PI * aspect) / 2), methodError: 0.03 },
      why: 'the limit A → 0 is approached from below, by 2 % at this aspect ratio',
    })
  })

  test('has teeth: one per cent of area is noticed', () => {
    expect(agrees(slope(circle, 10, 10) * 1.01, published('1.790'), 0.001)).toBe(false)
  })
})

describe('approximate formulas', () => {
  test.each([
    [0, 0.5],
    [0.6, 1],
    [0.85, 0.7],
  ])('Mach %f, semispan %f, swept 30°', (mach, s) => {
    const x = s * Math.tan(Math.PI / 6)
    const outline: Point[] = [
      [0, 0],
      [1, 0],
      [1 + x, s],
      [x, s],
    ]
    const A = 2 * s
    const beta = Math.sqrt(1 - mach * mach)
    const diederich = (2 * Math.PI * A) / (2 + Math.sqrt(4 + ((beta * A) / Math.cos(Math.PI / 6)) ** 2))
    expect(Math.abs(slope(outline, 10, 10, mach) / diederich - 1)).toBeLessThan(0.08)
  })

  test('Helmbold, rectangular: within 8 %', () => {
    for (const A of [1, 2, 4, 8]) {
      const helmbold = (2 * Math.PI * A) / (2 + Math.sqrt(4 + A * A))
      expect(Math.abs(slope(rectangle(1, A / 2), 8, 14) / helmbold - 1)).toBeLessThan(0.08) // the formula is for an elliptic loading
    }
  })
})
