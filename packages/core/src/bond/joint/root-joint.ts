/**
 * The root joint of a hand-laid fin along its root: margin at every station, the worst of them, and what carries the load.
 *
 *   index = stress / allowable      margin = 1 / index − 1      by mode: root-stress.ts, allowables: allowable.ts
 *
 * The loads are those the fin hands to the body, per length of root, as the plate's root reactions give them: V normal to the
 * fin, M about the root line, positive together for an air load on one side. They are taken as limit loads; no factor of
 * safety is in the margin. Loads in the fin's own plane and the twist of the root line are left out (docs/methods/bond-joint.md).
 */
import { type Checked, invariant } from '../../issue.ts'
import { jointIssues } from './joint-issues.ts'
import { type JointMode, jointModes, type LoadShares, type RootSection, rootStress } from './root-stress.ts'
import type { RootFlexibility } from './tee-solve.ts'

/** Stations along the root, any order: x m from the root's leading edge, V N/m, M N·m/m. */
export interface RootLine {
  readonly x: readonly number[]
  readonly V: readonly number[]
  readonly M: readonly number[]
}

export interface JointAllowables {
  /** Largest principal stress in the adhesive, Pa. */
  readonly adhesive: number
  /** Tension across the skin, Pa. */
  readonly opening: number
}

export interface RootJointInput extends RootSection {
  readonly allowable: JointAllowables
  readonly line: RootLine
}

export interface JointStation {
  readonly x: number
  readonly V: number
  readonly M: number
  /** Pa */
  readonly stress: { readonly [mode in JointMode]: number }
  /** Stress over allowable of the worst mode; zero where there is no load. */
  readonly index: number
  readonly mode: JointMode
}

export interface RootJoint {
  /** Least over the stations; null where no station is loaded. */
  readonly margin: number | null
  readonly worst: JointStation | null
  readonly stations: readonly JointStation[]
  /** Least margin by mode. */
  readonly byMode: { readonly [mode in JointMode]: number | null }
  /** Through base bond, fillets and skins, of a unit shear force and of a unit moment. */
  readonly shares: { readonly shear: LoadShares; readonly moment: LoadShares }
  /** What the joint gives at the root of a fin held by it. */
  readonly flexibility: RootFlexibility
  /** At the worst station: base bond, and the skin half-way round the fillet on the opening side. */
  readonly detail: {
    readonly baseBond: { readonly shear: number; readonly peel: number }
    readonly skin: { readonly N: number; readonly Q: number; readonly M: number }
  } | null
}

export function rootJoint(input: RootJointInput): Checked<RootJoint> {
  const issues = jointIssues(input)
  if (issues.length > 0) return { ok: false, issues }
  const { x, V, M } = input.line
  invariant(x.length === V.length && x.length === M.length, `${x.length} stations, ${V.length} V, ${M.length} M`)
  invariant([...x, ...V, ...M].every(Number.isFinite), 'root loads are finite')
  invariant(input.averagingLength > 0, `averaging length is ${input.averagingLength}`)
  invariant(input.allowable.adhesive > 0 && input.allowable.opening > 0, 'allowables are positive')
  const stress = rootStress(input)
  const stations = x.map((at, k): JointStation => {
    const load = { V: V[k], M: M[k] }
    const values = stress.at(load)
    const mode = worstMode(values, input.allowable)
    return { x: at, ...load, stress: values, index: values[mode] / allowed(input.allowable, mode), mode }
  })
  const worst = stations.reduce<JointStation | null>((a, b) => (b.index > (a?.index ?? 0) ? b : a), null)
  const leastBy = (mode: JointMode): number | null => {
    const most = Math.max(0, ...stations.map((station) => station.stress[mode]))
    return marginOf(most / allowed(input.allowable, mode))
  }
  const value: RootJoint = {
    margin: worst === null ? null : marginOf(worst.index),
    worst,
    stations,
    byMode: {
      'base bond': leastBy('base bond'),
      fillet: leastBy('fillet'),
      'skin peel': leastBy('skin peel'),
      'skin opening': leastBy('skin opening'),
    },
    shares: stress.shares,
    flexibility: stress.flexibility,
    detail: worst === null ? null : { baseBond: stress.baseBond(worst), skin: stress.skin(worst) },
  }
  return { ok: true, value, warnings: [] }
}

const marginOf = (index: number): number | null => (index > 0 ? 1 / index - 1 : null)

const allowed = ({ adhesive, opening }: JointAllowables, mode: JointMode): number =>
  mode === 'skin opening' ? opening : adhesive

function worstMode(stress: JointStation['stress'], allowable: JointAllowables): JointMode {
  const index = (mode: JointMode): number => stress[mode] / allowed(allowable, mode)
  return jointModes.reduce((a, b) => (index(b) > index(a) ? b : a))
}
