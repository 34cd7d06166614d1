/**
 * Flutter of cantilever plates and panels on computed modes, first-order piston theory on one face without damping. The
 * critical λ = 2 q a³/(β D) and Ω = ω a² sqrt(ρ h/D) beside them were found apart from this code by Rayleigh-Ritz with
 * polynomials (two degrees agreed to 0.5 %): a comparison of methods, no published values.
 */
import { describe, expect, test } from 'vitest'
import { pistonTheory } from '../../src/flutter/piston.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { fourfoldMesh } from '../../src/plate/quadratic-mesh.ts'
import { isotropic } from '../plate/plates.ts'

const sheet = { E: 70e9, nu: 0.3, t: 2e-3, rho: 2700 }
const D = (sheet.E * sheet.t ** 3) / (12 * (1 - sheet.nu ** 2))
const mass = sheet.rho * sheet.t

interface Case {
  readonly outline: readonly Point[]
  readonly supports: readonly ('free' | 'simple' | 'clamped')[]
  readonly size: number
  readonly modes: number
  /** Root or panel length along the flow is 1. */
  readonly flowDirection?: number
}

function critical({ outline, supports, size, modes: count, flowDirection = 0 }: Case): {
  lambda: number
  Omega: number
} {
  const section = isotropic(sheet)
  const model = assemblePlate({ mesh: meshOutline({ outline, size }), supports, sectionAt: () => section })
  const modes = plateModes(model, count)
  const method = pistonTheory({
    mesh: fourfoldMesh(model.layout.nodes),
    shapes: modes.shapes.map(({ w }) => w),
    flowDirection,
    faces: 1,
    order: 1,
    slopes: [],
    aerodynamicDamping: false,
  })
  const [mach, density] = [4, 0.3]
  const { flutter } = solvePk({ omegas: modes.omega, structuralDamping: 0, forces: method.forces(mach), density })
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  const lambda = (density * flutter.V ** 2) / (Math.sqrt(mach ** 2 - 1) * D)
  return { lambda, Omega: flutter.omega * Math.sqrt(mass / D) }
}

const square: Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
]
const triangle: Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
]
const rectangle = (b: number): Point[] => [
  [0, 0],
  [1, 0],
  [1, b],
  [0, b],
]
const within = (computed: number, other: number): number => Math.abs(computed / other - 1)
const oneEdge = ['clamped', 'free', 'free', 'free'] as const

describe('cantilevers', () => {
  test('square, clamped edge along the flow: λ 58.0, Ω 6.48', () => {
    const found = critical({ outline: square, supports: oneEdge, size: 0.1, modes: 12 })
    expect(within(found.lambda, 58.0)).toBeLessThan(0.01)
    expect(within(found.Omega, 6.48)).toBeLessThan(0.01)
  })
  test('right triangle, leading edge swept 45°: λ 172.4, Ω 18.57', () => {
    const found = critical({ outline: triangle, supports: ['clamped', 'free', 'free'], size: 0.1, modes: 12 })
    expect(within(found.lambda, 172.4)).toBeLessThan(0.01)
    expect(within(found.Omega, 18.57)).toBeLessThan(0.01)
  })
  test('the same triangle turned with the flow', () => {
    const angle = 0.5
    const turn = ([x, y]: Point): Point => [
      x * Math.cos(angle) - y * Math.sin(angle),
      x * Math.sin(angle) + y * Math.cos(angle),
    ]
    const supports = ['clamped', 'free', 'free'] as const
    const found = critical({ outline: triangle.map(turn), supports, size: 0.1, modes: 12, flowDirection: angle })
    expect(within(found.lambda, 172.4)).toBeLessThan(0.01)
  })
})

/** λ and Ω by Galerkin's method with 40 sine modes, apart from this code. */
const panels = [
  { ab: 0.5, lambda: 384.18, Omega: 35.02, size: 0.1, modes: 24 },
  { ab: 1, lambda: 512.65, Omega: 42.99, size: 0.08, modes: 24 },
  { ab: 2, lambda: 1106.65, Omega: 76.25, size: 0.05, modes: 20 },
]

test.each(panels)(
  'panel simply supported all round, a/b = $ab, on computed modes',
  ({ ab, lambda, Omega, size, modes }) => {
    const found = critical({
      outline: rectangle(1 / ab),
      supports: ['simple', 'simple', 'simple', 'simple'],
      size,
      modes,
    })
    expect(within(found.lambda, lambda)).toBeLessThan(0.01)
    expect(within(found.Omega, Omega)).toBeLessThan(0.01)
  },
)

/**
 * A plate swept 15°, bevelled over an eighth of the chord at both edges, in the manner of NASA TN D-1824 (1963), model A of
 * magnesium, with the frequencies printed for it imposed. Published there and after: thickness lowers the speed, by 11 % at
 * Mach 1.3 and 22 % at Mach 3 by lifting surfaces (recalled). Strips by themselves show 16 % at Mach 3.
 */
test('thickness lowers the flutter speed of a bevelled plate', () => {
  const inch = 0.0254
  const [span, chord, sweep, thick] = [5.5251 * inch, 2.07055 * inch, 1.48044 * inch, 0.041 * inch]
  const outline: Point[] = [
    [0, 0],
    [chord, 0],
    [chord + sweep, span],
    [sweep, span],
  ]
  const fraction = (x: number, y: number): number => (x - (sweep * y) / span) / chord
  const shareAt = (f: number): number => Math.max(0.01, Math.min(1, 8 * f, 8 * (1 - f)))
  const magnesium = { E: 43.85e9, nu: 43.85 / 17.54 / 2 - 1, rho: 1733 }
  const model = assemblePlate({
    mesh: meshOutline({ outline, size: 0.01 }),
    supports: oneEdge,
    sectionAt: ({ x, y }) => isotropic({ ...magnesium, t: thick * shareAt(fraction(x, y)) }),
  })
  const shapes = plateModes(model, 4).shapes.map(({ w }) => w)
  const mesh = fourfoldMesh(model.layout.nodes)
  const slopes = Float64Array.from({ length: mesh.T.length / 3 }, (_, e) => {
    const nodes = [0, 1, 2].map((c) => 2 * mesh.T[3 * e + c])
    const f = fraction(
      nodes.reduce((sum, n) => sum + mesh.X[n] / 3, 0),
      nodes.reduce((sum, n) => sum + mesh.X[n + 1] / 3, 0),
    )
    return f < 1 / 8 ? (4 * thick) / chord : f > 7 / 8 ? (-4 * thick) / chord : 0
  })
  const omegas = [35.47, 218.0, 273.7, 655.2].map((f) => 2 * Math.PI * f)
  const speeds = ([1, 2] as const).map((order) => {
    const method = pistonTheory({ mesh, shapes, flowDirection: 0, faces: 2, order, slopes })
    const { flutter } = solvePk({ omegas, structuralDamping: 0, forces: method.forces(3), density: 0.25 })
    if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
    return flutter.V
  })
  expect(speeds[1] / speeds[0]).toBeGreaterThan(0.78)
  expect(speeds[1] / speeds[0]).toBeLessThan(0.89)
})
