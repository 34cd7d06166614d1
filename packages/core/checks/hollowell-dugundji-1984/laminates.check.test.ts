/** Six laminates: which goes first, flutter or divergence, and when; see source.md. */
import { describe, expect, test } from 'vitest'
import type { LatticeSize } from '../../src/air/subsonic/lattice.ts'
import type { PkResult } from '../../src/flutter/pk.ts'
import { laminate } from '../../src/laminate/laminate.ts'
import type { BuiltLayer } from '../../src/laminate/layer.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'
import { rectangle } from '../lattice-coefficients.ts'
import { type FinModes, finFlutter, finModes, hertz } from '../lattice-flutter.ts'

const source = 'hollowell-dugundji-1984'
const ply = { E1: 98e9, E2: 7.9e9, G12: 5.6e9, G13: 5.6e9, G23: 5.6e9, nu12: 0.28 }
const t = 0.134e-3
const density = 1520

/** Angles of the outer three plies from the span towards the leading edge, deg; the stack is symmetric. */
function plate(half: readonly number[]): FinModes {
  const layers = [...half, ...[...half].reverse()].map(
    // From x (aft) towards y (outboard): the span lies at 90°, the leading edge beyond it.
    (angle) => ({ lamina: ply, theta: ((90 + angle) * Math.PI) / 180, t, density }) as BuiltLayer,
  )
  const { A, B, D, H, inertia } = laminate(layers)
  const section = { A, B, D, S: H, massPerArea: inertia.m0, rotaryInertia: inertia.m2 }
  return finModes({ outline: rectangle(0.076, 0.305), size: 0.02, modes: 6, sectionAt: () => section })
}

const usual: LatticeSize = { chordwise: 8, spanwise: 14 }
const toTheTip: LatticeSize = { chordwise: 6, spanwise: 10, tipInset: 0 }
const speeds = (fin: FinModes, lattice: LatticeSize) => {
  const result: PkResult = finFlutter(fin, { mach: 0, density: 1.225, lattice })
  const flutter = result.flutter.kind === 'flutter' ? result.flutter.V : Number.POSITIVE_INFINITY
  const diverges = result.divergence.kind === 'divergence' ? result.divergence.V : Number.POSITIVE_INFINITY
  return { flutter, diverges }
}

interface Row {
  readonly name: string
  readonly half: readonly number[]
  /** First bending, second bending, first torsion, Hz. */
  readonly frequencies: readonly [string, string, string]
  /** Places of the three among the modes. */
  readonly places: readonly [number, number, number]
  readonly first: 'flutter' | 'divergence'
  readonly speed: string
  readonly other: string | null
  readonly lattice: LatticeSize
}

const rows: readonly Row[] = [
  {
    ...{ name: '[0₂/90]s', half: [0, 0, 90], frequencies: ['11.0', '69.2', '39.5'], places: [0, 2, 1] },
    ...{ first: 'flutter', speed: '22.4', other: '28.2', lattice: usual },
  },
  {
    ...{ name: '[±45/0]s', half: [45, -45, 0], frequencies: ['5.7', '35.7', '69.0'], places: [0, 1, 2] },
    ...{ first: 'flutter', speed: '38', other: null, lattice: toTheTip },
  },
  {
    ...{ name: '[45₂/0]s', half: [45, 45, 0], frequencies: ['4.9', '30.0', '49.6'], places: [0, 1, 2] },
    ...{ first: 'flutter', speed: '26.2', other: null, lattice: usual },
  },
  {
    ...{ name: '[-45₂/0]s', half: [-45, -45, 0], frequencies: ['4.9', '30.0', '49.6'], places: [0, 1, 2] },
    ...{ first: 'divergence', speed: '13.1', other: null, lattice: usual },
  },
  {
    ...{ name: '[30₂/0]s', half: [30, 30, 0], frequencies: ['6.3', '37.2', '56.9'], places: [0, 1, 2] },
    ...{ first: 'flutter', speed: '25.7', other: null, lattice: usual },
  },
  {
    ...{ name: '[-30₂/0]s', half: [-30, -30, 0], frequencies: ['6.3', '37.2', '56.9'], places: [0, 1, 2] },
    ...{ first: 'divergence', speed: '13.3', other: null, lattice: usual },
  },
]

describe.each(rows)('$name', ({ name, half, frequencies, places, first, speed, other, lattice }) => {
  const fin = plate(half)
  const found = speeds(fin, lattice)

  test('frequencies', () => {
    for (const [i, kind] of ['first bending', 'second bending', 'first torsion'].entries()) {
      expectPublished({
        ...{ source, quantity: `${name} ${kind}, Hz (independent)`, printed: frequencies[i] },
        ...{ computed: hertz(fin.modes.omega[places[i]]), methodError: 0.05 },
        why: 'a series without transverse shear on the other side',
      })
    }
  })

  test(`${first} comes first`, () => {
    for (const { flutter, diverges } of [found, speeds(fin, usual)]) {
      expect(first === 'flutter' ? flutter < diverges : diverges < flutter).toBe(true)
    }
  })

  test('speeds', () => {
    const [computed, second] = first === 'flutter' ? [found.flutter, found.diverges] : [found.diverges, found.flutter]
    expectPublished({
      ...{ source, quantity: `${name} ${first}, m/s (independent)`, printed: speed, computed, methodError: 0.08 },
      why: 'the other lattice runs to the very tip',
    })
    if (other === null) return
    expectPublished({
      ...{ source, quantity: `${name} divergence, m/s (independent)`, printed: other, computed: second },
      ...{ methodError: 0.08, why: 'the other lattice runs to the very tip' },
    })
  })
})

test('[±45/0]s on the usual lattice lies higher, for the reasons in source.md', () => {
  const { flutter, diverges } = speeds(plate([45, -45, 0]), usual)
  expectPublished({
    ...{
      source,
      quantity: '[±45/0]s flutter on the usual lattice, m/s (independent)',
      printed: '38',
      computed: flutter,
    },
    ...{ methodError: 0.1, why: 'shallow crossing; the tip and chordwise errors of a plain lattice are worth 5 %' },
  })
  expect(diverges).toBe(Number.POSITIVE_INFINITY)
})

test('has teeth: the mirror image of a lay-up goes the other way, and ten per cent of stiffness is noticed', () => {
  const { flutter, diverges } = speeds(plate([-30, -30, 0]), usual)
  expect(flutter < diverges).toBe(false)
  expect(agrees(diverges * 1.1, published('13.3'), 0.08)).toBe(false)
})
