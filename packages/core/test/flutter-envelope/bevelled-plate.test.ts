/**
 * The swept bevelled plate of NASA TN D-1824 under the envelope. The tests (495 ft/s at Mach 0.45, 1280 ft/s at Mach 1.3) are recalled from
 * memory, so this is no published check; data and doubts: checks/tn-d-1824/source.md, checks/tn-d-1824-supersonic/source.md.
 */
import { describe, expect, test } from 'vitest'
import { envelopeAt, linearSpeed, tunnelMethods } from '../../checks/envelope-flutter.ts'
import { solidSection } from '../../checks/lattice-flutter.ts'
import { plateFin } from '../../checks/supersonic-flutter.ts'
import type { Point } from '../../src/air/subsonic/strips.ts'

const [inch, foot, psi] = [0.0254, 0.3048, 6894.757]
const [chord, span, tipLead, thickness] = [2.07055, 5.5251, 1.48044, 0.041].map((v) => v * inch)
const outline: readonly Point[] = [
  [0, 0],
  [chord, 0],
  [tipLead + chord, span],
  [tipLead, span],
]
const shareOfThickness = (x: number, y: number): number => {
  const share = (x - (tipLead * y) / span) / chord
  return Math.min(1, Math.max(0, 8 * Math.min(share, 1 - share)))
}
const halfThickness = (x: number, y: number): number => (thickness / 2) * shareOfThickness(x, y)
const [E, G] = [9.2418e6 * psi, 3.4993e6 * psi]
const metal = { E1: E, E2: E, G12: G, G13: G, G23: G, nu12: E / (2 * G) - 1 }
/** Root held on two patches about 1/8 and 7/8 chord, as in the published decks. */
const ends = [1, 3, 13, 15].map((sixteenth): Point => [(sixteenth * chord) / 16, 0])
const fin = plateFin({
  ...{ outline, structure: [outline[0], ...ends, ...outline.slice(1)], size: span / 14 },
  supports: ['free', 'clamped', 'free', 'clamped', 'free', 'free', 'free', 'free'],
  sectionAt: ({ x, y }) => solidSection(metal, 0, thickness * Math.max(0.01, shareOfThickness(x, y)), 2698),
})

const points = [
  { mach: 0.45, density: 1.0726e-7 * 1.068_69e7, tested: 495 },
  { mach: 1.3, density: 0.236e-7 * 1.068_69e7, tested: 1280 },
] as const

describe.each([
  ['frequencies of the decks', [34.34, 210, 260.4, 634.8].map((f) => 2 * Math.PI * f)],
  ['own frequencies', Array.from(fin.modes.omega.slice(0, 4))],
] as const)('%s', (_, omegas) => {
  const methods = tunnelMethods({ fin, halfThickness, omegas })

  test.each(points)('Mach $mach: below the test and not below three quarters of it', ({ tested, ...point }) => {
    const share = (envelopeAt(methods, omegas, point).speed ?? Number.NaN) / foot / tested
    expect(share).toBeLessThan(1)
    expect(share).toBeGreaterThan(0.75)
  })

  test('the linear surface with thickness is above the test at Mach 1.3: why there is a factor', () => {
    expect(linearSpeed(methods.supersonic, omegas, points[1]) / foot).toBeGreaterThan(points[1].tested)
  })
})
