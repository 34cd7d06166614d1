/** The fillets of a can: section, adhesive to mix; and the root joint under the worst air load: margin, what goes, what radius is enough. */

import { filletAdhesive } from '../bond/fillet.ts'
import { adhesiveAllowable, averagingLength } from '../bond/joint/allowable.ts'
import { type RootJoint, type RootJointInput, rootJoint } from '../bond/joint/root-joint.ts'
import { rootLine } from '../bond/joint/root-line.ts'
import { type JointMode, jointModes } from '../bond/joint/root-stress.ts'
import { sufficientFilletRadius } from '../bond/joint/sufficient-radius.ts'
import { rootLength } from '../geometry/fin-outline.ts'
import type { Issue } from '../issue.ts'
import type { LoadCase } from '../strength/worst-case.ts'
import type { BondSection, StrengthSection } from './assessment.ts'
import type { CanDesign } from './design.ts'
import type { FinRoot } from './fin-root.ts'
import type { Section } from './flown.ts'
import { designSection } from './root-section.ts'

/** For a design whose patterns have been made, so that its section exists. */
export function filletFigures({ tube, fins, ...rest }: CanDesign): NonNullable<BondSection['fillet']> {
  const section = designSection({ tube, fins, ...rest })
  const { radius, adhesive, waste } = fins.fillet
  const density = adhesive.density.value
  const made = filletAdhesive({ section, rootLength: rootLength(fins.outline), density, waste })
  return {
    radius_m: radius,
    area_m2: section.filletArea,
    volume_m3: made.volume,
    adhesiveMass_kg: made.mass,
    height_m: section.filletHeight,
    openAngle_deg: (section.phi * 180) / Math.PI,
    count: made.count,
    totalVolume_m3: made.totalVolume,
    totalAdhesiveMass_kg: made.totalMass,
    mixMass_kg: made.mixMass,
    runOuts: { volume_m3: made.runOut.volume, mixMassWith_kg: made.mixMassWithRunOuts },
  }
}

export interface Loaded {
  readonly root: FinRoot
  readonly reactions: LoadCase['reactions'] | null
  /** Searches for the radius that is enough even where this one is. */
  readonly searchRadius: boolean
}

/** Margin and joint, and the loads along the root that they come from. */
export interface JointResult extends Section<Pick<BondSection, 'margin' | 'joint'>> {
  readonly line: StrengthSection['rootLine']
}

export function jointResult(design: CanDesign, { root, reactions, searchRadius }: Loaded): JointResult {
  if (root.hold === null || reactions === null || reactions.nodal.length === 0)
    return { value: { margin: null, joint: null }, line: null, warnings: [withoutMargin] }
  const line = rootLine(reactions)
  const { knockDown, opening } = design.fins.joint
  const lapShear = design.fins.fillet.adhesive.lapShear.value
  const allowable = {
    adhesive: adhesiveAllowable(lapShear, { properties: knockDown, application: 1, service: 1 }),
    opening,
  }
  const { section } = root
  const inputOf = (inside: 'free' | 'held'): RootJointInput => ({
    ...{ ...section, tube: { ...section.tube, inside } },
    ...{ averagingLength, allowable, line },
  })
  const { input, made } = worseOf(
    section.backing === 'motor case' ? [inputOf('free'), inputOf('held')] : [inputOf('free')],
  )
  const rootLoads = { x_m: line.x, shear_N_m: line.V, moment_N: line.M }
  if (!made.ok)
    return { value: { margin: null, joint: null }, line: rootLoads, warnings: [...made.issues, withoutMargin] }
  const sufficient = searchRadius || (made.value.margin ?? 0) < 0 ? sufficientRadius(input) : null
  const joint = jointFigures(made.value, { allowable, sufficient, lapShear, knockDown })
  const value = { margin: made.value.margin, joint }
  return { value, line: rootLoads, warnings: [...made.warnings, ...weak(made.value, sufficient)] }
}

function sufficientRadius(input: RootJointInput): number | null {
  const enough = sufficientFilletRadius(input)
  return !enough.ok || enough.value.kind !== 'found' ? null : enough.value.radius
}

/** A motor case may bear the wall or stand clear of it, and either can stress the joint more: the lesser margin counts. */
function worseOf(inputs: readonly RootJointInput[]) {
  const tried = inputs.map((input) => ({ input, made: rootJoint(input) }))
  const marginOf = ({ made }: (typeof tried)[number]): number =>
    made.ok ? (made.value.margin ?? Number.POSITIVE_INFINITY) : Number.NEGATIVE_INFINITY
  return tried.reduce((least, other) => (marginOf(other) < marginOf(least) ? other : least))
}

interface Terms {
  readonly allowable: RootJointInput['allowable']
  readonly sufficient: number | null
  readonly lapShear: number
  readonly knockDown: number
}

function jointFigures(made: RootJoint, { allowable, sufficient, lapShear, knockDown }: Terms): BondSection['joint'] {
  const { worst } = made
  if (worst === null) return null
  const { mode } = worst
  return {
    worst: {
      x_m: worst.x,
      mode,
      stress_Pa: worst.stress[mode],
      allowable_Pa: mode === 'skin opening' ? allowable.opening : allowable.adhesive,
    },
    byMode: jointModes.map((each: JointMode) => ({ mode: each, margin: made.byMode[each] })),
    momentShares: made.shares.moment,
    sufficientRadius_m: sufficient,
    lapShear_Pa: lapShear,
    knockDown,
  }
}

function weak({ margin, worst }: RootJoint, sufficient: number | null): Issue[] {
  if (margin === null || margin >= 0 || worst === null) return []
  const radius =
    sufficient === null
      ? 'no fillet that fits is enough'
      : `a fillet of ${(1e3 * sufficient).toFixed(1)} mm would be enough`
  return [
    {
      code: 'bond/joint-weak',
      path: 'bond.margin',
      value: margin,
      message: `Under the worst air load the root joint is stressed beyond what may be used (${worst.mode}, ${(1e3 * worst.x).toFixed(0)} mm aft of the root's leading edge): margin ${margin.toFixed(2)}; ${radius}.`,
      hint: 'Use a larger fillet, a shorter or stiffer fin, or lower the load; prove the joint by a proof load in both directions.',
    },
  ]
}

const withoutMargin: Issue = {
  code: 'bond/margin-not-computed',
  path: 'bond.margin',
  value: null,
  message: 'The margin of the root joint is not computed: there is no air load, or the joint cannot be computed.',
  hint: 'Prove the joint of every fin by a proof load in both directions; a lap-shear figure from a data sheet is no allowable (ASTM D4896).',
}
