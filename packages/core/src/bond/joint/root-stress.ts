/**
 * Stresses in the root joint under any shear force and moment, from two solutions of the T-section.
 *
 * Everything is linear in the loads, so a station along the root is a sum of the unit solutions:
 *
 *   base bond      τ = Vb / t              σ = 6 Mb / t²            force and moment through it, over its width t
 *   fillet         mean tractions over the averaging length along the core's face, along the tube and across the throat
 *   skin peel      the same where the skin lies on the fillet
 *   skin opening   mean tension across the skin, on the fillet and half-way through the skin's thickness
 *
 * Adhesive is judged by its largest principal stress, σ/2 + √(σ²/4 + τ²), with σ taken as tension wherever it acts: the loads
 * are odd about the fin, so what is pressed on one side is pulled on the other.
 */
import type { BaySection } from '../section.ts'
import { isotropicLayer, type LayerModuli } from './layer-moduli.ts'
import { type LineName, type LineTraction, lineForce, lineTraction } from './tee-lines.ts'
import { type RootFlexibility, solveTee, type TeeCase, type TeeInput, type TeeSolution } from './tee-solve.ts'
import type { BayCentre, InsideTube } from './tee-topology.ts'
import { type WindowMeans, windowMeans } from './window-mean.ts'

export interface RootSection {
  readonly section: BaySection
  /** Of one face; both are taken alike. */
  readonly skin: { readonly t: number; readonly moduli: LayerModuli }
  readonly core: LayerModuli
  readonly tube: {
    readonly wall: number
    readonly moduli: LayerModuli
    readonly inside: InsideTube
    /** Default `hinged`, all fins loaded the same way round; `even` stresses the joint most. */
    readonly bayCentre?: BayCentre
  }
  /** Of base bond and fillets. `bondLine`: thickness under the core's end. */
  readonly adhesive: { readonly E: number; readonly G: number; readonly bondLine: number }
  /** Stresses are averaged over it, m. */
  readonly averagingLength: number
  /** Multiplies the number of elements each way. Default 1. */
  readonly refine?: number
}

/** Shear force N/m and moment N·m/m about the root line, by which a station is loaded. */
export interface RootLoad {
  readonly V: number
  readonly M: number
}

export type JointMode = 'base bond' | 'fillet' | 'skin peel' | 'skin opening'

export const jointModes = ['base bond', 'fillet', 'skin peel', 'skin opening'] as const satisfies readonly JointMode[]

/** Shares of a unit load through the cut that severs the fin; both fillets, both skins. */
export interface LoadShares {
  readonly baseBond: number
  readonly fillets: number
  readonly skins: number
}

export interface RootStress {
  /** Pa, by mode; for adhesive the largest principal stress, for opening the tension across the skin. */
  readonly at: (load: RootLoad) => { readonly [mode in JointMode]: number }
  /** Mean shear and linear peel at the edge of the base bond, Pa. */
  readonly baseBond: (load: RootLoad) => { readonly shear: number; readonly peel: number }
  /** In the skin on the opening side, half-way round the fillet: N/m, N/m and N. */
  readonly skin: (load: RootLoad) => { readonly N: number; readonly Q: number; readonly M: number }
  readonly shares: { readonly shear: LoadShares; readonly moment: LoadShares }
  readonly flexibility: RootFlexibility
}

const filletLines = ['fin face', 'body', 'throat'] as const satisfies readonly LineName[]
const openingLines = ['skin', 'inside the skin'] as const satisfies readonly LineName[]
type StressLine = (typeof filletLines)[number] | (typeof openingLines)[number]

const kept = new Map<string, RootStress>()
const mostKept = 16

/** The latest sections are kept: a new load, or the radius last searched for, is answered at once. */
export function rootStress(root: RootSection): RootStress {
  const { section, skin, core, tube, adhesive, averagingLength, refine } = root // nothing else decides
  const key = JSON.stringify([section, skin, core, tube, adhesive, averagingLength, refine])
  const found = kept.get(key) ?? solvedStress(root)
  kept.delete(key) // the latest last, so that the oldest goes first
  kept.set(key, found)
  if (kept.size > mostKept) kept.delete(kept.keys().next().value as string)
  return found
}

function solvedStress(root: RootSection): RootStress {
  const solution = solveTee(teeInput(root))
  const shear = unitStress(solution, solution.shear, root)
  const moment = unitStress(solution, solution.moment, root)
  const sum = (load: RootLoad, of: (unit: UnitStress) => number): number => load.V * of(shear) + load.M * of(moment)
  const baseBond = (load: RootLoad) => ({
    shear: sum(load, (unit) => unit.bondShear),
    peel: sum(load, (unit) => unit.bondPeel),
  })
  const worst = (
    load: RootLoad,
    lines: readonly StressLine[],
    measure: (sigma: number, tau: number) => number,
  ): number =>
    Math.max(
      ...lines.map((line) => {
        const [v, m] = [shear.windows[line], moment.windows[line]]
        let most = 0
        for (let k = 0; k < v.normal.length; k++) {
          const sigma = load.V * v.normal[k] + load.M * m.normal[k]
          const tau = load.V * v.along[k] + load.M * m.along[k]
          most = Math.max(most, measure(sigma, tau))
        }
        return most
      }),
    )
  return {
    at: (load) => {
      const { shear: tau, peel } = baseBond(load)
      return {
        'base bond': principal(peel, tau),
        fillet: worst(load, filletLines, principal),
        'skin peel': worst(load, ['skin'], principal),
        'skin opening': worst(load, openingLines, Math.abs),
      }
    },
    baseBond,
    skin: (load) => ({
      N: sum(load, (unit) => unit.skin.N),
      Q: sum(load, (unit) => unit.skin.Q),
      M: sum(load, (unit) => unit.skin.M),
    }),
    shares: { shear: shear.shares, moment: moment.shares },
    flexibility: solution.flexibility,
  }
}

const principal = (sigma: number, tau: number): number => Math.abs(sigma) / 2 + Math.hypot(sigma / 2, tau)

/** So much of the fin above the fillet that the distribution of the load at the cut is forgotten: twice its thickness. */
const aboveThicknesses = 2

function teeInput({ section, skin, core, tube, adhesive, refine = 1 }: RootSection): TeeInput {
  const above = aboveThicknesses * 2 * (section.h + skin.t)
  return {
    shape: { section, skin: skin.t, bondLine: adhesive.bondLine, wall: tube.wall, above },
    layers: { core, skin: skin.moduli, wall: tube.moduli, adhesive: isotropicLayer(adhesive) },
    inside: tube.inside,
    bayCentre: tube.bayCentre ?? 'hinged',
    refine,
  }
}

interface UnitStress {
  readonly bondShear: number
  readonly bondPeel: number
  readonly windows: { readonly [line in StressLine]: WindowMeans }
  readonly skin: { readonly N: number; readonly Q: number; readonly M: number }
  readonly shares: LoadShares
}

function unitStress(
  solution: TeeSolution,
  unit: TeeCase,
  { section, skin, adhesive, averagingLength }: RootSection,
): UnitStress {
  const { R, h, r, xc, phi } = section
  const line = (name: LineName): LineTraction => lineTraction(solution, unit, name)
  const means = (traction: LineTraction): WindowMeans => windowMeans(traction, averagingLength)
  const [bond, throat, cut] = [line('base bond'), line('throat'), line('skin cut')]
  const inBond = lineForce(bond, [R + adhesive.bondLine / 2, 0])
  const t = 2 * h
  const share = (part: LineTraction): number => {
    const { q, moment } = lineForce(part, [R, 0])
    return 2 * (unit.load.V * q + unit.load.M * moment)
  }
  // half-way round the arc: the middle of the skin, and the direction from the fin to the body
  const psi = phi / 2
  const middle = r - skin.t / 2
  const inSkin = lineForce(cut, [xc - middle * Math.sin(psi), h + r - middle * Math.cos(psi)])
  const [tp, tq] = [-Math.cos(psi), Math.sin(psi)]
  return {
    bondShear: (2 * inBond.q) / t,
    bondPeel: (6 * 2 * inBond.moment) / t ** 2,
    windows: {
      'fin face': means(line('fin face')),
      body: means(line('body')),
      throat: means(throat),
      skin: means(line('skin')),
      'inside the skin': means(line('inside the skin')),
    },
    skin: { N: inSkin.p * tp + inSkin.q * tq, Q: -inSkin.p * tq + inSkin.q * tp, M: inSkin.moment },
    shares: { baseBond: share(bond), fillets: share(throat), skins: share(cut) },
  }
}
