import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { filletAdhesive } from '../../src/bond/fillet.ts'
import { type BaySectionInput, baySection, filletRadiusLimits } from '../../src/bond/section.ts'

const demo: BaySectionInput = { tubeRadius: 0.051, coreThickness: 0.0032, finCount: 4, span: 0.11, filletRadius: 0.015 }
const codes = (input: BaySectionInput): string[] => {
  const result = baySection(input)
  return result.ok ? [] : result.issues.map((issue) => issue.code)
}

test('fillets that meet are refused with the greatest radius that fits', () => {
  const eight = { ...demo, finCount: 8, filletRadius: 0.035 }
  const result = baySection(eight)
  expect(result.ok).toBe(false)
  if (result.ok) return
  const [issue] = result.issues
  expect(issue).toMatchObject({ code: 'bond/fillets-meet', path: 'fins.fillet.radius', value: 0.035 })
  const named = Number(/fits is ([\d.]+) mm/.exec(issue!.hint)?.[1]) / 1e3
  expect(codes({ ...eight, filletRadius: named })).toEqual([])
  expect(codes({ ...eight, filletRadius: named + 1.1e-4 })).toEqual(['bond/fillets-meet'])
})

test('a fillet taller than the fin is refused, with the radius that fits', () => {
  expect(codes({ ...demo, span: 0.012 })).toEqual(['bond/fillet-tall'])
  const limit = filletRadiusLimits({ ...demo, span: 0.012 })
  expect(codes({ ...demo, span: 0.012, filletRadius: 0.9999 * limit.tip })).toEqual([])
})

test('every bad number is named at once', () => {
  const all = {
    tubeRadius: Number.NaN,
    coreThickness: -1,
    finCount: 2.5,
    span: 0,
    filletRadius: Number.POSITIVE_INFINITY,
  }
  const result = baySection(all)
  expect(result.ok ? [] : result.issues.map((issue) => issue.path)).toEqual([
    'tube.outerDiameter',
    'fins.core.thickness',
    'fins.outline',
    'fins.fillet.radius',
    'fins.count',
  ])
})

test('a core wider than the tube leaves no body', () => {
  expect(codes({ ...demo, coreThickness: 0.11 })).toEqual(['bond/core-wide'])
})

test('where no fillet fits the hint says what else to change', () => {
  const tight = baySection({ tubeRadius: 0.01, coreThickness: 0.0076, finCount: 8, span: 0.05, filletRadius: 0.01 })
  expect(tight.ok).toBe(false)
  if (!tight.ok) expect(tight.issues[0]!.hint).toMatch(/fewer fins|greatest radius/)
})

describe('laws', () => {
  const lengths = fc.double({ min: 1e-3, max: 1, noNaN: true })
  const inputs = fc.record({
    tubeRadius: fc.double({ min: 0.01, max: 0.3, noNaN: true }),
    coreThickness: fc.double({ min: 5e-4, max: 0.02, noNaN: true }),
    finCount: fc.integer({ min: 3, max: 8 }),
    span: lengths,
    filletRadius: fc.double({ min: 1e-3, max: 0.1, noNaN: true }),
  })

  test('fits exactly when the radius is below both limits', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        const limit = filletRadiusLimits(input)
        const fits = input.filletRadius < Math.min(limit.neighbour, limit.tip)
        const wide = input.coreThickness / 2 >= input.tubeRadius * Math.sin(Math.PI / input.finCount)
        expect(baySection(input).ok).toBe(fits && !wide)
      }),
    )
  })

  test('the fillet touches face and body, and its area lies inside the corner of tangents', () => {
    fc.assert(
      fc.property(inputs, (input) => {
        const result = baySection(input)
        if (!result.ok) return
        const { R, h, r, xc, theta, phi, a0, filletArea, stations, N } = result.value
        expect(Math.hypot(xc, h + r)).toBeCloseTo(R + r, 12)
        expect(theta + phi).toBeCloseTo(Math.PI / 2, 12)
        expect(theta).toBeGreaterThan(a0)
        expect(theta).toBeLessThan(Math.PI / N)
        expect(filletArea).toBeGreaterThan(0)
        expect(filletArea).toBeLessThan((1 - Math.PI / 4) * r ** 2)
        expect(stations.filletFoot).toBeGreaterThan(0)
        expect(stations.tip).toBeGreaterThan(stations.filletTop)
      }),
    )
  })

  test('areas scale with the square, lengths with the first power of size', () => {
    const small = baySection(demo)
    const large = baySection({ ...demo, tubeRadius: 0.51, coreThickness: 0.032, span: 1.1, filletRadius: 0.15 })
    if (!small.ok || !large.ok) throw new Error('both fit')
    expect(large.value.filletArea / small.value.filletArea).toBeCloseTo(100, 8)
    expect(large.value.width / small.value.width).toBeCloseTo(10, 10)
  })
})

test('run-outs add one tool radius of section at each end', () => {
  const result = baySection(demo)
  if (!result.ok) throw new Error('fits')
  const made = filletAdhesive({ section: result.value, rootLength: 0.3, density: 1000, waste: 0.25 })
  expect(made.count).toBe(8)
  expect(made.runOut.volume / made.volume).toBeCloseTo(0.1, 12)
  expect(made.mixMassWithRunOuts / made.mixMass).toBeCloseTo(1.1, 12)
  expect(made.mixMass).toBeCloseTo(1.25 * made.totalMass, 12)
})
