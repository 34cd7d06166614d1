import { expect, test } from 'vitest'
import { rootLine } from '../../src/bond/joint/root-line.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { plateStatic } from '../../src/plate/static.ts'
import { isotropic, structured } from '../plate/plates.ts'

test('an even load on a clamped rectangle: totals to the last digit, a strip in the middle of a long root', () => {
  const [chord, span, pressure] = [0.3, 0.04, 2e3]
  const mesh = structured(chord, span, 15, 3)
  const section = isotropic({ E: 20e9, nu: 0.2, t: 4e-3, rho: 1900 })
  const model = assemblePlate({ mesh, supports: ['clamped', 'free', 'free', 'free'], sectionAt: () => section })
  const result = plateStatic(model, { pressure: () => pressure })
  if (result.kind !== 'solved') throw new Error(result.kind)
  const { X, sides } = model.layout.nodes
  const { x, V, M } = rootLine({ X, sides: sides.filter(({ segment }) => segment === 0), nodal: result.nodal })
  expect(x).toHaveLength(30)
  expect(x[0]).toBeCloseTo(0.005, 12)
  const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value * 0.01, 0)
  expect(total(V) / (pressure * chord * span)).toBeCloseTo(1, 9)
  expect(total(M) / ((pressure * chord * span ** 2) / 2)).toBeCloseTo(1, 9)
  expect(V[15]! / (pressure * span)).toBeCloseTo(1, 2)
  expect(M[15]! / ((pressure * span ** 2) / 2)).toBeCloseTo(1, 2)
})

test('a corner is shared by its two sides by length', () => {
  const X = [0, 0, 1, 0, 2, 0, 2.5, 0, 3, 0] // sides of 2 and 1
  const sides = [{ nodes: [2, 3, 4] as const }, { nodes: [0, 1, 2] as const }]
  const even = [2 / 6, (2 * 4) / 6, 3 / 6, 4 / 6, 1 / 6] // unit load per length
  const nodal = even.map((force, node) => ({ node, force: -force, momentX: -5 * force }))
  const { x, V, M } = rootLine({ X, sides, nodal })
  expect(x).toEqual([1, 2.5])
  for (const value of V) expect(value).toBeCloseTo(1, 12)
  for (const value of M) expect(value).toBeCloseTo(5, 12)
})

test('from a root held by springs: the totals of the load', () => {
  const outline = [
    [0, 0],
    [0.3, 0],
    [0.27, 0.11],
    [0.15, 0.11],
  ] as const
  const section = {
    A: [1e8, 0, 0, 0, 1e8, 0, 0, 0, 4e7],
    B: new Float64Array(9),
    D: [200, 30, 0, 30, 200, 0, 0, 0, 85],
  }
  const model = assemblePlate({
    mesh: meshOutline({ outline, size: 0.02 }),
    supports: [{ deflection: 4e8, coupling: 2e6, rotation: 2e4, twist: 5e4, inPlane: 'held' }, 'free', 'free', 'free'],
    sectionAt: () => ({ ...section, S: [2e7, 0, 0, 2e7], massPerArea: 9, rotaryInertia: 0 }),
  })
  const solved = plateStatic(model, { forces: [{ at: [0.2, 0.1], force: 80 }] })
  if (solved.kind !== 'solved') throw new Error(solved.kind)
  const { nodes } = model.layout
  const sides = nodes.sides.filter(({ segment }) => segment === 0)
  const { V, M } = rootLine({ X: nodes.X, sides, nodal: solved.nodal })
  const length = sides
    .map(({ nodes: [a, , b] }) => ({ x: (nodes.X[2 * a] + nodes.X[2 * b]) / 2, L: nodes.X[2 * b] - nodes.X[2 * a] }))
    .sort((p, q) => p.x - q.x)
    .map(({ L }) => L)
  const total = (values: readonly number[]): number => values.reduce((sum, value, k) => sum + value * length[k], 0)
  expect(total(V) / 80).toBeCloseTo(1, 6)
  expect(total(M) / 8).toBeCloseTo(1, 6)
  // nothing singular at the ends: the worst station is under twice the mean
  expect(Math.max(...M) / (8 / 0.3)).toBeLessThan(2)
})
