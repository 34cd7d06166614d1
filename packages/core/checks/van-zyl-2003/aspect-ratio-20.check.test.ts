/** Rectangular wing of aspect ratio 20 in pitch; see source.md. */
import { expect, test } from 'vitest'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { rectangle, rigidCoefficients } from '../lattice-coefficients.ts'

const source = 'van-zyl-2003'
const size = { chordwise: 10, spanwise: 20, tipInset: 0 }

const lift = (k: number, chordwise = 10) =>
  rigidCoefficients({
    ...{ outline: rectangle(1, 10), area: 10, chord: 1, axis: 0.5, mach: 0 },
    ...{ k, size: { ...size, chordwise } },
  }).liftPerPitch

const rows: readonly {
  readonly k: number
  readonly plot: readonly [string, string] | null
  readonly lattice: readonly [string, string]
}[] = [
  { k: 0.5, plot: ['4.3', '0.2'], lattice: ['4.350', '0.337'] },
  { k: 1, plot: ['3.8', '1.5'], lattice: ['3.873', '1.659'] },
  { k: 2, plot: ['3.4', '4.0'], lattice: ['3.489', '4.186'] },
  { k: 3, plot: null, lattice: ['3.209', '6.479'] },
]

test('steady', () => {
  const { re, im } = lift(0)
  expect(im).toBe(0)
  expectPublished({ source, quantity: 'C_L, k = 0 (plot)', printed: '5.5', computed: re })
  expectPublished({ source, quantity: 'C_L, k = 0 (independent lattice)', printed: '5.503', computed: re })
})

test.each(rows)('k = $k', ({ k, plot, lattice }) => {
  const { re, im } = lift(k)
  const parts = [
    ['Re', re, 0],
    ['Im', im, 1],
  ] as const
  const size = Math.hypot(Number(lattice[0]), Number(lattice[1]))
  for (const [part, computed, i] of parts) {
    expectPublished({
      ...{ source, quantity: `${part} C_L, k = ${k} (independent lattice)`, printed: lattice[i], computed },
      methodError: (0.03 * size) / Number(lattice[i]),
      why: '3 % of |C_L|',
    })
    if (plot === null) continue
    expectPublished({
      ...{ source, quantity: `${part} C_L, k = ${k} (plot)`, printed: plot[i], computed },
      methodError: 0.15 / Number(plot[i]),
      why: 'read off a plot to ±0.2',
    })
  }
})

test('has teeth: an error of a tenth in k is noticed', () => {
  const { re, im } = lift(1.1)
  const error = Math.hypot(re - 3.873, im - 1.659) / Math.hypot(3.873, 1.659)
  expect(error).toBeGreaterThan(0.03)
  expect(agrees(lift(0).re * 1.01, published('5.503'))).toBe(false)
})
