import { expect, test } from 'vitest'
import { rootLine } from '../../src/bond/joint/root-line.ts'
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
