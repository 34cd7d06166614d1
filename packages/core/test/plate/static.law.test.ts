import { describe, expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { fieldReader } from '../../src/plate/field-at.ts'
import type { PlateLoads } from '../../src/plate/loads.ts'
import type { PlateSection } from '../../src/plate/section.ts'
import { plateSolver, plateStatic } from '../../src/plate/static.ts'
import { elementStrains } from '../../src/plate/strains.ts'
import type { Support } from '../../src/plate/supports.ts'
import { carbon, degrees, isotropic, laminated, rectangle, structured } from './plates.ts'

const cantilever: Support[] = ['clamped', 'free', 'free', 'free']

/** A strip of length L along y, width b, of sections without Poisson coupling: a beam in plane strain, exactly. */
const strip = { L: 0.2, b: 0.03 }

function solved(section: (y: number) => PlateSection, loads: PlateLoads, n = 12) {
  const mesh = structured(strip.b, strip.L, 1, n)
  const model = assemblePlate({ mesh, supports: cantilever, sectionAt: ({ y }) => section(y) })
  const result = plateStatic(model, loads)
  if (result.kind !== 'solved') throw new Error(result.kind)
  return { model, ...result, read: (x: number, y: number) => fieldReader(model)(result.field, x, y)! }
}

/** A force P spread evenly over the tip, as Simpson's rule spreads it over each pair of half edges. */
function tipForce(P: number): PlateLoads {
  const at = (x: number, share: number) => ({ at: [x, strip.L] as Point, force: share * P })
  const [a, m, c, n, e] = [0, 0.25, 0.5, 0.75, 1].map((share) => share * strip.b)
  return { forces: [at(a, 1 / 12), at(m, 4 / 12), at(c, 2 / 12), at(n, 4 / 12), at(e, 1 / 12)] }
}

const noPoisson = { E: 20e9, nu: 0, t: 5e-3, rho: 1900 }

test('tip load on a strip: bending and transverse shear, P L³ / (3 D b) + P L / (S b)', () => {
  const P = 30
  for (const shear of [100, 1, 1e-3]) {
    const section = isotropic({ ...noPoisson, shear })
    const exact = (P * strip.L ** 3) / (3 * section.D[0] * strip.b) + (P * strip.L) / (section.S[0] * strip.b)
    const { read, segments } = solved(() => section, tipForce(P))
    expect(read(strip.b / 2, strip.L).w / exact).toBeCloseTo(1, 7)
    expect(segments).toHaveLength(1)
    expect(segments[0].force / -P).toBeCloseTo(1, 7)
    expect(segments[0].momentAlong / (-P * strip.L)).toBeCloseTo(1, 7)
    expect(Math.abs(segments[0].momentAcross)).toBeLessThan(1e-7 * P * strip.L)
  }
})

test('strains of that strip: κ = P (L − y) / (D b), γ = P / (S b)', () => {
  const P = 30
  const section = isotropic(noPoisson)
  const { model, field } = solved(() => section, tipForce(P))
  const strains = elementStrains(model, field)
  expect(strains).toHaveLength((3 * model.layout.mesh.T.length) / 3)
  for (const { y, curvature, shear } of strains) {
    // the tip load bends up: w'' > 0, so κyy = −w'' < 0
    const kappa = (-P * (strip.L - y)) / (section.D[0] * strip.b)
    expect(Math.abs(curvature[1] - kappa)).toBeLessThan(2e-3 * Math.abs((P * strip.L) / (section.D[0] * strip.b)))
    expect(shear[1] / (P / (section.S[0] * strip.b))).toBeCloseTo(1, 2)
  }
})

test('two unlike layers: reduced bending stiffness D − B² / A, and the strip stretches as it bends', () => {
  // stiff below, soft above, each of thickness t; ν = 0
  const [E1, E2, t] = [70e9, 10e9, 2e-3]
  const A = (E1 + E2) * t
  const B = ((E2 - E1) * t * t) / 2
  const D = ((E1 + E2) * t ** 3) / 3
  const diagonal = (c: number): number[] => [c, 0, 0, 0, c, 0, 0, 0, c / 2]
  const S = [1e12, 0, 0, 1e12]
  const section = { A: diagonal(A), B: diagonal(B), D: diagonal(D), S, massPerArea: 8, rotaryInertia: 1e-5 }
  const P = 12
  const reduced = D - B ** 2 / A
  const { read, model } = solved(() => section, tipForce(P))
  expect(model.layout.perNode).toBe(5)
  const tip = read(strip.b / 2, strip.L)
  expect(tip.w / ((P * strip.L ** 3) / (3 * reduced * strip.b))).toBeCloseTo(1, 5)
  // ε = −(B/A) κ along the strip: v(L) = −(B/A) φy(L)
  expect(tip.v / ((-B / A) * tip.phiY)).toBeCloseTo(1, 6)
  expect(Math.abs(1 - reduced / D)).toBeGreaterThan(0.3) // so the coupling was worth testing
})

test('a strip whose thickness falls linearly: ∫ P (L − y)² / (D b) + P / (S b) dy', () => {
  const P = 20
  const thickness = (y: number): number => noPoisson.t * (1 - (0.7 * y) / strip.L)
  const tapered = (y: number): PlateSection => isotropic({ ...noPoisson, t: thickness(y) })
  // E t₀³ b / 12 = k: ∫ (L − y)² / (k (1 − c y/L)³) dy with s = 1 − c y/L:  L − y = (L/c)(s − (1 − c))
  const c = 0.7
  const integral = (s: number): number => Math.log(s) + (2 * (1 - c)) / s - (1 - c) ** 2 / (2 * s * s)
  const k = (noPoisson.E * noPoisson.t ** 3 * strip.b) / 12
  const S = (5 / 6) * (noPoisson.E / 2) * noPoisson.t
  const shear = ((P * strip.L) / (S * strip.b * c)) * -Math.log(1 - c)
  const exact = ((P * strip.L ** 3) / (k * c ** 3)) * (integral(1) - integral(1 - c)) + shear
  const errors = [4, 8, 16].map((n) => solved(tapered, tipForce(P), n).read(strip.b / 2, strip.L).w / exact - 1)
  expect(Math.abs(errors[2])).toBeLessThan(1e-4)
  expect(Math.abs(errors[2])).toBeLessThan(Math.abs(errors[1]) / 4)
})

describe('equilibrium of a fin under pressure', () => {
  const outline: Point[] = [
    [0, 0],
    [0.3, 0],
    [0.27, 0.11],
    [0.15, 0.11],
  ]
  const model = assemblePlate({
    mesh: meshOutline({ outline, size: 0.025 }),
    supports: cantilever,
    sectionAt: () =>
      laminated(carbon, [
        { angle: degrees(30), t: 2e-3 },
        { angle: degrees(80), t: 1e-3 },
      ]),
  })
  const solve = plateSolver(model)

  test('root shear and moments carry a uniform pressure', () => {
    const p = 4e3
    const result = solve({ pressure: () => p })
    if (result.kind !== 'solved') throw new Error(result.kind)
    expect(result.residual).toBeLessThan(1e-9)
    // area, first moments about the root and about mid-root, from the trapezoid's own formulas
    const area = ((0.3 + 0.12) / 2) * 0.11
    const height = ((0.11 / 3) * (0.3 + 2 * 0.12)) / (0.3 + 0.12)
    let momentX = 0
    const steps = 1000
    for (let i = 0; i < steps; i++) {
      const y = ((i + 0.5) / steps) * 0.11
      const [from, to] = [(0.15 * y) / 0.11, 0.3 - (0.03 * y) / 0.11]
      momentX += ((to - from) * ((from + to) / 2 - 0.15) * 0.11) / steps
    }
    const [root] = result.segments
    expect(root.force / (-p * area)).toBeCloseTo(1, 8)
    expect(root.momentAlong / (-p * area * height)).toBeCloseTo(1, 8)
    expect(root.momentAcross / (p * momentX)).toBeCloseTo(1, 5)
  })
  test('a point load and the same load at nodes', () => {
    const { X } = model.layout.nodes
    const node = model.layout.mesh.X.length / 2 + 5
    const nodal = new Float64Array(X.length / 2)
    nodal[node] = 35
    const [byPoint, byNode] = [solve({ forces: [{ at: [X[2 * node], X[2 * node + 1]], force: 35 }] }), solve({ nodal })]
    if (byPoint.kind !== 'solved' || byNode.kind !== 'solved') throw new Error('not solved')
    byPoint.field.w.forEach((w, i) => {
      expect(Math.abs(w - byNode.field.w[i])).toBeLessThan(1e-9 * Math.abs(byNode.field.w[node]))
    })
  })
  test('what a load at P does at Q, a load at Q does at P (Maxwell, Betti)', () => {
    const [P, Q]: Point[] = [
      [0.2, 0.1],
      [0.17, 0.07],
    ]
    const read = fieldReader(model)
    const [atP, atQ] = [P, Q].map((at) => solve({ forces: [{ at, force: 1 }] }))
    if (atP.kind !== 'solved' || atQ.kind !== 'solved') throw new Error('not solved')
    expect(read(atP.field, ...Q)!.w / read(atQ.field, ...P)!.w).toBeCloseTo(1, 9)
  })
  test('loads add', () => {
    const both = solve({ pressure: () => 1e3, forces: [{ at: [0.2, 0.1], force: 5 }] })
    const one = solve({ pressure: () => 1e3 })
    const two = solve({ forces: [{ at: [0.2, 0.1], force: 5 }] })
    if (both.kind !== 'solved' || one.kind !== 'solved' || two.kind !== 'solved') throw new Error('not solved')
    const most = Math.max(...both.field.w.map(Math.abs))
    both.field.w.forEach((w, i) => {
      expect(Math.abs(w - one.field.w[i] - two.field.w[i])).toBeLessThan(1e-10 * most)
    })
  })
})

test('a plate that nothing holds has no static solution', () => {
  const mesh = structured(1, 1, 1, 1)
  const free = assemblePlate({
    mesh,
    supports: ['free', 'free', 'free', 'free'],
    sectionAt: () => isotropic(noPoisson),
  })
  expect(plateStatic(free, { pressure: () => 1 }).kind).toBe('not-held')
  const hinged = assemblePlate({
    mesh,
    supports: ['simple', 'free', 'free', 'free'],
    sectionAt: () => isotropic(noPoisson),
  })
  expect(plateStatic(hinged, { pressure: () => 1 }).kind).toBe('not-held')
})

test('a load outside the plate is refused', () => {
  const model = assemblePlate({
    mesh: meshOutline({ outline: rectangle(1, 1), size: 0.5 }),
    supports: cantilever,
    sectionAt: () => isotropic(noPoisson),
  })
  expect(() => plateStatic(model, { forces: [{ at: [2, 0.5], force: 1 }] })).toThrow(/outside the plate/)
})
