/** Random plies and laminates for the laws, and a comparison relative to a stated scale. */
import fc from 'fast-check'
import { expect } from 'vitest'

/** Moduli of a real ply: stiffness ratio up to 40, ν12 well inside √(E1/E2). Pa. */
export const anyLamina = fc
  .record({
    E1: fc.double({ min: 5e9, max: 200e9, noNaN: true }),
    ratio: fc.double({ min: 1, max: 40, noNaN: true }),
    G12: fc.double({ min: 1e9, max: 30e9, noNaN: true }),
    nu12: fc.double({ min: 0, max: 0.45, noNaN: true }),
    G13: fc.double({ min: 0.1e9, max: 30e9, noNaN: true }),
    G23: fc.double({ min: 0.1e9, max: 30e9, noNaN: true }),
  })
  .map(({ E1, ratio, ...rest }) => ({ E1, E2: E1 / ratio, ...rest }))

export const anyTheta = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true })

export const anyLayer = fc.record({
  lamina: anyLamina,
  theta: anyTheta,
  t: fc.double({ min: 0.05e-3, max: 4e-3, noNaN: true }),
})

export const anyLayers = fc.array(anyLayer, { minLength: 1, maxLength: 9 })

/** Rounding of sums of a few dozen products, relative to their largest term. */
const ROUNDING = 1e-11

/** Equal but for rounding, relative to `scale`: the largest term that went in. */
export function near(computed: ArrayLike<number>, expected: ArrayLike<number>, scale: number): void {
  expect(computed.length).toBe(expected.length)
  for (let i = 0; i < expected.length; i++)
    if (!(Math.abs(computed[i] - expected[i]) <= ROUNDING * Math.abs(scale)))
      expect.fail(`entry ${i}: ${computed[i]} is not ${expected[i]} on the scale of ${scale}`)
}
