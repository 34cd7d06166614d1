import { describe, expect, test } from 'vitest'
import type { Mesh } from '../../src/geometry/mesh.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'
import { multiply } from '../../src/numeric/sparse.ts'
import { assemblePlate, type PlateModel } from '../../src/plate/assemble.ts'
import { plateModes } from '../../src/plate/modes.ts'
import type { NodalField } from '../../src/plate/nodal-field.ts'
import type { PlateSection } from '../../src/plate/section.ts'
import type { Support } from '../../src/plate/supports.ts'
import { carbon, degrees, isotropic, laminated, observedOrder, rectangle, structured } from './plates.ts'

const sheet = { E: 70e9, nu: 0.3, t: 2e-3, rho: 2700 }

const frequencies = (mesh: Mesh, supports: readonly Support[], section: PlateSection, count: number): number[] => {
  const modes = plateModes(assemblePlate({ mesh, supports, sectionAt: () => section }), count)
  expect(modes.kind).toBe('converged')
  expect(modes.missed).toBe(0)
  for (const residual of modes.residuals) expect(residual).toBeLessThan(1e-7)
  return [...modes.omega]
}

describe('rigid motions of a free plate', () => {
  const free = ['free', 'free', 'free', 'free'] as const
  test('three without coupling', () => {
    const omega = frequencies(structured(0.3, 0.2, 3, 2, 0.2), free, isotropic(sheet), 5)
    for (const value of omega.slice(0, 3)) expect(value).toBeLessThan(1e-4 * omega[3])
    expect(omega[3]).toBeGreaterThan(100)
  })
  test('six with coupling', () => {
    const section = laminated(carbon, [
      { angle: 0, t: 1e-3 },
      { angle: degrees(90), t: 1e-3 },
    ])
    const omega = frequencies(structured(0.3, 0.2, 3, 2, 0.2), free, section, 8)
    for (const value of omega.slice(0, 6)) expect(value).toBeLessThan(1e-4 * omega[6])
    expect(omega[6]).toBeGreaterThan(100)
  })
  test('a plate simply supported along one edge turns about it: one', () => {
    const omega = frequencies(structured(0.3, 0.2, 3, 2), ['simple', 'free', 'free', 'free'], isotropic(sheet), 3)
    expect(omega[0]).toBeLessThan(1e-4 * omega[1])
  })
})

describe('repeated frequencies of a square', () => {
  const mesh = structured(0.2, 0.2, 3, 3)
  test.each(['clamped', 'simple'] as const)('all edges %s: every pair is found', (support) => {
    const supports = [support, support, support, support]
    const all = frequencies(mesh, supports, isotropic(sheet), 11)
    // (1,1), then (1,2) with (2,1), (2,2), …: the second and third are one
    expect(Math.abs(all[2] / all[1] - 1)).toBeLessThan(1e-9)
    expect(all[3] / all[2]).toBeGreaterThan(1.2)
    for (let count = 1; count <= 10; count++) {
      frequencies(mesh, supports, isotropic(sheet), count).forEach((value, i) => {
        expect(value / all[i]).toBeCloseTo(1, 8)
      })
    }
  })
})

test('shapes have unit modal mass and are orthogonal in mass and stiffness', () => {
  const model = assemblePlate({
    mesh: structured(0.2, 0.2, 3, 3),
    supports: ['clamped', 'clamped', 'clamped', 'clamped'],
    sectionAt: () => isotropic(sheet),
  })
  const { omega, shapes } = plateModes(model, 6)
  const vector = ({ w, phiX, phiY }: NodalField): Float64Array => {
    const x = new Float64Array(model.layout.n)
    model.layout.unknown.forEach((at, i) => {
      if (at >= 0) x[at] = [w, phiX, phiY][i % 3][Math.floor(i / 3)]
    })
    return x
  }
  const x = shapes.map(vector)
  x.forEach((p, i) => {
    x.forEach((q, j) => {
      const product = (A: PlateModel['K']): number => multiply(A, p).reduce((sum, value, k) => sum + value * q[k], 0)
      expect(product(model.M)).toBeCloseTo(i === j ? 1 : 0, 8)
      expect(product(model.K) / omega[i] ** 2).toBeCloseTo(i === j ? 1 : 0, 7)
    })
  })
})

/** The mesh turned about the origin and moved. */
function turned({ X, T, boundary }: Mesh, angle: number): Mesh {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const moved = Float64Array.from(X, (_, i) => {
    const [x, y] = [X[i - (i % 2)], X[i - (i % 2) + 1]]
    return i % 2 === 0 ? c * x - s * y + 0.3 : s * x + c * y - 0.7
  })
  return { X: moved, T, boundary }
}

test('turning plate, laminate and supports together changes nothing', () => {
  const plies = [
    { angle: degrees(20), t: 1e-3 },
    { angle: degrees(-50), t: 1.5e-3 },
    { angle: degrees(75), t: 0.5e-3 },
  ]
  // All kinds of supports, so that frames of single nodes are turned too.
  const sliding = { deflection: false, slopeAlong: false, slopeAcross: true, along: false, across: true }
  const supports: Support[] = ['clamped', sliding, 'simple', 'free']
  const mesh = structured(0.3, 0.2, 3, 2, 0.2)
  const before = frequencies(mesh, supports, laminated(carbon, plies), 6)
  for (const angle of [0.4, 1.9, -2.5]) {
    const section = laminated(
      carbon,
      plies.map((ply) => ({ ...ply, angle: ply.angle + angle })),
    )
    frequencies(turned(mesh, angle), supports, section, 6).forEach((value, i) => {
      expect(value / before[i]).toBeCloseTo(1, 8)
    })
  }
})

test('the mirror image of a laminate with D16 on the mirrored plate has the same frequencies', () => {
  const angled = (sign: number) => laminated(carbon, [{ angle: sign * degrees(35), t: 2e-3 }])
  const outline: Point[] = [
    [0, 0],
    [0.2, 0],
    [0.25, 0.15],
    [0.1, 0.15],
  ]
  const mesh = meshOutline({ outline, size: 0.03 })
  const mirrored: Mesh = {
    X: mesh.X.map((x, i) => (i % 2 === 0 ? -x : x)),
    T: mesh.T.map((_, i) => mesh.T[i - (i % 3) + [0, 2, 1][i % 3]]),
    boundary: mesh.boundary.map(({ a, b, segment }) => ({ a: b, b: a, segment })).reverse(),
  }
  const supports: Support[] = ['clamped', 'free', 'free', 'free']
  const plain = frequencies(mesh, supports, angled(1), 4)
  const other = frequencies(mirrored, supports, angled(-1), 4)
  const wrong = frequencies(mirrored, supports, angled(1), 4)
  other.forEach((value, i) => {
    expect(value / plain[i]).toBeCloseTo(1, 9)
  })
  expect(Math.abs(wrong[1] / plain[1] - 1)).toBeGreaterThan(0.02)
})

test('everything twice as large: half the frequency', () => {
  const supports: Support[] = ['clamped', 'free', 'simple', 'free']
  const small = frequencies(structured(0.3, 0.2, 3, 2), supports, isotropic(sheet), 5)
  const large = frequencies(structured(0.6, 0.4, 3, 2), supports, isotropic({ ...sheet, t: 2 * sheet.t }), 5)
  large.forEach((value, i) => {
    expect((2 * value) / small[i]).toBeCloseTo(1, 9)
  })
})

test('a thin simply supported plate converges at fourth order, from above', () => {
  const D = (sheet.E * sheet.t ** 3) / (12 * (1 - sheet.nu ** 2))
  // ω = π² (1/a² + 1/b²) √(D/ρt): thin-plate theory, so shear and rotary inertia are taken out
  const section = { ...isotropic({ ...sheet, shear: 1e6 }), rotaryInertia: 1e-12 }
  const exact = Math.PI ** 2 * (1 / 0.3 ** 2 + 1 / 0.2 ** 2) * Math.sqrt(D / (sheet.rho * sheet.t))
  const simple = ['simple', 'simple', 'simple', 'simple'] as const
  const errors = [2, 4, 8].map((n) => frequencies(structured(0.3, 0.2, n, n), simple, section, 1)[0] / exact - 1)
  for (const error of errors) expect(error).toBeGreaterThan(0)
  expect(observedOrder(errors)).toBeGreaterThan(3.7)
  expect(errors[2]).toBeLessThan(2e-5)
})

test('does not lock: the error on a given mesh hardly depends on thickness', () => {
  const clamped = ['clamped', 'clamped', 'clamped', 'clamped'] as const
  const lambda = (t: number): number => {
    const D = (sheet.E * t ** 3) / (12 * (1 - sheet.nu ** 2))
    const omega = frequencies(structured(1, 1, 3, 3, 0.15), clamped, isotropic({ ...sheet, t }), 1)[0]
    return omega * Math.sqrt((sheet.rho * t) / D)
  }
  // 35.985 for a thin clamped square (Leissa 1969, recalled: 35.99)
  for (const t of [1e-2, 1e-3, 1e-4, 1e-5]) expect(Math.abs(lambda(t) / 35.985 - 1)).toBeLessThan(0.01)
  expect(Math.abs(lambda(1e-3) / lambda(1e-5) - 1)).toBeLessThan(1e-4)
})

test('a refined mesh lowers the frequencies of a thin cantilever, each time by less', () => {
  // Thin, because a shear-deformable plate has a layer as wide as it is thick along free edges, met only by a fine mesh.
  const section = isotropic({ ...sheet, shear: 100 })
  const supports: Support[] = ['clamped', 'free', 'free', 'free']
  const first = [1, 2, 4, 8].map((n) => frequencies(structured(0.2, 0.11, n, n), supports, section, 4))
  for (let mode = 0; mode < 4; mode++) {
    const steps = [0, 1, 2].map((i) => first[i][mode] - first[i + 1][mode])
    for (const step of steps) expect(step).toBeGreaterThan(0)
    expect(steps[1]).toBeLessThan(0.5 * steps[0])
    expect(steps[2]).toBeLessThan(0.5 * steps[1])
  }
})

test('a changed section in the same layout gives what a fresh plate gives', () => {
  const mesh = meshOutline({ outline: rectangle(0.3, 0.1), size: 0.03 })
  const supports: Support[] = ['clamped', 'free', 'free', 'free']
  const first = assemblePlate({ mesh, supports, sectionAt: () => isotropic(sheet) })
  const thick = isotropic({ ...sheet, t: 3e-3 })
  const again = assemblePlate({ mesh, supports: [...supports], sectionAt: () => thick, like: first })
  expect(again.layout).toBe(first.layout)
  expect(plateModes(again, 3)).toEqual(plateModes(assemblePlate({ mesh, supports, sectionAt: () => thick }), 3))
  const coupled = laminated(carbon, [
    { angle: 0, t: 1e-3 },
    { angle: 1, t: 1e-3 },
  ])
  expect(assemblePlate({ mesh, supports, sectionAt: () => coupled, like: first }).layout.perNode).toBe(5)
})

test('5 unknowns a node give the bending modes of 3 when nothing couples', () => {
  const section = isotropic(sheet)
  const mesh = structured(0.3, 0.2, 3, 2)
  const supports: Support[] = ['clamped', 'free', 'free', 'free']
  const three = plateModes(assemblePlate({ mesh, supports, sectionAt: () => section }), 5)
  const five = plateModes(assemblePlate({ mesh, supports, sectionAt: () => section, coupled: true }), 5)
  five.omega.forEach((value, i) => {
    expect(value / three.omega[i]).toBeCloseTo(1, 10)
  })
})
