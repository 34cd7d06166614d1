/** Simply supported sandwich plate whose core shears: source.md. */
import { expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { laminate } from '../../src/laminate/laminate.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const [a, b] = [1.8288, 1.2192] // m
const meshError = 2e-3 // with the faces' own shear, 1e-3

/** `soften` divides the core's shear moduli. Thin layers without stiffness in their plane need some: a millionth of the faces'. */
function frequencies(soften: number): readonly number[] {
  const tf = 0.4064e-3
  const face = { E1: 68.95e9, E2: 68.95e9, nu12: 0.33, G12: 68.95e9 / 2.66, G13: 68.95e9 / 2.66, G23: 68.95e9 / 2.66 }
  const core = { E1: 1e4, E2: 1e4, nu12: 0, G12: 5e3, G13: 134.45e6 / soften, G23: 51.71e6 / soften }
  const layer = (lamina: typeof face, t: number, density: number) => ({
    name: '',
    lamina,
    theta: 0,
    t,
    density,
    strengths: null,
  })
  const { A, B, D, H, inertia } = laminate([layer(face, tf, 2768), layer(core, 6.35e-3, 121.8), layer(face, tf, 2768)])
  const section = { A, B, D, S: H, massPerArea: inertia.m0, rotaryInertia: 0 }
  const model = assemblePlate({
    mesh: meshOutline({
      outline: [
        [0, 0],
        [a, 0],
        [a, b],
        [0, b],
      ],
      size: b / 10,
    }),
    supports: ['simple', 'simple', 'simple', 'simple'],
    sectionAt: () => section,
  })
  return plateModes(model, 6).omega.map((omega) => omega / (2 * Math.PI))
}

const names = ['(1,1)', '(2,1)', '(1,2)', '(3,1)', '(2,2)', '(3,2)']

test('frequencies as published, recalled', () => {
  const computed = frequencies(1)
  ;['23', '44', '71', '80', '91', '126'].forEach((printed, i) => {
    expectPublished({
      source: 'raville-ueng-1967',
      quantity: `frequency ${names[i]}, Hz`,
      printed,
      computed: computed[i],
      methodError: 0.01,
    })
  })
})

test('where shear governs: Navier, summed elsewhere', () => {
  const computed = frequencies(20)
  ;['20.663', '37.982', '50.474', '63.857', '64.107', '84.330'].forEach((printed, i) => {
    expectPublished({
      source: 'raville-ueng-1967',
      quantity: `frequency ${i + 1} with a core a twentieth as stiff, Hz`,
      printed,
      computed: computed[i],
      methodError: meshError,
    })
  })
})

test('has teeth: five per cent on the core’s shear', () => {
  expect(agrees(frequencies(20 * 1.05)[2], published('50.474'), meshError)).toBe(false)
  expect(agrees(frequencies(1.05 * 20)[5], published('84.330'), meshError)).toBe(false)
  expect(agrees(frequencies(20)[0], published('23'), 0.01)).toBe(false)
})
