/**
 * Stresses in the T-section under a unit shear force and a unit moment per length of root, by plane-strain finite elements.
 *
 *   K u = F      σ = C̄ B u at the Gauss points      C̄: each layer's stiffness turned along its line
 *
 * Loads are odd about the fin's mid-plane (one face in tension as the other is in compression), so half the section is solved
 * and carries half of them. V acts on the fin towards −q and M opens the side q > 0: both are positive for an air load on the
 * fin towards −q. They enter on the cut fin (tee-loads.ts).
 *
 * Elements and their quadrature: plane-element.ts. Saint-Venant: what the distribution at the cut gets wrong dies out within
 * about one thickness of the fin.
 */
import { invariant } from '../../issue.ts'
import { factorLdl, solveLdl } from '../../numeric/ldl.ts'
import type { SymmetricMatrix } from '../../numeric/sparse.ts'
import { cutHeight, endForces, finBending, type UnitLoad } from './tee-loads.ts'
import { type TeeLayers, type TeePoints, teePoints, teeStiffness, teeStresses } from './tee-points.ts'
import type { TeeShape } from './tee-shape.ts'
import { type BayCentre, type InsideTube, type TeeTopology, teeCoordinates, teeTopology } from './tee-topology.ts'

export interface TeeInput {
  readonly shape: TeeShape
  readonly layers: TeeLayers
  readonly inside: InsideTube
  /** Default `held`. */
  readonly bayCentre?: BayCentre
  /** Multiplies the number of elements each way; to see what the mesh costs. Default 1. */
  readonly refine?: number
}

/** Fields under one unit load: 1 N/m or 1 N. */
export interface TeeCase {
  readonly load: UnitLoad
  /** Pa, over (pp, qq, pq) at Gauss point g of element e: `stress[(4 e + g) 3]`. */
  readonly stress: Float64Array
  /** m, 2 per node. */
  readonly u: Float64Array
  /** Twice the work of unit load `a` on these displacements, both halves: flexibility at the cut, per V and per M. */
  readonly work: { readonly V: number; readonly M: number }
}

export interface TeeSolution {
  readonly shape: TeeShape
  readonly topology: TeeTopology
  /** m, 2 per node. */
  readonly X: Float64Array
  readonly points: TeePoints
  readonly shear: TeeCase
  readonly moment: TeeCase
  readonly flexibility: RootFlexibility
}

/**
 * How much more the fin turns at its root than a fin clamped on the root line, rad: towards −q per N·m/m of M (1/N) and per
 * N/m of V (m/N). Work of the unit moment's forces less the bending of the fin between the root line and the cut; negative
 * where the fillets stiffen the fin by more than the joint and the tube's wall give.
 */
export interface RootFlexibility {
  readonly perMoment: number
  readonly perShear: number
}

export function solveTee({ shape, layers, inside, bayCentre = 'held', refine = 1 }: TeeInput): TeeSolution {
  const topology = teeTopology({ inside, centreHeld: bayCentre === 'held' }, refine)
  const X = teeCoordinates(topology, shape)
  const points = teePoints(topology, X, shape, layers)
  const K = teeStiffness(topology, points)
  holdCentre(K, { topology, X, shape, bayCentre })
  const fin = { shape, core: layers.core, skin: layers.skin }
  const factors = factorLdl(topology.analysis, K)
  invariant(factors.singularAt < 0 && factors.negativePivots === 0, 'the T-section is held and its layers are stable')
  const solve = (load: UnitLoad) => {
    const F = endForces(fin, { topology, X }, load)
    const b = new Float64Array(K.pattern.n)
    topology.unknown.forEach((i, component) => {
      if (i >= 0) b[i] = F[component]
    })
    const x = solveLdl(factors, b)
    const u = Float64Array.from(topology.unknown, (i) => (i < 0 ? 0 : x[i]))
    return { F, u, fields: { load, u, stress: teeStresses(topology, points, u) } }
  }
  const [shear, moment] = [solve({ V: 1, M: 0 }), solve({ V: 0, M: 1 })]
  const work = (u: Float64Array) => ({ V: twice(shear.F, u), M: twice(moment.F, u) }) // both halves
  const [ofShear, ofMoment] = [work(shear.u), work(moment.u)]
  const [L, { EI }] = [cutHeight(shape), finBending(fin)]
  const flexibility = { perMoment: ofMoment.M - L / EI, perShear: ofShear.M + L ** 2 / (2 * EI) }
  return {
    ...{ shape, topology, X, points, flexibility },
    shear: { ...shear.fields, work: ofShear },
    moment: { ...moment.fields, work: ofMoment },
  }
}

const twice = (F: Float64Array, u: Float64Array): number => 2 * F.reduce((sum, f, k) => sum + f * u[k], 0)

/** A hold at the bay's centre line over the stiffness that its node has without it; much more would cost digits where the wall is soft. */
const hold = 100

export interface Centre {
  readonly topology: TeeTopology
  readonly X: Float64Array
  readonly shape: TeeShape
  readonly bayCentre: BayCentre
}

/** Springs so stiff that they count as rigid, along the tube's radius or round it, on the nodes of the bay's centre line. */
export function holdCentre(K: SymmetricMatrix, { topology, X, shape, bayCentre }: Centre): void {
  if (bayCentre === 'held') return
  const { R, N } = shape.section
  const [c, s] = [Math.cos(Math.PI / N), Math.sin(Math.PI / N)]
  const fromMiddle = (node: number): number => Math.abs(Math.hypot(X[2 * node], X[2 * node + 1]) - R + shape.wall / 2)
  const middle = topology.centre.reduce((a, b) => (fromMiddle(b) < fromMiddle(a) ? b : a))
  for (const node of topology.centre) {
    const [i, j] = [topology.unknown[2 * node], topology.unknown[2 * node + 1]]
    if (i < 0 || j < 0) continue // held with the tube's inside
    const [ii, jj] = [diagonal(K, i), diagonal(K, j)]
    const stiff = hold * (K.value[ii] + K.value[jj])
    const [radial, round] = bayCentre === 'hinged' ? [stiff, node === middle ? stiff : 0] : [0, stiff]
    K.value[ii] += radial * c * c + round * s * s
    K.value[jj] += radial * s * s + round * c * c
    K.value[jj - 1] += (radial - round) * c * s
  }
}

/** Place of a diagonal entry; above it in its column is the node's other component. */
const diagonal = ({ pattern }: SymmetricMatrix, i: number): number => pattern.start[i + 1] - 1
