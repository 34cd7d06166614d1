/** A rectangular fin at Mach 2, from the pressure to the failure index of its sheet, by hand; see source.md. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { subsonicAir } from '../../src/flutter/lattice-method.ts'
import { supersonicAir } from '../../src/flutter/source-method.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { laminate } from '../../src/laminate/laminate.ts'
import { assemblePlate } from '../../src/plate/assemble.ts'
import { type WorstCase, worstCase } from '../../src/strength/worst-case.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'strip-by-hand'
const [c, s, t] = [0.1, 0.4, 4e-3]
const outline: readonly Point[] = [
  [0, 0],
  [c, 0],
  [c, s],
  [0, s],
]
const E = 7e14
const X = 100e6
const strengths = { Xt: X, Xc: X, Yt: X, Yc: X, S: X }
const lamina = { E1: E, E2: E, G12: E / 2, nu12: 0, G13: E / 2, G23: E / 2 }
const air = { subsonic: subsonicAir(outline), supersonic: supersonicAir(outline, 160), bodyRadius: 0 }

function strip({ mach = 2, thickness = t } = {}): WorstCase {
  const sheet = laminate([{ name: 'sheet', theta: 0, t: thickness, lamina, density: 2700, strengths }])
  const { A, B, D, H, inertia } = sheet
  const section = { A, B, D, S: H, massPerArea: inertia.m0, rotaryInertia: inertia.m2 }
  const model = assemblePlate({
    mesh: meshOutline({ outline, size: 0.02 }),
    supports: ['clamped', 'free', 'free', 'free'],
    sectionAt: () => section,
  })
  const { value } = worstCase({
    ...{ model, laminateAt: () => sheet, air, area: c * s, rootSegment: 0, tip: [c / 2, s] },
    states: [{ time: null, mach, dynamicPressure: 50e3, angle: Math.PI / 180, cause: 'given' }],
  })
  if (value === null) throw new Error('no worst case')
  return value
}

describe('rectangular fin at Mach 2', () => {
  const { worst, failure, tip } = strip()

  test('force, root moment, index at the root, tip load of the same moment', () => {
    expect(worst.amplification).toBeCloseTo(1, 3)
    const rows = [
      ['normal force, N', '77.70', worst.force, 0.01],
      ['root moment, N m', '15.00', worst.rootMoment, 0.01],
      ['tip load of the same root moment, N', '37.50', tip?.byMoment ?? Number.NaN, 0.01],
    ] as const
    for (const [quantity, printed, computed, methodError] of rows) {
      expectPublished({ source, quantity, printed, computed, methodError })
    }
    expectPublished({
      ...{ source, quantity: 'failure index at the root', printed: '0.5625', computed: failure.index },
      ...{ methodError: 0.02, why: 'The root moment of the plate varies along the root; the hand takes its mean.' },
    })
    expect(failure.position[1]).toBeCloseTo(0, 9)
    expect(failure.layer).toBe('sheet')
  })

  test('has teeth: two per cent of thickness, or a tenth of Mach number, is noticed', () => {
    expect(agrees(strip({ thickness: 0.98 * t }).failure.index, published('0.5625'), 0.02)).toBe(false)
    expect(agrees(strip({ mach: 2.1 }).worst.rootMoment, published('15.00'), 0.01)).toBe(false)
  })
})
