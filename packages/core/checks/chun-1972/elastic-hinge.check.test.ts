/** Strip held by a rotational spring against the frequency equation of a beam on an elastic hinge: source.md. */
import { expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { plateStatic } from '../../src/plate/static.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

/** m, m, N·m, kg/m²; ν = 0 */
const strip = { L: 0.2, width: 0.02, D: 40, m: 5 }
const meshError = 2e-4 // half a thousandth of ω is what is asked for; λ goes with its square root

const section = {
  A: [1e8, 0, 0, 0, 1e8, 0, 0, 0, 5e7],
  B: new Float64Array(9),
  D: [strip.D, 0, 0, 0, strip.D, 0, 0, 0, strip.D / 2],
  S: [1e9, 0, 0, 1e9], // rigid in shear: D / (S L²) is 1e-6
  massPerArea: strip.m,
  rotaryInertia: 0,
}

function plate(hinge: number) {
  const { L, width, D } = strip
  return assemblePlate({
    mesh: meshOutline({
      outline: [
        [0, 0],
        [width, 0],
        [width, L],
        [0, L],
      ],
      size: 0.012,
    }),
    supports: [
      { deflection: 1e12, coupling: 0, rotation: (hinge * D) / L, twist: 0, inPlane: 'held' },
      'free',
      'free',
      'free',
    ],
    sectionAt: () => section,
  })
}

const lambda = (hinge: number, mode: number): number => {
  // torsion of so narrow a strip lies above its second bending
  const { omega } = plateModes(plate(hinge), 2)
  return (omega[mode] ** 2 * strip.m * (strip.L ** 4 / strip.D)) ** 0.25
}

const rows = [
  { hinge: 0.1, printed: ['0.735782', '3.938466'] },
  { hinge: 1, printed: ['1.247917', '4.031139'] },
  { hinge: 10, printed: ['1.722742', '4.399523'] },
  { hinge: 100, printed: ['1.856787', '4.649726'] },
] as const

test.each(rows)('k L / EI = $hinge', ({ hinge, printed }) => {
  printed.forEach((text, mode) => {
    expectPublished({
      source: 'chun-1972',
      quantity: `λ${mode + 1} at k L / EI = ${hinge}`,
      printed: text,
      computed: lambda(hinge, mode),
      methodError: meshError,
    })
  })
})

test('has teeth: one per cent on the spring is noticed', () => {
  expect(agrees(lambda(1.01, 0), published('1.247917'), meshError)).toBe(false)
})

test('deflection under a force at the tip', () => {
  const { L, width, D } = strip
  const solved = plateStatic(plate(2), { forces: [{ at: [width / 2, L], force: 3 }] })
  if (solved.kind !== 'solved') throw new Error(solved.kind)
  const EI = D * width
  const exact = 3 * (L ** 3 / (3 * EI) + L ** 2 / ((2 * D * width) / L))
  const tip = Math.max(...solved.field.w)
  expect(tip / exact).toBeCloseTo(1, 3)
})
