/**
 * Whether a fin's laminate balances about its core: on A, B and D, not on the schedule's wording.
 *
 * A fin's faces are skinned in two different bays, so that a ply at an angle a lies at +a on one face and at −a on the other
 * (seen in fin axes). Where the two are not the same stiffness, B is not zero: the fin bends and twists as it stretches or
 * cools. Mirroring alternate bays takes B away and leaves A16 and D16, with opposite signs on neighbouring fins: a fin twists as
 * it bends. How much of either is told by `laminate/coupling.ts`, 0 none and 1 the most there can be.
 *
 * What cooling does to it is the free curvature of `laminate/expansion.ts` over the span s: tip twist κxy s / 2, bow κyy s² / 2. The
 * laminate is taken as free of stress at the resin's glass transition, which is the warmest it can be, and as one zone out to the
 * tip, the worst of them; resin that sets at the shop's temperature is stressed less. An upper estimate, then, for a free plate.
 */
import { degrees, millimetres } from '../geometry/dimension-text.ts'
import type { Issue } from '../issue.ts'
import { type Coupling, coupling } from '../laminate/coupling.ts'
import { type PlyExpansion, thermalStrain } from '../laminate/expansion.ts'
import { type BayPly, finLaminate, skin } from '../laminate/fin-laminate.ts'
import type { BuiltLayer } from '../laminate/layer.ts'
import { listed } from './rules.ts'
import { type PlyEnd, plyEnds } from './schedule.ts'

/** A ply that stays, with its place in the whole schedule. */
export interface BalancedPly extends BayPly {
  readonly index: number
  readonly stepBack: { readonly [end in PlyEnd]: number }
  readonly expansion: PlyExpansion
}

export interface BalanceInput {
  readonly finCount: number
  readonly span: number
  readonly core: { readonly layer: BuiltLayer; readonly expansion: PlyExpansion }
  /** Core outward. */
  readonly plies: readonly BalancedPly[]
  readonly mirrorAlternateBays: boolean
  /** From the temperature at which the laminate is free of stress to the shop's, K: negative. */
  readonly cooling: number
}

export interface BalanceZone {
  readonly plies: readonly string[]
  readonly coupling: Coupling
  /** What the cooling does to a free fin of this laminate: rad at the tip, m at the tip. */
  readonly tipTwist: number
  readonly tipBow: number
}

export interface Balance {
  readonly cooling: number
  /** Every set of plies that lie on one another, the fullest first. */
  readonly zones: readonly BalanceZone[]
}

/** What one glass ply of five at 45° does when it is laid a degree and a half off: no hand lays much truer. */
const asGoodAsNone = 4e-3

export function finBalance(input: BalanceInput): { readonly balance: Balance; readonly issues: readonly Issue[] } {
  const zones = zonesOf(input.plies).map((plies) => zone(plies, input))
  return {
    balance: { cooling: input.cooling, zones },
    issues: [...mirroredOdd(input), ...bendStretchIssue(zones, input), ...bendTwistIssue(zones, input)],
  }
}

/** Steps nest: from each edge inward, the plies that have begun by then. */
function zonesOf(plies: readonly BalancedPly[]): readonly (readonly BalancedPly[])[] {
  const found = new Map<string, readonly BalancedPly[]>()
  for (const end of plyEnds)
    for (const { stepBack } of plies) {
      const begun = plies.filter((other) => other.stepBack[end] <= stepBack[end])
      found.set(begun.map(({ id }) => id).join(' '), begun)
    }
  return [...found.values()].sort((a, b) => b.length - a.length)
}

const mirrorsWell = ({ mirrorAlternateBays, finCount }: BalanceInput): boolean =>
  mirrorAlternateBays && finCount % 2 === 0

/** The fin between an odd bay and the even one after it; its neighbour is its mirror image. */
function zone(plies: readonly BalancedPly[], input: BalanceInput): BalanceZone {
  const { core, span, cooling } = input
  const mirrored = mirrorsWell(input)
  const nextFace = skin('next', plies, { mirrored })
  const previousFace = skin('previous', plies)
  const laminate = finLaminate({ core: core.layer, nextFace, previousFace })
  const expansions = [
    ...plies.map(({ expansion }) => expansion).reverse(),
    core.expansion,
    ...plies.map((p) => p.expansion),
  ]
  const layers = laminate.layers.map((layer, i) => ({ ...layer, expansion: expansions[i]! }))
  const { curvature } = thermalStrain(layers, laminate.compliance, {
    temperature: cooling,
    reference: laminate.reference,
  })
  return {
    plies: plies.map(({ id }) => id),
    coupling: coupling(laminate),
    tipTwist: (curvature[2]! / 2) * span,
    tipBow: (curvature[1]! * span ** 2) / 2,
  }
}

const mirroredOdd = ({ mirrorAlternateBays, finCount }: BalanceInput): Issue[] =>
  mirrorAlternateBays && finCount % 2 === 1
    ? [
        {
          code: 'pattern/mirror-odd',
          path: 'layup.mirrorAlternateBays',
          value: true,
          message: `Alternate bays are to be mirrored, but ${finCount} fins make an odd number of bays: bays ${finCount} and 1 would be alike and share fin 1.`,
          hint: 'Turn mirroring off and keep to cloth with equal warp and weft at 0°, 45° or 90°.',
        },
      ]
    : []

/** Plies that couple when nothing but each of them lies on the core. */
function culprits(input: BalanceInput, which: keyof Coupling): readonly BalancedPly[] {
  return input.plies.filter((ply) => zone([ply], input).coupling[which] > asGoodAsNone)
}

const worstBy = (zones: readonly BalanceZone[], of: (zone: BalanceZone) => number): BalanceZone =>
  zones.reduce((a, b) => (Math.abs(of(b)) > Math.abs(of(a)) ? b : a))

function bendStretchIssue(zones: readonly BalanceZone[], input: BalanceInput): Issue[] {
  if (zones.length === 0) return []
  const worst = worstBy(zones, (one) => one.coupling.bendStretch)
  if (worst.coupling.bendStretch <= asGoodAsNone) return []
  const plies = culprits(input, 'bendStretch')
  const first = plies[0] ?? input.plies[0]!
  const names = plies.map(({ id, angle }) => `${id} at ${degrees(angle)} and ${degrees(-angle)}`)
  return [
    {
      code: 'pattern/angle-couples',
      path: `plies[${first.index}].angle`,
      value: first.angle,
      message:
        `The two faces of a fin do not balance: ${names.length === 0 ? 'together its plies' : listed(names)} couple${names.length === 1 ? 's' : ''} bending with stretching, ` +
        `B up to ${percent(worst.coupling.bendStretch)} of what A and D allow. ${warping(zones, input)}`,
      hint:
        input.finCount % 2 === 0
          ? 'Mirror alternate bays, or lay these plies at 0°, 45° or 90° in cloth with equal warp and weft.'
          : 'Lay these plies at 0°, 45° or 90° in cloth with equal warp and weft.',
    },
  ]
}

function warping(zones: readonly BalanceZone[], { cooling }: BalanceInput): string {
  const twist = Math.abs(worstBy(zones, (one) => one.tipTwist).tipTwist)
  const bow = Math.abs(worstBy(zones, (one) => one.tipBow).tipBow)
  return `A free fin that cools by ${Math.abs(cooling).toFixed(0)} K from its resin's glass transition twists by up to ${((twist * 180) / Math.PI).toFixed(2)}° and bows by up to ${millimetres(bow, 2)} at its tip; loads twist it besides.`
}

function bendTwistIssue(zones: readonly BalanceZone[], input: BalanceInput): Issue[] {
  if (zones.length === 0) return []
  const worst = worstBy(zones, (one) => one.coupling.bendTwist)
  if (worst.coupling.bendTwist <= asGoodAsNone) return []
  const plies = bendTwistPlies(input)
  const by = plies.length > 0 ? plies.map(({ id, angle }) => `${id} at ${degrees(angle)}`) : ['the core’s grain']
  const first = plies[0]
  return [
    {
      code: 'pattern/bends-and-twists',
      path: first === undefined ? 'fins.core.grain' : `plies[${first.index}].angle`,
      value: first === undefined ? input.core.layer.theta : first.angle,
      message:
        `A fin twists as it bends: D16 and D26 reach ${percent(worst.coupling.bendTwist)} of what D allows, by ${listed(by)}` +
        `${mirrorsWell(input) && first !== undefined ? '; neighbouring fins twist opposite ways' : ''}. Flutter and strength are computed with it.`,
      hint: 'Lay plies at 0°, 45° or 90° in cloth with equal warp and weft, and the core’s grain along or across the root, unless it is meant.',
    },
  ]
}

/** Plies that couple on a core without grain of its own. */
function bendTwistPlies(input: BalanceInput): readonly BalancedPly[] {
  const straight = { ...input, core: { ...input.core, layer: { ...input.core.layer, theta: 0 } } }
  return culprits(straight, 'bendTwist')
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`
