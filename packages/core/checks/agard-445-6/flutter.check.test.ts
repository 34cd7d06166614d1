/** AGARD 445.6 from outline to flutter; see source.md. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { finFlutter, finModes, hertz, solidSection } from '../lattice-flutter.ts'
import { flutterTests, halfThickness, material, planformInches, publishedFrequencies } from './wing.data.ts'

const source = 'agard-445-6'
const [inch, foot, slugPerCubicFoot] = [0.0254, 0.3048, 515.378_818]
const { rootChord, tipChord, span, tipLead } = planformInches
const outline: readonly Point[] = (
  [
    [0, 0],
    [rootChord, 0],
    [tipLead + tipChord, span],
    [tipLead, span],
  ] as const
).map(([x, y]): Point => [x * inch, y * inch])

/** Thickness of the section over its chord at a share of the chord. */
function thicknessRatio(share: number): number {
  const x = Math.min(99.9, Math.max(0.01, 100 * share))
  const i = halfThickness.findIndex(([at]) => at > x)
  const [[x0, y0], [x1, y1]] = [halfThickness[i - 1], halfThickness[i]]
  return (2 * (y0 + ((y1 - y0) * (x - x0)) / (x1 - x0))) / 100
}

/** Angle of the material's axis 1 from the flow towards the span: 45° is the quarter-chord line. */
const wing = (axis: number) =>
  finModes({
    outline,
    size: 0.04,
    modes: 6,
    sectionAt: ({ x, y }) => {
      const eta = y / (span * inch)
      const chord = (rootChord + (tipChord - rootChord) * eta) * inch
      const t = chord * thicknessRatio((x - tipLead * inch * eta) / chord)
      return solidSection({ ...material, G13: material.G12, G23: material.G12 }, axis, t, material.density)
    },
  })

const fin = wing(Math.PI / 4)
const lattice = { chordwise: 12, spanwise: 16 }
const imposed = publishedFrequencies.map((f) => 2 * Math.PI * f)

const flutterAt = (row: (typeof flutterTests)[number], omegas?: readonly number[]) => {
  const air = { mach: row.mach, density: row.density * slugPerCubicFoot, lattice }
  const { flutter } = finFlutter(fin, omegas === undefined ? air : { ...air, omegas })
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  return flutter
}

describe('natural frequencies', () => {
  test.each(publishedFrequencies.map((f, i) => [i + 1, f] as const))('mode %i: %f Hz', (mode, f) => {
    expectPublished({
      ...{
        source,
        quantity: `frequency ${mode}, Hz`,
        printed: f.toFixed(2),
        computed: hertz(fin.modes.omega[mode - 1]),
      },
      methodError: mode === 1 ? 0.01 : 0.06,
      why: 'a plate of one material against the published solid model: torsion reads 5 % high',
    })
  })

  test('has teeth: the material axis along the span puts mode 2 far too low', () => {
    expect(hertz(wing(Math.PI / 2).modes.omega[1]) / publishedFrequencies[1]).toBeLessThan(0.8)
  })
})

describe.each(flutterTests)('flutter at Mach $mach', (row) => {
  test('with the published frequencies', () => {
    const { V, omega } = flutterAt(row, imposed)
    expectPublished({
      source,
      quantity: `flutter speed, M ${row.mach}, published frequencies, ft/s`,
      ...{ printed: row.speed, computed: V / foot, methodError: 0.03 },
      why: 'linear theory against a wind tunnel',
    })
    expectPublished({
      source,
      quantity: `flutter frequency, M ${row.mach}, published frequencies, rad/s`,
      ...{ printed: row.omega, computed: omega, methodError: 0.15 },
      why: 'linear theory reads 1 to 11 % high',
    })
  })

  test('from material data', () => {
    const { V, omega } = flutterAt(row)
    expectPublished({
      source,
      quantity: `flutter speed, M ${row.mach}, from material data, ft/s`,
      ...{ printed: row.speed, computed: V / foot, methodError: 0.08 },
      why: 'our torsion is 5 % stiffer than the published model',
    })
    expectPublished({
      source,
      quantity: `flutter frequency, M ${row.mach}, from material data, rad/s`,
      ...{ printed: row.omega, computed: omega, methodError: 0.15 },
      why: 'linear theory reads 1 to 11 % high',
    })
  })

  test('has teeth: second frequency ten per cent up is noticed', () => {
    const { V } = flutterAt(row, [imposed[0], 1.1 * imposed[1], imposed[2], imposed[3]])
    expect(agrees(V / foot, published(row.speed), 0.03)).toBe(false)
  })
})
