/** Swept bevelled plate at Mach 0.45; see source.md. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { finFlutter, finModes, hertz, solidSection } from '../lattice-flutter.ts'

const source = 'tn-d-1824'
const [inch, foot, psi] = [0.0254, 0.3048, 6894.757]
const [chord, span, tipLead, thickness] = [2.07055, 5.5251, 1.48044, 0.041].map((v) => v * inch)
const outline: readonly Point[] = [
  [0, 0],
  [chord, 0],
  [tipLead + chord, span],
  [tipLead, span],
]
const [E, G] = [9.2418e6 * psi, 3.4993e6 * psi]
const aluminium = { E1: E, E2: E, G12: G, G13: G, G23: G, nu12: E / (2 * G) - 1 }
const density = 1.0726e-7 * 1.068_69e7

const plate = (bevel: number) =>
  finModes({
    outline,
    size: 0.01,
    modes: 6,
    sectionAt: ({ x, y }) => {
      const share = (x - (tipLead * y) / span) / chord
      const edge = Math.max(1e-3, Math.min(share, 1 - share))
      return solidSection(aluminium, 0, thickness * Math.min(1, edge / bevel), 2698)
    },
  })
const fin = plate(1 / 8)
const deck = [34.34, 210, 260.4, 634.8]
const lattice = { chordwise: 8, spanwise: 16 }

const flutterOf = (frequencies: readonly number[], structuralDamping = 0, air = density) => {
  const omegas = frequencies.map((f) => 2 * Math.PI * f)
  const { flutter } = finFlutter(fin, { mach: 0.45, density: air, lattice, omegas, structuralDamping })
  if (flutter.kind !== 'flutter') throw new Error(flutter.kind)
  return { V: flutter.V / foot, f: hertz(flutter.omega) }
}

test('natural frequencies with a full clamp, against an independent series solution', () => {
  ;['38.6', '229.1', '262.4', '650.3'].forEach((printed, i) => {
    expectPublished({
      ...{ source, quantity: `frequency ${i + 1}, full clamp, Hz (independent)`, printed },
      ...{ computed: hertz(fin.modes.omega[i]), methodError: 0.01 },
    })
  })
})

describe("flutter with the decks' frequencies", () => {
  const { V, f } = flutterOf(deck)

  test('against the strip solution of TN D-1824', () => {
    expectPublished({
      ...{ source, quantity: 'flutter speed, M 0.45, ft/s (modified strip analysis)', printed: '498', computed: V },
      methodError: 0.05,
      why: 'two approximate theories; root fixity of the model unknown',
    })
  })

  test('against a published lifting-surface code', () => {
    expectPublished({
      ...{ source, quantity: 'flutter speed, M 0.45, ft/s (lifting surface)', printed: '479.4', computed: V },
      methodError: 0.06,
      why: 'their shapes have the root held at two points, ours along a line',
    })
    expectPublished({
      ...{ source, quantity: 'flutter frequency, M 0.45, Hz (lifting surface)', printed: '111.7', computed: f },
      methodError: 0.08,
      why: 'plain lattices read the frequency high by 3 % at their usual size',
    })
  })

  test('one per cent of structural damping raises the speed a little, as published', () => {
    const rise = flutterOf(deck, 0.01).V / V - 1
    expect(rise).toBeGreaterThan(0.001)
    expect(rise).toBeLessThan(0.01) // published: 480.4 over 479.4
  })

  test('has teeth: all frequencies seven per cent up, what the clamp is worth, is noticed', () => {
    const stiffer = deck.map((frequency) => 1.07 * frequency)
    expect(agrees(flutterOf(stiffer).V, published('498'), 0.05)).toBe(false)
  })
})
