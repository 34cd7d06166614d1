/** Leissa, Vibration of Plates, NASA SP-160 (1969), chapter 4 (recalled): square plates, λ = ω a² √(ρ t / D), ν = 0.3. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { expectPublished } from '../evidence.ts'
import { frequencyParameter, sheetModes } from '../plate-cases.ts'

const side = 0.5
/** t/a = 0.001: thin-plate theory to 0.01 %. */
const sheet = { E: 70e9, nu: 0.3, t: 0.5e-3, rho: 2700 }
const outline: Point[] = [
  [0, 0],
  [side, 0],
  [side, side],
  [0, side],
]

const lambda = (support: 'simple' | 'clamped' | 'cantilever', count: number, given = sheet): number[] => {
  const supports = support === 'cantilever' ? undefined : outline.map(() => support)
  const modes = sheetModes({ outline, sheet: given, size: side / 12, count, ...(supports && { supports }) })
  return modes.map((omega) => frequencyParameter(omega, side, sheet))
}

describe('cantilever', () => {
  const printed = ['3.494', '8.547', '21.44', '27.46', '31.17']
  test('agrees with the printed values', () => {
    const computed = lambda('cantilever', 5)
    printed.forEach((value, i) => {
      expectPublished({
        source: 'leissa-1969',
        quantity: `square cantilever, λ${i + 1}`,
        printed: value,
        computed: computed[i],
        methodError: 0.01,
      })
    })
  })
  test('has teeth: two per cent on thickness is noticed', () => {
    const thicker = lambda('cantilever', 5, { ...sheet, t: 1.02 * sheet.t })
    expect(printed.some((value, i) => Math.abs(thicker[i] / Number(value) - 1) > 0.011)).toBe(true)
  })
})

test('clamped on all sides', () => {
  const computed = lambda('clamped', 3)
  const printed = ['35.99', '73.41', '73.41']
  printed.forEach((value, i) => {
    const quantity = `square clamped on all sides, λ${i + 1}`
    expectPublished({ source: 'leissa-1969', quantity, printed: value, computed: computed[i], methodError: 0.001 })
  })
})

test('simply supported on all sides', () => {
  const computed = lambda('simple', 4)
  // π² (m² + n²) for (1, 1), (1, 2), (2, 1), (2, 2)
  const printed = ['19.7392', '49.3480', '49.3480', '78.9568']
  printed.forEach((value, i) => {
    const quantity = `square simply supported, λ${i + 1}`
    expectPublished({ source: 'leissa-1969', quantity, printed: value, computed: computed[i], methodError: 0.0005 })
  })
})
