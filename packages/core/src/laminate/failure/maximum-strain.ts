/**
 * Maximum strain: each ply strain against the strain at which that strength is reached alone.
 *
 *   ε1 = (σ1 − ν12 σ2) / E1   allowed X / E1        ε2 = (σ2 − ν21 σ1) / E2   allowed Y / E2        γ12 allowed S / G12
 */
import { type Criterion, worst } from './criterion.ts'

export const maximumStrain: Criterion = {
  name: 'maximum strain',
  evaluate: ({ stress: { s1, s2, t12 }, strengths: { Xt, Xc, Yt, Yc, S }, lamina: { E1, E2, nu12 } }) => {
    const nu21 = (nu12 * E2) / E1
    const along = s1 - nu12 * s2
    const across = s2 - nu21 * s1
    return worst([
      { index: along / Xt, mode: 'tension along' },
      { index: -along / Xc, mode: 'compression along' },
      { index: across / Yt, mode: 'tension across' },
      { index: -across / Yc, mode: 'compression across' },
      { index: Math.abs(t12) / S, mode: 'shear' },
    ])
  },
}
