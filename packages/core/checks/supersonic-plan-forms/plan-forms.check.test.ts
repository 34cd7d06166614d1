/** Closed forms of flat plan forms in supersonic flow; see source.md. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { keptFlow, steadyPressure } from '../../src/air/supersonic/generalized-forces.ts'
import { sourceLattice, sourceLatticeSize } from '../../src/air/supersonic/lattice.ts'
import { supersonicFlow } from '../../src/air/supersonic/solution.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'supersonic-plan-forms'
const methodError = 0.005
const beta = (mach: number): number => Math.sqrt(mach ** 2 - 1)
/** Half of the plan form, its root on the mirror. */
const rectangle = (A: number): Point[] => [[0, 0], [1, 0], [1, A / 2], [0, A / 2]] // biome-ignore format: corners
const triangle = (mach: number, m: number): Point[] => [[0, 0], [1, 0], [1, m / beta(mach)]] // biome-ignore format: corners

/** Lift slope and centre of pressure (symmetric), or roll damping (antisymmetric). */
function loads(outline: readonly Point[], mach: number, boxes = 150) {
  const lattice = sourceLattice(outline, sourceLatticeSize(outline, boxes))
  const { y, area, forceX } = lattice
  const span = Math.max(...outline.map(([, at]) => at))
  const S =
    Math.abs(
      outline.reduce(
        (sum, [x, v], i) => sum + x * outline[(i + 1) % outline.length][1] - outline[(i + 1) % outline.length][0] * v,
        0,
      ),
    ) / 2
  const pitch = steadyPressure(
    keptFlow(supersonicFlow(lattice, mach)),
    y.map(() => -1),
  )
  const roll = steadyPressure(
    keptFlow(supersonicFlow(lattice, mach, -1)),
    y.map((v) => -v),
  )
  const sum = (f: (box: number) => number) => area.reduce((total, A, box) => total + A * f(box), 0)
  const lift = sum((box) => pitch[box])
  return {
    slope: lift / S,
    centre: sum((box) => pitch[box] * forceX[box]) / lift,
    // Moment of both halves over q S b, per p b/2V: w/V = y p/V.
    damping: (-2 * sum((box) => roll[box] * y[box])) / (2 * S) / (2 * span ** 2),
  }
}

describe('rectangle, aspect ratio 2', () => {
  test.each([
    [1.5, '2.778'],
    [1.96, '2.021'],
    [2.5, '1.555'],
    [3, '1.289'],
  ] as const)('M %f', (mach, printed) => {
    const computed = loads(rectangle(2), mach).slope
    expectPublished({ source, quantity: `lift slope, rectangle A = 2, M ${mach}`, printed, computed, methodError })
  })
})

describe('rectangle, β A from 1 up', () => {
  const cases = [1, 1.2, 1.5, 2, 3, 5, 10].flatMap((betaA) => [1.05, 1.3, 2, 5].map((mach) => ({ betaA, mach })))
  test.each(cases)('β A = $betaA, M $mach', ({ betaA, mach }) => {
    const computed = loads(rectangle(betaA / beta(mach)), mach).slope * beta(mach)
    const printed = (4 - 2 / betaA).toFixed(5)
    expectPublished({ source, quantity: `β C_Lα, rectangle β A = ${betaA}, M ${mach}`, printed, computed, methodError })
  })
})

/** E(sqrt(1 − m²)) by quadrature: smooth and periodic, so the midpoint rule is exact to rounding. */
function ellipticE(m: number): number {
  const n = 400
  const at = (i: number) => Math.sqrt(1 - (1 - m * m) * Math.sin((Math.PI * (i + 0.5)) / n) ** 2)
  return (Array.from({ length: n }, (_, i) => at(i)).reduce((sum, v) => sum + v, 0) * Math.PI) / (2 * n)
}

describe('triangle', () => {
  test('m = 0.5', () => {
    const computed = loads(triangle(1.5, 0.5), 1.5).slope * beta(1.5)
    expectPublished({ source, quantity: 'β C_Lα, triangle m = 0.5', printed: '2.594', computed, methodError })
  })

  const behind = [0.2, 0.3, 0.4, 0.6, 0.7, 0.8, 0.9]
  test.each(behind.flatMap((m) => [1.1, 2].map((mach) => ({ m, mach }))))(
    'behind the Mach line, m = $m, M $mach',
    ({ m, mach }) => {
      const { slope, centre } = loads(triangle(mach, m), mach)
      const printed = ((2 * Math.PI * m) / ellipticE(m)).toFixed(5)
      const quantity = `β C_Lα, triangle m = ${m}, M ${mach}`
      expectPublished({ source, quantity, printed, computed: slope * beta(mach), methodError })
      expectPublished({
        source,
        quantity: `centre of pressure, triangle m = ${m}, M ${mach}`,
        printed: '0.66667',
        computed: centre,
        methodError: 0.008,
      })
    },
  )

  test.each([0.95, 0.98, 1, 1.02, 1.2, 2, 4])('about and ahead of the Mach line, m = %f', (m) => {
    const printed = (m < 1 ? (2 * Math.PI * m) / ellipticE(m) : 4).toFixed(5)
    const computed = loads(triangle(1.5, m), 1.5).slope * beta(1.5)
    expectPublished({ source, quantity: `β C_Lα, triangle m = ${m}`, printed, computed, methodError: 0.008 })
  })
})

describe('roll damping', () => {
  test.each([2, 3, 4, 6])('rectangle, β A = %f', (betaA) => {
    const mach = 1.8
    const printed = ((-2 / 3) * (1 - 1.5 / betaA + 0.5 / betaA ** 2 + 0.125 / betaA ** 3)).toFixed(5)
    const computed = loads(rectangle(betaA / beta(mach)), mach).damping * beta(mach)
    expectPublished({ source, quantity: `β C_lp, rectangle β A = ${betaA}`, printed, computed, methodError: 0.007 })
  })

  test.each([1, 1.2, 2, 3])('triangle ahead of the Mach line, m = %f', (m) => {
    const computed = loads(triangle(1.5, m), 1.5).damping * beta(1.5)
    expectPublished({ source, quantity: `β C_lp, triangle m = ${m}`, printed: '-0.33333', computed, methodError })
  })

  test('slender triangle', () => {
    const m = 0.1
    const A = (4 * m) / beta(1.5)
    const printed = ((-Math.PI * A) / 32).toFixed(6)
    const computed = loads(triangle(1.5, m), 1.5).damping
    const why = 'a limit for m → 0, read at m = 0.1'
    expectPublished({ source, quantity: 'C_lp, slender triangle', printed, computed, methodError: 0.02, why })
  })
})

test('has teeth: one per cent of span or of Mach number is noticed', () => {
  expect(agrees(loads(rectangle(2.02), 1.5).slope * (2.02 / 2), published('2.778'), methodError)).toBe(false)
  expect(agrees(loads(rectangle(2), 1.5 * 1.01).slope, published('2.778'), methodError)).toBe(false)
})
