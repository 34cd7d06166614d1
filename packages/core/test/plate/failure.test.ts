import { expect, test } from 'vitest'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { plateStatic } from '../../src/plate/static.ts'
import { isotropic, structured } from './plates.ts'

const supports = ['clamped', 'free', 'free', 'free'] as const
const sheet = isotropic({ E: 70e9, nu: 0.3, t: 2e-3, rho: 2700 })
const nothing = { A: new Float64Array(9), B: new Float64Array(9), D: new Float64Array(9), S: new Float64Array(4) }

test('a plate with a part that has no stiffness is not solved, and says so', () => {
  const model = assemblePlate({
    mesh: structured(0.2, 0.2, 2, 2),
    supports,
    sectionAt: ({ y }) => (y > 0.1 ? { ...sheet, ...nothing } : sheet),
  })
  expect(plateModes(model, 3).kind).toBe('not-converged')
  expect(plateStatic(model, { pressure: () => 1 }).kind).toBe('not-held')
})

test('a NaN in a section is not solved, and says so', () => {
  const broken = { ...sheet, D: sheet.D.length === 9 ? Array.from(sheet.D, (d, i) => (i === 4 ? Number.NaN : d)) : [] }
  const model = assemblePlate({ mesh: structured(0.2, 0.2, 2, 2), supports, sectionAt: () => broken })
  expect(plateModes(model, 3).kind).toBe('not-converged')
})

test('more modes than a plate has unknowns: those it has', () => {
  const model = assemblePlate({ mesh: structured(0.2, 0.2, 1, 1), supports, sectionAt: () => sheet })
  const modes = plateModes(model, 500)
  expect(modes.omega.length).toBeLessThanOrEqual(model.layout.n)
})

test('a segment without a support given is a fault of ours', () => {
  expect(() => assemblePlate({ mesh: structured(1, 1, 1, 1), supports: ['clamped'], sectionAt: () => sheet })).toThrow(
    /no support given for segment 1/,
  )
})
