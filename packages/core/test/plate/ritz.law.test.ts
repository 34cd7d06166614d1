/** Against a Rayleigh–Ritz solution that shares no code with the elements: materials and shapes without closed forms. */
import { expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import type { PlateSection } from '../../src/plate/section.ts'
import { carbon, degrees, isotropic, laminated, rectangle } from './plates.ts'
import { ritzFrequencies } from './ritz.ts'

interface Case {
  readonly name: string
  readonly a: number
  readonly b: number
  readonly section: (x: number, y: number) => PlateSection
  readonly cuts?: readonly number[]
  readonly terms: readonly [number, number]
  readonly coupled?: boolean
  readonly size: number
  /** Relative; the Ritz solution's own error, from raising its degree, included. */
  readonly within: number
}

const unidirectional = laminated(carbon, [{ angle: 0, t: 5e-3 }])
const angled = laminated(carbon, [
  { angle: degrees(30), t: 2e-3 },
  { angle: degrees(-20), t: 1e-3 },
  { angle: degrees(30), t: 2e-3 },
])
const unsymmetric = laminated(carbon, [
  { angle: 0, t: 2e-3 },
  { angle: degrees(35), t: 1e-3 },
])
/** 5 mm with 12 mm bevels to 0.8 mm along both side edges. */
const bevelled = (x: number): PlateSection => {
  const inside = Math.min(x, 0.2 - x)
  const t = inside < 0.012 ? 0.8e-3 + (4.2e-3 * inside) / 0.012 : 5e-3
  return isotropic({ E: 20e9, nu: 0.13, t, rho: 1900 })
}

const cases: readonly Case[] = [
  { name: 'orthotropic', a: 0.1, b: 0.11, section: () => unidirectional, terms: [8, 8], size: 0.01, within: 2e-3 },
  { name: 'D16 ≠ 0', a: 0.1, b: 0.11, section: () => angled, terms: [9, 9], size: 0.01, within: 2e-3 },
  {
    name: 'B ≠ 0',
    a: 0.1,
    b: 0.11,
    section: () => unsymmetric,
    terms: [7, 7],
    coupled: true,
    size: 0.012,
    within: 4e-3,
  },
  {
    name: 'bevelled',
    a: 0.2,
    b: 0.11,
    section: bevelled,
    cuts: [0.012, 0.188],
    terms: [12, 7],
    size: 0.01,
    within: 4e-3,
  },
]

test.each(cases)('$name', ({ a, b, section, cuts, terms, coupled, size, within }) => {
  const ritz = ritzFrequencies({ a, b, section, terms, ...(cuts && { cuts }), ...(coupled && { coupled }) })
  const model = assemblePlate({
    mesh: meshOutline({ outline: rectangle(a, b), size }),
    supports: ['clamped', 'free', 'free', 'free'],
    sectionAt: ({ x, y }) => section(x, y),
  })
  const { omega } = plateModes(model, 4)
  omega.forEach((value, i) => {
    expect(Math.abs(value / ritz[i] - 1), `mode ${i + 1}: ${value} against ${ritz[i]}`).toBeLessThan(within)
  })
})

test('has teeth: leaving out B, or D16, is noticed', () => {
  const first = (section: PlateSection): number[] => {
    const mesh = meshOutline({ outline: rectangle(0.1, 0.11), size: 0.02 })
    const model = assemblePlate({ mesh, supports: ['clamped', 'free', 'free', 'free'], sectionAt: () => section })
    return [...plateModes(model, 2).omega]
  }
  const zero = new Float64Array(9)
  expect(first({ ...unsymmetric, B: zero })[0] / first(unsymmetric)[0]).toBeGreaterThan(1.05)
  const straight = Float64Array.from(angled.D, (d, i) => ([2, 5, 6, 7].includes(i) ? 0 : d))
  expect(Math.abs(first({ ...angled, D: straight })[0] / first(angled)[0] - 1)).toBeGreaterThan(0.02)
})
