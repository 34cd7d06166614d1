/** What there is to say about a worst case. */
import { highestSurfaceMach } from '../flutter/source-method.ts'
import type { Issue } from '../issue.ts'
import type { LoadState } from './load-states.ts'
import type { LoadCase } from './worst-case.ts'

/** Angles up to which the forces of a thin fin grow about in proportion; common practice, no source. */
export const largestLinearAngle = (10 * Math.PI) / 180
/** Elastic over rigid load above which the verdict hangs on the stiffness more than on the load. */
const largestCalmAmplification = 1.5

export const noLoad: Issue = {
  code: 'strength/no-load',
  path: 'strength.failureIndex',
  value: null,
  message:
    'There is no air load to judge the plies by: the flight, the angle of attack and the wind give none, or no ply has strengths.',
  hint: 'Give a flight, and an angle of attack or wind in loads.',
}

export const diverges = ({ state, divergence }: { readonly state: LoadState; readonly divergence: number }): Issue => ({
  code: 'strength/diverges',
  path: 'strength.failureIndex',
  value: state.dynamicPressure,
  message: `At Mach ${state.mach.toFixed(2)} the flight's dynamic pressure (${kilo(state.dynamicPressure)} kPa) is beyond the fin's divergence (${kilo(divergence)} kPa): it bends away without limit, and no stress can be given.`,
  hint: 'Stiffen the fin, or turn its plies so that it washes out as it bends.',
})

export function warningsOf(worst: LoadCase): Issue[] {
  const { state, forcesMach, amplification } = worst
  const found: Issue[] = []
  const add = (code: string, value: number, message: string, hint: string) =>
    found.push({ code: `strength/${code}`, path: 'strength.load', value, message, hint })
  if (state.angle > largestLinearAngle) {
    const degrees = (state.angle * 180) / Math.PI
    add(
      ...(['beyond-linear', degrees] as const),
      `The worst load is at an angle of attack of ${degrees.toFixed(0)} deg, where a fin no longer lifts in proportion to the angle.`,
      'Read the failure index as an estimate, as a rule too high; a faster rail exit or less wind lowers the angle.',
    )
  }
  if (state.mach !== forcesMach && state.mach < highestSurfaceMach) {
    add(
      ...(['transonic', state.mach] as const),
      `The worst load is at Mach ${state.mach.toFixed(2)}, where no linear method is right; the larger of the loads at Mach 0.95 and 1.10 is used.`,
      'Read the failure index as an estimate and prove the fin by its proof load.',
    )
  }
  if (state.mach > highestSurfaceMach) {
    add(
      ...(['mach-range', state.mach] as const),
      `The worst load is at Mach ${state.mach.toFixed(2)}; the forces of Mach ${highestSurfaceMach} are used, which are larger by linear theory.`,
      'Above Mach 5 the air is not the one this theory knows; read the failure index as an estimate.',
    )
  }
  if (amplification > largestCalmAmplification) {
    add(
      ...(['near-divergence', amplification] as const),
      `The air loads the bent fin ${amplification.toFixed(2)} times as much as the unbent one.`,
      'A little less stiffness than planned changes the stresses much; stiffen the fin.',
    )
  }
  return found
}

const kilo = (pressure: number): string => (pressure / 1000).toFixed(0)
