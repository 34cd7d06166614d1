import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  inPlaneModuli,
  type Lamina,
  reducedStiffness,
  rotatedShearCompliance,
  rotatedStiffness,
} from '../../src/laminate/lamina.ts'
import { inPlyAxes } from '../../src/laminate/ply-stress.ts'
import { anyLamina, anyTheta, near } from './arbitrary.ts'

const entries = (M: ArrayLike<number>) => Array.from(M)

test('theta 0 returns Q and theta 90 swaps the axes', () => {
  fc.assert(
    fc.property(anyLamina, (lamina) => {
      const Q = reducedStiffness(lamina)
      const turned = rotatedStiffness(lamina, Math.PI / 2)
      expect(entries(rotatedStiffness(lamina, 0))).toEqual(entries(Q))
      near(turned, [Q[4], Q[1], 0, Q[1], Q[0], 0, 0, 0, Q[8]], Q[0])
    }),
  )
})

test('two sums of the turned stiffness do not depend on the angle', () => {
  fc.assert(
    fc.property(anyLamina, anyTheta, (lamina, theta) => {
      const Q = reducedStiffness(lamina)
      const R = rotatedStiffness(lamina, theta)
      near([R[0] + R[4] + 2 * R[1], R[8] - R[1]], [Q[0] + Q[4] + 2 * Q[1], Q[8] - Q[1]], Q[0] + Q[4])
    }),
  )
})

test('the negative angle turns the sign of the shear coupling and nothing else', () => {
  fc.assert(
    fc.property(anyLamina, anyTheta, (lamina, theta) => {
      const P = rotatedStiffness(lamina, theta)
      const M = rotatedStiffness(lamina, -theta)
      near(M, [P[0], P[1], -P[2], P[1], P[4], -P[5], -P[2], -P[5], P[8]], P[0] + P[4])
    }),
  )
})

test('the moduli of a reduced stiffness give it back', () => {
  fc.assert(
    fc.property(anyLamina, (lamina) => {
      const { E1, E2, G12, nu12 } = inPlaneModuli(reducedStiffness(lamina))
      near([E1, E2, G12, nu12 * lamina.E1], [lamina.E1, lamina.E2, lamina.G12, lamina.nu12 * lamina.E1], lamina.E1)
    }),
  )
})

test('stress energy is the same in fin axes and in ply axes', () => {
  const strain = [1e-3, -4e-4, 7e-4]
  fc.assert(
    fc.property(anyLamina, anyTheta, (lamina, theta) => {
      const Qbar = rotatedStiffness(lamina, theta)
      const stress = [0, 3, 6].map((i) => Qbar[i] * strain[0] + Qbar[i + 1] * strain[1] + Qbar[i + 2] * strain[2])
      const { s1, s2, t12 } = inPlyAxes(stress, theta)
      const { E1, E2, G12, nu12 } = lamina
      const inPly = (s1 * s1) / E1 - (2 * nu12 * s1 * s2) / E1 + (s2 * s2) / E2 + (t12 * t12) / G12
      const inFin = stress.reduce((sum, s, i) => sum + s * strain[i], 0)
      near([inPly], [inFin], inFin)
    }),
  )
})

test('transverse shear turns like a vector', () => {
  fc.assert(
    fc.property(anyLamina, anyTheta, (lamina: Lamina, theta) => {
      const { xz, yz, cross } = rotatedShearCompliance(lamina, theta)
      near([xz + yz, xz * yz - cross ** 2], [1 / lamina.G13 + 1 / lamina.G23, 1 / (lamina.G13 * lamina.G23)], xz + yz)
      const quarter = rotatedShearCompliance(lamina, theta + Math.PI / 2)
      near([quarter.xz, quarter.yz, quarter.cross], [yz, xz, -cross], xz + yz)
    }),
  )
})
