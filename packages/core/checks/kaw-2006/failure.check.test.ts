/** Kaw (2006), ch. 2 (recalled): the largest S of σx = 2S, σy = −3S, τxy = 4S on a 60° carbon/epoxy lamina. */
import { expect, test } from 'vitest'
import type { Criterion } from '../../src/laminate/failure/criterion.ts'
import { hashin } from '../../src/laminate/failure/hashin.ts'
import { maximumStrain } from '../../src/laminate/failure/maximum-strain.ts'
import { maximumStress } from '../../src/laminate/failure/maximum-stress.ts'
import { tsaiHill, tsaiHillSigned } from '../../src/laminate/failure/tsai-hill.ts'
import { tsaiWu, tsaiWuWith } from '../../src/laminate/failure/tsai-wu.ts'
import { inPlyAxes } from '../../src/laminate/ply-stress.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const lamina = { E1: 181e9, E2: 10.3e9, G12: 7.17e9, nu12: 0.28, G13: 7.17e9, G23: 3e9 }
const strengths = { Xt: 1500e6, Xc: 1500e6, Yt: 40e6, Yc: 246e6, S: 68e6 }
const source = 'kaw-2006'

const unit = (deg = 60) => inPlyAxes([2, -3, 4], (deg * Math.PI) / 180)
/** S in MPa at failure under `criterion`. */
const largest = (criterion: Criterion, { deg = 60, given = strengths } = {}) => {
  const { s1, s2, t12 } = unit(deg)
  const stress = { s1: s1 * 1e6, s2: s2 * 1e6, t12: t12 * 1e6 }
  const { index, mode } = criterion.evaluate({ stress, strengths: given, lamina })
  return { S: 1 / index, mode }
}

test('ply stresses for S = 1', () => {
  const { s1, s2, t12 } = unit()
  for (const [quantity, computed, printed] of [
    ['σ1', s1, '1.7141'],
    ['σ2', s2, '-2.7141'],
    ['τ12', t12, '-4.1651'],
  ] as const)
    expectPublished({ source, quantity: `${quantity} for S = 1`, printed, computed })
})

test.each([
  { criterion: maximumStress, printed: '16.33', mode: 'shear' },
  { criterion: maximumStrain, printed: '16.33', mode: 'shear' },
  { criterion: tsaiHill, printed: '10.94', mode: 'combined' },
  { criterion: tsaiHillSigned, printed: '16.06', mode: 'combined' },
  { criterion: tsaiWu, printed: '22.39', mode: 'combined' },
  { criterion: tsaiWuWith(0), printed: '22.497', mode: 'combined' },
  { criterion: hashin, printed: '16.068', mode: 'compression across' },
] satisfies { criterion: Criterion; printed: string; mode: string }[])('largest S by $criterion.name', (row) => {
  const { S, mode } = largest(row.criterion)
  expectPublished({ source, quantity: `largest S by ${row.criterion.name}, MPa`, printed: row.printed, computed: S })
  expect(mode).toBe(row.mode)
  // Teeth: one degree of fibre angle, and one per cent on the strengths that govern.
  expect(agrees(largest(row.criterion, { deg: 61 }).S, published(row.printed), 1e-3)).toBe(false)
  const stronger = { ...strengths, S: 68.7e6, Yt: 40.4e6, Yc: 248.5e6 }
  expect(agrees(largest(row.criterion, { given: stronger }).S, published(row.printed), 1e-3)).toBe(false)
})
