/** Kaw, Mechanics of Composite Materials (2006), ch. 4 and 5 (recalled): stiffness, moduli, ply stresses, ply-by-ply failure. */
import { expect, test } from 'vitest'
import { bendingModuli, laminateCompliance, strainUnder, stretchingModuli } from '../../src/laminate/compliance.ts'
import { thermalStrain } from '../../src/laminate/expansion.ts'
import { maximumStrain } from '../../src/laminate/failure/maximum-strain.ts'
import { tsaiWu } from '../../src/laminate/failure/tsai-wu.ts'
import { lastPlyFailure } from '../../src/laminate/last-ply.ts'
import { plyStresses } from '../../src/laminate/ply-stress.ts'
import { laminateStiffness } from '../../src/laminate/stiffness.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const lamina = { E1: 181e9, E2: 10.3e9, G12: 7.17e9, nu12: 0.28, G13: 7.17e9, G23: 3e9 }
const strengths = { Xt: 1500e6, Xc: 1500e6, Yt: 40e6, Yc: 246e6, S: 68e6 }
const layers = (degrees: number[], t = 5e-3) =>
  degrees.map((deg) => ({ name: `${deg}°`, lamina, theta: (deg * Math.PI) / 180, t, density: 1600, strengths }))

const source = 'kaw-2006'
const check = (quantity: string, values: ArrayLike<number>, printed: readonly string[], methodError = 0) => {
  expect(values.length).toBe(printed.length)
  for (const [i, text] of printed.entries())
    expectPublished({ source, quantity: `${quantity} [${i}]`, printed: text, computed: values[i], methodError })
}
const upper = (M: Float64Array) => [M[0], M[1], M[2], M[4], M[5], M[8]]

const angles = [0, 30, -45]
const load = { N: [1000, 1000, 0], M: [0, 0, 0] }

test('examples 4.2: stiffness of [0/30/-45], entries 11 12 16 22 26 66', () => {
  const { A, B, D } = laminateStiffness({ layers: layers(angles) })
  check('A, N/m', upper(A), ['1.739e9', '3.884e8', '5.663e7', '4.533e8', '-1.141e8', '4.525e8'])
  check('B, N', upper(B), ['-3.129e6', '9.855e5', '-1.072e6', '1.158e6', '-1.072e6', '9.855e5'])
  check('D, N·m', upper(D), ['3.343e4', '6.461e3', '-5.240e3', '9.320e3', '-5.596e3', '7.663e3'])
})

test('example 4.3: strains and ply stresses under Nx = Ny = 1000 N/m', () => {
  const section = { layers: layers(angles) }
  const state = strainUnder(laminateCompliance(laminateStiffness(section)), load)
  check('mid-plane strain', state.strain, ['3.123e-7', '3.492e-6', '-7.598e-7'])
  check('curvature, 1/m', state.curvature, ['2.971e-5', '-3.285e-4', '4.101e-4'])
  // z points down in the example: its top is our bottom, the lowest z.
  const [zero, thirty, minus45] = plyStresses(section, state)
  const printedError = 1e-3 // recalled to 4 digits through intermediate values rounded to 4
  check('0° top, Pa', zero.bottom.global, ['3.351e4', '6.188e4', '-2.750e4'], printedError)
  check('30° top, Pa', thirty.bottom.global, ['6.930e4', '7.391e4', '3.381e4'], printedError)
  check('-45° bottom, Pa', minus45.top.global, ['-2.547e4', '-1.840e4', '4.091e4'], printedError)
  const inAxes = ({ s1, s2, t12 }: { s1: number; s2: number; t12: number }) => [s1, s2, t12]
  check('30° top in ply axes, Pa', inAxes(thirty.bottom.ply), ['9.973e4', '4.348e4', '1.890e4'], printedError)
  check('-45° top in ply axes, Pa', inAxes(minus45.bottom.ply), ['2.586e5', '2.123e4', '-1.638e4'], printedError)
})

test('example 4.5: [0/90] cooled by 75 K, mid-plane strain and curvature', () => {
  const expansion = { alpha1: 0.02e-6, alpha2: 22.5e-6 }
  // z points down in the example: the 0° ply, printed first, is at our bottom.
  const section = { layers: layers([0, 90]).map((layer) => ({ ...layer, expansion })) }
  const compliance = laminateCompliance(laminateStiffness(section))
  const { strain, curvature } = thermalStrain(section.layers, compliance, { temperature: -75 })
  check('thermal mid-plane strain', [strain[0], strain[1]], ['-3.907e-4', '-3.907e-4'], 1e-3)
  check('thermal curvature, 1/m', [curvature[0], curvature[1]], ['-1.276e-1', '1.276e-1'], 1e-3)
  expect(Math.abs(strain[2]) + Math.abs(curvature[2])).toBeLessThan(1e-15)
})

test('example 4.4: moduli of [0/90/0] in stretching and in bending', () => {
  const section = { layers: layers([0, 90, 0]) }
  const compliance = laminateCompliance(laminateStiffness(section))
  const membrane = stretchingModuli(compliance, 15e-3)
  const bending = bendingModuli(compliance, 15e-3)
  check('Ex Ey Gxy, GPa', [membrane.Ex / 1e9, membrane.Ey / 1e9, membrane.Gxy / 1e9], ['124.53', '67.434', '7.170'])
  check('νxy', [membrane.nuxy], ['0.04292'])
  check(
    'flexural Ex Ey Gxy, GPa',
    [bending.Ex / 1e9, bending.Ey / 1e9, bending.Gxy / 1e9],
    ['174.96', '16.649', '7.170'],
  )
  check('flexural νxy', [bending.nuxy], ['0.17350'])
})

const pulled = { N: [1, 0, 0], M: [0, 0, 0] }

test('chapter 5: first and last ply failure of [0/90/0] under Nx', () => {
  for (const [criterion, first] of [
    [maximumStrain, '7.254e6'],
    [tsaiWu, '7.277e6'],
  ] as const) {
    const { firstPlyFactor, lastPlyFactor, failures } = lastPlyFailure(layers([0, 90, 0]), pulled, criterion)!
    expectPublished({
      source,
      quantity: `first ply by ${criterion.name}, N/m`,
      printed: first,
      computed: firstPlyFactor,
    })
    expectPublished({
      source,
      quantity: `last ply by ${criterion.name}, N/m`,
      printed: '1.5e7',
      computed: lastPlyFactor,
    })
    expect(failures.map(({ layer }) => layer)).toEqual(['90°', '0°', '0°'])
  }
})

test('has teeth: one per cent on thickness and two degrees on an angle are noticed', () => {
  const { D } = laminateStiffness({ layers: layers(angles, 5.05e-3) })
  expect(agrees(D[0], published('3.343e4'), 1e-3)).toBe(false)
  const turned = { layers: layers([0, 32, -45]) }
  const state = strainUnder(laminateCompliance(laminateStiffness(turned)), load)
  expect(agrees(state.curvature[2], published('4.101e-4'), 1e-3)).toBe(false)
  expect(agrees(plyStresses(turned, state)[1].bottom.ply.s1, published('9.973e4'), 1e-3)).toBe(false)
  const compliance = laminateCompliance(laminateStiffness({ layers: layers([0, 88, 0]) }))
  expect(agrees(stretchingModuli(compliance, 15e-3).Ey / 1e9, published('67.434'), 5e-4)).toBe(false)
  const thin = lastPlyFailure(layers([0, 90, 0], 4.95e-3), pulled, tsaiWu)
  expect(agrees(thin!.firstPlyFactor, published('7.277e6'), 1e-3)).toBe(false)
})
