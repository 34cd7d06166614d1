/** Tensile strength of an E-glass/epoxy ply pulled off axis, MPa, by three criteria; inputs after Mallick (2008). */
import { expect, test } from 'vitest'
import type { Criterion } from '../../src/laminate/failure/criterion.ts'
import { hashin } from '../../src/laminate/failure/hashin.ts'
import { maximumStress } from '../../src/laminate/failure/maximum-stress.ts'
import { tsaiWu } from '../../src/laminate/failure/tsai-wu.ts'
import { inPlyAxes } from '../../src/laminate/ply-stress.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const lamina = { E1: 39e9, E2: 8.6e9, G12: 3.254e9, nu12: 0.28, G13: 3.254e9, G23: 3e9 }
const strengths = { Xt: 1080, Xc: 620, Yt: 39, Yc: 128, S: 89 }
const strength = (criterion: Criterion, deg: number) => {
  const stress = inPlyAxes([1, 0, 0], (deg * Math.PI) / 180)
  return 1 / criterion.evaluate({ stress, strengths, lamina }).index
}

const criteria = [tsaiWu, maximumStress, hashin]
const printed: readonly [number, ...string[]][] = [
  [0, '1080', '1080', '1080'],
  [10, '471.40', '520.44', '471.49'],
  [30, '123.32', '156.00', '124.26'],
  [45, '70.99', '78.00', '71.44'],
  [60, '50.26', '52.00', '50.41'],
  [90, '39', '39', '39'],
]

test.each(printed)('at %i degrees', (deg, ...values) => {
  expect(values.length).toBe(criteria.length)
  for (const [i, text] of values.entries()) {
    const computed = strength(criteria[i], deg)
    const quantity = `off-axis strength at ${deg}°, ${criteria[i].name}, MPa`
    expectPublished({ source: 'mallick-2008', quantity, printed: text, computed })
    if (deg > 0 && deg < 90) expect(agrees(strength(criteria[i], deg + 1), published(text), 1e-3)).toBe(false)
  }
})
