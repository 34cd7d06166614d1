import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type FinOutline, finPolygon, finSides, type NamedSide } from '../../src/geometry/fin-outline.ts'
import type { Point } from '../../src/geometry/point.ts'
import { area, contains, distanceToBoundary, isConvex, signedArea } from '../../src/geometry/polygon.ts'
import { insideSides, noShift, shiftedOutline, withOverhang } from '../../src/geometry/polygon-shift.ts'
import { shiftByClipping } from '../../src/geometry/polygon-strips.ts'

const trapezoid: FinOutline = {
  points: [
    [0, 0],
    [0.15, 0.11],
    [0.27, 0.11],
    [0.3, 0],
  ],
  edges: ['leading', 'tip', 'trailing'],
}

const millimetre = fc.double({ min: 0, max: 0.03, noNaN: true })
/** No edge within 18° of the root: there the strips' reach along the root is limited, the exact lines' is not. */
const isSteep = ({ a, b, name }: NamedSide): boolean =>
  name === 'root' || name === 'tip' || Math.abs(b[0] - a[0]) <= 3 * Math.abs(b[1] - a[1])

const trapezoids = fc
  .record({
    root: fc.double({ min: 0.1, max: 0.4, noNaN: true }),
    tip: fc.double({ min: 0.05, max: 0.3, noNaN: true }),
    sweep: fc.double({ min: -0.05, max: 0.2, noNaN: true }),
    span: fc.double({ min: 0.05, max: 0.2, noNaN: true }),
  })
  .map(
    ({ root, tip, sweep, span }): FinOutline => ({
      points: [
        [0, 0],
        [sweep, span],
        [sweep + tip, span],
        [root, 0],
      ],
      edges: ['leading', 'tip', 'trailing'],
    }),
  )
  .filter((outline) => isConvex(finPolygon(outline)) && finSides(outline).every(isSteep))

test('a trapezoid stepped back keeps straight edges at the stated distances', () => {
  const [region] = shiftedOutline(trapezoid, { leading: 0.012, tip: 0.02, trailing: 0.015 })
  expect(region).toHaveLength(4)
  // Closed form: each edge's line moved square to itself, written out.
  const lead = (y: number) => (150 / 110) * y + 0.012 * Math.hypot(1, 150 / 110)
  const trail = (y: number) => 0.3 - (30 / 110) * y - 0.015 * Math.hypot(1, 30 / 110)
  const expected = 0.5 * (trail(0) - lead(0) + trail(0.09) - lead(0.09)) * 0.09
  expect(area(region!) / expected).toBeCloseTo(1, 12)
  expect(insideSides(region!, trapezoid)).toHaveLength(3)
})

test('no shift gives the outline itself; a step larger than the fin leaves nothing', () => {
  expect(shiftedOutline(trapezoid, noShift)[0]).toEqual(finPolygon(trapezoid))
  expect(insideSides(finPolygon(trapezoid), trapezoid)).toHaveLength(0)
  expect(shiftedOutline(trapezoid, { ...noShift, tip: 0.12 })).toEqual([])
  expect(shiftedOutline(trapezoid, { ...noShift, leading: 0.5 })).toEqual([])
})

test('every point left is at least the step from its edge, and every point lost is nearer', () => {
  fc.assert(
    fc.property(
      trapezoids,
      millimetre,
      millimetre,
      millimetre,
      fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })), {
        minLength: 20,
      }),
      (outline, leading, tip, trailing, places) => {
        const parts = shiftedOutline(outline, { leading, tip, trailing })
        const steps = { leading, tip, trailing, root: 0 }
        for (const [u, v] of places) {
          const p: Point = [-0.05 + 0.5 * u, 0.2 * v]
          const depths = finSides(outline).map(({ a, b, name }) => {
            const length = Math.hypot(b[0] - a[0], b[1] - a[1])
            return ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length - steps[name]
          })
          const least = Math.min(...depths)
          if (Math.abs(least) < 1e-9) continue
          expect(parts.some((part) => contains(part, p))).toBe(least > 0)
        }
      },
    ),
  )
})

describe('clipping agrees with the exact lines on a trapezoid', () => {
  test('step-backs and overhangs together', () => {
    let compared = 0
    fc.assert(
      fc.property(
        trapezoids,
        millimetre,
        millimetre,
        millimetre,
        fc.boolean(),
        (outline, leading, tip, trailing, only) => {
          const steps = { leading: only ? 0 : leading, tip, trailing: only ? trailing : 0 }
          const shifts = withOverhang(steps, 0.01)
          const exact = shiftedOutline(outline, shifts)
          const sides = finSides(outline)
          const clipped = shiftByClipping(
            sides,
            sides.map(({ name }) => (name === 'root' ? 0 : shifts[name])),
            0,
          )
          const sum = (parts: readonly (readonly Point[])[]) =>
            parts.reduce((total, part) => total + signedArea(part), 0)
          if (sum(exact) < 1e-5 || shiftedOutline(outline, steps).length === 0) return
          // Where a step-back swallows an edge its neighbours' lines end elsewhere: compare only where each edge is left.
          const [net] = shiftedOutline(outline, steps)
          const lengths = net!.map((p, i) => Math.hypot(p[0] - net!.at(i - 1)![0], p[1] - net!.at(i - 1)![1]))
          if (lengths.length !== 4 || Math.min(...lengths) < 0.005) return
          compared++
          expect(Math.abs(sum(clipped) - sum(exact))).toBeLessThan(1e-6 * 0.5)
        },
      ),
      { numRuns: 300 },
    )
    expect(compared).toBeGreaterThan(100)
  })
})

test('a notched outline: the step goes round the notch', () => {
  const notched: FinOutline = {
    points: [
      [0, 0],
      [0, 0.1],
      [0.1, 0.1],
      [0.1, 0.06],
      [0.12, 0.06],
      [0.12, 0.1],
      [0.22, 0.1],
      [0.22, 0],
    ],
    edges: ['leading', 'tip', 'tip', 'tip', 'tip', 'tip', 'trailing'],
  }
  const [region, ...rest] = shiftedOutline(notched, { leading: 0, tip: 0.01, trailing: 0 })
  expect(rest).toEqual([])
  // 220 × 90 less the notch grown to 40 wide, from y = 50 up.
  expect(area(region!)).toBeCloseTo(0.22 * 0.09 - 0.04 * 0.04, 7)
  const cut = shiftedOutline(notched, { leading: -0.005, tip: -0.005, trailing: -0.005 })
  expect(cut).toHaveLength(1)
  expect(area(cut[0]!)).toBeCloseTo(0.23 * 0.105 - 0.01 * 0.04, 7)
  expect(shiftedOutline(notched, { leading: 0, tip: 0.055, trailing: 0 })).toHaveLength(1)
  expect(shiftedOutline(notched, { leading: 0, tip: 0.02, trailing: 0 }, 0.05)).toHaveLength(2)
})

test('a curved outline: the step is a parallel curve, and smooth joins do not throw it out', () => {
  const n = 60
  const points = Array.from({ length: n + 1 }, (_, i): Point => {
    const angle = Math.PI * (1 - i / n)
    return [0.15 + 0.15 * Math.cos(angle), i === 0 || i === n ? 0 : 0.1 * Math.sin(angle)]
  })
  const edges = points
    .slice(1)
    .map((_, i) => (i < 25 ? 'leading' : i < 35 ? 'tip' : 'trailing') as 'leading' | 'tip' | 'trailing')
  const outline: FinOutline = { points, edges }
  const [even] = shiftedOutline(outline, { leading: 0.01, tip: 0.01, trailing: 0.01 })
  const arc = [...points, [0.3, -1], [0, -1]] as const
  const above = even!.filter(([, y]) => y > 1e-9)
  expect(above.length).toBeGreaterThan(40)
  for (const p of above) expect(Math.abs(distanceToBoundary(arc, p) - 0.01)).toBeLessThan(2e-5)
  const uneven = shiftedOutline(outline, { leading: 0.012, tip: 0, trailing: 0.006 })
  expect(uneven).toHaveLength(1)
  const top = Math.max(...uneven[0]!.map(([, y]) => y))
  expect(top).toBeCloseTo(0.1, 4)
})

test('a triangle without a tip edge has its outer mitre cut at twice the overhang', () => {
  const triangle: FinOutline = {
    points: [
      [0, 0],
      [0.1, 0.3],
      [0.12, 0],
    ],
    edges: ['leading', 'trailing'],
  }
  const [cut] = shiftedOutline(triangle, { leading: -0.01, tip: -0.01, trailing: -0.01 })
  const highest = Math.max(...cut!.map(([, y]) => y))
  expect(highest).toBeGreaterThan(0.31)
  expect(highest).toBeLessThan(0.3201)
  const sides = finSides(triangle)
  const clipped = shiftByClipping(
    sides,
    sides.map(({ name }) => (name === 'root' ? 0 : -0.01)),
    0,
  )
  expect(Math.abs(area(clipped[0]!) - area(cut!))).toBeLessThan(1e-8)
})
