/** A balanced woven ply at 45°: closed forms for its moduli. GPa. */
import { expect, test } from 'vitest'
import { inPlaneModuli, reducedStiffness, rotatedStiffness } from '../../src/laminate/lamina.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const rows = (G12 = 5.3) => {
  const lamina = { E1: 29.7, E2: 29.7, G12, nu12: 0.17, G13: 3, G23: 3 }
  const Q = reducedStiffness(lamina)
  // At 45° a balanced ply has no 16 terms, so its turned stiffness is that of an orthotropic ply again.
  const turned = inPlaneModuli(rotatedStiffness(lamina, Math.PI / 4))
  return [
    ['E at 45°, GPa', turned.E1, '16.355'],
    ['G at 45°, GPa', turned.G12, '12.692'],
    ['Q11, GPa', Q[0], '30.584'],
    ['Q12, GPa', Q[1], '5.199'],
  ] as const
}

test('agrees with the closed forms', () => {
  for (const [quantity, computed, printed] of rows())
    expectPublished({ source: 'daniel-ishai-2006', quantity, printed, computed })
})
test('has teeth: two per cent on G12 shows in E at 45° and nowhere else', () => {
  const noticed = rows(5.406).filter(([, computed, printed]) => !agrees(computed, published(printed)))
  expect(noticed.map(([quantity]) => quantity)).toEqual(['E at 45°, GPa'])
})
