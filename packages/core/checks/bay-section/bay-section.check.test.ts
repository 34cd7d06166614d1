import { describe, expect, test } from 'vitest'
import { filletAdhesive } from '../../src/bond/fillet.ts'
import { type BaySection, baySection } from '../../src/bond/section.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'bay-section'

function section(filletRadius: number, tubeRadius = 0.051): BaySection {
  const result = baySection({ tubeRadius, coreThickness: 0.0032, finCount: 4, span: 0.11, filletRadius })
  if (!result.ok) throw new Error(result.issues.map((issue) => issue.message).join(' '))
  return result.value
}

/** Width of the gap between face and fillet, integrated over the height from the body to the fillet's top. */
function integratedArea(R: number, h: number, r: number): number {
  const xc = Math.sqrt((R + r) ** 2 - (h + r) ** 2)
  const foot = (R * xc) / (R + r) // p of the point where the circles touch
  const n = 200_000
  let sum = 0
  // Below the foot the gap is bounded by the body, above it by the fillet: q of either, at mid-points in p.
  const from = Math.sqrt(R * R - h * h)
  const left = Math.min(from, foot)
  for (let i = 0; i < n; i++) {
    const p = left + ((i + 0.5) / n) * (xc - left)
    const fillet = h + r - Math.sqrt(Math.max(0, r * r - (xc - p) ** 2))
    const body = p < R ? Math.sqrt(R * R - p * p) : 0
    const lower = Math.max(h, body)
    const upper = p > foot ? fillet : lower
    sum += Math.max(0, upper - lower)
  }
  return (sum * (xc - left)) / n
}

describe('worked example: R 51, core 3.2, 4 fins, span 110, fillet 15 mm', () => {
  const made = section(0.015)
  const adhesive = filletAdhesive({ section: made, rootLength: 0.3, density: 1150, waste: 0.3 })
  const rows = [
    ['fillet height on the fin, mm', '12.9', made.filletHeight * 1e3],
    ['fillet arc, deg', '75.4', (made.phi * 180) / Math.PI],
    ['fillet area at r = 15 mm, mm²', '30.8', made.filletArea * 1e6],
    ['developed width tip to tip, mm', '287.9', made.width * 1e3],
    ['volume of one fillet, ml', '9.2', adhesive.volume * 1e6],
    ['volume of eight fillets, ml', '74', adhesive.totalVolume * 1e6],
    ['mass of eight fillets, g', '85', adhesive.totalMass * 1e3],
    ['mix for eight fillets, g', '111', adhesive.mixMass * 1e3],
    ['fillet area at r = 10 mm, mm²', '15.3', section(0.01).filletArea * 1e6],
    ['fillet area at r = 20 mm, mm²', '49.5', section(0.02).filletArea * 1e6],
    ['fillet area at r = 25 mm, mm²', '70.4', section(0.025).filletArea * 1e6],
  ] satisfies [string, string, number][]

  test.each(rows)('%s is %s', (quantity, printed, computed) => {
    expectPublished({ source, quantity, printed, computed })
  })

  test('has teeth: one per cent on the tube is noticed', () => {
    const other = section(0.015, 0.051 * 1.01)
    expect(agrees(other.width * 1e3, published('287.9'))).toBe(false)
    expect(agrees(section(0.0152).filletArea * 1e6, published('30.8'))).toBe(false)
  })
})

test.each([0.01, 0.015, 0.02, 0.025])('the area at r = %f m is the integral of the gap', (r) => {
  const exact = section(r).filletArea
  expect(Math.abs(integratedArea(0.051, 0.0016, r) / exact - 1)).toBeLessThan(1e-4)
  expect(Math.abs(integratedArea(0.051, 0.0016, 1.01 * r) / exact - 1)).toBeGreaterThan(1e-2)
})
