/** Chamis, NASA TM-83320 (1983), worked examples: content with voids and ply moduli. Msi and lb/in³ as printed. */
import { expect, test } from 'vitest'
import { contentByMass, laminateDensity } from '../../src/laminate/content.ts'
import { squareRootRules, unidirectional } from '../../src/laminate/micromechanics.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const fibre = { E1: 31, E2: 2.0, G12: 2.0, nu12: 0.2 }
const matrix = { E: 0.5, nu: 0.41 }
const density = { fibre: 0.063, matrix: 0.046 }
const ply = (fibreMass: number, voids: number) => {
  const content = contentByMass(density, { fibreMass, voids })
  return { kf: content.fibre, ...unidirectional(fibre, matrix, content, squareRootRules) }
}

/** Every printed number, with its inputs shifted by `nudge` in fibre mass fraction. */
const rows = (nudge = 0) => {
  const voids = ply(0.7 + nudge, 0.01)
  const sound = ply(0.7 + nudge, 0)
  const light = contentByMass({ fibre: 0.063, matrix: 0.044 }, { fibreMass: 0.6 + nudge, voids: 0.02 })
  const lean = contentByMass(density, { fibreMass: 0.65 + nudge, voids: 0 })
  const glass = { fibre: 0.09, matrix: 0.046 }
  const glassVoids = contentByMass(glass, { fibreMass: 0.75 + nudge, voids: 0.04 })
  const glassSound = contentByMass(glass, { fibreMass: 0.75 + nudge, voids: 0 })
  return [
    ['kf at 70 % by mass, 1 % voids', voids.kf, '0.624'],
    ['E22 at 70 %, 1 % voids, Msi', voids.E2, '1.23'],
    ['G12 at 70 %, 1 % voids, Msi', voids.G12, '0.63'],
    ['kf at 70 %', sound.kf, '0.63'],
    ['E11 at 70 %, Msi', sound.E1, '19.7'],
    ['E22 at 70 %, Msi', sound.E2, '1.24'],
    ['G12 at 70 %, Msi', sound.G12, '0.64'],
    ['ν12 at 70 %', sound.nu12, '0.278'],
    ['kf at 60 %, 2 % voids', light.fibre, '0.50'],
    ['km at 65 %', lean.matrix, '0.42'],
    ['density at 65 %, lb/in³', laminateDensity(density, lean), '0.056'],
    ['kf of S-glass at 75 %, 4 % voids', glassVoids.fibre, '0.58'],
    ['km of S-glass at 75 %, 4 % voids', glassVoids.matrix, '0.38'],
    ['kf of S-glass at 75 %', glassSound.fibre, '0.605'],
  ] as const
}

test('agrees with every worked example', () => {
  for (const [quantity, computed, printed] of rows())
    expectPublished({ source: 'chamis-1983', quantity, printed, computed })
})
test('has teeth: three per cent more fibre is noticed', () => {
  const slipped = rows(0.03).filter(([, computed, printed]) => agrees(computed, published(printed)))
  // The density of the mix, printed to two digits, is the one number that does not notice.
  expect(slipped.map(([quantity]) => quantity)).toEqual(['density at 65 %, lb/in³'])
})
