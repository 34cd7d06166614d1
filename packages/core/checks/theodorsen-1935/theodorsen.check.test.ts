/** Theodorsen's C(k) = F + i G; see source.md. */
import { describe, expect, test } from 'vitest'
import { sectionForces, theodorsen } from '../../src/air/subsonic/theodorsen.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'theodorsen-1935'

const printed: readonly (readonly [k: number, F: string, G: string])[] = [
  [0.02, '0.9637', '-0.0752'],
  [0.05, '0.9090', '-0.1306'],
  [0.1, '0.8319', '-0.1723'],
  [0.2, '0.7276', '-0.1886'],
  [0.3, '0.6650', '-0.1793'],
  [0.4, '0.6250', '-0.1650'],
  [0.5, '0.5979', '-0.1507'],
  [0.6, '0.5788', '-0.1378'],
  [0.8, '0.5541', '-0.1165'],
  [1, '0.5394', '-0.1003'],
  [2, '0.5130', '-0.0577'],
  [4, '0.5037', '-0.0305'],
  [10, '0.5006', '-0.0124'],
]

describe('C(k) to the last digit printed', () => {
  test.each(printed)('k = %f', (k, F, G) => {
    const { re, im } = theodorsen(k)
    expectPublished({ source, quantity: `F(${k})`, printed: F, computed: re })
    expectPublished({ source, quantity: `G(${k})`, printed: G, computed: im })
  })

  test('limits: 1 at rest, 1/2 at high frequency', () => {
    expect(theodorsen(0)).toEqual({ re: 1, im: 0 })
    expect(theodorsen(1e-9).re).toBeCloseTo(1, 6)
    expect(theodorsen(500).re).toBeCloseTo(0.5, 5)
    expect(theodorsen(500).im).toBeCloseTo(-1 / 4000, 7)
  })

  test('has teeth: two per cent on k is noticed', () => {
    expect(agrees(theodorsen(0.102).re, published('0.8319'))).toBe(false)
    expect(agrees(theodorsen(0.51).im, published('-0.1507'))).toBe(false)
  })
})

describe('section forces', () => {
  test('steady lift slope 2π, acting at the quarter chord', () => {
    const { liftPerPitch, momentPerPitch } = sectionForces(0, -0.5)
    // L/(q b) = 2π · 2 θ on the chord 2b
    expect(liftPerPitch.re).toBeCloseTo(4 * Math.PI, 12)
    expect(momentPerPitch.re).toBeCloseTo(0, 12)
  })

  test('a moved axis only moves the bookkeeping', () => {
    // z₂ = z₁ − (a₂ − a₁) θ and M₂ = M₁ + (a₂ − a₁) L: the forces of one motion about two axes.
    const [k, a1, a2] = [0.4, -0.3, 0.1]
    const [s1, s2] = [sectionForces(k, a1), sectionForces(k, a2)]
    const d = a2 - a1
    for (const part of ['re', 'im'] as const) {
      expect(s1.liftPerRise[part]).toBeCloseTo(s2.liftPerRise[part], 12)
      expect(s1.liftPerPitch[part]).toBeCloseTo(s2.liftPerPitch[part] - d * s2.liftPerRise[part], 12)
      expect(s1.momentPerRise[part] + d * s1.liftPerRise[part]).toBeCloseTo(s2.momentPerRise[part], 12)
    }
  })
})
