/** Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), sections 2.7, 2.15, 3.11, 7.7; see source.md. */
import { expect, test } from 'vitest'
import { conduction } from '../../src/flight/heat/conduction.ts'
import { type ThermalLayer, wallOf } from '../../src/flight/heat/section.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'carslaw-jaeger-1959'
const meshError = 1e-4
const [k, density, specificHeat] = [0.35, 1700, 1000]
const kappa = k / (density * specificHeat)
const [start, recovery] = [300, 400]

interface Body {
  readonly shape: 'slab' | 'cylinder'
  readonly half: number
  readonly layers?: readonly ThermalLayer[]
  readonly inner?: 'adiabatic' | 'heated'
  readonly initial?: (depth: number) => number
}

/** Temperatures of the nodes after some seconds of constant heating. */
function heated(body: Body, { h, seconds, steps }: { h: number; seconds: number; steps: number }) {
  const { shape, half, inner = 'adiabatic', initial = () => start } = body
  const layers = body.layers ?? [{ thickness: half, conductivity: k, density, specificHeat }]
  const wall = wallOf({ layers, shape, inner, cells: 200 })
  const T = Float64Array.from(wall.depth, initial)
  const heating = { recovery, coefficient: () => h }
  const advance = conduction(wall)
  for (let j = 0; j < steps; j++)
    advance(T, { duration: seconds / steps, start: heating, stage: heating, end: heating })
  return { T, depth: wall.depth, theta: (i: number) => (recovery - T[i]) / (recovery - start) }
}

const rows = [
  ['slab', 0.1, 1, '0.9224', '0.8781'],
  ['slab', 1, 0.2, '0.9506', '0.6434'],
  ['slab', 1, 1, '0.5339', '0.3482'],
  ['slab', 10, 0.2, '0.8293', '0.1225'],
  ['slab', 10, 1, '0.1638', '0.0232'],
  ['cylinder', 1, 0.2, '0.8702', '0.5702'],
  ['cylinder', 1, 1, '0.2494', '0.1603'],
  ['cylinder', 10, 0.2, '0.6002', '0.0748'],
] as const

const L = 2e-3
const afterHeating = (shape: 'slab' | 'cylinder', Bi: number, Fo: number) => {
  const { T, theta } = heated({ shape, half: L }, { h: (Bi * k) / L, seconds: (Fo * L ** 2) / kappa, steps: 400 })
  return { middle: theta(T.length - 1), surface: theta(0) }
}

test.each(rows)('%s, Bi %f, Fo %f', (shape, Bi, Fo, middle, surface) => {
  const computed = afterHeating(shape, Bi, Fo)
  const name = `${shape}, Bi ${Bi}, Fo ${Fo}: θ`
  expectPublished({
    source,
    quantity: `${name} middle`,
    printed: middle,
    computed: computed.middle,
    methodError: meshError,
  })
  expectPublished({
    source,
    quantity: `${name} surface`,
    printed: surface,
    computed: computed.surface,
    methodError: meshError,
  })
})

test('has teeth: one per cent on the heat transfer coefficient is noticed', () => {
  const noticed = rows.filter(
    ([shape, Bi, Fo, middle, surface]) =>
      !agrees(afterHeating(shape, 1.01 * Bi, Fo).middle, published(middle), meshError) ||
      !agrees(afterHeating(shape, 1.01 * Bi, Fo).surface, published(surface), meshError),
  )
  expect(noticed).toHaveLength(rows.length)
})

test('a slab heated on both faces is two halves', () => {
  const [Bi, Fo] = [1, 1]
  const both = {
    shape: 'slab',
    half: L,
    inner: 'heated',
    layers: [{ thickness: 2 * L, conductivity: k, density, specificHeat }],
  } as const
  const { T, theta } = heated(both, { h: (Bi * k) / L, seconds: (Fo * L ** 2) / kappa, steps: 400 })
  const [middle, last] = [theta((T.length - 1) / 2), theta(T.length - 1)]
  expectPublished({
    source,
    quantity: 'slab heated on both faces, Bi 1, Fo 1: θ middle',
    printed: '0.5339',
    computed: middle,
    methodError: meshError,
  })
  expectPublished({
    source,
    quantity: 'the same: θ far face',
    printed: '0.3482',
    computed: last,
    methodError: meshError,
  })
})

/** So deep that the far end, adiabatic here, is not felt: κ t = 2 mm², 20 mm. */
const halfSpace = (H: number) => {
  const seconds = 10
  const h = (H * k) / Math.sqrt(kappa * seconds)
  const layers = [2e-3, 18e-3].map((thickness) => ({ thickness, conductivity: k, density, specificHeat }))
  return heated({ shape: 'slab', half: 20e-3, layers: graded(layers) }, { h, seconds, steps: 1000 }).theta(0)
}
/** The same material, its outer tenth cut much finer. */
const graded = ([outer, deep]: readonly ThermalLayer[]): ThermalLayer[] => [
  ...Array.from({ length: 60 }, () => ({ ...outer, thickness: outer.thickness / 60 })),
  deep,
]

test.each([
  [0.1, '0.8965'],
  [0.5, '0.6157'],
  [1, '0.4276'],
  [2, '0.2554'],
])('half space, H = %f', (H, printed) => {
  expectPublished({
    source,
    quantity: `half space, H = ${H}: θ surface`,
    printed,
    computed: halfSpace(H),
    methodError: meshError,
  })
  expect(agrees(halfSpace(1.01 * H), published(printed), meshError)).toBe(false)
})

test('two half spaces in contact take the temperature of their effusivities', () => {
  const skin = { thickness: 20e-3, conductivity: 0.3, density: 1600, specificHeat: 1000 }
  const core = { thickness: 20e-3, conductivity: 0.6, density: 1800, specificHeat: 1000 }
  const [e1, e2] = [skin, core].map((m) => Math.sqrt(m.conductivity * m.density * m.specificHeat))
  const [T1, T2] = [400, 300]
  // The core is cut much finer near the face, so that what the node there starts with is not the answer.
  const layers = [
    skin,
    ...Array.from({ length: 50 }, () => ({ ...core, thickness: 0.08e-3 })),
    { ...core, thickness: 16e-3 },
  ]
  const { depth, capacity } = wallOf({ layers, shape: 'slab', inner: 'adiabatic', cells: 200 })
  const face = depth.findIndex((s) => Math.abs(s - 20e-3) < 1e-9)
  const share = (skin.density * skin.specificHeat * (depth[face] - depth[face - 1])) / 2 / capacity[face]
  const initial = (s: number): number => (s === depth[face] ? share * T1 + (1 - share) * T2 : s < depth[face] ? T1 : T2)
  const { T } = heated({ shape: 'slab', half: 40e-3, layers, initial }, { h: 0, seconds: 20, steps: 400 })
  const expected = (e: number): string => ((e1 * T1 + e * T2) / (e1 + e)).toFixed(1)
  expect(Math.abs(initial(depth[face]) - T[face])).toBeGreaterThan(10)
  const quantity = 'half spaces in contact: T, K'
  expectPublished({ source, quantity, printed: expected(e2), computed: T[face], methodError: meshError })
  expect(agrees(T[face], published(expected(1.02 * e2)), meshError)).toBe(false)
})
