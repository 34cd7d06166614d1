/**
 * Hashin in plane stress, for UNIDIRECTIONAL plies only: it tells fibre from matrix by axis, which cloth does not have.
 *
 *   fibre tension        (σ1/Xt)² + (τ12/S)² = 1
 *   fibre compression    |σ1| / Xc = 1
 *   matrix tension       (σ2/Yt)² + (τ12/S)² = 1
 *   matrix compression   (σ2/2St)² + [(Yc/2St)² − 1] σ2/Yc + (τ12/S)² = 1        St: shear strength in the 2-3 plane
 *
 * St is taken as Yc / 2, which leaves (σ2/Yc)² + (τ12/S)². Source: Hashin, J. Appl. Mech. 47 (1980) 329-334 (recalled).
 */
import { type Criterion, indexOfQuadratic, type PlyState, worst } from './criterion.ts'

/** `transverseShear` is St, Pa. */
export const hashinWith = (transverseShear: (strengths: PlyState['strengths']) => number): Criterion => ({
  name: 'Hashin',
  evaluate: ({ stress: { s1, s2, t12 }, strengths }) => {
    const { Xt, Xc, Yt, Yc, S } = strengths
    const St = transverseShear(strengths)
    const shear = (t12 / S) ** 2
    const fibre =
      s1 >= 0
        ? ({ index: Math.sqrt((s1 / Xt) ** 2 + shear), mode: 'tension along' } as const)
        : ({ index: -s1 / Xc, mode: 'compression along' } as const)
    const matrix =
      s2 >= 0
        ? ({ index: Math.sqrt((s2 / Yt) ** 2 + shear), mode: 'tension across' } as const)
        : ({
            index: indexOfQuadratic((s2 / (2 * St)) ** 2 + shear, ((Yc / (2 * St)) ** 2 - 1) * (s2 / Yc)),
            mode: 'compression across',
          } as const)
    return worst([fibre, matrix])
  },
})

export const hashin: Criterion = hashinWith(({ Yc }) => Yc / 2)
