/** Modes of a plate from those of one near it, and springs exchanged without summing the plate again: against everything made anew. */
import { describe, expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { multiply, type SymmetricMatrix } from '../../src/numeric/sparse.ts'
import { dot } from '../../src/numeric/vector.ts'
import { assemblePlate, type PlateModel, resprung } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { combination, neighbourModes, projection, ritzBasis, unknownsOf } from '../../src/plate/ritz.ts'
import type { PlateSection } from '../../src/plate/section.ts'
import type { ElasticSupport } from '../../src/plate/supports.ts'
import { carbon, degrees, laminated } from './plates.ts'

const outline = [
  [0, 0],
  [0.3, 0],
  [0.27, 0.11],
  [0.15, 0.11],
] as const
const mesh = meshOutline({ outline, size: 0.02 })
const plies = (turn: number): PlateSection =>
  laminated(carbon, [
    { angle: degrees(30 + turn), t: 1.5e-3 },
    { angle: degrees(-10), t: 1e-3 },
    { angle: 0, t: 1e-3 },
  ])
const spring = (times: number): ElasticSupport => ({
  ...{ deflection: 4e8 * times, coupling: -1.5e6 * times, rotation: 1.2e4 * times, twist: 3e3 * times },
  inPlane: 'held',
})
const model = (times: number, turn = 0): PlateModel =>
  assemblePlate({ mesh, supports: [spring(times), 'free', 'free', 'free'], sectionAt: () => plies(turn) })

const count = 6
const known = (times: number) => {
  const plate = model(times)
  return { model: plate, modes: plateModes(plate, count) }
}
/** Of vectors with each other, row-major. */
const products = (A: SymmetricMatrix, vectors: readonly Float64Array[]): number[] =>
  vectors.flatMap((x) => vectors.map((y) => dot(x, multiply(A, y))))
/** Largest relative error of the first four frequencies. */
const worst = (found: readonly number[], full: readonly number[]): number =>
  Math.max(...full.slice(0, 4).map((omega, i) => Math.abs(found[i] / omega - 1)))

describe('springs in place of springs', () => {
  test('are the springs summed with the plate', () => {
    const changed = resprung(known(1).model, [spring(7), 'free', 'free', 'free'])
    const anew = model(7)
    const largest = Math.max(...anew.K.value.map(Math.abs))
    changed.K.value.forEach((value, at) => {
      expect(Math.abs(value - anew.K.value[at])).toBeLessThan(1e-12 * largest)
    })
    expect(changed.layout.springs).toEqual(anew.layout.springs)
  })
  test('are refused where none stood', () => {
    const clamped = assemblePlate({ mesh, supports: ['clamped', 'free', 'free', 'free'], sectionAt: () => plies(0) })
    expect(() => resprung(clamped, [spring(1), 'free', 'free', 'free'])).toThrow(/springs/)
  })
})

describe('modes from a neighbour', () => {
  test('are its own where nothing changed', () => {
    const near = known(1)
    expect(worst(neighbourModes(near, model(1)).omega, near.modes.omega)).toBeLessThan(1e-9)
  })
  test.each([
    { what: 'springs half as stiff', change: () => model(0.5) },
    { what: 'springs three times as stiff', change: () => model(3) },
    { what: 'a ply turned by 5°', change: () => model(1, 5) },
  ])('$what: two steps within 0.02 per cent, from above, and one step less well', ({ change }) => {
    const near = known(1)
    const full = plateModes(change(), count).omega
    expect(worst(near.modes.omega, full)).toBeGreaterThan(5e-3)
    const [one, two] = [1, 2].map((steps) => neighbourModes(near, change(), steps).omega)
    expect(worst(two, full)).toBeLessThan(2e-4)
    expect(worst(two, full)).toBeLessThan(worst(one, full))
    two.slice(0, 4).forEach((omega, i) => {
      expect(omega).toBeGreaterThan(full[i] * (1 - 1e-9))
    })
  })
  test('have unit modal mass and are square to each other', () => {
    const changed = model(0.5)
    const { shapes, omega } = neighbourModes(known(1), changed)
    const vectors = shapes.map((shape) => unknownsOf(changed.layout, shape))
    const kappa = products(changed.K, vectors)
    const mu = products(changed.M, vectors)
    omega.forEach((_, i) => {
      omega.forEach((_w, j) => {
        expect(mu[i * count + j]).toBeCloseTo(i === j ? 1 : 0, 8)
        if (i !== j) expect(Math.abs(kappa[i * count + j])).toBeLessThan(1e-8 * omega[i] * omega[j])
      })
    })
    omega.forEach((w, i) => {
      expect(kappa[i * count + i] / w ** 2).toBeCloseTo(1, 9)
    })
  })
})

describe('a basis', () => {
  const { model: plate, modes } = known(1)
  const [a, b, c] = modes.shapes.map((shape) => unknownsOf(plate.layout, shape))
  const mixed = a.map((v, i) => 2 * v - 3 * b[i])
  test('leaves out a vector that those before it make', () => {
    expect(ritzBasis(plate.M, [a, b, mixed]).n).toBe(2)
  })
  test('is of unit mass and square, begins with what was so already, and is made of what was given', () => {
    const skew = c.map((v, i) => 5 * v + 4 * a[i])
    const basis = ritzBasis(plate.M, [a, b, mixed, skew])
    expect(basis.n).toBe(3)
    const unit = Float64Array.from({ length: 9 }, (_, i) => (i % 4 === 0 ? 1 : 0))
    const made = [0, 1, 2].map((j) => combination(basis, unit, { n: 3, j }))
    products(plate.M, made).forEach((value, i) => {
      expect(value).toBeCloseTo(unit[i], 9)
    })
    expect(made[0]).toEqual(a)
    expect(made[2].reduce((most, v, i) => Math.max(most, Math.abs(v - c[i])), 0)).toBeLessThan(1e-9)
    const kappa = projection(plate.K, basis)
    modes.omega.slice(0, 3).forEach((omega, i) => {
      expect(kappa[4 * i] / omega ** 2).toBeCloseTo(1, 9)
    })
  })
})
