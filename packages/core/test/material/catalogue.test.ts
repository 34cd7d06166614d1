import { expect, test } from 'vitest'
import { adhesives, cloths, fibres, resinSystems, sheets } from '../../src/material/catalogue.ts'
import { properties } from '../../src/material/sources.ts'

const all = [fibres, cloths, resinSystems, adhesives, sheets].flatMap((part) => Object.values(part))

test('every property has a value, a source and a confidence', () => {
  expect(all.length).toBeGreaterThan(30)
  for (const material of all) {
    const list = properties(material)
    expect(list.length).toBeGreaterThan(4)
    for (const { path, property } of list) {
      const where = `${material.id} ${path}`
      expect(Number.isFinite(property.value), where).toBe(true)
      expect(property.value, where).toBeGreaterThanOrEqual(0)
      expect(property.source.length, where).toBeGreaterThan(10)
      expect(['read', 'recalled', 'practice', 'estimate'], where).toContain(property.confidence)
      // The words agree with the mark.
      expect(property.source.includes('no source'), where).toBe(property.confidence === 'practice')
      if (property.confidence === 'recalled') expect(property.source, where).toContain('recalled')
    }
  }
})

test('a material is filed under its own id', () => {
  for (const part of [fibres, cloths, resinSystems, adhesives, sheets])
    for (const [id, material] of Object.entries(part)) expect(material.id).toBe(id)
})

test('properties are listed with the path at which a plan overrides them', () => {
  const paths = properties(cloths['glass-plain-200']).map(({ path }) => path)
  expect(paths).toContain('fibre.E1')
  expect(paths).toContain('arealMass')
  expect(paths).toContain('strengths.Xt')
  expect(properties(cloths['peel-ply']).some(({ path }) => path.startsWith('strengths'))).toBe(false)
})

test('stiffness is physical: ν12 below √(E1/E2), metals isotropic', () => {
  for (const { id, E1, E2, nu12 } of [...Object.values(sheets), ...Object.values(fibres)])
    expect(nu12.value, id).toBeLessThan(Math.sqrt(E1.value / E2.value))
  for (const id of ['aluminium-6061-t6', 'aluminium-7075-t6']) {
    const { E1, E2, G12, nu12 } = sheets[id]
    expect(E2.value).toBe(E1.value)
    expect(G12.value).toBeCloseTo(E1.value / (2 * (1 + nu12.value)), 0)
  }
})

test('only a veil, a peel ply and a film are without strengths', () => {
  for (const { id, weave, strengths } of Object.values(cloths))
    expect(strengths === null, id).toBe(weave === 'veil' || weave === 'peel ply' || weave === 'film')
})

test('three to one by volume is 100 to 28.4 by mass', () => {
  for (const { resinDensity, hardenerDensity } of Object.values(resinSystems))
    expect((hardenerDensity.value / (3 * resinDensity.value)) * 100).toBeCloseTo(28.4, 1)
})

test('the minimum sheet is the softer and the weaker one', () => {
  for (const key of ['E1', 'E2', 'G12'] as const)
    expect(sheets.g10[key].value).toBeLessThan(sheets['g10-typical'][key].value)
  for (const key of ['Xt', 'Yt', 'S'] as const)
    expect(sheets.g10.strengths[key].value).toBeLessThan(sheets['g10-typical'].strengths[key].value)
})
