import fc from 'fast-check'
import { expect, test } from 'vitest'
import { laminateCompliance } from '../../src/laminate/compliance.ts'
import { rotatedShearCompliance, rotatedStiffness } from '../../src/laminate/lamina.ts'
import { type Layer, totalThickness } from '../../src/laminate/layer.ts'
import { shearStiffness } from '../../src/laminate/shear.ts'
import { laminateStiffness } from '../../src/laminate/stiffness.ts'
import { anyLamina, anyLayers, near } from './arbitrary.ts'

const H = (layers: readonly Layer[], reference = totalThickness(layers) / 2) => {
  const section = { layers, reference }
  return shearStiffness(section, laminateCompliance(laminateStiffness(section)))
}

test('one homogeneous layer along its axes: exactly 5/6 G h', () => {
  fc.assert(
    fc.property(anyLamina, (lamina) => {
      const t = 2e-3
      near(
        H([{ lamina, theta: 0, t }]),
        [(5 / 6) * lamina.G13 * t, 0, 0, (5 / 6) * lamina.G23 * t],
        lamina.G13 * t + lamina.G23 * t,
      )
    }),
  )
})

test('cutting a layer into thinner ones changes nothing', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      const cut = layers.flatMap((layer) => [0.2, 0.5, 0.3].map((share) => ({ ...layer, t: share * layer.t })))
      const whole = H(layers)
      near(H(cut), whole, whole[0] + whole[3])
    }),
  )
})

test('the reference plane does not matter', () => {
  fc.assert(
    fc.property(anyLayers, fc.double({ min: -2, max: 2, noNaN: true }), (layers, share) => {
      const h = totalThickness(layers)
      const mid = H(layers)
      const off = H(layers, h * (0.5 + share))
      for (const i of [0, 1, 3]) expect(Math.abs(off[i] - mid[i])).toBeLessThan(1e-6 * (mid[0] + mid[3]))
    }),
  )
})

test('a quarter turn swaps the axes; turning the laminate over changes nothing', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      const [xx, xy, , yy] = H(layers)
      const turned = H(layers.map((layer) => ({ ...layer, theta: layer.theta + Math.PI / 2 })))
      near(turned, [yy, -xy, -xy, xx], (xx + yy) * 100)
      const over = H(layers.toReversed())
      near(over, [xx, xy, xy, yy], (xx + yy) * 100)
    }),
  )
})

test('a soft core governs: its share of the plain sum is lost, and a thicker skin counts by its lever only', () => {
  const skin = { lamina: { E1: 15e9, E2: 15e9, G12: 2e9, nu12: 0.13, G13: 1.7e9, G23: 1.7e9 }, theta: 0, t: 0.5e-3 }
  const foam = { lamina: { E1: 50e6, E2: 50e6, G12: 20e6, nu12: 0.3, G13: 20e6, G23: 20e6 }, theta: 0, t: 6e-3 }
  const sandwich = H([skin, foam, skin])[0]
  // The sum of G t with 5/6 would be 1.52e6 N/m; the thin-face formula says 1.41e5.
  expect(sandwich).toBeLessThan(0.1 * (5 / 6) * (1e-3 * 1.7e9 + 6e-3 * 20e6))
  expect(H([skin, skin, foam, skin, skin])[0] / sandwich).toBeCloseTo((7 / 6.5) ** 2, 1)
})

test('agrees with the same energy summed in thin slices, for a laminate that couples', () => {
  const lamina = { E1: 140e9, E2: 9e9, G12: 5e9, nu12: 0.3, G13: 5e9, G23: 3e9 }
  const layers = [0, 30, -45, 70].map((deg, i) => ({ lamina, theta: (deg * Math.PI) / 180, t: (1 + i) * 0.3e-3 }))
  const { b, d } = laminateCompliance(laminateStiffness({ layers }))
  const slices = 4000
  let g = [0, 0, 0, 0] // τxz by Qx and Qy, τyz by Qx and Qy
  const C = [0, 0, 0]
  let z = -totalThickness(layers) / 2
  for (const { theta, t } of layers) {
    const Qbar = rotatedStiffness(lamina, theta)
    const S = rotatedShearCompliance(lamina, theta)
    const dz = t / slices
    const F = (i: number, j: number, at: number) =>
      [0, 1, 2].reduce((sum, k) => sum + Qbar[3 * i + k] * (b[3 * k + j] + at * d[3 * k + j]), 0)
    for (let n = 0; n < slices; n++, z += dz) {
      const step = [F(0, 0, z + dz / 2), F(2, 1, z + dz / 2), F(2, 0, z + dz / 2), F(1, 1, z + dz / 2)].map(
        (f) => -f * dz,
      )
      const [xx, xy, yx, yy] = g.map((gi, i) => gi + step[i] / 2)
      C[0] += dz * (xx * xx * S.xz + 2 * xx * yx * S.cross + yx * yx * S.yz)
      C[1] += dz * (xx * xy * S.xz + (xx * yy + yx * xy) * S.cross + yx * yy * S.yz)
      C[2] += dz * (xy * xy * S.xz + 2 * xy * yy * S.cross + yy * yy * S.yz)
      g = g.map((gi, i) => gi + step[i])
    }
  }
  const det = C[0] * C[2] - C[1] ** 2
  const [xx, xy, , yy] = H(layers)
  const sliceError = 1e-6
  expect(Math.abs(xx / (C[2] / det) - 1)).toBeLessThan(sliceError)
  expect(Math.abs(yy / (C[0] / det) - 1)).toBeLessThan(sliceError)
  expect(Math.abs(xy / (-C[1] / det) - 1)).toBeLessThan(sliceError)
})
