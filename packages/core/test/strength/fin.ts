/** What the tests of strength share: a bevelled fin of invented numbers, its plate, its air, and loads on it. */
import { finForm } from '../../src/air/fin-form.ts'
import { subsonicAir } from '../../src/flutter/lattice-method.ts'
import { supersonicAir } from '../../src/flutter/source-method.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'
import { type Laminate, laminate } from '../../src/laminate/laminate.ts'
import type { BuiltLayer } from '../../src/laminate/layer.ts'
import { assemblePlate, type PlateModel } from '../../src/plate/assemble.ts'
import type { Support } from '../../src/plate/supports.ts'
import type { LoadState } from '../../src/strength/load-states.ts'
import type { WorstCaseInput } from '../../src/strength/worst-case.ts'

export const outline: readonly Point[] = [
  [0, 0],
  [0.3, 0],
  [0.33, 0.2],
  [0.18, 0.2],
]
export const bodyRadius = 0.06

const strengths = { Xt: 300e6, Xc: 220e6, Yt: 280e6, Yc: 200e6, S: 60e6 }
const cloth = { E1: 21e9, E2: 21e9, G12: 4e9, nu12: 0.13, G13: 3e9, G23: 3e9 }
const sheet = { E1: 24e9, E2: 20e9, G12: 6e9, nu12: 0.15, G13: 4e9, G23: 4e9 }

const ply = (name: string, theta: number): BuiltLayer => {
  return { name, theta, t: 0.25e-3, lamina: cloth, density: 1800, strengths }
}

const [thickness, land, bevel] = [2.4e-3, 0.8e-3, 0.02]

export function coreThickness(x: number, y: number): number {
  const edge = Math.max(0, Math.min(x - 0.9 * y, 0.3 + 0.15 * y - x))
  // In steps, so that points share laminates.
  return Math.round((land + (thickness - land) * Math.min(1, edge / bevel)) / 1e-5) * 1e-5
}

/** Angles of the plies of the lower and the upper skin, core outward. */
export interface LayUp {
  readonly lower: readonly number[]
  readonly upper: readonly number[]
}

export const balanced: LayUp = { lower: [Math.PI / 4, 0], upper: [Math.PI / 4, 0] }
/** Bends as it stretches. */
export const lopsided: LayUp = { lower: [0.3, 0], upper: [0.3] }

export function laminateReader({ lower, upper }: LayUp, without = ''): (x: number, y: number) => Laminate {
  const known = new Map<number, Laminate>()
  const judgedLayer = (layer: BuiltLayer): BuiltLayer =>
    layer.name === without ? { ...layer, strengths: null } : layer
  return (x, y) => {
    const t = coreThickness(x, y)
    const found = known.get(t)
    if (found !== undefined) return found
    const core: BuiltLayer = { name: 'core', theta: 0, t, lamina: sheet, density: 1900, strengths }
    const skinBelow = lower.map((theta, i) => ply(`P${i + 1} lower`, theta)).reverse()
    const skinAbove = upper.map((theta, i) => ply(`P${i + 1} upper`, -theta))
    const layers = [...skinBelow, core, ...skinAbove].map(judgedLayer)
    const made = laminate(
      layers,
      skinBelow.reduce((z, layer) => z + layer.t, t / 2),
    )
    known.set(t, made)
    return made
  }
}

const sections = new WeakMap<Laminate, ReturnType<typeof sectionOf>>()
const sectionOf = ({ A, B, D, H, inertia }: Laminate) => {
  return { A, B, D, S: H, massPerArea: inertia.m0, rotaryInertia: inertia.m2 }
}

export function plateOf(
  laminateAt: (x: number, y: number) => Laminate,
  { points = outline, size = 0.03, root = 'clamped' as Support } = {},
): PlateModel {
  return assemblePlate({
    mesh: meshOutline({ outline: points, size }),
    supports: points.map((_, i) => (i === 0 ? root : 'free')),
    sectionAt: ({ x, y }) => {
      const at = laminateAt(x, y)
      const known = sections.get(at) ?? sectionOf(at)
      sections.set(at, known)
      return known
    },
  })
}

export const laminateAt = laminateReader(balanced)
export const model = plateOf(laminateAt)
export const air = { subsonic: subsonicAir(outline), supersonic: supersonicAir(outline), bodyRadius }

export const loadAt = (mach: number, dynamicPressure: number, angle = 0.03): LoadState => {
  return { time: null, mach, dynamicPressure, angle, cause: 'given' }
}

export const input = (states: readonly LoadState[], changes: Partial<WorstCaseInput> = {}): WorstCaseInput => ({
  ...{ model, laminateAt, air, states, area: finForm(outline, bodyRadius).area, rootSegment: 0, tip: [0.255, 0.2] },
  ...changes,
})
