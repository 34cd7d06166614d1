import { expect, test } from 'vitest'
import { isotropicLayer, isStable, layerFromSheet, planeStrainStiffness } from '../../src/bond/joint/layer-moduli.ts'

test('an isotropic layer in plane strain: λ + 2G, λ and G', () => {
  const [E, G] = [1.6e9, 0.6e9]
  const nu = E / (2 * G) - 1
  const lambda = (E * nu) / ((1 + nu) * (1 - 2 * nu))
  const { C11, C13, C33, G13 } = planeStrainStiffness(isotropicLayer({ E, G }))
  expect(C11 / (lambda + 2 * G)).toBeCloseTo(1, 12)
  expect(C33 / C11).toBeCloseTo(1, 12)
  expect(C13 / lambda).toBeCloseTo(1, 12)
  expect(G13).toBe(G)
})

test('an orthotropic layer against the inverse of its compliance', () => {
  // S over (11, 22, 33): strain along 2 suppressed by σ2 = −(S12 σ1 + S23 σ3) / S22
  const m = { E1: 15, E2: 18, E3: 6, nu12: 0.12, nu13: 0.3, nu23: 0.25, G13: 2.4 }
  const { C11, C13, C33 } = planeStrainStiffness(m)
  const S = { 11: 1 / 15, 22: 1 / 18, 33: 1 / 6, 12: -0.12 / 15, 13: -0.3 / 15, 23: -0.25 / 18 }
  for (const [e1, e3] of [
    [1, 0],
    [0, 1],
    [2, -1],
  ]) {
    const [s1, s3] = [C11 * e1 + C13 * e3, C13 * e1 + C33 * e3]
    const s2 = -(S[12] * s1 + S[23] * s3) / S[22]
    expect(S[11] * s1 + S[12] * s2 + S[13] * s3).toBeCloseTo(e1, 12)
    expect(S[13] * s1 + S[23] * s2 + S[33] * s3).toBeCloseTo(e3, 12)
  }
})

test('what is not known through the thickness is a solid that can exist', () => {
  for (const sheet of [
    { E1: 12e9, E2: 12e9, nu12: 0.2, G13: 2e9 },
    { E1: 8.5e9, E2: 4.7e9, nu12: 0.05, G13: 0.169e9 },
    { E1: 68e9, E2: 68e9, nu12: 0.33, G13: 25.7e9 },
    { E1: 1e9, E2: 40e9, nu12: 0.02, G13: 4e9 },
  ])
    expect(isStable(layerFromSheet(sheet))).toBe(true)
})

test('moduli that no solid can have are told apart', () => {
  const good = { E1: 12e9, E2: 12e9, E3: 5e9, nu12: 0.2, nu13: 0.3, nu23: 0.3, G13: 2e9 }
  expect(isStable(good)).toBe(true)
  for (const bad of [{ E1: -1 }, { G13: 0 }, { E3: Number.NaN }, { nu12: 1.1 }, { E1: Number.POSITIVE_INFINITY }])
    expect(isStable({ ...good, ...bad })).toBe(false)
  expect(isStable(isotropicLayer({ E: 3e9, G: 0.99e9 }))).toBe(false) // Poisson ratio above one half
})
