/** ASTM D2734: voids from a measured density, and the content that goes with them. Per cent. */
import { expect, test } from 'vitest'
import { contentByMass, voidFraction } from '../../src/laminate/content.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const rows = (matrix = 1150) => {
  const density = { fibre: 2580, matrix }
  const voids = voidFraction(density, { fibreMass: 0.6, measured: 1680 })
  const content = contentByMass(density, { fibreMass: 0.6, voids })
  return [
    ['voids, %', voids * 100, '2.495'],
    ['fibre, %', content.fibre * 100, '39.07'],
    ['matrix, %', content.matrix * 100, '58.43'],
  ] as const
}

test('agrees with the worked case, and the parts fill the whole', () => {
  for (const [quantity, computed, printed] of rows())
    expectPublished({ source: 'astm-d2734', quantity, printed, computed })
  const [voids, fibre, matrix] = rows().map(([, computed]) => computed)
  expect(voids + fibre + matrix).toBeCloseTo(100, 10)
})
test('one per cent on the resin density moves the voids to 3.00 %', () => {
  const [[, voids]] = rows(1160)
  expectPublished({ source: 'astm-d2734', quantity: 'voids with resin 1.16, %', printed: '3.00', computed: voids })
})
test('has teeth: one per cent on the resin density is noticed', () => {
  const noticed = rows(1161.5).filter(([, computed, printed]) => !agrees(computed, published(printed)))
  // The fibre's volume follows from its mass and the measured density alone.
  expect(noticed.map(([quantity]) => quantity)).toEqual(['voids, %', 'matrix, %'])
})
