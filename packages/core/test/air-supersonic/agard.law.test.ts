/**
 * AGARD 445.6 (weakened model 3) at the two supersonic Mach numbers of its test: raw linear theory, for information. The test's own
 * values at these points are recalled only and not compared with; docs/methods/air-supersonic.md shows them side by side.
 */
import { expect, test } from 'vitest'
import { halfThickness, material, planformInches, publishedFrequencies } from '../../checks/agard-445-6/wing.data.ts'
import { solidSection } from '../../checks/lattice-flutter.ts'
import { plateFin, supersonicFlutter } from '../../checks/supersonic-flutter.ts'
import type { Point } from '../../src/air/subsonic/strips.ts'

const inch = 0.0254
const { rootChord, tipChord, span, tipLead } = planformInches
const corners = [[0, 0], [rootChord, 0], [tipLead + tipChord, span], [tipLead, span]] // biome-ignore format: corners
const outline = corners.map(([x, y]): Point => [x * inch, y * inch])

function thickness(x: number, y: number): number {
  const eta = y / (span * inch)
  const chord = (rootChord + (tipChord - rootChord) * eta) * inch
  const share = Math.min(99.9, Math.max(0.01, (100 * (x - tipLead * inch * eta)) / chord))
  const i = halfThickness.findIndex(([at]) => at > share)
  const [[x0, y0], [x1, y1]] = [halfThickness[i - 1], halfThickness[i]]
  return (chord * 2 * (y0 + ((y1 - y0) * (share - x0)) / (x1 - x0))) / 100
}

const wing = plateFin({
  outline,
  structure: outline,
  supports: ['clamped', 'free', 'free', 'free'],
  size: 0.04,
  sectionAt: ({ x, y }) =>
    solidSection({ ...material, G13: material.G12, G23: material.G12 }, Math.PI / 4, thickness(x, y), material.density),
})
const omegas = publishedFrequencies.map((f) => 2 * Math.PI * f)

test.each([
  { mach: 1.072, density: 0.0551 },
  { mach: 1.141, density: 0.0783 },
])('M $mach: both edges slower than the Mach line, flutter speed converges', (air) => {
  const [coarse, fine] = [150, 400].map((boxes) => supersonicFlutter(wing, { ...air, omegas, boxes }).V)
  expect(Math.abs(coarse / fine - 1)).toBeLessThan(0.02)
})
