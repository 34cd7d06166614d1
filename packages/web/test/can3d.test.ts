/** The bay map folded back on to the can: lengths are kept, neighbours meet, a lifted ply lies off the surface by its lift. */
import type { SectionFigures } from '@finwright/core/assess/assessment.ts'
import { describe, expect, test } from 'vitest'
import { folded, onFin, rowsOf, type Space, strip } from '../src/features/can3d/fold.ts'

const [R, t, r, N, span] = [0.051, 0.0032, 0.015, 4, 0.11]
const alpha = Math.atan2(t / 2 + r, Math.sqrt((R + r) ** 2 - (t / 2 + r) ** 2))
const filletFoot = R * (Math.PI / N - alpha)
const filletTop = filletFoot + r * (Math.PI / 2 - alpha)
const tip = filletTop + R + span - Math.sqrt((R + r) ** 2 - (t / 2 + r) ** 2)
const section = {
  ...{ tubeRadius_m: R, coreThickness_m: t, finCount: N, span_m: span, filletRadius_m: r },
  ...{ stations_m: { filletFoot, filletTop, tip }, filletArc_deg: 75 },
} as unknown as SectionFigures

const apart = (a: Space, b: Space): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])

describe('folding', () => {
  test('keeps lengths along the bay, from tip to tip', () => {
    const steps = 20_000
    const at = (i: number) => folded([0, -tip + (2 * tip * i) / steps], 0, 0, section)
    let length = 0
    for (let i = 1; i <= steps; i++) length += apart(at(i - 1), at(i))
    expect(length).toBeCloseTo(2 * tip, 6)
  })

  test('has no gap where body, fillet and face meet', () => {
    for (const Y of [filletFoot, filletTop, -filletFoot, -filletTop])
      expect(apart(folded([0.1, Y - 1e-9], 1, 0, section), folded([0.1, Y + 1e-9], 1, 0, section))).toBeLessThan(1e-8)
  })

  test('faces of one fin from its two bays lie one core apart, on either side of its mid-plane', () => {
    for (let fin = 0; fin < N; fin++) {
      const before = folded([0.1, tip], fin, 0, section)
      const after = folded([0.1, -tip], (fin + 1) % N, 0, section)
      expect(apart(before, after)).toBeCloseTo(t, 12)
      const middle = onFin([0.1, span], (fin + 1) % N, 0, section)
      expect(apart(before, middle)).toBeCloseTo(t / 2, 12)
    }
  })

  test('a lifted ply lies off the surface by its lift everywhere', () => {
    for (const Y of [0, filletFoot / 2, (filletFoot + filletTop) / 2, (filletTop + tip) / 2])
      expect(apart(folded([0, Y], 2, 0, section), folded([0, Y], 2, 1e-3, section))).toBeCloseTo(1e-3, 9)
  })

  test('a rectangle becomes a surface of its own area', () => {
    const outline = [
      [0, -tip],
      [0.3, -tip],
      [0.3, tip],
      [0, tip],
    ] as const
    const positions = strip(rowsOf(outline, section), (X, Y) => folded([X, Y], 0, 0, section))
    let area = 0
    for (let i = 0; i < positions.length; i += 9) {
      const [p, q, s] = [0, 3, 6].map((k) => positions.slice(i + k, i + k + 3)) as [number[], number[], number[]]
      const [a, b] = [q, s].map((end) => end.map((value, k) => value - p[k]!)) as [number[], number[]]
      const cross = [a[1]! * b[2]! - a[2]! * b[1]!, a[2]! * b[0]! - a[0]! * b[2]!, a[0]! * b[1]! - a[1]! * b[0]!]
      area += Math.hypot(...cross) / 2
    }
    // Chords instead of arcs: less than a thousandth short.
    expect(area / (0.3 * 2 * tip)).toBeGreaterThan(0.999)
    expect(area / (0.3 * 2 * tip)).toBeLessThan(1.0000001)
  })
})
