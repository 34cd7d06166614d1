/** Flutter of simply supported panels; see source.md. λ = 2 q a³/(β D). */
import { expect, test } from 'vitest'
import { type GeneralizedForces, quasiSteadyForces } from '../../src/flutter/forces.ts'
import { pistonTheory } from '../../src/flutter/piston.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { type Panel, rectangle, sampled, sineMode, wideSineMode } from '../../test/flutter/panels.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'olson-1970'

/** a = D = mass = 1, density 2: then q = V² and λ = V² when the forces are those of 2 q/β = 1. */
function galerkin(terms: number, aspect: number, stiffer = 1): { lambda: number; omega: number } {
  const omegas = Array.from({ length: terms }, (_, i) => stiffer * Math.PI ** 2 * ((i + 1) ** 2 + aspect ** 2))
  const A0 = new Float64Array(terms * terms)
  for (let m = 1; m <= terms; m++) {
    for (let r = 1; r <= terms; r++) {
      // −∫ √2 sin mπx · d(√2 sin rπx)/dx dx
      if ((m + r) % 2 === 1) A0[(m - 1) * terms + r - 1] = (-4 * m * r) / (m * m - r * r)
    }
  }
  return flutterOf(omegas, quasiSteadyForces(terms, 1, { A0, A1: new Float64Array(terms * terms) }), 2)
}

function flutterOf(omegas: number[], forces: GeneralizedForces, density: number): { lambda: number; omega: number } {
  const { flutter } = solvePk({ omegas, structuralDamping: 0, forces, density })
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  return { lambda: flutter.V ** 2, omega: flutter.omega }
}

test('two-dimensional panel, exact integrals', () => {
  const { lambda, omega } = galerkin(40, 0)
  // Hedgepeth's figure is cut, not rounded: 343.356 against 343.3.
  expectPublished({
    source,
    quantity: 'λ, two-dimensional (Hedgepeth 1957)',
    printed: '343.3',
    computed: lambda,
    methodError: 1e-4,
  })
  expectPublished({
    source,
    quantity: 'λ, two-dimensional (Olson 1967)',
    printed: '343.356',
    computed: lambda,
    methodError: 1e-5,
  })
  expectPublished({
    source,
    quantity: 'Ω², two-dimensional (own series)',
    printed: '1051.8',
    computed: omega ** 2,
    methodError: 1e-4,
  })
})

test('two-term series: its closed form', () => {
  expectPublished({
    source,
    quantity: 'λ, two terms (closed form)',
    printed: '273.96',
    computed: galerkin(2, 0).lambda,
  })
  expect(galerkin(2, 0).lambda).toBeCloseTo((45 * Math.PI ** 4) / 16, 3)
})

test('square panel, exact integrals', () => {
  const { lambda } = galerkin(20, 1)
  expectPublished({ source, quantity: 'λ, square (Olson 1970)', printed: '512.6', computed: lambda, methodError: 1e-3 })
})

test('has teeth: one per cent on the frequencies, or four terms for forty, are noticed', () => {
  expect(agrees(galerkin(12, 0, 1.01).lambda, published('343.356'), 1e-4)).toBe(false)
  expect(agrees(galerkin(12, 0).lambda, published('343.356'), 1e-4)).toBe(true)
  expect(agrees(galerkin(4, 0).lambda, published('343.3'), 1e-4)).toBe(false)
  expect(agrees(galerkin(20, 1.01).lambda, published('512.6'), 1e-3)).toBe(false)
})

/** The same through the mesh, the piston theory and real units: an aluminium panel at Mach 3. */
const mach = 3
const beta = Math.sqrt(mach ** 2 - 1)
/** Eight modes for forty: 343.296 for 343.356, 1.8e-4; the mesh adds 1.2e-5 (last test). */
const meshError = 2e-4

function meshed(panel: Panel, cells: number, wide: boolean): number {
  const mesh = rectangle(panel.a, panel.b, cells, wide ? 1 : Math.round(cells / 2))
  const modes = Array.from({ length: 8 }, (_, i) => (wide ? wideSineMode : sineMode)(panel, i + 1))
  const method = pistonTheory({
    mesh,
    shapes: modes.map(({ w }) => sampled(mesh, w)),
    flowDirection: 0,
    faces: 1,
    order: 1,
    slopes: [],
    aerodynamicDamping: false,
  })
  const density = 0.4
  const { flutter } = solvePk({
    omegas: modes.map(({ omega }) => omega),
    structuralDamping: 0,
    forces: method.forces(mach),
    density,
  })
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  return (density * flutter.V ** 2 * panel.a ** 3) / (beta * panel.D)
}
const E = 70e9
const h = 1.2e-3
const aluminium = { a: 0.5, D: (E * h ** 3) / (12 * (1 - 0.33 ** 2)), mass: 2700 * h }

test('two-dimensional panel through a mesh', () => {
  const computed = meshed({ ...aluminium, b: 0.02 }, 60, true)
  expectPublished({
    source,
    quantity: 'λ, two-dimensional, meshed shapes at Mach 3',
    printed: '343.356',
    computed,
    methodError: meshError,
  })
})

test('square panel through a mesh', () => {
  const computed = meshed({ ...aluminium, b: 0.5 }, 90, false)
  expectPublished({
    source,
    quantity: 'λ, square, meshed shapes at Mach 3',
    printed: '512.6',
    computed,
    methodError: 1e-3,
  })
})

test('the mesh converges to the same eight modes integrated exactly, at second order or better', () => {
  const exact = galerkin(8, 0).lambda
  const errors = [15, 30, 60].map((cells) => Math.abs(meshed({ ...aluminium, b: 0.02 }, cells, true) / exact - 1))
  expect(errors[2]).toBeLessThan(2e-5)
  expect(errors[0] / errors[1]).toBeGreaterThan(4)
  expect(errors[1] / errors[2]).toBeGreaterThan(4)
})
