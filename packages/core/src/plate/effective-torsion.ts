/**
 * Torsional stiffness of a fin as one number, from the plate itself: what a uniform bar of the fin's span would need to twist
 * as much under the same couple.
 *
 *   GJ = T L / θ
 *
 * The couple T turns about the span (square to the root). It is laid on one chord c as a line load that grows in proportion to
 * the distance from mid-chord, q = 12 T ξ / c³, so that it has no resultant and no concentrated force. θ is that load's own
 * mean of the chord's twist, θ = (12 / c³) ∫ w ξ dξ, so T θ / 2 is the strain energy. The chord is the tip's, or where the tip
 * runs to a point or is cut off obliquely, the outermost whose length is a fifth of the root's; L is its distance from the
 * root. Own definition: with taper it weighs the thin outer part most, as a measurement with a couple at the tip does; the
 * stiffening by the clamped root (no warping) is in it.
 */
import type { PlateModel } from './assemble.ts'
import { fieldReader } from './field-at.ts'
import { spanAxes } from './span-axes.ts'
import { plateStatic } from './static.ts'

export type EffectiveTorsion =
  | {
      readonly kind: 'torsion'
      /** N·m² */
      readonly GJ: number
      /** Distance of the loaded chord from the root, m. */
      readonly L: number
      /** Length of the loaded chord, m. */
      readonly chord: number
      /** θ / T, rad/(N·m) */
      readonly compliance: number
    }
  /** No root, or nothing that holds the plate. */
  | { readonly kind: 'not-held' }

const leastChord = 0.2
const samples = 96

export function effectiveTorsion(model: PlateModel): EffectiveTorsion {
  const axes = spanAxes(model.layout)
  if (axes === null) return { kind: 'not-held' }
  const { span, chordAt, toPlate } = axes
  // A millionth inside: the ends of the span are corners, where a chord may be a point.
  const inner = 1e-6
  const length = (eta: number): number => {
    const chord = chordAt(eta)
    return chord === null ? 0 : chord.to - chord.from
  }
  const wanted = leastChord * length(inner * span)
  let [low, high] = [inner * span, (1 - inner) * span]
  if (length(high) >= wanted) low = high
  for (let i = 0; i < 60 && high - low > inner * span; i++) {
    const middle = (low + high) / 2
    if (length(middle) >= wanted) low = middle
    else high = middle
  }
  const L = low
  const chord = chordAt(L)
  if (chord === null) return { kind: 'not-held' }
  const c = chord.to - chord.from
  const read = fieldReader(model)
  const weights = Array.from({ length: samples }, (_, i) => {
    const xi = ((i + 0.5) / samples - 0.5) * c
    return { at: toPlate((chord.from + chord.to) / 2 + xi, L), weight: xi }
  }).filter(({ at }) => read(zeroField(model), ...at) !== null)
  // Scaled so that the couple of the samples is 1 N·m exactly.
  const moment = weights.reduce((sum, { weight }) => sum + weight * weight, 0)
  const solved = plateStatic(model, { forces: weights.map(({ at, weight }) => ({ at, force: weight / moment })) })
  if (solved.kind === 'not-held') return { kind: 'not-held' }
  const twist = weights.reduce((sum, { at, weight }) => sum + weight * (read(solved.field, ...at)?.w ?? 0), 0) / moment
  return { kind: 'torsion', GJ: L / twist, L, chord: c, compliance: twist }
}

function zeroField({ layout }: PlateModel) {
  const zero = new Float64Array(layout.nodes.X.length / 2)
  return { w: zero, phiX: zero, phiY: zero, u: zero, v: zero }
}
