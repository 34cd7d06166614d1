/** The p-k solution against closed forms, against itself by another way, and its trends. */
import { describe, expect, test } from 'vitest'
import { crossing } from '../../src/flutter/crossing.ts'
import { divergence } from '../../src/flutter/divergence.ts'
import { type GeneralizedForces, quasiSteadyForces, tabulatedForces } from '../../src/flutter/forces.ts'
import { pistonTheory } from '../../src/flutter/piston.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { rootKernel } from '../../src/flutter/root-kernel.ts'
import { type Aeroelastic, growth, rootsAt } from '../../src/flutter/roots.ts'
import { swept, sweptAt } from '../../src/flutter/sweeping.ts'
import { rectangle, sampled } from './panels.ts'

/** Two modes coupled by the air, with damping: small enough to work out by hand. */
const omegas = [20, 50]
const coupled = (damping: number): GeneralizedForces =>
  quasiSteadyForces(2, 0.1, {
    A0: Float64Array.of(-0.2, 1.5, -0.9, 0.6),
    A1: Float64Array.of(-damping, 0, 0, -0.7 * damping),
  })
const system = (forces: GeneralizedForces, structuralDamping = 0): Aeroelastic => ({
  omegas,
  structuralDamping,
  forces,
  density: 1.2,
})
const flutterOf = (s: Aeroelastic, limit?: number): { V: number; omega: number } => {
  const { flutter } = limit === undefined ? solvePk(s) : solvePk(s, limit)
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  return flutter
}

describe('two modes in closed form', () => {
  test('without damping: the two frequencies meet', () => {
    const [a11, a12, a21, a22] = coupled(0).at(0).A0
    // (Ω₁² − q a₁₁ − λ)(Ω₂² − q a₂₂ − λ) = q² a₁₂ a₂₁ has a double root λ.
    const [P, Q] = [omegas[1] ** 2 - omegas[0] ** 2, a22 - a11]
    // (P − q Q)² + 4 q² a₁₂ a₂₁ = 0
    const q = P / (Q + 2 * Math.sqrt(-a12 * a21))
    const found = flutterOf(system(coupled(0)))
    expect((0.6 * found.V ** 2) / q).toBeCloseTo(1, 5)
    const lambda = (omegas[0] ** 2 - q * a11 + omegas[1] ** 2 - q * a22) / 2
    expect(found.omega ** 2 / lambda).toBeCloseTo(1, 5)
  })

  test('with damping: Routh’s discriminant is nought at the speed found', () => {
    const found = flutterOf(system(coupled(0.05)))
    const q = 0.6 * found.V ** 2
    const { A0, A1 } = coupled(0.05).at(0)
    const c = (q * 0.1) / found.V
    const [k1, k2, c1, c2] = [omegas[0] ** 2 - q * A0[0], omegas[1] ** 2 - q * A0[3], -c * A1[0], -c * A1[3]]
    const p3 = c1 + c2
    const p2 = k1 + k2 + c1 * c2
    const p1 = c1 * k2 + c2 * k1
    const p0 = k1 * k2 - q * q * A0[1] * A0[2]
    expect((p1 * (p3 * p2 - p1)) / (p3 * p3 * p0)).toBeCloseTo(1, 4)
    expect(found.omega ** 2 / (p1 / p3)).toBeCloseTo(1, 4)
  })

  test('with structural damping: s = i ω solves the equation with (1 + i g)', () => {
    const g = 0.03
    const found = flutterOf(system(coupled(0.02), g))
    const q = 0.6 * found.V ** 2
    const { A0, A1 } = coupled(0.02).at(0)
    const c = (q * 0.1) / found.V
    const diagonal = (i: number): [number, number] => [
      omegas[i] ** 2 - q * A0[3 * i] - found.omega ** 2,
      g * omegas[i] ** 2 - c * found.omega * A1[3 * i],
    ]
    const [[aRe, aIm], [bRe, bIm]] = [diagonal(0), diagonal(1)]
    const size = q * q * Math.abs(A0[1] * A0[2])
    expect(Math.abs(aRe * bRe - aIm * bIm - q * q * A0[1] * A0[2]) / size).toBeLessThan(1e-4)
    expect(Math.abs(aRe * bIm + aIm * bRe) / size).toBeLessThan(1e-4)
  })
})

test('roots followed one by one give the speed that all roots at once give', () => {
  for (const damping of [0.02, 0.2]) {
    const s = system(coupled(damping), 0.01)
    const all = swept(s, { firstStep: 0.5, speedLimit: 1e3, unstable: 1e-7, diverges: Number.POSITIVE_INFINITY })
    if (all.kind !== 'flutter') throw new Error(all.kind)
    const each = flutterOf(s)
    expect(each.V / all.V).toBeCloseTo(1, 6)
    expect(each.omega / all.root.im).toBeCloseTo(1, 6)
  }
})

test('a table over k of the same forces gives the same speed', () => {
  const { A0, A1 } = coupled(0.1).at(0)
  const k = [0, 0.05, 0.2, 0.6, 1.5]
  const Q = k.map((kk) => ({ n: 2, re: A0.slice(), im: A1.map((v) => kk * v) }))
  const table = flutterOf(system(tabulatedForces({ referenceLength: 0.1, k, Q }), 0.02))
  expect(table.V / flutterOf(system(coupled(0.1), 0.02)).V).toBeCloseTo(1, 6)
})

test('forces that depend on k: neutral stability holds with Q at the flutter frequency itself', () => {
  // A lag like a wake's: Q = A₀ F(k) + i k A₁, F falling from 1 to ½.
  const { A0, A1 } = coupled(0.3).at(0)
  const F = (k: number): number => (1 + 0.5 * (k / 0.3) ** 2) / (1 + (k / 0.3) ** 2)
  const forces: GeneralizedForces = {
    n: 2,
    referenceLength: 0.1,
    quasiSteady: false,
    highestReducedFrequency: 10,
    at: (k) => ({ A0: A0.map((v) => v * F(k)), A1 }),
  }
  const { flutter } = solvePk(system(forces, 0.01))
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  const { V, omega, k } = flutter
  expect(k).toBeCloseTo((omega * 0.1) / V, 12)
  const frozen = system(quasiSteadyForces(2, 0.1, { A0: A0.map((v) => v * F(k)), A1 }), 0.01)
  const roots = rootsAt(frozen, V, 0)
  expect(Math.min(...roots.map((root) => Math.abs(growth(root))))).toBeLessThan(2e-6)
  // The table of the same forces, splined.
  const ks = Array.from({ length: 24 }, (_, i) => i * 0.05)
  const Q = ks.map((kk) => ({ n: 2, re: A0.map((v) => v * F(kk)), im: A1.map((v) => kk * v) }))
  const splined = flutterOf(system(tabulatedForces({ referenceLength: 0.1, k: ks, Q }), 0.01))
  expect(splined.V / V).toBeCloseTo(1, 3)
})

test('units: lengths, masses and times scaled together scale the speed as a speed', () => {
  const plain = flutterOf(system(coupled(0.1), 0.02))
  const [length, time] = [1000, 1e-3]
  const { A0, A1 } = coupled(0.1).at(0)
  // Shapes are of unit modal mass: with the unit of mass kept, A scales with length (m³/kg · m²/m² per shape² = m/kg·m²).
  const scaled: Aeroelastic = {
    omegas: omegas.map((omega) => omega / time),
    structuralDamping: 0.02,
    density: 1.2 / length ** 3,
    forces: quasiSteadyForces(2, 0.1 * length, { A0: A0.map((v) => v * length), A1: A1.map((v) => v * length) }),
  }
  expect(flutterOf(scaled).V / ((plain.V * length) / time)).toBeCloseTo(1, 6)
})

describe('two modes whose frequencies pass each other, hardly coupled', () => {
  const passing = (damping2: number): GeneralizedForces =>
    quasiSteadyForces(2, 0.1, { A0: Float64Array.of(-2, 0.01, 0.01, 1), A1: Float64Array.of(-0.05, 0, 0, -damping2) })
  const V = 40
  const q = 0.6 * V ** 2
  const share = (shape: { re: Float64Array; im: Float64Array } | undefined, i: number): number =>
    shape === undefined ? 0 : shape.re[i] ** 2 + shape.im[i] ** 2

  test.each([0.05, 0.6])('each root goes straight on with its mode; damping of the second %d', (damping) => {
    const { flutter } = solvePk(system(passing(damping)), V)
    expect(flutter.kind).toBe('none-below')
    const sweep = sweptAt(system(passing(damping)), [V], 1)
    expect(q * 3).toBeGreaterThan(omegas[1] ** 2 - omegas[0] ** 2) // they have passed
    const [first, second] = sweep[sweep.length - 1].roots
    expect(share(first?.shape, 0)).toBeGreaterThan(0.99)
    expect(share(second?.shape, 1)).toBeGreaterThan(0.99)
    expect((first?.im ?? 0) / Math.sqrt(400 + 2 * q)).toBeCloseTo(1, 2)
    expect((second?.im ?? 0) / Math.sqrt(2500 - q)).toBeCloseTo(1, 2)
  })
})

test('twins by symmetry that only an uneven mesh couples are not flutter, with or without damping', () => {
  const uneven = 1e-3
  const forces = quasiSteadyForces(3, 1, {
    A0: Float64Array.of(0, 2.5, uneven, -2.5, 0, 0, -uneven, 0, 0),
    A1: new Float64Array(9),
  })
  const twins = [10, 30, 30 * (1 + 1e-9)]
  // Undamped: (Ω₂² − Ω₁²)/2 = q a. With i g on both: (Ω₁² − λ) Ω₂² + (Ω₂² − λ) Ω₁² = 0 gives λ = 180 for any g, then
  // (q a)² = (λ − Ω₁²)(Ω₂² − λ). Damping lowers it: the slower mode is the weaker damped.
  const cases = [
    [0, 400 / 2.5],
    [1e-3, Math.sqrt(80 * 720) / 2.5],
  ] as const
  for (const [structuralDamping, q] of cases) {
    const found = flutterOf({ omegas: twins, structuralDamping, forces, density: 2 })
    // The growth that counts as unstable, 1e-7, is 1e-4 of this g.
    expect(found.V ** 2 / q).toBeCloseTo(1, 3)
  }
})

test('a narrow hump where two hardly coupled modes pass each other is found', () => {
  const [product, Q] = [0.01, 3]
  const forces = quasiSteadyForces(2, 0.1, {
    A0: Float64Array.of(-2, product, -product, 1),
    A1: new Float64Array(4),
  })
  // (P − q Q)² = 4 q² product²: from the lower root to the higher the two frequencies are one.
  const P = omegas[1] ** 2 - omegas[0] ** 2
  const found = flutterOf(system(forces))
  // To within a twentieth of the hump's width, 0.7 %: what the growth that counts as unstable takes here.
  expect(Math.abs((0.6 * found.V ** 2) / (P / (Q + 2 * product)) - 1)).toBeLessThan(3.5e-4)
})

test('none below: uncoupled modes in damping air never flutter', () => {
  const forces = quasiSteadyForces(2, 0.1, {
    A0: Float64Array.of(-1, 0, 0, -2),
    A1: Float64Array.of(-1, 0, 0, -1),
  })
  const result = solvePk(system(forces))
  expect(result.flutter.kind).toBe('none-below')
  expect(result.divergence).toEqual({ kind: 'never' })
  const nothing = quasiSteadyForces(2, 0.1, { A0: new Float64Array(4), A1: new Float64Array(4) })
  expect(solvePk(system(nothing)).flutter.kind).toBe('none-below')
})

test('air that feeds one mode flutters at once, or as soon as structural damping is overcome', () => {
  const forces = quasiSteadyForces(2, 0.1, { A0: Float64Array.of(-1, 0, 0, -1), A1: Float64Array.of(0.5, 0, 0, -1) })
  expect(flutterOf(system(forces)).V).toBeLessThan(0.01)
  for (const g of [0.01, 0.02, 0.04]) {
    // Growth of mode 1 is nought: q (b/V) A₁ ω = g Ω²
    const { V, omega } = flutterOf(system(forces, g))
    expect((0.6 * V * 0.1 * 0.5 * omega) / (g * 400)).toBeCloseTo(1, 4)
  }
})

describe('divergence', () => {
  test('one mode: q = Ω²/A₀; two modes: the quadratic', () => {
    const one = quasiSteadyForces(1, 1, { A0: Float64Array.of(3), A1: Float64Array.of(0) })
    expect(divergence({ omegas: [6], structuralDamping: 0, forces: one, density: 2 })).toMatchObject({
      kind: 'divergence',
      dynamicPressure: 12,
    })
    const [a, b, c, d] = [0.4, 1.5, 0.2, 0.6]
    const forces = quasiSteadyForces(2, 1, { A0: Float64Array.of(a, b, c, d), A1: new Float64Array(4) })
    const found = divergence({ omegas, structuralDamping: 0, forces, density: 1 })
    if (found.kind !== 'divergence') throw new Error('none')
    const q = found.dynamicPressure
    expect(((400 - q * a) * (2500 - q * d)) / (q * q * b * c)).toBeCloseTo(1, 9)
  })
  test('air that only stiffens never diverges', () => {
    const forces = quasiSteadyForces(2, 1, { A0: Float64Array.of(-1, 0, 0.5, -2), A1: new Float64Array(4) })
    expect(divergence({ omegas, structuralDamping: 0, forces, density: 1 })).toEqual({ kind: 'never' })
  })
  test('matrices with equal opposite eigenvalues end, too', () => {
    const n = 4
    const A0 = Float64Array.from({ length: 16 }, (_, ij) => {
      const [m, r] = [Math.floor(ij / n) + 1, (ij % n) + 1]
      return (m + r) % 2 === 1 ? (-4 * m * r) / (m * m - r * r) : 0
    })
    const forces = quasiSteadyForces(n, 1, { A0, A1: new Float64Array(16) })
    const w = [1, 4, 9, 16].map((m2) => Math.PI ** 2 * m2)
    expect(divergence({ omegas: w, structuralDamping: 0, forces, density: 1 })).toEqual({ kind: 'never' })
  })
})

test('the iteration for one root settles on a root of all', () => {
  const s = system(coupled(0.2), 0.02)
  const all = rootsAt(s, 20, 0)
  const kernel = rootKernel(s)
  expect(all).toHaveLength(2)
  for (const { re, im, shape } of all) {
    const near = { V: 20, re: re + 0.2, im: im * 1.02, x: Float64Array.of(...shape.re, ...shape.im) }
    expect(kernel.correct(near)).toBe(true)
    expect(near.im / im).toBeCloseTo(1, 9)
    expect(near.re / re).toBeCloseTo(1, 7)
  }
})

test('crossing: narrows a kinked function as asked, in few more calls than halving', () => {
  const f = (x: number): number => (x < 0.7 ? -1e-6 : Math.sqrt(x - 0.7))
  const found = crossing(f, { a: 0, b: 2, fa: f(0), fb: f(2) }, 1e-8)
  expect(found.a <= 0.7 && found.b >= 0.7).toBe(true)
  expect(found.b - found.a).toBeLessThanOrEqual(1e-8)
  expect(found.evaluations).toBeLessThanOrEqual(Math.ceil(Math.log2(2 / 1e-8)) + 3)
  const smooth = crossing((x) => Math.expm1(x - 1), { a: 0, b: 3, fa: Math.expm1(-1), fb: Math.expm1(2) }, 1e-8)
  expect(smooth.evaluations).toBeLessThan(18)
})

/** A typical section with piston theory, first order; numbers made apart from this code, a regression and no published check. */
test('typical section in piston flow: V/(b ω_α) as computed elsewhere', () => {
  const [mu, xAlpha, r2, a, ratio, b] = [50, 0.25, 0.5, -0.2, 0.5, 0.3]
  const density = 0.9
  const m = mu * Math.PI * density * b * b
  const omegaAlpha = 100
  const mesh = rectangle(2 * b, 1, 30, 1)
  const axis = b * (1 + a)
  // Inertia and stiffness in heave (up) and nose-down rotation about the elastic axis.
  const [S, I, kh, ka] = [
    m * xAlpha * b,
    m * r2 * b * b,
    m * (ratio * omegaAlpha) ** 2,
    m * r2 * b * b * omegaAlpha ** 2,
  ]
  const modes = coupledModes({ m, S, I, kh, ka })
  const shapes = modes.map(({ heave, turn }) => sampled(mesh, (x) => heave + turn * (x - axis)))
  const expected = [
    [2, 9.46],
    [3, 11.51],
    [5, 14.79],
  ] as const
  for (const [mach, speed] of expected) {
    const input = { mesh, shapes, flowDirection: 0, faces: 2, order: 1, slopes: [], coefficients: 'lighthill' } as const
    const found = flutterOf({
      omegas: modes.map(({ omega }) => omega),
      structuralDamping: 0,
      forces: pistonTheory(input).forces(mach),
      density,
    })
    expect(Math.abs(found.V / (b * omegaAlpha) - speed)).toBeLessThan(0.0051)
    expect(Math.abs(found.omega / omegaAlpha - 0.876)).toBeLessThan(0.0015)
  }
})

/** (kh − λ m) h − λ S t = 0,  −λ S h + (ka − λ I) t = 0, of unit modal mass, frequency rising. */
function coupledModes({ m, S, I, kh, ka }: Record<'m' | 'S' | 'I' | 'kh' | 'ka', number>) {
  const [A, B, C] = [m * I - S * S, -(m * ka + I * kh), kh * ka]
  const root = Math.sqrt(B * B - 4 * A * C)
  return [(-B - root) / (2 * A), (-B + root) / (2 * A)].map((lambda) => {
    const [h, t] = [lambda * S, kh - lambda * m]
    const size = Math.sqrt(m * h * h + 2 * S * h * t + I * t * t)
    return { omega: Math.sqrt(lambda), heave: h / size, turn: t / size }
  })
}
