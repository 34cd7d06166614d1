import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { baySection } from '../../src/bond/section.ts'
import type { Point } from '../../src/geometry/point.ts'
import { area, bounds, contains, signedArea } from '../../src/geometry/polygon.ts'
import { selfCrossing } from '../../src/geometry/polygon-crossing.ts'
import { straightMap } from '../../src/pattern/bay-map.ts'
import { development } from '../../src/pattern/development.ts'
import { bareOutline } from '../../src/pattern/outlines.ts'
import { patterns } from '../../src/pattern/patterns.ts'
import { widthKept } from '../../src/pattern/trellis.ts'
import { demo, ply, stepped, steps, thin } from './demo.ts'

const made = (plies = demo.plies, overrun = demo.layup.overrun) => {
  const result = patterns({ ...demo, plies, layup: { ...demo.layup, overrun } })
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join(' '))
  return result.value
}

const demoSection = (() => {
  const section = baySection({ tubeRadius: 0.051, coreThickness: 0.0032, finCount: 4, span: 0.11, filletRadius: 0.015 })
  if (!section.ok) throw new Error('fits')
  return section.value
})()

/** What a bevel 12 mm wide that falls 1.2 mm gains over its projection from the depth d, the ply's middle z out. */
const bevelGain = (d: number, z: number): number => {
  const secant = Math.hypot(1, 0.1)
  return Math.max(0, 0.012 - (z * (secant - 1)) / 0.1 - d) * (secant - 1)
}

describe('area against the integral of the width, bevels laid flat, written out', () => {
  const { R, xc, r, phi, theta } = demoSection
  const top = xc - R
  const chord = (y: number, lead: number, trail: number) =>
    0.3 - (30 / 110) * y - trail * Math.hypot(1, 30 / 110) - ((150 / 110) * y + lead * Math.hypot(1, 150 / 110))

  /** Simpson over the fillet's arc: the fin's chord there, drawn out towards the body's length in proportion to τ. */
  function halfArea({ z, lead, trail, tip, body }: Record<'z' | 'lead' | 'trail' | 'tip' | 'body', number>): number {
    const rho = r - z
    const width = (psi: number) => {
      const tau = psi / phi
      const here = chord(Math.max(0, top - rho * Math.sin(psi)), lead, trail)
      return (1 - tau) * here + (tau * body * here) / chord(0, lead, trail)
    }
    const n = 20_000
    let sum = 0
    for (let k = 0; k <= n; k++) sum += (k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2) * width((k / n) * phi)
    const fillet = (sum * rho * phi) / (3 * n)
    const face = 0.5 * (chord(top, lead, trail) + chord(0.11 - tip, lead, trail)) * (0.11 - tip - top)
    return face + fillet + body * (R + z) * (Math.PI / 4 - theta)
  }

  test.each([
    { lead: 0, trail: 0, tip: 0, bodyStep: 0 },
    { lead: 0.02, trail: 0.02, tip: 0.03, bodyStep: 0.01 },
    { lead: 0.06, trail: 0.06, tip: 0.06, bodyStep: 0.06 },
  ])('steps $lead $trail $tip', ({ lead, trail, tip, bodyStep }) => {
    for (const thickness of [0, 1e-3]) {
      const overrun = { forward: 0.04, aft: 0.03 }
      const shape = made([{ ...ply('P1', 0, steps(tip, lead, bodyStep)), thickness }], overrun).shapes[0]!
      const z = thickness / 2
      const [onLead, onTrail] = [lead - bevelGain(lead, z), trail - bevelGain(trail, z)]
      const exact = 2 * halfArea({ z, lead: onLead, trail: onTrail, tip, body: 0.37 - 2 * bodyStep })
      // Chords stay within 0.02 mm of the curve over four ends of the fillet's arc.
      expect(Math.abs(shape.netArea - exact)).toBeLessThan(4 * 2e-5 * r * phi)
    }
  })

  test('has teeth: half a millimetre of step is noticed, and a bevel taken for flat', () => {
    const flat = 2 * halfArea({ z: 0, lead: 0, trail: 0, tip: 0, body: 0.37 })
    const bevelled = made([{ ...ply('P1', 0, steps(0)), thickness: 0 }], { forward: 0.04, aft: 0.03 }).shapes[0]!
    expect(bevelled.netArea - flat).toBeGreaterThan(10 * 2e-5 * r * phi)
    const shape = made([{ ...ply('P1', 0, steps(0.0205)), thickness: 0 }]).shapes[0]!
    const exact = 2 * halfArea({ z: 0, lead: 0, trail: 0, tip: 0.02, body: 0.3 })
    expect(Math.abs(shape.netArea - exact)).toBeGreaterThan(10 * 2e-5 * r * phi)
  })
})

describe('every outline of the demo', () => {
  const { shapes } = made(stepped, { forward: 0.02, aft: 0.01 })

  test('is simple, counter-clockwise, its own mirror image, and holds its net line', () => {
    expect(shapes).toHaveLength(7)
    for (const { outline, netOutline } of shapes) {
      for (const polygon of [outline, netOutline]) {
        expect(signedArea(polygon)).toBeGreaterThan(0)
        expect(selfCrossing(polygon)).toBeNull()
        const mirrored = polygon.map(([X, Y]): Point => [X, -Y])
        for (const p of mirrored) expect(polygon.some((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < 1e-12)).toBe(true)
      }
      for (const p of netOutline) expect(contains(outline, p, 1e-9)).toBe(true)
    }
  })

  test('the forward root on the centre line is the origin: the largest ply runs the overrun ahead and aft of the root', () => {
    const full = shapes[4]!
    expect(bounds(full.netOutline).left).toBeCloseTo(-0.02, 12)
    expect(bounds(full.netOutline).right).toBeCloseTo(0.31, 12)
    expect(bounds(full.outline).left).toBeCloseTo(-0.03, 12)
    expect(bounds(full.outline).right).toBeGreaterThan(0.32 - 1e-12)
    expect(full.cutWidth - full.width).toBeCloseTo(0.02, 12)
  })

  test('later plies hold earlier ones on the same development', () => {
    const flat = made(thin(stepped), { forward: 0.02, aft: 0.01 }).shapes
    for (let k = 1; k < 5; k++)
      for (const p of flat[k - 1]!.netOutline) expect(contains(flat[k]!.netOutline, p, 1e-9)).toBe(true)
  })
})

test('a bias ply is widened about the centre line only, and its allowance is what the pull takes', () => {
  const plain = made([ply('P1', 0, steps(0), { overhang: 0.01 })]).shapes[0]!
  const bias = made([ply('P1', 45, steps(0), { overhang: 0.01 })]).shapes[0]!
  const kept = widthKept(Math.PI / 4, demo.layup.biasShear)
  expect(bias.cutWidth * kept).toBeCloseTo(plain.cutWidth, 12)
  expect(bias.cutWidth - bias.biasAllowance).toBeCloseTo(plain.cutWidth, 12)
  expect(bias.area * kept).toBeCloseTo(plain.area, 12)
  expect(bias.cutLength).toBe(plain.cutLength)
  expect(bias.netOutline).toEqual(plain.netOutline)
  expect(plain.biasAllowance).toBe(0)
})

test('build-up narrows each fillet and widens the body', () => {
  const { shapes } = made()
  const bare = made(thin(demo.plies)).shapes
  const { phi, theta } = demoSection
  shapes.slice(0, 6).forEach((shape, k) => {
    const change = 2 * shape.buildUp * (Math.PI / 4 - theta - phi)
    expect(shape.width - bare[k]!.width).toBeCloseTo(change, 12)
  })
  expect(shapes[4]!.buildUp).toBeCloseTo(4.5 * 0.253e-3, 15)
})

test('the net line follows the fin’s edge through the fillet without a kink at its top', () => {
  const outline = bareOutline({ outline: demo.fins.outline, map: straightMap(development(demoSection, 0)) })
  const top = demoSection.stations.filletTop
  const forward = outline.filter(([X, Y]) => Y > 0 && X < 0.16)
  const at = forward.findIndex(([, Y]) => Math.abs(Y - top) < 1e-9)
  const slope = (i: number) => (forward[i + 1]![0] - forward[i]![0]) / (forward[i + 1]![1] - forward[i]![1])
  expect(at).toBeGreaterThan(0)
  expect(slope(at - 1)).toBeCloseTo(150 / 110, 6)
  // Half a chord further on the fillet has turned by a few degrees.
  expect(slope(at)).toBeGreaterThan(0.9 * (150 / 110))
  expect(slope(at)).toBeLessThan(150 / 110 + 0.01)
})

test('random four-sided fins: area of the bare bay is twice face, fillets and body, and grows with the span', () => {
  const fin = fc.record({
    root: fc.double({ min: 0.1, max: 0.5, noNaN: true }),
    tip: fc.double({ min: 0.02, max: 0.3, noNaN: true }),
    sweep: fc.double({ min: -0.05, max: 0.3, noNaN: true }),
    span: fc.double({ min: 0.03, max: 0.2, noNaN: true }),
  })
  let made2 = 0
  fc.assert(
    fc.property(fin, ({ root, tip, sweep, span }) => {
      const section = baySection({ tubeRadius: 0.06, coreThickness: 0.003, finCount: 4, span, filletRadius: 0.012 })
      if (!section.ok) return
      const outline = {
        points: [
          [0, 0],
          [sweep, span],
          [sweep + tip, span],
          [root, 0],
        ] as const,
        edges: ['leading', 'tip', 'trailing'] as const,
      }
      const polygon = bareOutline({ outline, map: straightMap(development(section.value, 0)) })
      const { xc, R, stations } = section.value
      const atTop = root + ((tip - root) * (xc - R)) / span
      const face = 0.5 * (atTop + tip) * (R + span - xc)
      const fillets = area(polygon) / 2 - face - root * stations.filletFoot
      const [low, high] = [Math.min(atTop, root), Math.max(atTop, root)]
      const arc = stations.filletTop - stations.filletFoot
      expect(fillets).toBeGreaterThan((low - 1e-4) * arc)
      expect(fillets).toBeLessThan((high + 1e-4) * arc)
      made2++
    }),
  )
  expect(made2).toBeGreaterThan(50)
})
