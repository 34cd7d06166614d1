/** Rectangular wing of aspect ratio 2, steady and in slow and fast pitch and plunge; see source.md. */
import { describe, expect, test } from 'vitest'
import type { Complex } from '../../src/air/subsonic/theodorsen.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { rectangle, rigidCoefficients } from '../lattice-coefficients.ts'

const source = 'lifting-surface-ar2'

const coefficients = (k: number, mach: number, chordwise: number, spanwise: number, tipInset: number) =>
  rigidCoefficients({
    ...{ outline: rectangle(1, 1), area: 1, chord: 1, axis: 0.5, mach, k },
    ...{ size: { chordwise, spanwise, tipInset } },
  })
const slope = (chordwise: number, spanwise: number, tipInset: number, mach = 0) =>
  coefficients(0, mach, chordwise, spanwise, tipInset).liftPerPitch.re

describe('steady lift slope', () => {
  test('on the same mesh, to all digits', () => {
    const rows = [
      ['10 × 8 boxes', '2.575', slope(8, 10, 0)],
      ['16 × 14 boxes', '2.538', slope(14, 16, 0)],
      ['16 × 14 boxes, Mach 0.8', '2.912', slope(14, 16, 0, 0.8)],
      ['10 × 8 boxes, Mach 0.8', '2.959', slope(8, 10, 0, 0.8)],
    ] as const
    for (const [mesh, printed, computed] of rows) {
      const quantity = `C_Lα to the tip, ${mesh} (independent lattice)`
      expectPublished({ source, quantity, printed, computed, methodError: 1e-4 })
    }
  })

  test('two meshes to the tip extrapolated by 1/n', () => {
    const [coarse, fine] = [slope(8, 10, 0), slope(14, 16, 0)]
    const computed = fine - (coarse - fine) * (1 / 16 / (1 / 10 - 1 / 16))
    expectPublished({ source, quantity: 'C_Lα, extrapolated', printed: '2.474', computed, methodError: 0.003 })
  })

  test('a quarter strip inside the tip: within half a per cent on 48 boxes, a tenth on 160', () => {
    const [coarse, usual] = [slope(8, 6, 0.25), slope(10, 16, 0.25)]
    expectPublished({
      ...{ source, quantity: 'C_Lα, 6 × 8 boxes, quarter strip inside', printed: '2.474', computed: coarse },
      methodError: 0.005,
    })
    expectPublished({
      ...{ source, quantity: 'C_Lα, 16 × 10 boxes, quarter strip inside', printed: '2.474', computed: usual },
      methodError: 0.001,
    })
  })

  test('has teeth: the lattice to the tip is noticed', () => {
    expect(agrees(slope(14, 16, 0), published('2.474'), 0.005)).toBe(false)
  })
})

type Parts = readonly [re: string, im: string]
const rows: readonly {
  readonly mach: number
  readonly k: number
  readonly lift: Parts
  readonly moment: Parts
  readonly plunge: Parts
}[] = [
  { mach: 0, k: 0.2, lift: ['2.523', '0.313'], moment: ['0.732', '-0.048'], plunge: ['0.033', '-0.504'] },
  { mach: 0, k: 0.5, lift: ['2.475', '0.814'], moment: ['0.728', '-0.110'], plunge: ['0.229', '-1.228'] },
  { mach: 0, k: 1, lift: ['2.395', '1.699'], moment: ['0.737', '-0.197'], plunge: ['1.019', '-2.349'] },
  { mach: 0, k: 2, lift: ['2.269', '3.491'], moment: ['0.830', '-0.355'], plunge: ['4.447', '-4.405'] },
  { mach: 0.8, k: 0.2, lift: ['2.930', '0.365'], moment: ['0.929', '-0.143'], plunge: ['0.036', '-0.582'] },
]

describe('unsteady, on the same mesh', () => {
  test.each(rows)('Mach $mach, k = $k', ({ mach, k, lift, moment, plunge }) => {
    const found = coefficients(k, mach, 14, 16, 0)
    const compare = (name: string, printed: Parts, value: Complex, tolerance: number) => {
      const size = Math.hypot(Number(printed[0]), Number(printed[1]))
      for (const [i, part] of (['re', 'im'] as const).entries()) {
        expectPublished({
          ...{ source, quantity: `${name} ${part}, M ${mach}, k ${k} (independent lattice)`, printed: printed[i] },
          ...{ computed: value[part], methodError: (tolerance * size) / Math.abs(Number(printed[i])) },
          why: `${100 * tolerance} % of the coefficient's size`,
        })
      }
    }
    compare('C_L pitch', lift, found.liftPerPitch, 0.02)
    compare('C_M pitch', moment, found.momentPerPitch, k < 2 ? 0.02 : 0.04)
    compare('C_L plunge', plunge, found.liftPerRise, 0.02)
  })

  test('has teeth: five per cent of Mach number or a tenth of k are noticed', () => {
    const off = (value: Complex, re: number, im: number) =>
      Math.hypot(value.re - re, value.im - im) / Math.hypot(re, im)
    expect(off(coefficients(0.2, 0.85, 14, 16, 0).liftPerPitch, 2.93, 0.365)).toBeGreaterThan(0.02)
    expect(off(coefficients(1.1, 0, 14, 16, 0).liftPerPitch, 2.395, 1.699)).toBeGreaterThan(0.02)
  })
})
