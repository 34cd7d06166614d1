/** Simply supported rectangles, thick and laminated, against Navier's closed forms: see source.md. */
import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix'
import { describe, expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { fieldReader } from '../../src/plate/field-at.ts'
import { plateModes } from '../../src/plate/modes.ts'
import type { PlateSection } from '../../src/plate/section.ts'
import { plateStatic } from '../../src/plate/static.ts'
import type { Support } from '../../src/plate/supports.ts'
import { carbon, degrees, laminated } from '../../test/plate/plates.ts'
import { expectPublished } from '../evidence.ts'
import { sheetSection } from '../plate-cases.ts'

const [a, b] = [0.2, 0.15]

/** Amplitudes in the order W, X, Y, U, V. */
function navierStiffness({ A, B, D, S }: PlateSection, m: number, n: number, coupled: boolean): Matrix {
  const [p, q] = [(m * Math.PI) / a, (n * Math.PI) / b]
  const G = [
    [0, -p, 0, 0, 0],
    [0, 0, -q, 0, 0],
    [0, q, p, 0, 0],
    [p, 1, 0, 0, 0],
    [q, 0, 1, 0, 0],
    [0, 0, 0, -p, 0],
    [0, 0, 0, 0, -q],
    [0, 0, 0, q, p],
  ]
  const C = Matrix.zeros(8, 8)
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      C.set(i, j, D[3 * i + j])
      C.set(5 + i, 5 + j, A[3 * i + j])
      C.set(i, 5 + j, B[3 * i + j])
      C.set(5 + i, j, B[3 * i + j])
    }
  }
  C.set(3, 3, S[0])
  C.set(4, 4, S[3])
  const all = new Matrix(G)
  const K = all.transpose().mmul(C).mmul(all)
  return coupled ? K : K.subMatrix(0, 2, 0, 2)
}

function navierFrequencies(section: PlateSection, coupled: boolean): number[] {
  const found: number[] = []
  for (let m = 1; m <= 5; m++) {
    for (let n = 1; n <= 5; n++) {
      const K = navierStiffness(section, m, n, coupled)
      const mass = [
        section.massPerArea,
        section.rotaryInertia,
        section.rotaryInertia,
        section.massPerArea,
        section.massPerArea,
      ]
      const scaled = new Matrix(K.rows, K.rows)
      for (let i = 0; i < K.rows; i++) {
        for (let j = 0; j < K.rows; j++) scaled.set(i, j, K.get(i, j) / Math.sqrt(mass[i] * mass[j]))
      }
      found.push(...new EigenvalueDecomposition(scaled, { assumeSymmetric: true }).realEigenvalues.map(Math.sqrt))
    }
  }
  return found.sort((x, y) => x - y)
}

/** Reddy's SS-1: what the closed form's fields vanish in. */
const edge: Support = { deflection: true, slopeAlong: true, slopeAcross: false, along: true, across: false }

const plate = (section: PlateSection, size: number, coupled = false) =>
  assemblePlate({
    mesh: meshOutline({
      outline: [
        [0, 0],
        [a, 0],
        [a, b],
        [0, b],
      ],
      size,
    }),
    supports: [edge, edge, edge, edge],
    sectionAt: () => section,
    coupled,
  })

const sheet = { E: 70e9, nu: 0.3, t: 1, rho: 2700 }

describe('isotropic', () => {
  test.each([0.002, 0.02, 0.05])('thickness %f m of 0.15 m: six frequencies', (t) => {
    const section = sheetSection({ ...sheet, t })
    const exact = navierFrequencies(section, false)
    plateModes(plate(section, 0.01), 6).omega.forEach((omega, i) => {
      expectPublished({
        source: 'navier-mindlin',
        quantity: `t = ${t} m, mode ${i + 1}, rad/s`,
        printed: exact[i].toPrecision(7),
        computed: omega,
        methodError: 0.0003,
      })
    })
  })
  test('the derivation gives the printed 0.0930 for t/a = 0.1 of a square', () => {
    const [side, t] = [1, 0.1]
    const { D, S, massPerArea, rotaryInertia } = sheetSection({ E: 2.6, nu: 0.3, t, rho: 1 }) // G = 1
    const p = Math.PI / side
    // 3 × 3 problem of (1, 1): the antisymmetric combination X = −Y drops out; the other pair by hand
    const k = D[0] * p * p * 2 + S[0]
    const [K11, K12, K22] = [S[0] * 2 * p * p, S[0] * p * Math.SQRT2, k]
    const [m1, m2] = [massPerArea, rotaryInertia]
    const half = (K11 / m1 + K22 / m2) / 2
    const omega = Math.sqrt(half - Math.sqrt(half ** 2 - (K11 * K22 - K12 ** 2) / (m1 * m2)))
    expectPublished({
      source: 'navier-mindlin',
      quantity: 'square, t/a = 0.1, ω t √(ρ/G), closed form against print',
      printed: '0.0930',
      computed: omega * t,
    })
  })
  test('has teeth: without the shear the thick plate is far off', () => {
    const section = sheetSection({ ...sheet, t: 0.02 })
    const stiff = { ...section, S: [1e13, 0, 0, 1e13] }
    expect(plateModes(plate(stiff, 0.02), 1).omega[0] / navierFrequencies(section, false)[0]).toBeGreaterThan(1.03)
  })
})

describe('antisymmetric cross-ply, bending and stretching coupled', () => {
  const section = laminated(carbon, [
    { angle: 0, t: 1.5e-3 },
    { angle: degrees(90), t: 1.5e-3 },
  ])
  test('four frequencies', () => {
    const exact = navierFrequencies(section, true)
    plateModes(plate(section, 0.01, true), 4).omega.forEach((omega, i) => {
      expectPublished({
        source: 'navier-mindlin',
        quantity: `cross-ply 0/90, mode ${i + 1}, rad/s`,
        printed: exact[i].toPrecision(7),
        computed: omega,
        methodError: 0.0003,
      })
    })
  })
  test('deflection under q sin(πx/a) sin(πy/b), and the in-plane displacement that goes with it', () => {
    const q = 2e3
    const load = Matrix.columnVector([q, 0, 0, 0, 0])
    const [W, , , U] = solve(navierStiffness(section, 1, 1, true), load).to1DArray()
    const model = plate(section, 0.01, true)
    const solved = plateStatic(model, {
      pressure: (x, y) => q * Math.sin((Math.PI * x) / a) * Math.sin((Math.PI * y) / b),
    })
    if (solved.kind !== 'solved') throw new Error(solved.kind)
    const read = fieldReader(model)
    expect(read(solved.field, a / 2, b / 2)!.w / W).toBeCloseTo(1, 4)
    expect(read(solved.field, 0, b / 2)!.u / U).toBeCloseTo(1, 3)
  })
  test('has teeth: left uncoupled it is far too stiff', () => {
    const exact = navierFrequencies(section, true)[0]
    const straight = { ...section, B: new Float64Array(9) }
    expect(plateModes(plate(straight, 0.02), 1).omega[0] / exact).toBeGreaterThan(1.1)
  })
})
