/**
 * Patch tests: on an irregular free mesh, a displacement field of constant strain leaves no force on inner nodes and stores
 * exactly ½ ε C ε times the area. They hold for the element as it stands, bubble eliminated.
 */
import { expect, test } from 'vitest'
import { multiply } from '../../src/numeric/sparse.ts'
import { assemblePlate, type PlateModel } from '../../src/plate/assemble.ts'
import { elementStrains } from '../../src/plate/strains.ts'
import { carbon, degrees, isotropic, laminated, structured } from './plates.ts'

const [a, b] = [0.7, 0.4]
const mesh = structured(a, b, 3, 2, 0.3)
const free = ['free', 'free', 'free', 'free'] as const
/** Unsymmetric, unbalanced: A, B, D all full. */
const section = laminated(carbon, [
  { angle: degrees(20), t: 1e-3 },
  { angle: degrees(-50), t: 2e-3 },
  { angle: degrees(75), t: 0.5e-3 },
])

type Strain = readonly [number, number, number]

/** w = −½ (κxx x² + κxy x y + κyy y²), φ = −∇w, u, v linear. */
function constantStrain(model: PlateModel, [exx, eyy, exy]: Strain, [kxx, kyy, kxy]: Strain) {
  const { nodes, perNode, unknown, n } = model.layout
  const x = new Float64Array(n)
  const field = { w: [0], phiX: [0], phiY: [0], u: [0], v: [0] }
  for (let node = 0; node < nodes.X.length / 2; node++) {
    const [px, py] = [nodes.X[2 * node], nodes.X[2 * node + 1]]
    const values = [
      -(kxx * px * px + kxy * px * py + kyy * py * py) / 2,
      kxx * px + (kxy / 2) * py,
      kyy * py + (kxy / 2) * px,
      exx * px + (exy / 2) * py,
      eyy * py + (exy / 2) * px,
    ]
    values.slice(0, perNode).forEach((value, k) => {
      x[unknown[node * perNode + k]] = value
    })
    ;(['w', 'phiX', 'phiY', 'u', 'v'] as const).forEach((name, k) => {
      field[name][node] = values[k]
    })
  }
  const typed = Object.fromEntries(Object.entries(field).map(([name, list]) => [name, Float64Array.from(list)]))
  return { x, field: typed as unknown as Parameters<typeof elementStrains>[1] }
}

const cases: readonly [string, Strain, Strain][] = [
  ['κxx', [0, 0, 0], [1, 0, 0]],
  ['κyy', [0, 0, 0], [0, 1, 0]],
  ['κxy', [0, 0, 0], [0, 0, 1]],
  ['εxx', [1e-3, 0, 0], [0, 0, 0]],
  ['εyy', [0, 1e-3, 0], [0, 0, 0]],
  ['εxy', [0, 0, 1e-3], [0, 0, 0]],
  ['all at once', [1e-3, -2e-3, 3e-3], [0.3, 1.1, -0.7]],
]

test.each(cases)('constant %s', (_, membrane, curvature) => {
  const model = assemblePlate({ mesh, supports: free, sectionAt: () => section })
  expect(model.layout.perNode).toBe(5)
  const { x, field } = constantStrain(model, membrane, curvature)
  const force = multiply(model.K, x)
  const strain = [...membrane, ...curvature]
  const C = (i: number, j: number): number => {
    const block = i < 3 ? (j < 3 ? section.A : section.B) : j < 3 ? section.B : section.D
    return block[3 * (i % 3) + (j % 3)]
  }
  let density = 0
  for (let i = 0; i < 6; i++) for (let j = 0; j < 6; j++) density += (strain[i] * C(i, j) * strain[j]) / 2
  const energy = x.reduce((sum, value, i) => sum + (value * force[i]) / 2, 0)
  expect(energy / (density * a * b)).toBeCloseTo(1, 9)
  // inner nodes carry no force
  const { nodes, unknown, perNode } = model.layout
  const outer = new Set(nodes.sides.flatMap(({ nodes: three }) => three))
  const most = Math.max(...force.map(Math.abs))
  let checked = 0
  for (let node = 0; node < nodes.X.length / 2; node++) {
    if (outer.has(node)) continue
    for (let k = 0; k < perNode; k++) expect(Math.abs(force[unknown[node * perNode + k]])).toBeLessThan(1e-9 * most)
    checked++
  }
  expect(checked).toBeGreaterThan(50)
  for (const point of elementStrains(model, field)) {
    for (const i of [0, 1, 2]) expect(point.membrane[i]).toBeCloseTo(membrane[i], 12)
    for (const i of [0, 1, 2]) expect(point.curvature[i]).toBeCloseTo(curvature[i], 9)
    for (const gamma of point.shear) expect(Math.abs(gamma)).toBeLessThan(1e-11)
  }
})

test('rigid motions store no energy', () => {
  const model = assemblePlate({ mesh, supports: free, sectionAt: () => section })
  const { nodes, perNode, unknown, n } = model.layout
  const motions = [
    (_x: number, _y: number) => [1, 0, 0, 0, 0],
    (x: number) => [x, -1, 0, 0, 0],
    (_x: number, y: number) => [y, 0, -1, 0, 0],
    () => [0, 0, 0, 1, 0],
    () => [0, 0, 0, 0, 1],
    (x: number, y: number) => [0, 0, 0, -y, x],
  ]
  for (const motion of motions) {
    const q = new Float64Array(n)
    for (let node = 0; node < nodes.X.length / 2; node++) {
      motion(nodes.X[2 * node], nodes.X[2 * node + 1]).forEach((value, k) => {
        q[unknown[node * perNode + k]] = value
      })
    }
    const force = multiply(model.K, q)
    const scale = Math.max(...model.K.value.map(Math.abs))
    expect(Math.max(...force.map(Math.abs))).toBeLessThan(1e-12 * scale)
  }
})

test('mass: total, and the inertia of turning', () => {
  const sheet = isotropic({ E: 70e9, nu: 0.3, t: 4e-3, rho: 2700 })
  const model = assemblePlate({ mesh, supports: free, sectionAt: () => sheet })
  expect(model.mass).toBeCloseTo(2700 * 4e-3 * a * b, 12)
  const { nodes, unknown, n } = model.layout
  const q = new Float64Array(n)
  for (let node = 0; node < nodes.X.length / 2; node++) {
    q[unknown[3 * node]] = nodes.X[2 * node]
    q[unknown[3 * node + 1]] = -1
  }
  const inertia = multiply(model.M, q).reduce((sum, value, i) => sum + value * q[i], 0)
  // ∫ ρ t x² dA + ∫ ρ t³/12 dA
  expect(inertia / (2700 * (4e-3 * ((a ** 3 * b) / 3) + (4e-3 ** 3 / 12) * a * b))).toBeCloseTo(1, 12)
})
