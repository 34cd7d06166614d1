/** Ply stresses from the plate's strains, as the strength check takes them, against lamination theory by hand: source.md. */
import { expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { type Laminate, laminate } from '../../src/laminate/laminate.ts'
import { plyStresses } from '../../src/laminate/ply-stress.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { plateStatic } from '../../src/plate/static.ts'
import { cornerStrains, elementStrains } from '../../src/plate/strains.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const [L, width, P] = [0.12, 0.02, 3] // m, m, N
const mpa = 1e-6

const ply = (E1: number, E2: number, nu12: number, theta: number, t: number) => ({
  ...{ name: '', theta, t, density: 1500, strengths: null },
  // stiff across, so that shear adds nothing
  lamina: { E1, E2, nu12, G12: 5.6e9, G13: 5e12, G23: 5e12 },
})

/** Corner strains under the tip force nearest to a point. */
function strainsNear(section: Laminate, [px, py]: readonly [number, number]) {
  const { A, B, D, H, inertia } = section
  const plate = { A, B, D, S: H, massPerArea: inertia.m0, rotaryInertia: inertia.m2 }
  const model = assemblePlate({
    mesh: meshOutline({
      outline: [
        [0, 0],
        [width, 0],
        [width, L],
        [0, L],
      ],
      size: 5e-3,
    }),
    supports: ['clamped', 'free', 'free', 'free'],
    sectionAt: () => plate,
  })
  // P over the tip as a line, by Simpson's rule on the sides of the mesh: nothing is concentrated
  const { nodes } = model.layout
  const nodal = new Float64Array(nodes.X.length / 2)
  for (const { nodes: three, segment } of nodes.sides) {
    if (segment !== 2) continue
    const share = Math.abs(nodes.X[2 * three[2]] - nodes.X[2 * three[0]]) / width
    three.forEach((node, k) => {
      nodal[node] += P * share * [1 / 6, 2 / 3, 1 / 6][k]
    })
  }
  const solved = plateStatic(model, { nodal })
  if (solved.kind !== 'solved') throw new Error(solved.kind)
  const away = ({ x, y }: { readonly x: number; readonly y: number }): number => Math.hypot(x - px, y - py)
  const all = cornerStrains(elementStrains(model, solved.field))
  return all.reduce((best, strain) => (away(strain) < away(best) ? strain : best))
}

const stressesNear = (section: Laminate, at: readonly [number, number]) => {
  const { membrane, curvature, y } = strainsNear(section, at)
  return { y, layers: plyStresses(section, { strain: membrane, curvature }) }
}

const twoPlies = (E: number) => laminate([ply(E, E, 0, 0, 1e-3), ply(7.9e9, 7.9e9, 0, 0, 1e-3)], 1e-3)

test('at the root, two unlike plies', () => {
  const { y, layers } = stressesNear(twoPlies(98e9), [width / 2, 0])
  expect(y).toBeCloseTo(0, 12)
  const rows = [
    ['lower ply, outer face', '62.8169', layers[0].bottom],
    ['lower ply, inner face', '-46.5062', layers[0].top],
    ['upper ply, inner face', '-3.74897', layers[1].bottom],
    ['upper ply, outer face', '-12.5617', layers[1].top],
  ] as const
  for (const [place, printed, { global }] of rows) {
    expectPublished({
      source: 'root-ply-stress',
      quantity: `root, ${place}, MPa`,
      printed,
      computed: mpa * global[1],
      methodError: 1e-3,
    })
  }
})

test('half-way along, cross-ply with its Poisson ratio', () => {
  const along = Math.PI / 2
  const section = laminate([
    ply(98e9, 7.9e9, 0.28, along, 0.5e-3),
    ply(98e9, 7.9e9, 0.28, 0, 1e-3),
    ply(98e9, 7.9e9, 0.28, along, 0.5e-3),
  ])
  const { y, layers } = stressesNear(section, [width / 2, L / 2])
  const moment = (L - y) / (L - 0.06) // the nearest corner of a triangle is not half-way exactly
  const [outer, inner] = [layers[2].top, layers[1].top]
  expectPublished({
    source: 'root-ply-stress',
    quantity: 'middle, outer ply along its fibres, MPa',
    printed: '-15.2581',
    computed: (mpa * outer.ply.s1) / moment,
    methodError: 2e-3,
  })
  expectPublished({
    source: 'root-ply-stress',
    quantity: 'middle, inner ply along its fibres, MPa',
    printed: '0.710302',
    computed: (mpa * inner.ply.s1) / moment,
    methodError: 0.01,
  })
})

test('has teeth: one per cent on the stiff ply is noticed', () => {
  const { layers } = stressesNear(twoPlies(0.99 * 98e9), [width / 2, 0])
  expect(agrees(mpa * layers[1].top.global[1], published('-12.5617'), 1e-3)).toBe(false)
})
