/** What is read off a solved fin: names of modes, values at points, the twist as one number. */
import { describe, expect, test } from 'vitest'
import type { Mesh } from '../../src/geometry/mesh.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { effectiveTorsion } from '../../src/plate/effective-torsion.ts'
import { fieldReader } from '../../src/plate/field-at.ts'
import { recommendedMeshSize } from '../../src/plate/mesh-size.ts'
import { modeKind, modeNamer } from '../../src/plate/mode-kind.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { fourfoldMesh } from '../../src/plate/quadratic-mesh.ts'
import { plateStatic } from '../../src/plate/static.ts'
import { cornerStrains, elementStrains } from '../../src/plate/strains.ts'
import type { Support } from '../../src/plate/supports.ts'
import { isotropic, rectangle, structured } from './plates.ts'

const sheet = { E: 20e9, nu: 0.3, t: 2e-3, rho: 1900 }
const supports: Support[] = ['clamped', 'free', 'free', 'free']
const fin: Point[] = [
  [0, 0],
  [0.3, 0],
  [0.27, 0.11],
  [0.15, 0.11],
]

const plate = (mesh: Mesh, given = sheet) => assemblePlate({ mesh, supports, sectionAt: () => isotropic(given) })

describe('names of modes', () => {
  test('a strip three times as long as wide: the beam sequence', () => {
    const model = plate(structured(0.1, 0.3, 2, 6))
    const { omega, shapes } = plateModes(model, 6)
    expect(shapes.map((shape) => modeKind(model, shape))).toEqual([
      'first bending',
      'first torsion',
      'second bending',
      'third bending',
      'second torsion',
      'fourth bending',
    ])
    // beam theory: second over first bending 6.267
    expect(omega[2] / omega[0]).toBeGreaterThan(6)
    expect(omega[2] / omega[0]).toBeLessThan(6.5)
  })
  test('a square: bending, torsion, second bending, chordwise bending', () => {
    const model = plate(structured(0.2, 0.2, 4, 4))
    expect(plateModes(model, 4).shapes.map((shape) => modeKind(model, shape))).toEqual([
      'first bending',
      'first torsion',
      'second bending',
      'first chordwise bending',
    ])
  })
  test('a swept fin', () => {
    const model = plate(meshOutline({ outline: fin, size: recommendedMeshSize(fin) }))
    const namer = modeNamer(model)
    const [bending, torsion] = plateModes(model, 2).shapes.map(namer)
    expect(bending.name).toBe('first bending')
    expect(bending.bending).toBeGreaterThan(0.9)
    expect(torsion.name).toBe('first torsion')
    expect(torsion.torsion).toBeGreaterThan(0.9)
    expect(torsion.bending + torsion.torsion + torsion.chordwise).toBeCloseTo(1, 12)
  })
  test('a plate that nothing holds', () => {
    const mesh = structured(0.2, 0.2, 1, 1)
    const model = assemblePlate({ mesh, supports: ['free', 'free', 'free', 'free'], sectionAt: () => isotropic(sheet) })
    expect(modeKind(model, plateModes(model, 1).shapes[0])).toBe('free body')
  })
})

describe('torsion as one number', () => {
  /**
   * GJ = G c t³/3 (thin, Saint-Venant), with the clamped root's restraint of warping: θ = T/GJ (L − tanh(kL)/k),
   * k = √(24 (1 − ν)) / c. Reissner & Stein, NACA TN 2369 (1951) (recalled; rigid chords, so for slender plates).
   */
  const slender = (L: number, c: number): number => {
    const GJ = (sheet.E / (2 * (1 + sheet.nu))) * c * (sheet.t ** 3 / 3)
    const k = Math.sqrt(24 * (1 - sheet.nu)) / c
    return (GJ * L) / (L - Math.tanh(k * L) / k)
  }
  test.each([4, 8, 12])('rectangle %i chords long', (ratio) => {
    const [c, L] = [0.1, 0.1 * ratio]
    const found = effectiveTorsion(plate(meshOutline({ outline: rectangle(c, L), size: c / 6 })))
    if (found.kind !== 'torsion') throw new Error(found.kind)
    expect(found.L).toBeCloseTo(L, 5)
    expect(found.chord).toBeCloseTo(c, 5)
    expect(Math.abs(found.GJ / slender(L, c) - 1)).toBeLessThan(0.02)
  })
  test('grows with the cube of the thickness, and does not depend on the mesh', () => {
    const torsion = (size: number, t: number): number => {
      const found = effectiveTorsion(plate(meshOutline({ outline: fin, size }), { ...sheet, t }))
      if (found.kind !== 'torsion') throw new Error(found.kind)
      return found.GJ
    }
    expect(torsion(0.015, 1e-3) / torsion(0.015, 0.5e-3)).toBeCloseTo(8, 0)
    expect(Math.abs(torsion(0.02, 2e-3) / torsion(0.008, 2e-3) - 1)).toBeLessThan(0.01)
  })
  test('a triangle is twisted where its chord is a fifth of the root', () => {
    const mesh = meshOutline({
      outline: [
        [0, 0],
        [0.3, 0],
        [0.3, 0.2],
      ],
      size: 0.02,
    })
    const found = effectiveTorsion(assemblePlate({ mesh, supports, sectionAt: () => isotropic(sheet) }))
    if (found.kind !== 'torsion') throw new Error(found.kind)
    expect(found.L).toBeCloseTo(0.16, 5)
    expect(found.chord).toBeCloseTo(0.06, 5)
    expect(found.GJ).toBeGreaterThan(0)
  })
  test('nothing holds the plate: no number', () => {
    const mesh = structured(1, 1, 1, 1)
    const model = assemblePlate({ mesh, supports: ['free', 'free', 'free', 'free'], sectionAt: () => isotropic(sheet) })
    expect(effectiveTorsion(model).kind).toBe('not-held')
  })
})

describe('values at points', () => {
  const model = plate(meshOutline({ outline: fin, size: 0.02 }))
  const solved = plateStatic(model, { pressure: () => 1e3 })
  if (solved.kind !== 'solved') throw new Error(solved.kind)
  const read = fieldReader(model)
  test('at nodes they are the nodes’, and slopes are minus the rotations of a thin plate', () => {
    const { X } = model.layout.nodes
    const most = Math.max(...solved.field.w.map(Math.abs))
    for (let node = 0; node < X.length / 2; node += 7) {
      const value = read(solved.field, X[2 * node], X[2 * node + 1])!
      expect(Math.abs(value.w - solved.field.w[node])).toBeLessThan(1e-12 * most)
      expect(Math.abs(value.phiX - solved.field.phiX[node])).toBeLessThan(1e-9 * (most / 0.1))
    }
    const inside = read(solved.field, 0.2, 0.07)!
    expect(inside.wx / -inside.phiX).toBeCloseTo(1, 1)
    expect(inside.wy / -inside.phiY).toBeCloseTo(1, 1)
  })
  test('outside there is none', () => {
    expect(read(solved.field, 0.05, 0.1)).toBeNull()
  })
})

test('the fourfold mesh has the same nodes, area and outline', () => {
  const model = plate(meshOutline({ outline: fin, size: 0.03 }))
  const { nodes, mesh } = model.layout
  const four = fourfoldMesh(nodes)
  expect(four.X).toBe(nodes.X)
  expect(four.T.length).toBe(4 * mesh.T.length)
  expect(four.boundary.length).toBe(2 * mesh.boundary.length)
  four.boundary.forEach(({ b }, i) => {
    expect(four.boundary[(i + 1) % four.boundary.length].a).toBe(b)
  })
  const area = ({ X, T }: Pick<Mesh, 'X' | 'T'>): number => {
    let sum = 0
    for (let e = 0; e < T.length; e += 3) {
      const [a, b, c] = [2 * T[e], 2 * T[e + 1], 2 * T[e + 2]]
      const twice = (X[b] - X[a]) * (X[c + 1] - X[a + 1]) - (X[b + 1] - X[a + 1]) * (X[c] - X[a])
      expect(twice).toBeGreaterThan(0)
      sum += twice / 2
    }
    return sum
  }
  expect(area(four) / area(mesh)).toBeCloseTo(1, 12)
})

test('strains carried to the corners: exact for a linear curvature, and at the nodes', () => {
  const mesh = structured(0.03, 0.2, 1, 4)
  const model = plate(mesh, { ...sheet, nu: 0, t: 5e-3 })
  const solved = plateStatic(model, { forces: [{ at: [0.015, 0.2], force: 10 }] })
  if (solved.kind !== 'solved') throw new Error(solved.kind)
  const strains = cornerStrains(elementStrains(model, solved.field))
  strains.forEach(({ x, y }, i) => {
    const node = mesh.T[i]
    expect(Math.hypot(x - mesh.X[2 * node], y - mesh.X[2 * node + 1])).toBeLessThan(1e-15)
  })
  // at the root κyy = −P L / (D b), mean over the corners there
  const root = strains.filter(({ y }) => y < 1e-9)
  const D = (sheet.E * 5e-3 ** 3) / 12
  const mean = root.reduce((sum, { curvature }) => sum + curvature[1], 0) / root.length
  expect(mean / ((-10 * 0.2) / (D * 0.03))).toBeCloseTo(1, 2)
})
