/** Air forces kept on shapes: what is solved, what is put together, and how near it comes. */
import { describe, expect, test } from 'vitest'
import { keptForces, keptShapes } from '../../src/flutter/kept-shapes.ts'
import { doubletLatticeMethod, subsonicAir } from '../../src/flutter/lattice-method.ts'
import { solvePk } from '../../src/flutter/pk.ts'
import { supersonicAir, supersonicSurfaceMethod } from '../../src/flutter/source-method.ts'
import { fin, halfThickness, omegas, outline, shapes } from './fin.ts'

const { mesh } = fin
const onBoxes = (z: ArrayLike<number>) => {
  const rise = Float64Array.from(z)
  return { rise, slope: rise, forceRise: rise }
}

describe('shapes', () => {
  test('a mode that kept ones make is taken up no more; one they do not make is', () => {
    const kept = keptShapes(onBoxes)()
    for (const z of shapes.slice(0, 3)) kept.shares(z)
    expect(kept.onBoxes).toHaveLength(3)
    kept.shares(shapes[0].map((v, i) => v - 0.7 * shapes[2][i]))
    expect(kept.onBoxes).toHaveLength(3)
    kept.shares(shapes[0].map((v, i) => v + 1e-2 * shapes[4][i]))
    expect(kept.onBoxes).toHaveLength(4)
  })
  test('shares put the mode together again', () => {
    const kept = keptShapes(onBoxes)()
    const all = shapes.map(kept.shares)
    all.forEach((shares, mode) => {
      const made = new Float64Array(shapes[mode].length)
      shares.forEach((c, i) => {
        kept.onBoxes[i].rise.forEach((psi, node) => {
          made[node] += c * psi
        })
      })
      const largest = Math.max(...shapes[mode].map(Math.abs))
      made.forEach((v, node) => {
        expect(Math.abs(v - shapes[mode][node])).toBeLessThan(1e-12 * largest)
      })
    })
  })
  test('too many are forgotten at once, and those in use go on', () => {
    const latest = keptShapes(onBoxes)
    const first = latest()
    for (let i = 0; i < 65; i++) first.shares(Float64Array.from({ length: 70 }, (_, j) => (i === j ? 1 : 0)))
    expect(latest()).not.toBe(first)
    expect(first.shares(Float64Array.from({ length: 70 }, (_, j) => (j === 3 ? 2 : 0)))[3]).toBeCloseTo(2, 12)
  })
})

test('forces are solved once a shape and frequency, and are linear in the mode', () => {
  const kept = keptShapes(onBoxes)()
  const asked: number[] = []
  const forces = keptForces((modes, k) => {
    asked.push(modes.length)
    return modes.map(({ rise }) => ({ re: rise.map((v) => k * v), im: rise.map((v) => -v) }))
  })
  const [a, b] = shapes
  const first = [kept.shares(a)]
  forces(kept, 0.3, first)
  const both = [kept.shares(a), kept.shares(b.map((v, i) => v + a[i]))]
  const [, { re, im }] = forces(kept, 0.3, both)
  forces(kept, 0.3, first)
  expect(asked).toEqual([1, 1])
  re.forEach((v, i) => {
    expect(v).toBeCloseTo(0.3 * (a[i] + b[i]), 9)
    expect(im[i]).toBeCloseTo(-(a[i] + b[i]), 9)
  })
})

/** The modes with a share of the next one's shape in each: as when a laminate changes. */
const changed = (share: number) => shapes.map((z, m) => z.map((v, i) => v + share * shapes[(m + 1) % shapes.length][i]))
/** A wave of a few parts in ten thousand that no mode has, as the kept shapes may leave out. */
const rippled = shapes.map((z) => {
  const largest = Math.max(...z.map(Math.abs))
  return z.map((v, i) => v + 6e-4 * largest * Math.sin(40 * mesh.X[2 * i] + 25 * mesh.X[2 * i + 1]))
})

describe.each([
  ['subsonic', 0.7],
  ['supersonic', 1.5],
] as const)('%s', (_, mach) => {
  const speedOn = (modes: readonly Float64Array[], kept: boolean): number => {
    const air = { subsonic: subsonicAir(outline), supersonic: supersonicAir(outline) }
    const method = (z: readonly Float64Array[]) =>
      mach < 1
        ? doubletLatticeMethod({ outline, mesh, shapes: z, air: air.subsonic })
        : supersonicSurfaceMethod({ outline, mesh, shapes: z, halfThickness, air: air.supersonic })
    if (kept) method(shapes).forces(mach)
    const { flutter } = solvePk({ omegas, structuralDamping: 0, forces: method(modes).forces(mach), density: 1 })
    if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
    return flutter.V
  }
  test.each([
    ['changed modes', changed(0.05), 1e-9],
    ['modes with a ripple left out', rippled, 1e-4],
  ] as const)('%s on kept shapes: flutter speed as on fresh ones', (_what, modes, allowed) => {
    expect(Math.abs(speedOn(modes, true) / speedOn(modes, false) - 1)).toBeLessThan(allowed)
  })
})
