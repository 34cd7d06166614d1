import { describe, expect, test } from 'vitest'
import { laminateCompliance } from '../../src/laminate/compliance.ts'
import { type ExpandingLayer, thermalStrain } from '../../src/laminate/expansion.ts'
import { laminateStiffness } from '../../src/laminate/stiffness.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'timoshenko-1925'

const layer = (E: number, alpha: number, t: number): ExpandingLayer => ({
  lamina: { E1: E, E2: E, G12: E / 2.6, nu12: 0.3, G13: E / 2.6, G23: E / 2.6 },
  theta: 0,
  t,
  expansion: { alpha1: alpha, alpha2: alpha },
})

/** Written out by hand from eq. 4, 1/m; E in GPa, α in 1e-6/K, thicknesses in mm. */
const cases = [
  { name: 'equal strips', E: [70, 70], alpha: [5, 15], t: [0.5, 0.5], heat: 100, printed: '1.500' },
  { name: 'unequal strips', E: [200, 70], alpha: [12, 23], t: [0.4, 1.6], heat: 50, printed: '0.3583' },
] as const

function curvature(E: readonly number[], alpha: readonly number[], t: readonly number[], heat: number) {
  const layers = [0, 1].map((k) => layer(E[k]! * 1e9, alpha[k]! * 1e-6, t[k]! * 1e-3))
  return thermalStrain(layers, laminateCompliance(laminateStiffness({ layers })), { temperature: heat }).curvature
}

describe('two strips', () => {
  test.each(cases)('$name bend to the published curvature', ({ name, E, alpha, t, heat, printed }) => {
    const kappa = curvature(E, alpha, t, heat)
    // Strip 2 is on top and expands more, and strain grows with z: κ is positive.
    expectPublished({ source, quantity: `curvature of ${name}, 1/m`, printed, computed: kappa[0]! })
    expect(kappa[1]).toBeCloseTo(kappa[0]!, 12)
    expect(kappa[2]).toBeCloseTo(0, 15)
  })

  test('has teeth: a tenth of the expansion is noticed', () => {
    expect(agrees(curvature([70, 70], [5, 16], [0.5, 0.5], 100)[0]!, published('1.500'))).toBe(false)
  })
})
