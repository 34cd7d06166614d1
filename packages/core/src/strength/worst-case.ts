/**
 * The worst air load of a flight on one fin: when, how the fin answers, which ply fails first, and what a proof load must reach.
 *
 *   load of an instant     q α, with the steady forces of its Mach number (air-on-plate.ts), body upwash in
 *   response               rigid and with the air that follows the deflection (elastic-response.ts); the one that stresses more counts
 *   index                  maximum stress, either sign, every ply, every node (stress-map.ts); Tsai-Wu as a second opinion
 *   amplification          moment of the bent fin's load about the body's surface over that of the rigid fin's
 *
 * Instants are ranked by q α c_m(M), c_m the rigid fin's root moment over q for one radian. In each of several bands of Mach number
 * the first of the ranking is solved in full; the index over q α c_m, interpolated in Mach number within each range of the air, then
 * ranks all instants again until the first is one that was solved. Stresses are linear in q α but for the amplification's q.
 *
 * The fin stands square to the crossflow (docs/methods/strength.md: why that roll position is the worst).
 */
import type { Point } from '../geometry/point.ts'
import type { Issue } from '../issue.ts'
import type { PlateModel } from '../plate/assemble.ts'
import type { PlateLoads } from '../plate/loads.ts'
import { nodalField } from '../plate/nodal-field.ts'
import { type NodalReaction, type PlateStatic, plateSolver } from '../plate/static.ts'
import type { FinAir, SteadyForces } from './air-on-plate.ts'
import { type FirstFailure, firstFailure, type LayerThrough } from './first-failure.ts'
import type { LoadState } from './load-states.ts'
import { searched } from './search.ts'
import { diverges, noLoad, warningsOf } from './strength-issues.ts'
import { indexMap, type LaminateAt } from './stress-map.ts'
import { type TestBench, testBench } from './test-bench.ts'
import { type TipEquivalent, tipEquivalent } from './tip-equivalent.ts'
import type { Tried } from './trial.ts'

export interface WorstCaseInput {
  readonly model: PlateModel
  readonly laminateAt: LaminateAt
  readonly air: FinAir
  /** Of a flight (`flightLoads`) or given (`stateLoads`). */
  readonly states: readonly LoadState[]
  /** Of the fin's face, for the mean pressure. */
  readonly area: number
  /** Of the outline's segments, the one along the body, for the reactions' sides. */
  readonly rootSegment: number
  /** Where a proof load would act; null for none. */
  readonly tip: Point | null
  /** The plate's own static solution, if the caller has it. */
  readonly solver?: (loads: PlateLoads) => PlateStatic
}

/** One instant solved. */
export interface LoadCase {
  readonly state: LoadState
  readonly surface: SteadyForces['surface']
  /** Mach number of the forces. */
  readonly forcesMach: number
  /** Normal force, moment about the body's surface, mean pressure over the face, of the load that counts. */
  readonly force: number
  readonly rootMoment: number
  readonly pressure: number
  /** Of the load, from the root's leading edge and the body's surface. */
  readonly centre: Point
  /** Elastic root moment over rigid; below 1 where the air unloads the bent fin, and then the rigid fin counts. */
  readonly amplification: number
  readonly counts: 'elastic' | 'rigid'
  /** Dynamic pressure of divergence with these aerodynamics; infinite where there is none. */
  readonly divergence: number
  /** Greatest failure index by maximum stress. */
  readonly failureIndex: number
  /** Deflection at every node of the quadratic mesh, and at the point of greatest deflection. */
  readonly deflection: Float64Array
  /** What holds the root does to the plate at each node, and the sides of the mesh that lie on the root. */
  readonly reactions: RootReactionsOfSides
}

/** As the root joint's line of loads takes them. */
export interface RootReactionsOfSides {
  readonly X: Float64Array
  readonly sides: readonly { readonly nodes: readonly [number, number, number] }[]
  readonly nodal: readonly NodalReaction[]
}

export interface WorstCase {
  readonly failure: FirstFailure
  /** The instant of the greatest failure index, and that of the greatest root moment: often one and the same object. */
  readonly worst: LoadCase
  readonly greatestMoment: LoadCase
  /** One a triangle of `fourfoldMesh(layout.nodes)`. */
  readonly map: Float64Array
  readonly through: readonly LayerThrough[]
  readonly tip: TipEquivalent | null
}

export interface WorstCaseResult {
  /** Null where there is no load, nothing holds the plate, no layer can fail, or the fin diverges: a warning says which. */
  readonly value: WorstCase | null
  readonly warnings: readonly Issue[]
}

export function worstCase(input: WorstCaseInput): WorstCaseResult {
  const bench = testBench(input)
  if (bench === null) return { value: null, warnings: [noLoad] }
  const { worst, moment, diverged } = searched(input.states, bench)
  if (diverged !== null) return { value: null, warnings: [diverges(diverged)] }
  if (worst === null || moment === null || worst.spot.face < 0) return { value: null, warnings: [noLoad] }
  const failure = firstFailure(bench, worst)
  const cases = loadCases(input, bench, [worst, moment])
  const rootMoment = cases[0].rootMoment
  return {
    value: {
      failure: failure.value,
      worst: cases[0],
      greatestMoment: cases[1],
      map: indexMap(bench.nodes, worst.strains),
      through: failure.through,
      tip: input.tip === null ? null : tipEquivalent(bench, input.tip, { failureIndex: worst.spot.index, rootMoment }),
    },
    warnings: warningsOf(cases[0], failure.value),
  }
}

/** With the reactions of the plate's own static solution; two cases that are the same are one object. */
function loadCases(
  input: WorstCaseInput,
  { air }: TestBench,
  [worst, moment]: readonly [Tried, Tried],
): readonly [LoadCase, LoadCase] {
  const solver = input.solver ?? plateSolver(input.model)
  const caseOf = (tried: Tried): LoadCase => {
    const { layout } = input.model
    const placement = air.placement(tried.forces.surface, layout)
    const solved = solver({ nodal: placement.toNodes(tried.boxForce) })
    const force = tried.boxForce.reduce((sum, f) => sum + f, 0)
    const chordMoment = tried.boxForce.reduce((sum, f, box) => sum + f * placement.x[box], 0)
    return {
      state: tried.state,
      surface: tried.forces.surface,
      forcesMach: tried.forces.mach,
      force,
      rootMoment: tried.rootMoment,
      pressure: force / input.area,
      centre: [chordMoment / force, tried.rootMoment / force],
      amplification: tried.amplification,
      counts: tried.counts,
      divergence: tried.response.divergence,
      failureIndex: tried.spot.index,
      deflection: nodalField(layout, tried.displacement).w,
      reactions: {
        X: layout.nodes.X,
        sides: layout.nodes.sides.filter(({ segment }) => segment === input.rootSegment),
        nodal: solved.kind === 'solved' ? solved.nodal : [],
      },
    }
  }
  const first = caseOf(worst)
  return [first, moment === worst ? first : caseOf(moment)]
}
