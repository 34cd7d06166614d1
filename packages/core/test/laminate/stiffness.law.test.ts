import fc from 'fast-check'
import { expect, test } from 'vitest'
import { laminateCompliance, strainUnder, stretchingModuli } from '../../src/laminate/compliance.ts'
import { coupling } from '../../src/laminate/coupling.ts'
import { totalThickness } from '../../src/laminate/layer.ts'
import { plyStresses } from '../../src/laminate/ply-stress.ts'
import { laminateStiffness } from '../../src/laminate/stiffness.ts'
import { anyLayers, anyTheta, near } from './arbitrary.ts'

const rad = (deg: number) => (deg * Math.PI) / 180
const carbon = { E1: 140e9, E2: 9e9, G12: 5e9, nu12: 0.3, G13: 5e9, G23: 3e9 }
const stack = (degrees: number[]) => degrees.map((deg) => ({ lamina: carbon, theta: rad(deg), t: 0.2e-3 }))

test('a symmetric stack does not couple', () => {
  fc.assert(
    fc.property(anyLayers, (half) => {
      const layers = [...half, ...half.toReversed()]
      const { A, B } = laminateStiffness({ layers })
      near(B, new Float64Array(9), (A[0] + A[4]) * totalThickness(layers))
    }),
  )
})

test.each([
  { name: '[0/45/-45/90]s', degrees: [0, 45, -45, 90, 90, -45, 45, 0] },
  { name: '[0/60/-60]s', degrees: [0, 60, -60, -60, 60, 0] },
])('$name is isotropic in its plane, at any angle of the whole', ({ degrees }) => {
  fc.assert(
    fc.property(anyTheta, (turn) => {
      const layers = stack(degrees).map((layer) => ({ ...layer, theta: layer.theta + turn }))
      const compliance = laminateCompliance(laminateStiffness({ layers }))
      const { Ex, Ey, Gxy, nuxy } = stretchingModuli(compliance, totalThickness(layers))
      near([Ey, Gxy], [Ex, Ex / (2 * (1 + nuxy))], Ex)
    }),
  )
})

test('twice the thickness: A twice, B four times, D eight times', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      const one = laminateStiffness({ layers })
      const two = laminateStiffness({ layers: layers.map((layer) => ({ ...layer, t: 2 * layer.t })) })
      const h = totalThickness(layers)
      const scale = one.A[0] + one.A[4]
      near(
        two.A,
        one.A.map((a) => 2 * a),
        scale,
      )
      near(
        two.B,
        one.B.map((b) => 4 * b),
        scale * h,
      )
      near(
        two.D,
        one.D.map((d) => 8 * d),
        scale * h * h,
      )
    }),
  )
})

test('a homogeneous isotropic stack is the plate of the textbook', () => {
  const E = 70e9
  const nu = 0.33
  const isotropic = { E1: E, E2: E, G12: E / (2 * (1 + nu)), nu12: nu, G13: 26e9, G23: 26e9 }
  const layers = [0.3, 1.1, 0.6].map((mm, i) => ({ lamina: isotropic, theta: i, t: mm * 1e-3 }))
  const { A, B, D } = laminateStiffness({ layers })
  const h = 2e-3
  const plate = (E * h ** 3) / (12 * (1 - nu ** 2))
  near(
    D,
    [1, nu, 0, nu, 1, 0, 0, 0, (1 - nu) / 2].map((k) => k * plate),
    plate,
  )
  near(
    A,
    [1, nu, 0, nu, 1, 0, 0, 0, (1 - nu) / 2].map((k) => (k * E * h) / (1 - nu ** 2)),
    A[0],
  )
  near(B, new Float64Array(9), A[0] * h)
})

test('another reference plane: the parallel-axis rule', () => {
  fc.assert(
    fc.property(anyLayers, fc.double({ min: -3e-3, max: 3e-3, noNaN: true }), (layers, e) => {
      const h = totalThickness(layers)
      const mid = laminateStiffness({ layers })
      const off = laminateStiffness({ layers, reference: h / 2 + e })
      const scale = mid.A[0] + mid.A[4]
      const reach = h + Math.abs(e)
      near(off.A, mid.A, scale)
      near(
        off.B,
        mid.B.map((b, i) => b - e * mid.A[i]),
        scale * reach,
      )
      near(
        off.D,
        mid.D.map((d, i) => d - 2 * e * mid.B[i] + e * e * mid.A[i]),
        scale * reach ** 2,
      )
    }),
  )
})

test('the compliance undoes the stiffness, coupled or not', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      const stiffness = laminateStiffness({ layers })
      const load = { N: [2e4, -1e4, 7e3], M: [3, 5, -2] }
      const { strain, curvature } = strainUnder(laminateCompliance(stiffness), load)
      const { A, B, D } = stiffness
      const row = (M: Float64Array, v: ArrayLike<number>, i: number) =>
        M[3 * i] * v[0] + M[3 * i + 1] * v[1] + M[3 * i + 2] * v[2]
      for (const i of [0, 1, 2]) {
        expect(row(A, strain, i) + row(B, curvature, i)).toBeCloseTo(load.N[i], 3)
        expect(row(B, strain, i) + row(D, curvature, i)).toBeCloseTo(load.M[i], 6)
      }
    }),
  )
})

test('the ply stresses add up to the load', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      const load = { N: [2e4, -1e4, 7e3], M: [3, 5, -2] }
      const state = strainUnder(laminateCompliance(laminateStiffness({ layers })), load)
      for (const i of [0, 1, 2]) {
        let N = 0
        let M = 0
        for (const { layer, bottom, top } of plyStresses({ layers }, state)) {
          const a = bottom.global[i]
          const b = top.global[i]
          N += ((a + b) / 2) * layer.t
          // ∫ σ z dz of two linear factors: Simpson's rule is exact.
          M += ((a * bottom.z + (a + b) * (bottom.z + top.z) + b * top.z) * layer.t) / 6
        }
        expect(N).toBeCloseTo(load.N[i], 3)
        expect(M).toBeCloseTo(load.M[i], 6)
      }
    }),
  )
})

test('each measure of coupling lies between 0 and 1', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      for (const measure of Object.values(coupling(laminateStiffness({ layers })))) {
        expect(measure).toBeGreaterThanOrEqual(0)
        expect(measure).toBeLessThan(1)
      }
    }),
  )
})
