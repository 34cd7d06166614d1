/** Sections and meshes for the tests of the plate, written out rather than taken from the code under test. */
import type { Mesh } from '../../src/geometry/mesh.ts'
import type { Point } from '../../src/geometry/point.ts'
import type { PlateSection } from '../../src/plate/section.ts'

export interface Sheet {
  /** Young's modulus, Poisson ratio, thickness, density. */
  readonly E: number
  readonly nu: number
  readonly t: number
  readonly rho: number
  /** Transverse shear stiffness over that of a homogeneous sheet with 5/6; large for a plate without shear. */
  readonly shear?: number
}

export function isotropic({ E, nu, t, rho, shear = 1 }: Sheet): PlateSection {
  const stretch = (E * t) / (1 - nu ** 2)
  const D = (E * t ** 3) / 12 / (1 - nu ** 2)
  const S = (shear * (5 / 6) * E * t) / (2 * (1 + nu))
  const plane = (c: number): number[] => [c, nu * c, 0, nu * c, c, 0, 0, 0, (c * (1 - nu)) / 2]
  return {
    A: plane(stretch),
    B: new Float64Array(9),
    D: plane(D),
    S: [S, 0, 0, S],
    massPerArea: rho * t,
    rotaryInertia: (rho * t ** 3) / 12,
  }
}

export interface Lamina {
  readonly E1: number
  readonly E2: number
  readonly nu12: number
  readonly G12: number
  readonly G13: number
  readonly G23: number
  readonly rho: number
}

/** Bottom ply first, angles in rad from x towards y, shear correction 5/6, about the mid-plane. Jones (1999), eqs 2.80, 4.24. */
export function laminated(lamina: Lamina, plies: readonly { angle: number; t: number }[]): PlateSection {
  const { E1, E2, nu12, G12, G13, G23, rho } = lamina
  const nu21 = (nu12 * E2) / E1
  const q = 1 / (1 - nu12 * nu21)
  const [Q11, Q22, Q12, Q66] = [E1 * q, E2 * q, nu12 * E2 * q, G12]
  const [A, B, D] = [new Array(9).fill(0), new Array(9).fill(0), new Array(9).fill(0)]
  const S = [0, 0, 0, 0]
  const h = plies.reduce((sum, { t }) => sum + t, 0)
  let z0 = -h / 2
  for (const { angle, t } of plies) {
    const [c, s] = [Math.cos(angle), Math.sin(angle)]
    const Qxx = Q11 * c ** 4 + 2 * (Q12 + 2 * Q66) * c * c * s * s + Q22 * s ** 4
    const Qyy = Q11 * s ** 4 + 2 * (Q12 + 2 * Q66) * c * c * s * s + Q22 * c ** 4
    const Qxy = (Q11 + Q22 - 4 * Q66) * c * c * s * s + Q12 * (c ** 4 + s ** 4)
    const Qss = (Q11 + Q22 - 2 * Q12 - 2 * Q66) * c * c * s * s + Q66 * (c ** 4 + s ** 4)
    const Qxs = (Q11 - Q12 - 2 * Q66) * s * c ** 3 + (Q12 - Q22 + 2 * Q66) * s ** 3 * c
    const Qys = (Q11 - Q12 - 2 * Q66) * s ** 3 * c + (Q12 - Q22 + 2 * Q66) * s * c ** 3
    const Qbar = [Qxx, Qxy, Qxs, Qxy, Qyy, Qys, Qxs, Qys, Qss]
    const z1 = z0 + t
    Qbar.forEach((value, i) => {
      A[i] += value * t
      B[i] += (value * (z1 ** 2 - z0 ** 2)) / 2
      D[i] += (value * (z1 ** 3 - z0 ** 3)) / 3
    })
    const k = (5 / 6) * t
    const cross = (G13 - G23) * s * c
    const shear = [G13 * c * c + G23 * s * s, cross, cross, G13 * s * s + G23 * c * c]
    shear.forEach((value, i) => {
      S[i] += k * value
    })
    z0 = z1
  }
  return { A, B, D, S, massPerArea: rho * h, rotaryInertia: (rho * h ** 3) / 12 }
}

export const carbon: Lamina = { E1: 98e9, E2: 7.9e9, nu12: 0.28, G12: 5.6e9, G13: 5.6e9, G23: 3e9, rho: 1520 }

export const degrees = (angle: number): number => (angle * Math.PI) / 180

export const rectangle = (a: number, b: number): Point[] => [
  [0, 0],
  [a, 0],
  [a, b],
  [0, b],
]

/**
 * Rectangle cut into 2n × 2m cells with diagonals that all look at the middle of each block of 2 × 2 cells, so that the mesh
 * has the rectangle's symmetries. Segments 0 … 3: y = 0, x = a, y = b, x = 0. `shift` moves inner nodes, for irregular meshes.
 */
export function structured(a: number, b: number, n: number, m: number, shift = 0): Mesh {
  const [columns, rows] = [2 * n, 2 * m]
  const node = (i: number, j: number): number => j * (columns + 1) + i
  const X: number[] = []
  for (let j = 0; j <= rows; j++) {
    for (let i = 0; i <= columns; i++) {
      const inner = i > 0 && i < columns && j > 0 && j < rows ? shift : 0
      X.push((a * (i + inner * Math.sin(3 * i + 5 * j))) / columns, (b * (j + inner * Math.cos(7 * i + 2 * j))) / rows)
    }
  }
  const T: number[] = []
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const [p, q, r, s] = [node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)]
      if ((i + j) % 2 === 0) T.push(p, q, r, p, r, s)
      else T.push(p, q, s, q, r, s)
    }
  }
  const edge = (segment: number, count: number, at: (k: number) => number) =>
    Array.from({ length: count }, (_, k) => ({ a: at(k), b: at(k + 1), segment }))
  const boundary = [
    ...edge(0, columns, (k) => node(k, 0)),
    ...edge(1, rows, (k) => node(columns, k)),
    ...edge(2, columns, (k) => node(columns - k, rows)),
    ...edge(3, rows, (k) => node(0, rows - k)),
  ]
  return { X: Float64Array.from(X), T: Int32Array.from(T), boundary }
}

/** log₂ of the ratio of successive errors when the mesh is halved each time: the last one. */
export function observedOrder(errors: readonly number[]): number {
  const n = errors.length
  return Math.log2(errors[n - 2] / errors[n - 1])
}
