/** Murthy & Chamis, NASA TP-2515 (1986), sample run: moduli and fibre-direction strength with 2 % voids. */
import { expect, test } from 'vitest'
import { fibreStrength, squareRootRules, unidirectional } from '../../src/laminate/micromechanics.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const fibre = { E1: 31, E2: 2.0, G12: 2.0, nu12: 0.2 }
const matrix = { E: 0.5, nu: 0.41 }
const rows = (kf = 0.55) => {
  const content = { fibre: kf, matrix: 0.43 }
  const { E1, G12 } = unidirectional(fibre, matrix, content, squareRootRules)
  const X = fibreStrength({ S: 400, E1: 31 }, matrix, content)
  return [
    ['E11, Msi', E1, '17.26'],
    ['G12, Msi', G12, '0.5470'],
    ['S11T, ksi', X, '222.8'],
  ] as const
}

test('agrees with the sample run', () => {
  // 17.265 computed: the run truncates.
  for (const [quantity, computed, printed] of rows())
    expectPublished({ source: 'murthy-chamis-1986', quantity, printed, computed, methodError: 1e-5 })
})
test('has teeth: one per cent more fibre is noticed', () => {
  for (const [, computed, printed] of rows(0.5555)) expect(agrees(computed, published(printed), 1e-5)).toBe(false)
})
