import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { creaseDepth, roundTheLand, unfoldGain } from '../../src/pattern/unfold.ts'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const edges = (kind: 'bevel' | 'round', width: number, land: number) => {
  const one = { kind, width, land } as const
  return { leading: one, tip: one, trailing: one }
}

describe('a bevel laid flat', () => {
  const bevels = fc.record({
    t: number(1e-3, 8e-3),
    w: number(3e-3, 2e-2),
    share: number(0.1, 0.9),
    z: number(0, 3e-3),
    back: number(0, 1),
  })

  test('is as long as the ply’s own middle in space, build-up in, to 1e-12 m', () => {
    fc.assert(
      fc.property(bevels, ({ t, w, share, z, back }) => {
        const land = share * t
        // The ply's middle: the flat at height z, the bevel's line moved z square to itself; where they cross is the crease.
        const slope = (t - land) / 2 / w
        const lift = z * Math.sqrt(1 + slope ** 2)
        const onBevel = (d: number) => (t - land) / -2 + slope * d + lift
        const crease = w - (lift - z) / slope
        const depth = back * crease
        const flatFrom = 2 * w
        const space = flatFrom - crease + Math.hypot(crease - depth, z - onBevel(depth))
        const onMap =
          flatFrom - depth + unfoldGain(depth, 'leading', { edges: edges('bevel', w, land), coreThickness: t, z })
        expect(Math.abs(onMap - space)).toBeLessThan(1e-12)
        expect(creaseDepth({ kind: 'bevel', width: w, land }, t, z)).toBeCloseTo(crease, 12)
      }),
    )
  })

  test('gains nothing past the shaped width; a square edge never', () => {
    const shaped = { edges: edges('bevel', 0.012, 8e-4), coreThickness: 3.2e-3, z: 0 }
    expect(unfoldGain(0.012, 'tip', shaped)).toBe(0)
    expect(unfoldGain(0, 'tip', shaped)).toBeCloseTo(0.012 * (Math.hypot(1, 0.1) - 1), 15)
    const square = { kind: 'square', width: 0, land: 3.2e-3 } as const
    expect(unfoldGain(0, 'tip', { ...shaped, edges: { leading: square, tip: square, trailing: square } })).toBe(0)
  })
})

test('a full round gains a quarter circle over its radius', () => {
  const h = 1.6e-3
  const round = { edges: edges('round', h, 0), coreThickness: 2 * h, z: 0 }
  expect(unfoldGain(0, 'leading', round)).toBeCloseTo((Math.PI / 2 - 1) * h, 8)
  // With a ply's middle z out the circle is larger and ends where it crosses the plane of the edge.
  const z = 5e-4
  const turned = Math.asin(h / (h + z))
  expect(unfoldGain(0, 'leading', { ...round, z })).toBeCloseTo(turned * (h + z) - h, 7)
})

test('round a land of 3 mm: the land and two quarter turns', () => {
  expect(roundTheLand(3e-3, 1e-3)).toBeCloseTo(3e-3 + 2 * (Math.PI / 2) * 1e-3, 15)
})
