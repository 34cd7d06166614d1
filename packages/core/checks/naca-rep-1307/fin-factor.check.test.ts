/** Lift of a fin beside a round body: closed formula, vortices in the crossflow, and the lattice that loads the fin; see source.md. */
import { describe, expect, test } from 'vitest'
import { slenderFinFactor } from '../../src/air/body-upwash.ts'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { subsonicAir } from '../../src/flutter/lattice-method.ts'
import { supersonicAir } from '../../src/flutter/source-method.ts'
import { steadyFinAir } from '../../src/strength/air-on-plate.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { crossflowFactor, mirrorFactor } from '../slender-crossflow.ts'

const source = 'naca-rep-1307'
const printed = [
  [0.1, '1.077'],
  [0.2, '1.162'],
  [0.3, '1.253'],
  [0.4, '1.349'],
  [0.5, '1.450'],
  [0.6, '1.555'],
  [0.7, '1.663'],
] as const

const narrow: Readonly<Record<string, readonly Point[]>> = {
  delta: [
    [0, 0],
    [1, 0],
    [1, 0.1],
  ],
  rectangle: [
    [0, 0],
    [1, 0],
    [1, 0.2],
    [0, 0.2],
  ],
}

/** Force with the body over force without, by the lattice. */
function latticeFactor(outline: readonly Point[], tau: number, mach = 0): number {
  const span = Math.max(...outline.map(([, y]) => y))
  const force = (bodyRadius: number) => {
    const air = { subsonic: subsonicAir(outline, 200), supersonic: supersonicAir(outline, 80), bodyRadius }
    return steadyFinAir(air)
      .at(mach)[0]
      .rigid.reduce((sum, f) => sum + f, 0)
  }
  return force((tau * span) / (1 - tau)) / force(0)
}

describe('K_W(B)', () => {
  test.each(printed)('r/s = %f', (tau, value) => {
    expectPublished({
      ...{ source, quantity: `K_W(B), formula, r/s = ${tau}`, printed: value },
      computed: slenderFinFactor(tau),
    })
    expectPublished({
      ...{ source, quantity: `K_W(B), own crossflow vortices, r/s = ${tau}`, printed: value },
      ...{ computed: crossflowFactor(2, tau), methodError: 3e-4 },
    })
  })

  test('without a body nothing is added, on a body much larger than the fin it doubles', () => {
    expect(slenderFinFactor(0)).toBe(1)
    expect(slenderFinFactor(1e-7)).toBeCloseTo(slenderFinFactor(2e-6), 5)
    expect(slenderFinFactor(0.999)).toBeCloseTo(2, 2)
  })

  test('has teeth: one hundredth of r/s is noticed', () => {
    expect(agrees(slenderFinFactor(0.51), published('1.450'), 0)).toBe(false)
    expect(agrees(crossflowFactor(2, 0.51), published('1.450'), 3e-4)).toBe(false)
  })
})

describe('the lattice with the upwash as its wash', () => {
  const shapes = Object.keys(narrow)
  test.each(printed.filter((_, i) => i % 2 === 0))('r/s = %f', (tau, value) => {
    for (const shape of shapes) {
      const computed = latticeFactor(narrow[shape], tau)
      expectPublished({
        ...{ source, quantity: `fin factor of the load, narrow ${shape}, r/s = ${tau}`, printed: value },
        ...{
          computed,
          methodError: 0.08,
          why: 'The body is a plane mirror, which reads up to 7.4 % high (source.md).',
        },
      })
      expect(computed).toBeGreaterThan(slenderFinFactor(tau))
      expect(Math.abs(computed / mirrorFactor(tau) - 1)).toBeLessThan(shape === 'rectangle' ? 0.001 : 0.006)
    }
  })

  test('on ordinary fins too, subsonic and supersonic', () => {
    const fin: readonly Point[] = [
      [0, 0],
      [0.3, 0],
      [0.27, 0.11],
      [0.15, 0.11],
    ]
    for (const mach of [0.5, 1.6]) {
      for (const tau of [0.2, 0.5]) {
        const excess = latticeFactor(fin, tau, mach) / slenderFinFactor(tau)
        expect(excess).toBeGreaterThan(1)
        expect(excess).toBeLessThan(1.08)
      }
    }
  })

  test('has teeth: leaving the upwash out is noticed', () => {
    expect(agrees(1, published('1.450'), 0.08)).toBe(false)
    expect(Math.abs(latticeFactor(narrow.delta, 0.45) / mirrorFactor(0.5) - 1)).toBeGreaterThan(0.02)
  })
})

describe('neighbours', () => {
  const ratio = (fins: number, tau: number) => crossflowFactor(fins, tau, 24) / crossflowFactor(2, tau, 24)

  test('four fins load each other as two do, three a little more, five and more less', () => {
    for (const tau of [0.1, 0.3, 0.5]) {
      expect(ratio(4, tau)).toBeCloseTo(1, 9)
      expect(ratio(3, tau)).toBeGreaterThan(1)
      expect(ratio(3, tau)).toBeLessThan(1.054)
      expect(ratio(5, tau)).toBeLessThan(1)
      expect(ratio(6, tau)).toBeLessThan(ratio(5, tau))
      expect(ratio(8, tau)).toBeLessThan(ratio(6, tau))
      expect(ratio(1, tau)).toBeLessThan(1)
    }
  })

  test('three fins exceed the mirror’s load by little, and only on thin bodies', () => {
    expect(crossflowFactor(3, 0.05) / mirrorFactor(0.05)).toBeLessThan(1.035)
    expect(crossflowFactor(3, 0.1) / mirrorFactor(0.1)).toBeLessThan(1.015)
    expect(crossflowFactor(3, 0.2) / mirrorFactor(0.2)).toBeLessThan(1)
  })
})
