/**
 * First-ply failure under the worst air load of the flight.
 *
 * First version: the normal force of the fin at the given angle of attack, spread evenly over its face, on the clamped plate;
 * both directions, since tension and compression differ. The core's own strengths are judged with the plies'.
 */
import type { FinForm } from '../air/fin-form.ts'
import { type FlightLoad, worstFinLoad } from '../air/fin-load.ts'
import type { Issue } from '../issue.ts'
import type { Criterion, FailureIndex } from '../laminate/failure/criterion.ts'
import { maximumStress } from '../laminate/failure/maximum-stress.ts'
import { tsaiWu } from '../laminate/failure/tsai-wu.ts'
import type { Laminate } from '../laminate/laminate.ts'
import { type PlyStress, plyStresses } from '../laminate/ply-stress.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { plateSolver } from '../plate/static.ts'
import { cornerStrains, elementStrains } from '../plate/strains.ts'
import type { Point, StrengthSection } from './assessment.ts'
import type { Flown, Section } from './flown.ts'

export interface StrengthInput {
  readonly model: PlateModel
  readonly laminateAt: (x: number, y: number) => Laminate
  readonly form: FinForm
  readonly flight: Flown
  readonly angleOfAttack: number
}

export function strengthSection(input: StrengthInput): Section<StrengthSection> {
  const { form, flight, angleOfAttack } = input
  const mach = flight.states.map((state) => state.mach)
  const dynamicPressure = flight.states.map(({ mach: M, density, soundSpeed }) => 0.5 * density * (M * soundSpeed) ** 2)
  const worst = worstFinLoad(form, { mach, dynamicPressure })
  if (worst === null || !(worst.pressurePerAngle * angleOfAttack > 0)) return { value: noStrength, warnings: [noLoad] }
  const pressure = worst.pressurePerAngle * angleOfAttack
  const found = worstPlies(input, pressure)
  if (found === null) return { value: noStrength, warnings: [noLoad] }
  const { first, second } = found
  return {
    value: {
      ...noStrength,
      failureIndex: first.failure.index,
      ply: first.failure.layer,
      position_m: first.at,
      criterion: `${first.failure.criterion}, ${first.failure.mode}`,
      secondOpinion: { criterion: second.failure.criterion, failureIndex: second.failure.index },
      load: {
        pressure_Pa: pressure,
        force_N: worst.forcePerAngle * angleOfAttack,
        rootMoment_Nm: worst.rootMomentPerAngle * angleOfAttack,
        mach: worst.mach,
        dynamicPressure_Pa: worst.dynamicPressure,
        amplification: 1,
        angleOfAttack_deg: (angleOfAttack * 180) / Math.PI,
        time_s: flight.history?.time[worst.index] ?? null,
        basis: basis(worst),
      },
    },
    warnings: [firstVersion],
  }
}

interface Worst {
  readonly failure: FailureIndex & { readonly criterion: string; readonly layer: string }
  readonly at: Point
}

/** The first ply to fail by each criterion, under the pressure either way. Stresses are worked out once for all of them. */
function worstPlies({ model, laminateAt }: StrengthInput, pressure: number): { first: Worst; second: Worst } | null {
  const solved = plateSolver(model)({ pressure: () => pressure })
  if (solved.kind === 'not-held') return null
  const worst: (Worst | null)[] = criteria.map(() => null)
  for (const { x, y, membrane, curvature } of cornerStrains(elementStrains(model, solved.field))) {
    const section = laminateAt(x, y)
    plyStresses(section, { strain: membrane, curvature }).forEach((faces, position) => {
      const { name, strengths, lamina } = section.layers[position]
      if (strengths === null) return
      for (const stress of [faces.bottom.ply, faces.top.ply].flatMap((ply) => [ply, reversed(ply)])) {
        criteria.forEach((criterion, k) => {
          const found = criterion.evaluate({ stress, strengths, lamina })
          const known = worst[k]
          if (known === null || found.index > known.failure.index)
            worst[k] = { failure: { ...found, criterion: criterion.name, layer: name }, at: [x, y] }
        })
      }
    })
  }
  const [first, second] = worst
  return first === null || second === null ? null : { first, second }
}

/** For woven plies maximum stress leads, because it names the mode. */
const criteria: readonly Criterion[] = [maximumStress, tsaiWu]

const reversed = ({ s1, s2, t12 }: PlyStress): PlyStress => ({ s1: -s1, s2: -s2, t12: -t12 })

const basis = ({ force: { method, upwash }, mach }: FlightLoad): string =>
  `${method}, Mach ${mach.toFixed(2)}, × ${upwash.toFixed(3)} for the body, even over the face`

export const noStrength: StrengthSection = {
  failureIndex: null,
  ply: null,
  position_m: null,
  criterion: null,
  secondOpinion: null,
  load: null,
  tipEquivalent: null,
  rootLine: null,
  map: null,
  through: [],
}

const noLoad: Issue = {
  code: 'strength/no-load',
  path: 'strength.failureIndex',
  value: null,
  message: 'There is no air load to judge the plies by: the flight or the angle of attack gives none.',
  hint: 'Give a flight, and an angle of attack above zero in loads.angleOfAttack.',
}

const firstVersion: Issue = {
  code: 'strength/uniform-pressure',
  path: 'strength.failureIndex',
  value: null,
  message:
    'The air load is spread evenly over the face and the fin does not deform under it; the real pressure peaks at the leading edge.',
  hint: 'Read the failure index as a first estimate; prove every fin by its own proof load.',
}
