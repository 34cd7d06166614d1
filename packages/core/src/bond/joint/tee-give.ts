/**
 * What the joint gives under V and M on the root line beyond the fin itself, for several ways in which tube and bay are held.
 *
 *   F = work of the unit loads on each other's displacements − strip held on the root line (fin-strip.ts)
 *
 * Sections as in tee-solve.ts, without stresses. Where energy sits under the unit moment says which part gives most.
 */
import { invariant } from '../../issue.ts'
import { factorLdl, solveLdl } from '../../numeric/ldl.ts'
import { dot } from '../../numeric/vector.ts'
import { type Flexibility, stripFlexibility } from './fin-strip.ts'
import { isotropicLayer } from './layer-moduli.ts'
import type { RootSection } from './root-stress.ts'
import { cutHeight, endForces } from './tee-loads.ts'
import { type TeePoints, teeEnergy, teePoints, teeStiffness, teeStresses } from './tee-points.ts'
import type { BlockName, TeeShape } from './tee-shape.ts'
import { holdCentre } from './tee-solve.ts'
import { type BayCentre, type InsideTube, teeCoordinates, teeTopology } from './tee-topology.ts'

export type TeeRoot = Omit<RootSection, 'averagingLength' | 'tube'> & {
  readonly tube: Omit<RootSection['tube'], 'inside'>
}

export interface TeeHeld {
  readonly inside: InsideTube
  readonly bayCentre: BayCentre
}

export interface TeeGive {
  /** Of loads at the cut, nothing taken off. */
  readonly whole: Flexibility
  /** Energy under the unit moment by block, both halves: its sum is `whole.MM`. */
  readonly moment: { readonly [block in BlockName]: number }
}

export interface TeeGives {
  readonly shape: TeeShape
  readonly at: readonly TeeGive[]
  /** What a fin held on the root line gives up to the cut: with the fillets in its section, and without. */
  readonly strip: { readonly filleted: Flexibility; readonly bare: Flexibility }
}

/** So much of the fin above the fillet as root-stress.ts has. */
const aboveThicknesses = 2

export function teeGives(
  { section, skin, core, tube, adhesive, refine = 1 }: TeeRoot,
  held: readonly TeeHeld[],
): TeeGives {
  const above = aboveThicknesses * 2 * (section.h + skin.t)
  const shape: TeeShape = { section, skin: skin.t, bondLine: adhesive.bondLine, wall: tube.wall, above }
  const layers = { core, skin: skin.moduli, wall: tube.moduli, adhesive: isotropicLayer(adhesive) }
  const first = teeTopology({ inside: 'free', centreHeld: false }, refine)
  const X = teeCoordinates(first, shape)
  const points = teePoints(first, X, shape, layers) // elements are the same however the section is held
  const fin = { shape, core, skin: skin.moduli }
  const F = [
    endForces(fin, { topology: first, X }, { V: 1, M: 0 }),
    endForces(fin, { topology: first, X }, { V: 0, M: 1 }),
  ]
  const strip = { section, skin, core, adhesive }
  const L = cutHeight(shape)
  return {
    shape,
    at: held.map((way) => give({ shape, X, points, F, refine }, way)),
    strip: { filleted: stripFlexibility(strip, L, true), bare: stripFlexibility(strip, L, false) },
  }
}

interface LoadedTee {
  readonly shape: TeeShape
  readonly X: Float64Array
  readonly points: TeePoints
  readonly F: readonly Float64Array[]
  readonly refine: number
}

function give({ shape, X, points, F, refine }: LoadedTee, { inside, bayCentre }: TeeHeld): TeeGive {
  const topology = teeTopology({ inside, centreHeld: bayCentre === 'held' }, refine)
  const K = teeStiffness(topology, points)
  holdCentre(K, { topology, X, shape, bayCentre })
  const factors = factorLdl(topology.analysis, K)
  invariant(factors.singularAt < 0 && factors.negativePivots === 0, 'the T-section is held and its layers are stable')
  const [v, m] = F.map((forces) => {
    const b = new Float64Array(K.pattern.n)
    topology.unknown.forEach((i, component) => {
      if (i >= 0) b[i] = forces[component]
    })
    const x = solveLdl(factors, b)
    return Float64Array.from(topology.unknown, (i) => (i < 0 ? 0 : x[i]))
  })
  const energy = teeEnergy(topology, points, { u: m, stress: teeStresses(topology, points, m) })
  const twice = (value: number): number => 2 * value // both halves
  return {
    whole: { VV: twice(dot(F[0], v)), VM: twice(dot(F[0], m)), MM: twice(dot(F[1], m)) },
    moment: {
      core: twice(energy.core),
      bond: twice(energy.bond),
      fillet: twice(energy.fillet),
      wall: twice(energy.wall),
      skinFin: twice(energy.skinFin),
      skinArc: twice(energy.skinArc),
      skinBody: twice(energy.skinBody),
    },
  }
}
