import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type BaySection, baySection } from '../../src/bond/section.ts'
import type { Point } from '../../src/geometry/point.ts'
import {
  acrossAt,
  type BayPosition,
  type Development,
  development,
  heightAt,
  mapPoint,
  positionOn,
} from '../../src/pattern/development.ts'

const share = fc.double({ min: 0, max: 1, noNaN: true })
const sections = fc
  .record({
    tubeRadius: fc.double({ min: 0.01, max: 0.3, noNaN: true }),
    coreThickness: fc.double({ min: 5e-4, max: 0.02, noNaN: true }),
    finCount: fc.integer({ min: 3, max: 8 }),
    span: fc.double({ min: 0.01, max: 0.5, noNaN: true }),
    filletRadius: fc.double({ min: 1e-3, max: 0.1, noNaN: true }),
  })
  .map((input) => baySection(input))
  .filter((made) => made.ok)
  .map((made) => (made.ok ? made.value : (undefined as never)))

/** Developments with a build-up of up to nine tenths of the fillet's radius. */
const developments = fc.tuple(sections, share).map(([section, u]) => development(section, 0.9 * u * section.r))

const apart = (a: BayPosition, b: BayPosition): number => Math.hypot(b.aft - a.aft, b.across - a.across, b.out - a.out)

/** Length in space of the path that is straight on the map: chords, extrapolated twice (Romberg). */
function lengthInSpace(dev: Development, a: Point, b: Point): number {
  const chords = (n: number): number => {
    let sum = 0
    let last = positionOn(dev, a)
    for (let k = 1; k <= n; k++) {
      const next = positionOn(dev, [a[0] + (k / n) * (b[0] - a[0]), a[1] + (k / n) * (b[1] - a[1])])
      sum += apart(last, next)
      last = next
    }
    return sum
  }
  const [L1, L2, L4] = [chords(32), chords(64), chords(128)] as const
  const once = [(4 * L2 - L1) / 3, (4 * L4 - L2) / 3] as const
  return (16 * once[1] - once[0]) / 15
}

/** A straight path on the map cut where the surface changes from one shape to the next. */
function piecewise(dev: Development, a: Point, b: Point): readonly (readonly [Point, Point])[] {
  const cuts = [-dev.top, -dev.foot, dev.foot, dev.top]
    .map((Y) => (Y - a[1]) / (b[1] - a[1]))
    .filter((s) => s > 0 && s < 1)
    .sort((p, q) => p - q)
  const stops = [0, ...cuts, 1].map((s): Point => [a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])])
  return stops.slice(1).map((stop, i) => [stops[i]!, stop] as const)
}

describe('the development is an isometry', () => {
  test('any straight line on the map is as long on the surface, to a part in 1e9', () => {
    let longest = 0
    fc.assert(
      fc.property(developments, share, share, share, share, (dev, u0, v0, u1, v1) => {
        const a: Point = [dev.tip * (4 * u0 - 2), dev.tip * (2 * v0 - 1)]
        const b: Point = [dev.tip * (4 * u1 - 2), dev.tip * (2 * v1 - 1)]
        const flat = Math.hypot(b[0] - a[0], b[1] - a[1])
        if (flat < 0.05 * dev.tip) return
        const space = piecewise(dev, a, b).reduce((sum, [p, q]) => sum + lengthInSpace(dev, p, q), 0)
        const error = Math.abs(space / flat - 1)
        longest = Math.max(longest, error)
        expect(error).toBeLessThan(1e-9)
      }),
      { numRuns: 400 },
    )
    expect(longest).toBeGreaterThan(0)
  })

  test('tip to tip across the bay, against the polyline of a hundred thousand chords', () => {
    const made = baySection({ tubeRadius: 0.051, coreThickness: 0.0032, finCount: 4, span: 0.11, filletRadius: 0.015 })
    if (!made.ok) throw new Error('fits')
    const dev = development(made.value, 0.001)
    let sum = 0
    const n = 100_000
    let last = positionOn(dev, [0, -dev.tip])
    for (let k = 1; k <= n; k++) {
      const next = positionOn(dev, [0, dev.tip * ((2 * k) / n - 1)])
      sum += apart(last, next)
      last = next
    }
    expect(sum / (2 * dev.tip)).toBeCloseTo(1, 9)
  })
})

test('the map and the surface are inverses of each other', () => {
  fc.assert(
    fc.property(developments, share, share, (dev, u, v) => {
      const p: Point = [u, dev.tip * (2 * v - 1)]
      const back = mapPoint(dev, positionOn(dev, p))
      expect(back[0]).toBe(p[0])
      expect(Math.abs(back[1] - p[1])).toBeLessThan(1e-9 * dev.tip)
    }),
    { numRuns: 400 },
  )
})

test('every point lies at the distance z from the bare surface', () => {
  const inFinAxes = ({ N }: BaySection, { across, out }: BayPosition): Point => {
    const beta = Math.PI / N
    return [
      Math.abs(across) * Math.sin(beta) + out * Math.cos(beta),
      -Math.abs(across) * Math.cos(beta) + out * Math.sin(beta),
    ]
  }
  fc.assert(
    fc.property(developments, share, (dev, v) => {
      const { section, z } = dev
      const Y = dev.tip * (2 * v - 1)
      const [p, q] = inFinAxes(section, positionOn(dev, [0, Y]))
      const tolerance = 1e-12 * (section.R + dev.tip)
      const size = Math.abs(Y)
      if (size > dev.top) expect(Math.abs(q - (section.h + z))).toBeLessThan(tolerance)
      else if (size > dev.foot)
        expect(Math.abs(Math.hypot(p - section.xc, q - section.h - section.r) - (section.r - z))).toBeLessThan(
          tolerance,
        )
      else expect(Math.abs(Math.hypot(p, q) - (section.R + z))).toBeLessThan(tolerance)
    }),
    { numRuns: 400 },
  )
})

test('heights and distances across are inverses on fillet and face; the bare surface is the limit of no build-up', () => {
  fc.assert(
    fc.property(developments, share, (dev, v) => {
      const Y = dev.foot + v * (dev.tip - dev.foot)
      const { R, span } = dev.section
      expect(Math.abs(acrossAt(dev, heightAt(dev, Y)) - Y)).toBeLessThan(1e-7 * dev.tip)
      expect(Math.abs(acrossAt(dev, span) - dev.tip)).toBeLessThan(1e-12 * (R + span))
      const bare = development(dev.section, 0)
      expect(bare.tip).toBeCloseTo(dev.section.stations.tip, 12)
      // Each millimetre of build-up takes phi off each fillet and adds the body's half angle.
      const change = dev.z * (Math.PI / dev.section.N - dev.section.theta - dev.section.phi)
      expect(Math.abs(dev.tip - bare.tip - change)).toBeLessThan(1e-12 * (R + span))
    }),
  )
})
