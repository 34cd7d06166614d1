/** Load of a long double lap, elastic and elastic-plastic adhesive. N/mm, mm, MPa. */
import { expect, test } from 'vitest'
import { doubleLapLoad } from '../../src/bond/joint/lap.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const load = (gammaP: number, ta = 0.2) =>
  doubleLapLoad({ inner: 70000 * 3.2, outer: 70000 * 1.6, ta, tauP: 30, gammaE: 30 / 1100, gammaP })
const rows = [
  { gammaP: 0.05, printed: '827.17' },
  { gammaP: 0, printed: '382.91' },
] as const

test.each(rows)('plastic strain $gammaP', ({ gammaP, printed }) => {
  const quantity = `P at plastic strain ${gammaP}, N/mm`
  expectPublished({ source: 'hart-smith-1973', quantity, printed, computed: load(gammaP) })
})
test('without plastic strain it is 4 τp / λ of Volkersen’s lap between the inner and one outer adherend, by symmetry', () => {
  const lambda = Math.sqrt((1100 / 0.2) * (1 / (70000 * 1.6) + 2 / (70000 * 3.2)))
  expect(load(0)).toBeCloseTo((4 * 30) / lambda, 6)
})
test('has teeth: one per cent on the bond line', () => {
  for (const { gammaP, printed } of rows) expect(agrees(load(gammaP, 0.202), published(printed))).toBe(false)
})
