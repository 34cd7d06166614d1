/** Laws of the knock-down with temperature: limits, order, half at the glass transition. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { referenceTemperature, resinModulusCurve, resinModulusFactor } from '../../src/flight/heat/resin-modulus.ts'

const Tg = fc.double({ min: 315, max: 450, noNaN: true })
const T = fc.double({ min: 220, max: 600, noNaN: true })

test('lies between the rubber and one, and falls with temperature', () => {
  fc.assert(
    fc.property(Tg, T, fc.double({ min: 0.1, max: 40, noNaN: true }), (transition, t, more) => {
      const factor = resinModulusFactor(t, transition)
      expect(factor).toBeGreaterThan(0)
      expect(factor).toBeLessThanOrEqual(1)
      expect(resinModulusFactor(t + more, transition)).toBeLessThanOrEqual(factor)
    }),
  )
})

test('is one where the modulus was measured and below', () => {
  fc.assert(
    fc.property(Tg, (transition) => {
      expect(resinModulusFactor(referenceTemperature, transition)).toBe(1)
      expect(resinModulusFactor(250, transition)).toBe(1)
    }),
  )
})

test('at the glass transition half is left of what the glass would have there', () => {
  const glass = 1 - 0.003 * (358 - referenceTemperature)
  expect(resinModulusFactor(358, 358) / glass).toBeCloseTo(0.51, 3)
})

test('far above it only rubber is left', () => {
  expect(resinModulusFactor(358 + 100, 358)).toBeCloseTo(0.02 * (1 - 0.003 * (458 - referenceTemperature)), 4)
})

test('a higher glass transition keeps more', () => {
  fc.assert(
    fc.property(Tg, fc.double({ min: 294, max: 600, noNaN: true }), (transition, t) => {
      // The reference itself lies a little down the fall: below 1e-3 the order may turn.
      expect(resinModulusFactor(t, transition + 10)).toBeGreaterThanOrEqual(
        resinModulusFactor(t, transition) - 2e-2 * 0.05,
      )
    }),
  )
})

test('its parameters are the caller’s, and the curve is the factor', () => {
  expect(resinModulusFactor(340, 358, { steepness: 0.2 })).toBeGreaterThan(resinModulusFactor(340, 358))
  expect(resinModulusFactor(500, 358, { rubber: 0.1 })).toBeGreaterThan(resinModulusFactor(500, 358))
  expect(resinModulusFactor(330, 400, { glassSlope: 0 })).toBeGreaterThan(resinModulusFactor(330, 400))
  expect(resinModulusCurve(350)(340)).toBe(resinModulusFactor(340, 350))
})
