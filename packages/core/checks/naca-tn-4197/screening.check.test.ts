/** NACA TN 4197: the constant, and arithmetic on the formula; see source.md. */
import { expect, test } from 'vitest'
import { standardAir } from '../../src/air/atmosphere.ts'
import { chartSpeedRatio, plateConstant, printedConstant, screeningSpeed } from '../../src/flutter/screening.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'naca-tn-4197'
const psi = 6894.757293168361
const example = {
  shearModulus: 6.0e5 * psi,
  constant: 39.3 * psi,
  thicknessRatio: 0.02,
  aspectRatio: 1,
  taper: 0.5,
  pressureRatio: 1,
}

test('the constant, derived again', () => {
  expectPublished({ source, quantity: 'constant, psi', printed: '39.3', computed: printedConstant / psi })
  expectPublished({ source, quantity: 'constant for J = c t³/3, psi', printed: '19.65', computed: plateConstant / psi })
})

test('worked example', () => {
  const half = { ...example, constant: 19.65 * psi }
  expectPublished({ source, quantity: 'V/a, 39.3 psi', printed: '0.699', computed: chartSpeedRatio(example) })
  expectPublished({ source, quantity: 'V/a, 19.65 psi', printed: '0.988', computed: chartSpeedRatio(half) })
})

test('has teeth: one per cent on the thickness is noticed', () => {
  const thinner = chartSpeedRatio({ ...example, thicknessRatio: 0.99 * example.thicknessRatio })
  expect(agrees(thinner, published('0.699'))).toBe(false)
})

test('the speed from GJ is the formula with the plate constant and G = 3 GJ/(c t³), at any altitude', () => {
  for (const altitude of [0, 4000, 12000]) {
    const { density, soundSpeed, pressure } = standardAir(altitude)
    const [chord, span, thickness, taper] = [0.21, 0.11, 0.0042, 0.4]
    const torsionalStiffness = 5.2
    const fin = { torsionalStiffness, area: chord * span, span, taper, thickness }
    const chart = chartSpeedRatio({
      shearModulus: (3 * torsionalStiffness) / (chord * thickness ** 3),
      constant: plateConstant,
      thicknessRatio: thickness / chord,
      aspectRatio: span / chord,
      taper,
      pressureRatio: pressure / 101325,
    })
    expect(screeningSpeed(fin, density) / soundSpeed / chart).toBeCloseTo(1, 9)
  }
})
