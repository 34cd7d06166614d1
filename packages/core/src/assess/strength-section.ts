/** First failure of any ply under the worst air load of the flight, on the fin as its can holds it. */
import { finPolygon, tipMiddle } from '../geometry/fin-outline.ts'
import { area } from '../geometry/polygon.ts'
import type { AngleSpec } from '../strength/load-states.ts'
import { flightLoads, stateLoads } from '../strength/load-states.ts'
import type { TipEquivalent } from '../strength/tip-equivalent.ts'
import { type LoadCase, type WorstCase, worstCase } from '../strength/worst-case.ts'
import type { StrengthSection } from './assessment.ts'
import type { CanDesign } from './design.ts'
import type { KeptAir } from './fin-air.ts'
import type { FinPlate } from './fin-plate.ts'
import type { Flown, Section } from './flown.ts'
import type { HeldFin } from './held-fin.ts'

export interface StrengthInput {
  readonly plate: FinPlate
  readonly held: HeldFin
  readonly air: KeptAir
  readonly flight: Flown
}

export interface Stressed extends Section<StrengthSection> {
  /** What the root joint has to carry. */
  readonly reactions: LoadCase['reactions'] | null
}

export function strengthSection(design: CanDesign, { plate, held, air, flight }: StrengthInput): Stressed {
  const { fins, tube, loads } = design
  const spec: AngleSpec = loads
  const states = flight.history === null ? stateLoads(flight.states, spec) : flightLoads(flight.history, spec)
  const { value: worst, warnings } = worstCase({
    ...held,
    air: { ...air, bodyRadius: tube.outerRadius, halfThickness: (x, y) => plate.at(x, y).laminate.h / 2 },
    states,
    area: area(finPolygon(fins.outline)),
    rootSegment: plate.rootSegment,
    tip: tipMiddle(fins.outline),
  })
  if (worst === null) return { value: noStrength, warnings, reactions: null }
  return { value: strengthOf(worst), warnings, reactions: worst.greatestMoment.reactions }
}

function strengthOf({
  failure,
  worst,
  map,
  through,
  tip,
}: WorstCase): Omit<StrengthSection, 'rootLine'> & Pick<StrengthSection, 'rootLine'> {
  const { state } = worst
  return {
    failureIndex: failure.index,
    ply: failure.layer,
    position_m: failure.position,
    criterion: `${failure.criterion}, ${failure.mode}`,
    secondOpinion: { criterion: failure.secondOpinion.criterion, failureIndex: failure.secondOpinion.index },
    load: {
      pressure_Pa: worst.pressure,
      force_N: worst.force,
      rootMoment_Nm: worst.rootMoment,
      angleOfAttack_deg: (state.angle * 180) / Math.PI,
      mach: state.mach,
      dynamicPressure_Pa: state.dynamicPressure,
      time_s: state.time,
      amplification: worst.amplification,
      basis: basis(worst),
    },
    tipEquivalent: tip === null ? null : tipFigures(tip),
    rootLine: null,
    map: Array.from(map, (index) => Number(index.toPrecision(4))),
    through: through.map(({ layer, z, s1, s2, t12, index }) => ({
      layer,
      z_m: z,
      s1_Pa: s1,
      s2_Pa: s2,
      t12_Pa: t12,
      index,
    })),
  }
}

function basis({ state, surface, forcesMach, counts }: LoadCase): string {
  const cause = { given: 'angle as given', gust: 'gust', 'wind and gust at the rail': 'wind and gust at the rail' }[
    state.cause
  ]
  const forces = forcesMach === state.mach ? surface : `${surface} of Mach ${forcesMach.toFixed(2)}`
  return `${cause}; ${forces}, body upwash in; ${counts === 'elastic' ? 'bent fin' : 'rigid fin, which is loaded more than the bent one'}`
}

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

function tipFigures({ byFailure, byMoment, governs, tipIndex }: TipEquivalent): StrengthSection['tipEquivalent'] {
  const outerFailureIndex = tipIndex * Math.min(byFailure, byMoment)
  return { byFailure_N: byFailure, byMoment_N: byMoment, governs, outerFailureIndex }
}
