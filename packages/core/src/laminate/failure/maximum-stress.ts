/** Maximum stress: each ply stress against its own strength, no interaction. The mode is the one that reaches it first. */
import { type Criterion, worst } from './criterion.ts'

export const maximumStress: Criterion = {
  name: 'maximum stress',
  evaluate: ({ stress: { s1, s2, t12 }, strengths: { Xt, Xc, Yt, Yc, S } }) =>
    worst([
      { index: s1 / Xt, mode: 'tension along' },
      { index: -s1 / Xc, mode: 'compression along' },
      { index: s2 / Yt, mode: 'tension across' },
      { index: -s2 / Yc, mode: 'compression across' },
      { index: Math.abs(t12) / S, mode: 'shear' },
    ]),
}
