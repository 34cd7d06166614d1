/** Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. (1959), Tables 8 and 35, b/a = 1, ν = 0.3 (recalled). */
import { describe, expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { fieldReader } from '../../src/plate/field-at.ts'
import { plateStatic } from '../../src/plate/static.ts'
import { cornerStrains, elementStrains, type PlateStrain } from '../../src/plate/strains.ts'
import { expectPublished } from '../evidence.ts'
import { bendingStiffness, sheetSection } from '../plate-cases.ts'

const a = 0.2
const q = 1e3
const sheet = { E: 70e9, nu: 0.3, t: 0.2e-3, rho: 2700 } // t/a = 0.001: thin

function squareUnderPressure(support: 'simple' | 'clamped', n: number, given = sheet) {
  const section = sheetSection(given)
  const model = assemblePlate({
    mesh: meshOutline({
      outline: [
        [0, 0],
        [a, 0],
        [a, a],
        [0, a],
      ],
      size: a / n,
    }),
    supports: [support, support, support, support],
    sectionAt: () => section,
  })
  const solved = plateStatic(model, { pressure: () => q })
  if (solved.kind !== 'solved') throw new Error(solved.kind)
  const D = bendingStiffness(sheet)
  const strains = cornerStrains(elementStrains(model, solved.field))
  return {
    w: (fieldReader(model)(solved.field, a / 2, a / 2)!.w * D) / (q * a ** 4),
    /** Moment at the corner of a triangle nearest to (x, y), mean over the triangles there, over q a². */
    moment: (x: number, y: number): number => {
      const away = (p: PlateStrain): number => Math.hypot(p.x - x, p.y - y)
      const least = Math.min(...strains.map(away))
      const there = strains.filter((p) => away(p) < least + 1e-9)
      const mean = (k: number): number => there.reduce((sum, { curvature }) => sum + curvature[k], 0) / there.length
      return (D * (mean(0) + sheet.nu * mean(1))) / (q * a ** 2)
    },
  }
}

const source = 'timoshenko-1959'

describe('simply supported', () => {
  const fine = squareUnderPressure('simple', 32)
  test('deflection at the centre', () => {
    const quantity = 'simply supported square, w D/(q a⁴)'
    expectPublished({ source, quantity, printed: '0.00406', computed: fine.w, methodError: 0.0005 })
    expect(Math.abs(fine.w / 0.00406235 - 1)).toBeLessThan(1e-4) // Navier's series, summed in source.md
  })
  test('moment at the centre', () => {
    // κxx is minus the second derivative of w and so of the sign of the moment that q along +z makes
    const quantity = 'simply supported square, centre moment/(q a²)'
    expectPublished({ source, quantity, printed: '0.0479', computed: fine.moment(a / 2, a / 2), methodError: 0.005 })
  })
  test('converges: each halving leaves less than a sixth of the error', () => {
    const errors = [4, 8, 16].map((n) => Math.abs(squareUnderPressure('simple', n).w / 0.00406235 - 1))
    expect(errors[1]).toBeLessThan(errors[0] / 6)
    expect(errors[2]).toBeLessThan(errors[1] / 6)
  })
  test('has teeth: one per cent on thickness is noticed', () => {
    const thicker = squareUnderPressure('simple', 16, { ...sheet, t: 1.01 * sheet.t })
    expect(Math.abs(thicker.w / 0.00406 - 1)).toBeGreaterThan(0.02)
  })
})

describe('clamped', () => {
  const fine = squareUnderPressure('clamped', 32)
  test('deflection and moment at the centre', () => {
    const w = 'clamped square, w D/(q a⁴)'
    expectPublished({ source, quantity: w, printed: '0.00126', computed: fine.w, methodError: 0.001 })
    const moment = 'clamped square, centre moment/(q a²)'
    const computed = fine.moment(a / 2, a / 2)
    expectPublished({ source, quantity: moment, printed: '0.0231', computed, methodError: 0.01 })
  })
  test('moment at the middle of a side', () => {
    const quantity = 'clamped square, moment at the middle of a side/(q a²)'
    const computed = fine.moment(0, a / 2)
    expectPublished({ source, quantity, printed: '-0.0513', computed, methodError: 0.01 })
  })
})
