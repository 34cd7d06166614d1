/** One instant of a flight solved in full: the fin's answer to its load, rigid and elastic, and the index of the one that counts. */
import type { SteadyForces } from './air-on-plate.ts'
import { type ElasticResponse, elasticResponse } from './elastic-response.ts'
import type { LoadState } from './load-states.ts'
import { type Spot, worstSpot } from './stress-map.ts'
import type { TestBench } from './test-bench.ts'

export interface Tried {
  /** Place in the list of states. */
  readonly at: number
  readonly state: LoadState
  readonly forces: SteadyForces
  readonly response: ElasticResponse
  readonly amplification: number
  readonly counts: 'elastic' | 'rigid'
  readonly rootMoment: number
  readonly boxForce: Float64Array
  readonly displacement: Float64Array
  /** At the triangles' corners, and their means at the nodes. */
  readonly corners: Float64Array
  readonly strains: Float64Array
  readonly spot: Spot
}

/** The instant lies beyond the divergence of the fin in the air of its Mach number. */
export interface Diverged {
  readonly state: LoadState
  readonly divergence: number
}

/** Solved with each reading of the air; the one with the greatest index counts. */
export function triedAt(bench: TestBench, state: LoadState, at: number): Tried | Diverged {
  let worst: Tried | null = null
  for (const forces of bench.air.at(state.mach)) {
    const tried = triedWith(bench, state, at, forces)
    if ('divergence' in tried) return tried
    if (worst === null || tried.spot.index > worst.spot.index) worst = tried
  }
  return worst as Tried
}

function triedWith(bench: TestBench, state: LoadState, at: number, forces: SteadyForces): Tried | Diverged {
  const { plate, model, air, nodes, map } = bench
  const { dynamicPressure, angle } = state
  const placement = air.placement(forces.surface, model.layout)
  const response = elasticResponse(plate, forces, placement, dynamicPressure)
  const solution = response.at(dynamicPressure)
  if (solution === 'diverged') return { state, divergence: response.divergence }
  const moment = (force: Float64Array): number => force.reduce((sum, f, box) => sum + f * placement.y[box], 0)
  const [rigidMoment, elasticMoment] = [moment(solution.rigidForce), moment(solution.elasticForce)]
  const scale = dynamicPressure * angle
  const readings = (['elastic', 'rigid'] as const).map((counts) => {
    const displacement = solution[counts].map((x) => scale * x)
    const corners = bench.corners(displacement)
    const strains = map.atNodes(corners)
    return { counts, displacement, corners, strains, spot: worstSpot(nodes, strains) }
  })
  const [elastic, rigid] = readings
  const used = rigid.spot.index > elastic.spot.index ? rigid : elastic
  const boxForce = used === rigid ? solution.rigidForce : solution.elasticForce
  return {
    ...{ at, state, forces, response, amplification: elasticMoment / rigidMoment, ...used },
    rootMoment: scale * (used === rigid ? rigidMoment : elasticMoment),
    boxForce: boxForce.map((f) => scale * f),
  }
}
