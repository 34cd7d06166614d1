/**
 * A name for a mode of a plate held along its root: which way its chords mostly move, and how often that changes sign.
 *
 * On each of a number of chords the deflection is split by Legendre polynomials of the chord's own coordinate −1 … 1,
 *
 *   w = b(η) P₀ + θ(η) P₁ + c(η) P₂ + …      shares ∝ ∫ chord (b², θ²/3, c²/5) dη
 *
 * b is bending along the span, θ twist of the chord, c bending of the chord itself. The largest share gives the word; one more
 * than the number of sign changes along the span gives the ordinal. A description for people: nothing is computed from it.
 */
import type { Mesh } from '../geometry/mesh.ts'
import { meshLocator } from '../geometry/mesh-locate.ts'
import type { PlateModel } from './assemble.ts'
import type { PlateLayout } from './layout.ts'
import type { NodalField } from './nodal-field.ts'
import { type SpanAxes, spanAxes } from './span-axes.ts'
import { bears } from './supports.ts'
import { shapeFunctions } from './tied-shear.ts'
import { nodesPerElement } from './triangle-mitc7.ts'

export interface ModeKind {
  /** `first bending`, `second torsion`, `first chordwise bending`; `free body` for a plate that nothing holds. */
  readonly name: string
  /** Shares of bending, torsion and chordwise bending; they sum to 1. */
  readonly bending: number
  readonly torsion: number
  readonly chordwise: number
}

const stations = 24
const samples = 12
/** Below this share of its greatest value along the span, a coefficient has no sign. */
const signThreshold = 0.05
const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth']
const words = ['bending', 'torsion', 'chordwise bending'] as const

/** The returned function names any field of this plate. */
export function modeNamer({ layout }: PlateModel): (field: NodalField) => ModeKind {
  const strips = stripsOf(layout)
  return ({ w }) => {
    if (strips === null) return { name: 'free body', bending: 0, torsion: 0, chordwise: 0 }
    const split = strips.map((strip) => ({ chord: strip.chord, coefficients: coefficientsOf(strip, w) }))
    const energies = [0, 1, 2].map((k) =>
      split.reduce((sum, { chord, coefficients }) => sum + (chord * coefficients[k] ** 2) / (2 * k + 1), 0),
    )
    const total = energies[0] + energies[1] + energies[2]
    const [bending, torsion, chordwise] = energies.map((energy) => energy / total)
    const k = energies.indexOf(Math.max(...energies))
    const order = signChanges(split.map(({ coefficients }) => coefficients[k]))
    return { name: `${ordinals[order] ?? `${order + 1}th`} ${words[k]}`, bending, torsion, chordwise }
  }
}

export const modeKind = (model: PlateModel, field: NodalField): string => modeNamer(model)(field).name

/** A chord, and the places on it that lie in the plate. */
interface Strip {
  readonly chord: number
  readonly places: readonly Place[]
  /** Of each polynomial, Σ P² over the places. */
  readonly weight: readonly number[]
}

interface Place {
  readonly nodes: Int32Array
  /** Shape functions of the nodes. */
  readonly N: ArrayLike<number>
  readonly P: readonly number[]
}

/** Of a mesh and what of its outline is held: they do not change with the plies. */
const known = new WeakMap<Mesh, Map<string, readonly Strip[] | null>>()

function stripsOf(layout: PlateLayout): readonly Strip[] | null {
  const ofMesh = known.get(layout.mesh) ?? new Map<string, readonly Strip[] | null>()
  known.set(layout.mesh, ofMesh)
  const key = layout.supports.map((support) => (bears(support) ? 1 : 0)).join('')
  const found = ofMesh.get(key)
  if (found !== undefined) return found
  const axes = spanAxes(layout)
  const made = axes === null ? null : stripsAlong(axes, layout)
  ofMesh.set(key, made)
  return made
}

function stripsAlong({ span, chordAt, toPlate }: SpanAxes, { mesh, nodes: { T } }: PlateLayout): readonly Strip[] {
  const locate = meshLocator(mesh)
  const strips: Strip[] = []
  for (let k = 0; k < stations; k++) {
    const eta = ((k + 0.5) / stations) * span
    const chord = chordAt(eta)
    if (chord === null) continue
    const length = chord.to - chord.from
    const places: Place[] = []
    for (let i = 0; i < samples; i++) {
      const t = (2 * i + 1) / samples - 1
      const at = locate(...toPlate(chord.from + ((t + 1) / 2) * length, eta))
      if (at === null) continue // a notch
      const nodes = T.subarray(at.element * nodesPerElement, (at.element + 1) * nodesPerElement)
      places.push({ nodes, N: shapeFunctions(at.r, at.s).N, P: [1, t, (3 * t * t - 1) / 2] })
    }
    const weight = [0, 1, 2].map((j) => places.reduce((sum, { P }) => sum + P[j] ** 2, 0))
    if (places.length >= 3) strips.push({ chord: length, places, weight })
  }
  return strips
}

function coefficientsOf({ places, weight }: Strip, w: Float64Array): number[] {
  const sum = [0, 0, 0]
  for (const { nodes, N, P } of places) {
    let value = 0
    for (let i = 0; i < nodes.length; i++) value += N[i] * w[nodes[i]]
    for (let j = 0; j < 3; j++) sum[j] += P[j] * value
  }
  return sum.map((s, j) => s / weight[j])
}

function signChanges(values: readonly number[]): number {
  const most = Math.max(...values.map(Math.abs))
  const signs = values.filter((value) => Math.abs(value) > signThreshold * most).map(Math.sign)
  return signs.filter((sign, i) => i > 0 && sign !== signs[i - 1]).length
}
