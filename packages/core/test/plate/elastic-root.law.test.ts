/** Laws of a root held by springs: limits, statics, the beam on a coupled spring, reuse of the layout. */
import { expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { assemblePlate, type PlateModel } from '../../src/plate/assemble.ts'
import { modeKind } from '../../src/plate/mode-kind.ts'
import { plateModes } from '../../src/plate/modes.ts'
import type { PlateSection } from '../../src/plate/section.ts'
import { plateStatic } from '../../src/plate/static.ts'
import type { ElasticSupport, Support } from '../../src/plate/supports.ts'
import { carbon, degrees, isotropic, laminated, rectangle } from './plates.ts'

const fin = [
  [0, 0],
  [0.3, 0],
  [0.27, 0.11],
  [0.15, 0.11],
] as const
const sheet = isotropic({ E: 20e9, nu: 0.15, t: 5e-3, rho: 1900 })
const skewed = laminated(carbon, [
  { angle: degrees(30), t: 1.5e-3 },
  { angle: degrees(-10), t: 1e-3 },
  { angle: 0, t: 1e-3 },
])
const rigid: ElasticSupport = { deflection: 1e15, coupling: 0, rotation: 1e11, twist: 1e11, inPlane: 'held' }
const soft: ElasticSupport = { deflection: 4e8, coupling: -1.5e6, rotation: 1.2e4, twist: 3e3, inPlane: 'held' }

const model = (root: Support, section: PlateSection = sheet, like?: PlateModel): PlateModel =>
  assemblePlate({
    mesh: like?.layout.mesh ?? meshOutline({ outline: fin, size: 0.02 }),
    supports: [root, 'free', 'free', 'free'],
    sectionAt: () => section,
    ...(like === undefined ? {} : { like }),
  })

const solved = (plate: PlateModel, load: Parameters<typeof plateStatic>[1]) => {
  const found = plateStatic(plate, load)
  if (found.kind !== 'solved') throw new Error(found.kind)
  return found
}

test.each([
  ['symmetric', sheet],
  ['coupled', skewed],
] as const)('springs without give are a clamped root: modes, deflection, reactions (%s)', (_, section) => {
  const [clamped, sprung] = [model('clamped', section), model(rigid, section)]
  const [a, b] = [plateModes(clamped, 5), plateModes(sprung, 5)]
  a.omega.forEach((omega, i) => {
    expect(Math.abs(b.omega[i] / omega - 1)).toBeLessThan(1e-5)
  })
  expect(modeKind(sprung, b.shapes[1])).toBe(modeKind(clamped, a.shapes[1]))
  const load = { pressure: (x: number, y: number) => 1e4 * (1 + 3 * x + 20 * y) }
  const [p, q] = [solved(clamped, load), solved(sprung, load)]
  for (const key of ['force', 'momentAlong', 'momentAcross'] as const) {
    expect(q.segments[0][key] / p.segments[0][key]).toBeCloseTo(1, 5)
  }
  const scale = Math.max(...p.nodal.map(({ momentX }) => Math.abs(momentX)))
  expect(q.nodal.map(({ node }) => node)).toEqual(p.nodal.map(({ node }) => node))
  p.nodal.forEach(({ momentX }, i) => {
    expect(Math.abs(q.nodal[i].momentX - momentX)).toBeLessThan(2e-3 * scale)
  })
})

test('what the springs carry balances the load', () => {
  const P = 40
  const at = [0.2, 0.08] as const
  const { segments, residual } = solved(model(soft), { forces: [{ at, force: P }] })
  const [{ force, momentAlong, momentAcross }] = segments
  expect(residual).toBeLessThan(1e-8)
  expect(force / -P).toBeCloseTo(1, 7)
  // moments about the root's middle (0.15, 0): the load's are y P about x, −(x − 0.15) P about y
  expect(momentAlong / (-at[1] * P)).toBeCloseTo(1, 7)
  expect(momentAcross / ((at[0] - 0.15) * P)).toBeCloseTo(1, 7)
})

test('a stiffer spring of any kind raises every frequency', () => {
  const omega = (root: ElasticSupport) => plateModes(model(root), 5).omega
  const base = omega(soft)
  for (const stiffer of [
    { ...soft, deflection: 2 * soft.deflection },
    { ...soft, rotation: 2 * soft.rotation },
    { ...soft, twist: 2 * soft.twist },
  ]) {
    omega(stiffer).forEach((value, i) => {
      expect(value).toBeGreaterThan(base[i])
    })
  }
})

/** ν = 0 and no shear: a beam. */
const strip = { L: 0.2, D: 40, m: 5 }
const beam = (root: Support): PlateModel => {
  const { D, m, L } = strip
  const section = {
    A: [1e8, 0, 0, 0, 1e8, 0, 0, 0, 5e7],
    B: new Float64Array(9),
    D: [D, 0, 0, 0, D, 0, 0, 0, D / 2],
    S: [1e10, 0, 0, 1e10],
    massPerArea: m,
    rotaryInertia: 0,
  }
  return assemblePlate({
    mesh: meshOutline({ outline: rectangle(0.02, L), size: 0.012 }),
    supports: [root, 'free', 'free', 'free'],
    sectionAt: () => section,
  })
}

test('a beam on a spring whose force and moment are coupled: tip deflection and frequency', () => {
  const { L, D, m } = strip
  const [ww, wt, tt] = [2e5, -6e3, 500] // N/m², N/m, N
  const plate = beam({ deflection: ww, coupling: wt, rotation: tt, twist: 0, inPlane: 'held' })
  // a line load of P per length of root at the tip puts V = P, M = P L on the root
  const P = 100
  const det = ww * tt - wt ** 2
  const [w0, theta0] = [(tt * P - wt * P * L) / det, (ww * P * L - wt * P) / det]
  const tip = (P * L ** 3) / (3 * D) + w0 + theta0 * L
  const { field, segments } = solved(plate, { forces: [{ at: [0.01, L], force: P * 0.02 }] })
  expect(Math.max(...field.w) / tip).toBeCloseTo(1, 3)
  expect(segments[0].momentAlong / (-P * L * 0.02)).toBeCloseTo(1, 6)
  // EI w″(0) = M, EI w‴(0) = −V, w″(L) = w‴(L) = 0, by Krylov's functions
  const determinant = (omega: number): number => {
    const beta = ((m * omega ** 2) / D) ** 0.25
    const z = beta * L
    const [S, T] = [(Math.cosh(z) + Math.cos(z)) / 2, (Math.sinh(z) + Math.sin(z)) / 2]
    const [U, V] = [(Math.cosh(z) - Math.cos(z)) / 2, (Math.sinh(z) - Math.sin(z)) / 2]
    const second = (w: number, theta: number): number =>
      w * U +
      (theta * V) / beta +
      ((wt * w + tt * theta) * S) / (D * beta ** 2) -
      ((ww * w + wt * theta) * T) / (D * beta ** 3)
    const third = (w: number, theta: number): number =>
      w * T +
      (theta * U) / beta +
      ((wt * w + tt * theta) * V) / (D * beta ** 2) -
      ((ww * w + wt * theta) * S) / (D * beta ** 3)
    return second(1, 0) * third(0, 1) - second(0, 1) * third(1, 0)
  }
  // the strip also rocks about its own line on these springs, which no beam does: there the ends of the root move oppositely
  const root = plate.layout.nodes.sides.filter(({ segment }) => segment === 0)
  const [start, end] = [root[0].nodes[0], root[root.length - 1].nodes[2]]
  const { omega, shapes } = plateModes(plate, 4)
  const bending = omega.filter((_, i) => shapes[i].w[start] * shapes[i].w[end] > 0)
  expect(bending.length).toBeGreaterThan(1)
  for (const found of bending) expect(determinant(0.998 * found) * determinant(1.002 * found)).toBeLessThan(0)
})

test('other springs use the layout again, other supports do not', () => {
  const first = model(soft)
  const second = model({ ...soft, rotation: 5e4 }, sheet, first)
  expect(second.layout.analysis).toBe(first.layout.analysis)
  expect(plateModes(second, 3).omega).toEqual(plateModes(model({ ...soft, rotation: 5e4 }), 3).omega)
  const clamped = model('clamped', sheet, first)
  expect(clamped.layout.analysis).not.toBe(first.layout.analysis)
})

test('springs that resist some rigid motion not at all do not hold the plate', () => {
  const hinge = model({ ...soft, coupling: 0, rotation: 0, twist: 0 })
  expect(hinge.layout.heldInSpace).toBe(false)
  expect(plateStatic(hinge, { pressure: () => 1 }).kind).toBe('not-held')
  expect(plateModes(hinge, 2).omega[0]).toBeLessThan(1e-3 * plateModes(hinge, 2).omega[1])
  expect(model({ ...soft, deflection: 0, coupling: 0 }).layout.heldInSpace).toBe(false)
})

test('springs that would give energy are a broken promise', () => {
  expect(() => model({ ...soft, rotation: -1 })).toThrow(/springs/)
  expect(() => model({ ...soft, coupling: 1e9 })).toThrow(/springs/)
})
