/**
 * Tsai-Hill, two forms of one expression; the index is the root of it.
 *
 *   (σ1/X1)² − (σ1/X2)(σ2/X2) + (σ2/Y)² + (τ12/S)² = 1
 *
 * The plain form takes the tensile strengths whatever the signs, which is harsh on compression. The signed form takes X1, X2
 * and Y by the sign of σ1, σ2 and σ2. Source: Kaw, Mechanics of Composite Materials, 2nd ed. (2006), ch. 2 (recalled).
 */
import type { Criterion, PlyState } from './criterion.ts'

export const tsaiHill: Criterion = {
  name: 'Tsai-Hill, tensile strengths',
  evaluate: (state) => combined(state, { X1: state.strengths.Xt, X2: state.strengths.Xt, Y: state.strengths.Yt }),
}

export const tsaiHillSigned: Criterion = {
  name: 'Tsai-Hill, strengths by sign',
  evaluate: (state) => {
    const { stress, strengths } = state
    return combined(state, {
      X1: stress.s1 >= 0 ? strengths.Xt : strengths.Xc,
      X2: stress.s2 >= 0 ? strengths.Xt : strengths.Xc,
      Y: stress.s2 >= 0 ? strengths.Yt : strengths.Yc,
    })
  },
}

function combined(
  { stress: { s1, s2, t12 }, strengths: { S } }: PlyState,
  { X1, X2, Y }: Record<'X1' | 'X2' | 'Y', number>,
) {
  const expression = (s1 / X1) ** 2 - (s1 / X2) * (s2 / X2) + (s2 / Y) ** 2 + (t12 / S) ** 2
  // Below zero only where Y > 2 X, an ellipse that does not close; such a ply is judged by the other criteria.
  return { index: Math.sqrt(Math.max(0, expression)), mode: 'combined' as const }
}
