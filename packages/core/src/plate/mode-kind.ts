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
import type { PlateModel } from './assemble.ts'
import { fieldReader } from './field-at.ts'
import type { NodalField } from './nodal-field.ts'
import { type SpanAxes, spanAxes } from './span-axes.ts'

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
export function modeNamer(model: PlateModel): (field: NodalField) => ModeKind {
  const axes = spanAxes(model.layout)
  const read = fieldReader(model)
  return (field) => {
    if (axes === null) return { name: 'free body', bending: 0, torsion: 0, chordwise: 0 }
    const strips = chordCoefficients(axes, (x, y) => read(field, x, y)?.w ?? null)
    const energies = [0, 1, 2].map((k) =>
      strips.reduce((sum, { chord, coefficients }) => sum + (chord * coefficients[k] ** 2) / (2 * k + 1), 0),
    )
    const total = energies[0] + energies[1] + energies[2]
    const [bending, torsion, chordwise] = energies.map((energy) => energy / total)
    const k = energies.indexOf(Math.max(...energies))
    const order = signChanges(strips.map(({ coefficients }) => coefficients[k]))
    return { name: `${ordinals[order] ?? `${order + 1}th`} ${words[k]}`, bending, torsion, chordwise }
  }
}

export const modeKind = (model: PlateModel, field: NodalField): string => modeNamer(model)(field).name

function chordCoefficients({ span, chordAt, toPlate }: SpanAxes, w: (x: number, y: number) => number | null) {
  const strips: { chord: number; coefficients: number[] }[] = []
  for (let k = 0; k < stations; k++) {
    const eta = ((k + 0.5) / stations) * span
    const chord = chordAt(eta)
    if (chord === null) continue
    const length = chord.to - chord.from
    const [sum, weight] = [
      [0, 0, 0],
      [0, 0, 0],
    ]
    for (let i = 0; i < samples; i++) {
      const t = (2 * i + 1) / samples - 1
      const value = w(...toPlate(chord.from + ((t + 1) / 2) * length, eta))
      if (value === null) continue // a notch
      const P = [1, t, (3 * t * t - 1) / 2]
      P.forEach((p, j) => {
        sum[j] += p * value
        weight[j] += p * p
      })
    }
    if (weight[0] >= 3) strips.push({ chord: length, coefficients: sum.map((s, j) => s / weight[j]) })
  }
  return strips
}

function signChanges(values: readonly number[]): number {
  const most = Math.max(...values.map(Math.abs))
  const signs = values.filter((value) => Math.abs(value) > signThreshold * most).map(Math.sign)
  return signs.filter((sign, i) => i > 0 && sign !== signs[i - 1]).length
}
