/**
 * Tsai-Wu in plane stress.
 *
 *   F1 σ1 + F2 σ2 + F11 σ1² + F22 σ2² + F66 τ12² + 2 F12 σ1 σ2 = 1
 *   F1 = 1/Xt − 1/Xc   F11 = 1/(Xt Xc)   F2 = 1/Yt − 1/Yc   F22 = 1/(Yt Yc)   F66 = 1/S²   F12 = f √(F11 F22)
 *
 * f = −1/2 where no biaxial test says otherwise; |f| < 1 keeps the surface closed. Source: Tsai & Wu, J. Compos. Mater. 5
 * (1971) 58-80; f = −1/2: Tsai & Hahn, Introduction to Composite Materials (1980) (both recalled).
 */
import { type Criterion, indexOfQuadratic } from './criterion.ts'

export const tsaiWuWith = (f: number): Criterion => ({
  name: f === -0.5 ? 'Tsai-Wu' : `Tsai-Wu, interaction ${f}`,
  evaluate: ({ stress: { s1, s2, t12 }, strengths: { Xt, Xc, Yt, Yc, S } }) => {
    const F1 = 1 / Xt - 1 / Xc
    const F2 = 1 / Yt - 1 / Yc
    const F11 = 1 / (Xt * Xc)
    const F22 = 1 / (Yt * Yc)
    const F66 = 1 / S ** 2
    const F12 = f * Math.sqrt(F11 * F22)
    const a = F11 * s1 ** 2 + F22 * s2 ** 2 + F66 * t12 ** 2 + 2 * F12 * s1 * s2
    return { index: indexOfQuadratic(a, F1 * s1 + F2 * s2), mode: 'combined' }
  },
})

export const tsaiWu: Criterion = tsaiWuWith(-0.5)
