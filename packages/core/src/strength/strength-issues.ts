/** What there is to say about a worst case. */
import { highestSurfaceMach } from '../flutter/source-method.ts'
import type { Issue } from '../issue.ts'
import type { FirstFailure } from './first-failure.ts'
import type { LoadState } from './load-states.ts'
import type { LoadCase } from './worst-case.ts'

/** Angles up to which the forces of a thin fin grow about in proportion; common practice, no source. */
export const largestLinearAngle = (10 * Math.PI) / 180
/** Elastic over rigid load a above which a tenth less stiffness adds more than a twentieth, (a − 1)/10, to the load; own choice. */
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

export function warningsOf(worst: LoadCase, failure: FirstFailure): Issue[] {
  return [...failing(failure), ...beyondTheory(worst)]
}

function failing({ index, unaveraged, layer, mode }: FirstFailure): Issue[] {
  const about = { path: 'strength.failureIndex', value: index }
  if (index >= 1) {
    return [
      {
        ...{ code: 'strength/ply-fails', ...about },
        message: `${layer} fails (${mode}) under the worst air load: its failure index is ${index.toFixed(2)}, and it must stay below 1.`,
        hint: 'Add plies or a thicker core, or ask for less angle of attack or wind.',
      },
    ]
  }
  if (unaveraged < 1) return []
  return [
    {
      ...{ code: 'strength/index-uncertain', ...about },
      message: `The failure index is ${index.toFixed(2)} meant over the triangles of the mesh that meet there, and ${unaveraged.toFixed(2)} in the worst of them alone.`,
      hint: 'The mesh cannot tell whether the ply fails; read it as failing.',
    },
  ]
}

function beyondTheory({ state, forcesMach, amplification }: LoadCase): Issue[] {
  const found: Issue[] = []
  const path = 'strength.load'
  if (state.angle > largestLinearAngle) {
    const degrees = (state.angle * 180) / Math.PI
    found.push({
      ...{ code: 'strength/beyond-linear', path, value: degrees },
      message: `The worst load is at an angle of attack of ${degrees.toFixed(0)} deg, where a fin no longer lifts in proportion to the angle.`,
      hint: 'Read the failure index as an estimate, as a rule too high; a faster rail exit or less wind lowers the angle.',
    })
  }
  if (state.mach !== forcesMach && state.mach < highestSurfaceMach) {
    found.push({
      ...{ code: 'strength/transonic', path, value: state.mach },
      message: `The worst load is at Mach ${state.mach.toFixed(2)}, where no linear method is right; the larger of the loads at Mach 0.95 and 1.10 is used.`,
      hint: 'Read the failure index as an estimate and prove the fin by its proof load.',
    })
  }
  if (state.mach > highestSurfaceMach) {
    found.push({
      ...{ code: 'strength/mach-range', path, value: state.mach },
      message: `The worst load is at Mach ${state.mach.toFixed(2)}; the forces of Mach ${highestSurfaceMach} are used, which are larger by linear theory.`,
      hint: 'Above Mach 5 the air is not the one this theory knows; read the failure index as an estimate.',
    })
  }
  if (amplification > largestCalmAmplification) {
    found.push({
      ...{ code: 'strength/near-divergence', path, value: amplification },
      message: `The air loads the bent fin ${amplification.toFixed(2)} times as much as the unbent one.`,
      hint: 'A little less stiffness than planned changes the stresses much; stiffen the fin.',
    })
  }
  return found
}

const kilo = (pressure: number): string => (pressure / 1000).toFixed(0)
