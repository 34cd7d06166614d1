/** Kaw (2006), ch. 3 (recalled, recomputed): density and moduli of glass/epoxy at Vf = 0.70. GPa, kg/m³. */
import { expect, test } from 'vitest'
import { laminateDensity } from '../../src/laminate/content.ts'
import { halpinTsaiRules, seriesRules, unidirectional } from '../../src/laminate/micromechanics.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const Vf = 0.7
const density = { fibre: 2500, matrix: 1200 }
const matrix = { E: 3.4, nu: 0.3 }
const fibre = (Ef = 85) => ({ E1: Ef, E2: Ef, G12: Ef / (2 * 1.2), nu12: 0.2 })
const content = (f = Vf) => ({ fibre: f, matrix: 1 - f })
const ud = (rules = seriesRules, f = Vf) => unidirectional(fibre(), matrix, content(f), rules)

const rows = (f = Vf) => {
  const bySeries = ud(seriesRules, f)
  const byHalpinTsai = ud(halpinTsaiRules, f)
  const rho = laminateDensity(density, content(f))
  return [
    ['density, kg/m³', rho, '2110'],
    ['fibre mass fraction', (density.fibre * f) / rho, '0.8294'],
    ['E1, GPa', bySeries.E1, '60.52'],
    ['E2 in series, GPa', bySeries.E2, '10.37'],
    ['ν12', bySeries.nu12, '0.230'],
    ['ν21', (bySeries.nu12 * bySeries.E2) / bySeries.E1, '0.0394'],
    ['G12 in series, GPa', bySeries.G12, '4.013'],
    ['E2 by Halpin-Tsai, GPa', byHalpinTsai.E2, '20.20'],
    ['G12 by Halpin-Tsai, GPa', byHalpinTsai.G12, '6.168'],
  ] as const
}

test('agrees with the recomputed values', () => {
  for (const [quantity, computed, printed] of rows())
    expectPublished({ source: 'kaw-2006', quantity, printed, computed })
})
test('has teeth: two per cent more fibre is noticed by every row', () => {
  for (const [, computed, printed] of rows(0.714)) expect(agrees(computed, published(printed), 1e-3)).toBe(false)
})
