/** Laminar heat transfer at a plane stagnation point and at a swept attachment line; see source.md. */
import { describe, expect, test } from 'vitest'
import { attachmentLine } from '../../src/flight/heat/attachment-line.ts'
import { heatCapacity, viscosity } from '../../src/flight/heat/stream.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { gamma, laminarLine, Pr } from '../similarity.ts'

const source = 'reshotko-beckwith-1958'
const air = 287.053
const stream = (M: number) => ({ temperature: 288.15, density: 1.225, speed: M * Math.sqrt(gamma * air * 288.15) })
const radians = (deg: number): number => (deg * Math.PI) / 180

/** State at the edge of the boundary layer, written out. */
function edge(M: number, sweepDeg: number) {
  const Mn = M * Math.cos(radians(sweepDeg))
  const Te = 288.15 * (1 + 0.2 * Mn ** 2)
  const shock = Mn > 1 ? ((2.4 * Mn ** 2) / (2 + 0.4 * Mn ** 2)) ** 3.5 * (2.4 / (2.8 * Mn ** 2 - 0.4)) ** 2.5 : 1
  const pe = 1.225 * air * 288.15 * (1 + 0.2 * Mn ** 2) ** 3.5 * shock
  const spanwise = (stream(M).speed * Math.sin(radians(sweepDeg))) ** 2 / (1004.68 * Te)
  return { Te, pe, rhoe: pe / (air * Te), spanwise }
}

/** h / cp √(ρe μe β) of the code; an edge so thin that the line stays laminar. */
function computed(M: number, sweepDeg: number, TwTe: number, nudge = 1) {
  const { Te, rhoe } = edge(M, sweepDeg)
  const line = attachmentLine({ kind: 'edge', radius: 1e-4, sweep: radians(sweepDeg) }, stream(M))
  const scale = heatCapacity * Math.sqrt(rhoe * viscosity(Te) * line.gradient * nudge)
  return line.coefficient(TwTe * Te) / scale
}

describe('plane stagnation point', () => {
  const rows = [
    [0.6, '0.466'],
    [0.7, '0.495'],
    [0.8, '0.521'],
    [0.9, '0.546'],
    [1, '0.570'],
  ] as const
  test.each(rows)('Pr = %f', (prandtl, printed) => {
    const exact = laminarLine({ spanwise: 0, Te: 300, Tw: 270, Pr: prandtl, constant: true }).heat * prandtl
    const quantity = `plane stagnation point, Pr ${prandtl}: Nu/√Re`
    expectPublished({ source, quantity, printed, computed: exact, methodError: 0.003 })
    expect(agrees(0.57 * prandtl ** 0.4, published(printed), 0.01)).toBe(true)
  })
  test('the code at low speed: 0.57 Pr^0.4 times √(β / ν)', () => {
    const quantity = 'cylinder at Mach 0.02: h R / k over √(2 u R / ν)'
    const slow = computed(0.02, 0, 1) * Pr
    expectPublished({ source, quantity, printed: '0.497', computed: slow, methodError: 0.01 })
    expect(agrees(computed(0.02, 0, 1, 1.05) * Pr, published('0.497'), 0.01)).toBe(false)
  })
})

describe('compressible, swept', () => {
  const rows = [
    [1.62, 0, 0.9, '0.7014'],
    [1.62, 53.7, 1.0, '0.7041'],
    [2, 60, 1.2, '0.7079'],
    [3, 0, 0.8, '0.7037'],
    [3, 60, 1.5, '0.7090'],
  ] as const
  test.each(rows)('M %f, sweep %f°, Tw/Te %f', (M, sweep, TwTe, printed) => {
    const { Te, spanwise } = edge(M, sweep)
    const exact = laminarLine({ spanwise, Te, Tw: TwTe * Te })
    expect(agrees(exact.heat, published(printed), 2e-4)).toBe(true)
    const why = 'the law carries no effect of sweep'
    const quantity = `swept line, M ${M}, Λ ${sweep}°, Tw/Te ${TwTe}: h / cp √(ρe μe β)`
    expectPublished({ source, quantity, printed, computed: computed(M, sweep, TwTe), methodError: 0.03, why })
    expect(agrees(computed(M, sweep, TwTe, 1.15), published(printed), 0.03)).toBe(false)
  })

  test('the recovery temperature lies 1 % or less under the similarity solution', () => {
    for (const [M, sweep] of [
      [1.62, 53.7],
      [2, 45],
      [3, 60],
    ] as const) {
      const { Te, spanwise } = edge(M, sweep)
      const exact = Te * (1 + (laminarLine({ spanwise, Te, Tw: Te }).recovery * spanwise) / 2)
      const { recovery } = attachmentLine({ kind: 'edge', radius: 1e-4, sweep: radians(sweep) }, stream(M))
      expect(recovery / exact).toBeGreaterThan(0.99)
      expect(recovery / exact).toBeLessThan(1)
    }
  })
})

test('gradient on a cylinder in subsonic flow follows the Rayleigh-Janzen expansion', () => {
  const R = 1e-3
  const scaled = (M: number): number => {
    const { gradient } = attachmentLine({ kind: 'edge', radius: R, sweep: 0 }, stream(M))
    return (1 - (gradient * R) / (2 * stream(M).speed)) / M ** 2
  }
  expectPublished({ source, quantity: 'cylinder: loss of β over M², M → 0', printed: '0.416', computed: scaled(0.02) })
  expect(agrees(scaled(0.3), published('0.416'))).toBe(false)
})
