/** Lifting surfaces as methods: forces between the tabulated frequencies, kept air, boxes, thickness. */
import { describe, expect, test } from 'vitest'
import { generalizedForces } from '../../src/air/subsonic/generalized-forces.ts'
import { supersonicForces } from '../../src/air/supersonic/generalized-forces.ts'
import { type AerodynamicMethod, tabulatedForces } from '../../src/flutter/forces.ts'
import {
  doubletLatticeMethod,
  highestLatticeMach,
  longestChord,
  reducedFrequencies,
  subsonicAir,
} from '../../src/flutter/lattice-method.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { supersonicAir, supersonicSurfaceMethod, surfaceFrequencies } from '../../src/flutter/source-method.ts'
import { fin, halfThickness, omegas, outline, shapes } from './fin.ts'

const { mesh } = fin
const speed = (method: AerodynamicMethod, mach: number, n = omegas.length): number => {
  const forces = method.forces(mach)
  const { flutter } = solvePk({ omegas: omegas.slice(0, n), structuralDamping: 0, forces, density: 1 })
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  return flutter.V
}

describe('between the tabulated frequencies', () => {
  const [sub, sup] = [subsonicAir(outline), supersonicAir(outline)]
  const b = sub.referenceLength
  const direct = (mach: number) =>
    mach < 1
      ? generalizedForces(sub.at(mach), shapes.map(sub.shapesOn(mesh)), b)
      : supersonicForces(sup.at(mach), shapes.map(sup.shapesOn(mesh)), b)

  // The worst is the last of six modes at Mach 0.9, 1.7 %: its waves on the fin are short there. Elsewhere under 0.6 %.
  test.each([
    [0.5, 0.01],
    [0.9, 0.02],
    [1.2, 0.01],
    [2, 0.01],
  ])('Mach %f: Q within %f of the largest of its row up to k = 0.4', (mach, share) => {
    const make = mach < 1 ? doubletLatticeMethod : supersonicSurfaceMethod
    const table = make({ outline, mesh, shapes }).forces(mach)
    const Q = direct(mach)
    const n = shapes.length
    for (const k of [0.02, 0.08, 0.18, 0.33, 0.4]) {
      const { re, im } = Q(k)
      const { A0, A1 } = table.at(k)
      for (let i = 0; i < n; i++) {
        const row = Array.from({ length: n }, (_, j) => i * n + j)
        const largest = Math.max(...row.map((ij) => Math.hypot(re[ij], im[ij])))
        for (const ij of row) expect(Math.hypot(re[ij] - A0[ij], im[ij] - k * A1[ij])).toBeLessThan(share * largest)
      }
    }
  })

  test.each([0.5, 0.9, 1.2, 2])(
    'Mach %f: flutter speed within 0.1 per cent of a table of twenty frequencies',
    (mach) => {
      const k = Array.from({ length: 20 }, (_, i) => (i < 10 ? 0.04 * i : 0.4 + 0.08 * (i - 10)))
      const forces = tabulatedForces({ referenceLength: b, k, Q: k.map(direct(mach)) })
      const { flutter } = solvePk({ omegas, structuralDamping: 0, forces, density: 1 })
      const make = mach < 1 ? doubletLatticeMethod : supersonicSurfaceMethod
      const V = speed(make({ outline, mesh, shapes }), mach)
      expect(Math.abs(V / (flutter.kind === 'flutter' ? flutter.V : Number.NaN) - 1)).toBeLessThan(1e-3)
    },
  )

  test('on boxes too coarse for the waves near Mach 1 the table is shorter, not wrong', () => {
    const coarse = supersonicAir(outline, 36)
    const k = surfaceFrequencies(coarse.lattice, 1.1, coarse.referenceLength)
    expect(k).toHaveLength(reducedFrequencies.length)
    expect(k[k.length - 1]).toBeLessThan(reducedFrequencies[reducedFrequencies.length - 1])
    expect(surfaceFrequencies(coarse.lattice, 3, coarse.referenceLength)).toBe(reducedFrequencies)
  })
})

describe('kept air', () => {
  test('other modes on kept air give what fresh air gives', () => {
    const air = { subsonic: subsonicAir(outline), supersonic: supersonicAir(outline) }
    doubletLatticeMethod({ outline, mesh, shapes, air: air.subsonic }).forces(0.7)
    supersonicSurfaceMethod({ outline, mesh, shapes, air: air.supersonic }).forces(1.5)
    const others = shapes.slice(1).map((w) => w.map((v) => 2 * v))
    const sub = [air.subsonic, undefined].map((kept) =>
      doubletLatticeMethod({ outline, mesh, shapes: others, ...(kept && { air: kept }) })
        .forces(0.7)
        .at(0.2),
    )
    const sup = [air.supersonic, undefined].map((kept) =>
      supersonicSurfaceMethod({ outline, mesh, shapes: others, halfThickness, ...(kept && { air: kept }) })
        .forces(1.5)
        .at(0.2),
    )
    // These modes are made of the kept shapes: nothing differs but rounding.
    for (const [kept, fresh] of [sub, sup])
      for (const key of ['A0', 'A1'] as const) {
        const largest = Math.max(...fresh[key].map(Math.abs))
        kept[key].forEach((value, ij) => {
          expect(Math.abs(value - fresh[key][ij])).toBeLessThan(1e-11 * largest)
        })
      }
  })

  test('factors and forces of a Mach number are made once, and only the latest are kept', () => {
    const air = subsonicAir(outline)
    const wash = air.at(0.5)
    expect(air.at(0.5)).toBe(wash)
    for (let i = 0; i < 40; i++) air.at(0.1 + i / 1000)
    expect(air.at(0.5)).not.toBe(wash)
  })
})

test.each([
  [
    'subsonic',
    0.9,
    (boxes: number) => doubletLatticeMethod({ outline, mesh, shapes, air: subsonicAir(outline, boxes) }),
  ],
  [
    'supersonic, Mach',
    1.2,
    (boxes: number) =>
      supersonicSurfaceMethod({ outline, mesh, shapes, halfThickness, air: supersonicAir(outline, boxes) }),
  ],
] as const)('%s %f: the speed on three times the boxes is the same within 2 per cent', (_, mach, method) => {
  expect(Math.abs(speed(method(80), mach) / speed(method(240), mach) - 1)).toBeLessThan(0.02)
})

describe('thickness', () => {
  const thin = supersonicSurfaceMethod({ outline, mesh, shapes })
  const thick = supersonicSurfaceMethod({ outline, mesh, shapes, halfThickness })

  test('of a bevelled fin lowers its speed; a slab is a thin fin', () => {
    expect(speed(thick, 1.5)).toBeLessThan(speed(thin, 1.5))
    const slab = supersonicSurfaceMethod({ outline, mesh, shapes, halfThickness: () => 1e-3 })
    expect(slab.forces(1.5).at(0.2)).toEqual(thin.forces(1.5).at(0.2))
  })

  test('a bevel outside the theory is told, and no pressure changes sign', () => {
    const steep = (x: number, y: number) => 20 * halfThickness(x, y)
    const method = supersonicSurfaceMethod({ outline, mesh, shapes, halfThickness: steep })
    expect(method.warnings(1.2).map(({ code }) => code)).toEqual(['flutter/thickness-slope'])
    expect(thick.warnings(2)).toEqual([])
    const steeper = (x: number, y: number) => 200 * halfThickness(x, y)
    const more = supersonicSurfaceMethod({ outline, mesh, shapes, halfThickness: steeper })
    const largest = (m: AerodynamicMethod) => Math.max(...m.forces(1.2).at(0).A0.map(Math.abs))
    expect(largest(more)).toBeLessThanOrEqual(2.5 * largest(thin))
  })
})

test('longest chord is the root of a tapered fin; methods state where they answer', () => {
  expect(Math.abs(longestChord(outline) - 0.3)).toBeLessThan(1e-6)
  expect(doubletLatticeMethod({ outline, mesh, shapes }).machRange).toEqual({ from: 0, to: highestLatticeMach })
})
