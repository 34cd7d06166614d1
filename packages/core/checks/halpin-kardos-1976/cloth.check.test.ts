/** Balanced glass cloth as two Halpin-Tsai layers, without crimp: moduli over fibre content. GPa. */
import { expect, test } from 'vitest'
import { contentByMass } from '../../src/laminate/content.ts'
import { inPlaneModuli, rotatedStiffness } from '../../src/laminate/lamina.ts'
import { clothLamina } from '../../src/laminate/ply.ts'
import { cloths } from '../../src/material/catalogue.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const own = (value: number) => ({ value, source: 'stated for the check', confidence: 'plan' as const })
const glass = cloths['glass-plain-200']
const cloth = {
  ...glass,
  crimpFactor: own(1),
  warpShare: own(0.5),
  fibre: { ...glass.fibre, E1: own(72.4), E2: own(72.4), G12: own(72.4 / 2.44), nu12: own(0.22) },
}
const moduli = (Wf: number) => {
  const { fibre: Vf } = contentByMass({ fibre: 2580, matrix: 1150 }, { fibreMass: Wf, voids: 0 })
  const lamina = clothLamina(cloth, { E: 3, nu: 0.36 }, Vf)
  const turned = inPlaneModuli(rotatedStiffness(lamina, Math.PI / 4))
  return [lamina.E1, lamina.nu12, lamina.G12, turned.E1, turned.G12]
}

const names = ['E', 'ν', 'G12', 'E at 45°', 'G at 45°']
const table = [
  { Wf: 0.45, printed: ['13.8', '0.137', '1.83', '5.96', '6.07'] },
  { Wf: 0.5, printed: ['15.5', '0.131', '1.99', '6.50', '6.86'] },
  { Wf: 0.55, printed: ['17.4', '0.127', '2.18', '7.15', '7.73'] },
  { Wf: 0.6, printed: ['19.5', '0.125', '2.41', '7.93', '8.69'] },
  { Wf: 0.67, printed: ['22.9', '0.123', '2.84', '9.34', '10.21'] },
  { Wf: 0.7, printed: ['24.6', '0.123', '3.08', '10.1', '10.9'] },
] as const

test.each(table)('at $Wf fibre by mass', ({ Wf, printed }) => {
  for (const [i, computed] of moduli(Wf).entries())
    expectPublished({
      source: 'halpin-kardos-1976',
      quantity: `${names[i]} of 0/90 glass at ${Wf} fibre by mass, GPa`,
      printed: printed[i],
      computed,
    })
})
test('has teeth: two per cent of the mass moved from resin to fibre is noticed by every modulus', () => {
  for (const { Wf, printed } of table)
    for (const i of [0, 2, 3, 4]) expect(agrees(moduli(Wf + 0.02)[i], published(printed[i]))).toBe(false)
})
