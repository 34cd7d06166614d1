/**
 * The error estimate against the error itself (a mesh four times as fine), and any simple outline: modes converge, nothing breaks.
 */
import { describe, expect, test } from 'vitest'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { fieldReader } from '../../src/plate/field-at.ts'
import { recommendedMeshSize } from '../../src/plate/mesh-size.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { refinementError } from '../../src/plate/refinement.ts'
import type { PlateSection, SectionPoint } from '../../src/plate/section.ts'
import { plateSolver } from '../../src/plate/static.ts'
import type { Support } from '../../src/plate/supports.ts'
import { isotropic } from './plates.ts'

const sheet = isotropic({ E: 20e9, nu: 0.15, t: 5e-3, rho: 1900 })
const elastic: Support = { deflection: 4e8, coupling: 2e6, rotation: 2e4, twist: 5e4, inPlane: 'held' }

interface Case {
  readonly name: string
  readonly outline: readonly Point[]
  /** Where the force acts. */
  readonly at: Point
  readonly root?: Support
  readonly sectionAt?: (point: SectionPoint) => PlateSection
  /** Of any of the first four modes at the recommended mesh, against one four times as fine. */
  readonly worst: number
}

/** Bevels down to a tenth of the thickness, 15 mm wide on the three free edges. */
const swept: readonly Point[] = [
  [0, 0],
  [0.3, 0],
  [0.27, 0.11],
  [0.15, 0.11],
]
const bevels = (() => {
  const known = new Map<number, PlateSection>()
  return ({ x, y }: SectionPoint): PlateSection => {
    const edge = Math.min(0.11 - y, (x * 0.11 - y * 0.15) / Math.hypot(0.11, 0.15), (0.3 - x) * 0.96 - y * 0.26)
    const t = Math.round(1e5 * 5e-3 * Math.min(1, 0.1 + (0.9 * Math.max(0, edge)) / 0.015)) / 1e5
    if (!known.has(t)) known.set(t, isotropic({ E: 20e9, nu: 0.15, t, rho: 1900 }))
    return known.get(t) as PlateSection
  }
})()

/** Fillets of 15 mm that stand 12 mm high and count as so much more sheet. */
const fillets = (() => {
  const known = new Map<number, PlateSection>()
  return ({ y }: SectionPoint): PlateSection => {
    const e = y < 0.012 ? 0.015 - Math.sqrt(0.015 ** 2 - (0.012 - y) ** 2) : 0
    const t = Math.round(1e4 * (5e-3 + e)) / 1e4
    if (!known.has(t)) known.set(t, isotropic({ E: 20e9, nu: 0.15, t, rho: 1900 }))
    return known.get(t) as PlateSection
  }
})()

const cases: readonly Case[] = [
  { name: 'swept trapezoid', outline: swept, at: [0.21, 0.11], worst: 3e-3 },
  { name: 'the same on springs', outline: swept, at: [0.21, 0.11], root: elastic, worst: 3e-3 },
  {
    name: 'the same on springs, with fillets',
    outline: swept,
    at: [0.21, 0.11],
    root: elastic,
    sectionAt: fillets,
    worst: 5e-3,
  },
  { name: 'the same with bevels', outline: swept, at: [0.21, 0.1], sectionAt: bevels, worst: 1e-2 },
  {
    name: 'clipped tip',
    outline: [
      [0, 0],
      [0.25, 0],
      [0.25, 0.05],
      [0.22, 0.1],
      [0.12, 0.1],
    ],
    at: [0.17, 0.1],
    worst: 3e-3,
  },
  {
    name: 'triangle',
    outline: [
      [0, 0],
      [0.3, 0],
      [0.28, 0.15],
    ],
    at: [0.28, 0.15],
    worst: 3e-3,
  },
  {
    name: 'strake',
    outline: [
      [0, 0],
      [0.35, 0],
      [0.35, 0.12],
      [0.25, 0.12],
      [0.15, 0.02],
    ],
    at: [0.3, 0.12],
    worst: 3e-3,
  },
  {
    name: 'notched tip',
    outline: [
      [0, 0],
      [0.2, 0],
      [0.2, 0.1],
      [0.12, 0.1],
      [0.12, 0.06],
      [0.09, 0.06],
      [0.09, 0.1],
      [0.02, 0.1],
    ],
    at: [0.2, 0.1],
    worst: 1.5e-2,
  },
  {
    name: 'swept by 60°',
    outline: [
      [0, 0],
      [0.2, 0],
      [0.45, 0.15],
      [0.33, 0.15],
    ],
    at: [0.39, 0.15],
    worst: 1e-2,
  },
]

function solution({ outline, at, root = 'clamped', sectionAt = () => sheet }: Case, size: number) {
  const supports = outline.map((_, i): Support => (i === 0 ? root : 'free'))
  const model = assemblePlate({ mesh: meshOutline({ outline, size }), supports, sectionAt })
  const solved = plateSolver(model)({ forces: [{ at, force: 1 }] })
  const modes = plateModes(model, 4)
  const w = solved.kind === 'solved' ? fieldReader(model)(solved.field, at[0], at[1])?.w : undefined
  if (w === undefined || modes.kind !== 'converged') throw new Error('the plate is solved')
  return { model, omega: modes.omega, w }
}

describe.each(cases)('$name', (fin) => {
  const size = recommendedMeshSize(fin.outline)
  const sectionAt = fin.sectionAt ?? (() => sheet)
  const [own, fine] = [solution(fin, size), solution(fin, size / 4)]
  const estimate = refinementError({
    ...{ outline: fin.outline, size, sectionAt, model: own.model, omega: own.omega },
    deflection: { at: fin.at, perForce: own.w },
  })

  test('the estimate is at least half of the error', () => {
    own.omega.forEach((omega, i) => {
      expect(2 * estimate.omega[i]).toBeGreaterThan(Math.abs(omega / fine.omega[i] - 1))
    })
    expect(2 * (estimate.deflection as number)).toBeGreaterThan(Math.abs(own.w / fine.w - 1))
  })

  // it reads high, up to thirty times where the mesh is better than it has a right to be (the bevels here)
  test('it does not cry wolf: under two per cent for frequencies, and it falls with the mesh', () => {
    for (const error of estimate.omega) expect(error).toBeLessThan(0.02)
    if (!['swept trapezoid', 'strake', 'the same on springs, with fillets'].includes(fin.name)) return
    const half = solution(fin, size / 2)
    const finer = refinementError({
      outline: fin.outline,
      size: size / 2,
      sectionAt,
      model: half.model,
      omega: half.omega,
    })
    const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length
    expect(mean(finer.omega)).toBeLessThan(0.7 * mean(estimate.omega))
  })

  test('four modes are as near to a fine mesh as the method says', () => {
    own.omega.forEach((omega, i) => {
      expect(Math.abs(omega / fine.omega[i] - 1)).toBeLessThan(fin.worst)
    })
  })
})

test('a kept companion gives the same estimate', () => {
  const outline = swept
  const size = recommendedMeshSize(outline)
  const own = solution(cases[0], size)
  const input = { outline, size, sectionAt: () => sheet, model: own.model, omega: own.omega }
  const first = refinementError(input)
  const again = refinementError({ ...input, companion: first.companion })
  expect(again.companion.layout.analysis).toBe(first.companion.layout.analysis)
  expect(again.omega).toEqual(first.omega)
})

test('segments from 20 µm to 20 cm on one outline change nothing', () => {
  const crumbs: Point[] = [
    [0, 0],
    [0.2, 0],
    [0.2, 0.1],
    [0.12, 0.1],
    [0.12 - 2e-5, 0.1],
    [0.12 - 6e-5, 0.1 + 1e-5],
    [0.02, 0.1],
  ]
  const plain: Point[] = [
    [0, 0],
    [0.2, 0],
    [0.2, 0.1],
    [0.02, 0.1],
  ]
  const [a, b] = [crumbs, plain].map((outline) => solution({ name: '', outline, at: [0.1, 0.05], worst: 0 }, 0.02))
  a.omega.forEach((omega, i) => {
    expect(Math.abs(omega / b.omega[i] - 1)).toBeLessThan(2e-3)
  })
})

test('a strip a hundred times as long as wide, and one on its long side', () => {
  const beam = (L: number, c: number) =>
    solution(
      {
        name: '',
        at: [c / 2, L],
        worst: 0,
        outline: [
          [0, 0],
          [c, 0],
          [c, L],
          [0, L],
        ],
      },
      0.01,
    )
  const { omega } = beam(0.5, 0.005)
  const D = (20e9 * 5e-3 ** 3) / 12
  expect(omega[0] / ((1.8751 ** 2 / 0.5 ** 2) * Math.sqrt(D / (1900 * 5e-3)))).toBeCloseTo(1, 2)
  expect(beam(0.02, 0.6).omega.every((value) => value > 0)).toBe(true)
})
