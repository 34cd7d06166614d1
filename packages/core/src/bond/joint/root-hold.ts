/**
 * How the joint and the tube behind it hold the fin's root: springs per length for the plate, and in what band they lie.
 *
 *   (w, θ) = F (V, M)      springs = F⁻¹      F: what the T-section gives beyond the fin held on the root line
 *
 * The fillets count as part of the fin's section (fillet-layer.ts): the plate carries their stiffness, and F is what is left:
 * base bond, fin's foot, tube wall, skins running on. F taken against a fin without fillets may be negative (a large fillet
 * stiffens by more than the wall gives), which no spring can be; against the filleted fin it is positive but for the strip's
 * own error, which is then made good on the soft side.
 *
 * The bay on either side decides how far the wall turns. With stiffness K₀ when all fins are loaded the same way round (bay's
 * centre hinged) and K₁ when every other one is loaded the other way (even about the centre), fins that follow one another at
 * a phase β see (K₀ + K₁)/2 + cos β (K₀ − K₁)/2; N fins have β = 2πk/N. docs/methods/bond-joint.md, section 7.
 */
import type { Checked } from '../../issue.ts'
import type { Flexibility } from './fin-strip.ts'
import { jointIssues } from './joint-issues.ts'
import { type TeeGive, type TeeHeld, type TeeRoot, teeGives } from './tee-give.ts'

/** As the design names it: what stands behind the wall under the root. */
export type Backing = 'none' | 'coupler' | 'motor case' | 'rings'

export interface RootHoldInput extends TeeRoot {
  readonly backing: Backing
}

/** Springs of the plate's edge, in the plate's own terms: V N/m and M N·m/m from w and θ; twist N. */
export interface RootSpring {
  readonly deflection: number
  readonly coupling: number
  readonly rotation: number
  readonly twist: number
  readonly inPlane: 'held'
}

export interface RootGrip {
  readonly spring: RootSpring
  readonly flexibility: Flexibility
  /** Against a fin that is clamped on the root line and has no fillets; may be negative. */
  readonly beyondBare: Flexibility
  /** What this case supposes, in words. */
  readonly basis: string
  /** Whether the transverse spring was softened because the fin's strip took more than there was. */
  readonly mended: boolean
}

export interface RootHold {
  readonly likely: RootGrip
  readonly soft: RootGrip
  readonly stiff: RootGrip
  /** Where the turn under a moment comes from in the likely case; shares of its flexibility, sum 1. */
  readonly parts: { readonly wall: number; readonly adhesive: number; readonly skins: number; readonly foot: number }
  /** The largest part in words. */
  readonly words: string
}

const kept = new Map<string, RootHold>()
const mostKept = 64

export function rootHold(input: RootHoldInput): Checked<RootHold> {
  const issues = jointIssues({ ...input, tube: { ...input.tube, inside: 'free' }, averagingLength: 1e-3 })
  if (issues.length > 0) return { ok: false, issues }
  const { section, skin, core, tube, adhesive, backing, refine } = input // nothing else decides
  const key = JSON.stringify([section, skin, core, tube, adhesive, backing, refine])
  const value = kept.get(key) ?? computed(input)
  kept.delete(key) // the latest last, so that the oldest goes first
  kept.set(key, value)
  if (kept.size > mostKept) kept.delete(kept.keys().next().value as string)
  return { ok: true, value, warnings: [] }
}

/** Two leaves of thickness t that slide on each other bend like one of this many t, ∛2; bonded, like one of 2 t. */
const leaves = { sliding: Math.cbrt(2), bonded: 2 } as const

const hinged: TeeHeld = { inside: 'free', bayCentre: 'hinged' }
const even: TeeHeld = { inside: 'free', bayCentre: 'even' }
const centreHeld: TeeHeld = { inside: 'free', bayCentre: 'held' }
const insideHeld: TeeHeld = { inside: 'held', bayCentre: 'held' }

function computed(input: RootHoldInput): RootHold {
  switch (input.backing) {
    case 'none':
    case 'rings':
      return bareWall(input)
    case 'coupler':
      return doubledWall(input)
    case 'motor case':
      return standingOnCase(input)
  }
}

function bareWall(input: RootHoldInput): RootHold {
  const gives = teeGives(input, [hinged, even, centreHeld])
  const [one, other, stiff] = gives.at
  const grip = gripOf(input, gives)
  const words =
    input.backing === 'rings'
      ? 'rings hold the tube round where they stand, the wall between them is bare'
      : 'bare wall, nothing behind it'
  return {
    likely: grip(one.whole, `${words}; all fins loaded the same way round`),
    soft: grip(
      softest(one.whole, other.whole, gives.strip.filleted, input.section.N),
      `${words}; ${alternating(input.section.N)}`,
    ),
    stiff: grip(stiff.whole, `${words}; held half-way to the next fin`),
    ...partsOf(one, gives.strip.filleted),
  }
}

/** The coupler's own thickness is not known; it is taken as thick as the wall and of its material. */
function doubledWall(input: RootHoldInput): RootHold {
  const wall = (times: number): RootHoldInput => ({ ...input, tube: { ...input.tube, wall: times * input.tube.wall } })
  const sliding = teeGives(wall(leaves.sliding), [hinged, even])
  const bonded = teeGives(wall(leaves.bonded), [hinged])
  const [one, other] = sliding.at
  const words = 'coupler as thick as the wall'
  const loose = gripOf(input, sliding)
  return {
    likely: loose(one.whole, `${words}, not bonded all over; all fins loaded the same way round`),
    soft: loose(
      softest(one.whole, other.whole, sliding.strip.filleted, input.section.N),
      `${words}, not bonded; ${alternating(input.section.N)}`,
    ),
    stiff: gripOf(input, bonded)(
      bonded.at[0].whole,
      `${words} and bonded all over; all fins loaded the same way round`,
    ),
    ...partsOf(one, sliding.strip.filleted),
  }
}

/** The case bears the wall that is pressed on it and lets go of the wall that is pulled off it: half of each stiffness. */
function standingOnCase(input: RootHoldInput): RootHold {
  const gives = teeGives(input, [hinged, insideHeld])
  const [free, held] = gives.at
  const grip = gripOf(input, gives)
  const taken = gives.strip.filleted
  const mean = plus(
    inverse(sum(inverse(positive(minus(free.whole, taken)).F), inverse(positive(minus(held.whole, taken)).F), 0.5)),
    taken,
  )
  return {
    likely: grip(mean, 'the motor case bears the wall on the pressed side of the fin and lets go on the other'),
    soft: grip(free.whole, 'clearance between motor case and tube: nothing bears the wall'),
    stiff: grip(held.whole, 'the motor case holds the wall all round'),
    ...partsOf(free, taken),
  }
}

const alternating = (N: number): string =>
  N % 2 === 0
    ? 'every other fin loaded the other way'
    : 'neighbouring fins loaded as nearly oppositely as their number allows'

/** cos β of the pattern that turns the wall most. */
const leastCosine = (N: number): number => Math.cos((2 * Math.PI * Math.floor(N / 2)) / N)

function softest(same: Flexibility, opposite: Flexibility, strip: Flexibility, N: number): Flexibility {
  const [K0, K1] = [same, opposite].map((whole) => inverse(positive(minus(whole, strip)).F))
  return plus(inverse(sum(K0, K1, (1 + leastCosine(N)) / 2)), strip)
}

const gripOf =
  (input: RootHoldInput, { strip }: ReturnType<typeof teeGives>) =>
  (whole: Flexibility, basis: string): RootGrip => {
    const { F, mended } = positive(minus(whole, strip.filleted))
    const { VV, VM, MM } = inverse(F)
    return {
      spring: { deflection: VV, coupling: VM, rotation: MM, twist: twistStiffness(input), inPlane: 'held' },
      flexibility: F,
      beyondBare: minus(whole, strip.bare),
      basis,
      mended,
    }
  }

const minus = (a: Flexibility, b: Flexibility): Flexibility => ({ VV: a.VV - b.VV, VM: a.VM - b.VM, MM: a.MM - b.MM })
const plus = (a: Flexibility, b: Flexibility): Flexibility => ({ VV: a.VV + b.VV, VM: a.VM + b.VM, MM: a.MM + b.MM })
/** share · a + (1 − share) · b */
const sum = (a: Flexibility, b: Flexibility, share: number): Flexibility => ({
  VV: share * a.VV + (1 - share) * b.VV,
  VM: share * a.VM + (1 - share) * b.VM,
  MM: share * a.MM + (1 - share) * b.MM,
})

function inverse({ VV, VM, MM }: Flexibility): Flexibility {
  const det = VV * MM - VM ** 2
  return { VV: MM / det, VM: -VM / det, MM: VV / det }
}

/** A turn per moment less than this counts as none: 1e-7 rad per N, a thousandth of any wall's. */
const leastTurn = 1e-7
/** VV is at least this much above VM² / MM, so that F has an inverse of reasonable size. */
const clear = 1.1

/** F with MM at least `leastTurn` and positive definite; only ever softened. */
function positive({ VV, VM, MM }: Flexibility): { F: Flexibility; mended: boolean } {
  const turn = Math.max(MM, leastTurn)
  const least = Math.max((clear * VM ** 2) / turn, leastTurn * 1e-6)
  return { F: { VV: Math.max(VV, least), VM, MM: turn }, mended: MM < turn || VV < least }
}

/**
 * Moment across the root per lean of the normals, estimate: adhesive sheared along the root, G ∫ q² / t dq over base bond (t its
 * thickness) and fillets (t their height, as if it were the same all over: the foot is thinner and stiffer), skins left out. Low
 * on purpose. Ten times as much raises a fin's frequencies by 0.5 % at most in the likely case, 1.4 % in the soft one.
 */
function twistStiffness({ section: { h, R, theta, filletHeight }, adhesive: { G, bondLine } }: RootHoldInput): number {
  const foot = R * Math.sin(theta)
  return (2 / 3) * G * (h ** 3 / bondLine + (foot ** 3 - h ** 3) / filletHeight)
}

/** Energy of core, skins and fillets that the filleted strip has already is taken off the fin's foot, never below nothing. */
function partsOf({ moment }: TeeGive, strip: Flexibility): Pick<RootHold, 'parts' | 'words'> {
  const wall = moment.wall + moment.skinBody
  const adhesive = moment.bond + moment.fillet
  const skins = moment.skinArc
  const foot = Math.max(0, moment.core + moment.skinFin - strip.MM)
  const all = wall + adhesive + skins + foot
  const parts = { wall: wall / all, adhesive: adhesive / all, skins: skins / all, foot: foot / all }
  return { parts, words: dominant(parts) }
}

const partName: { readonly [part in keyof RootHold['parts']]: string } = {
  wall: 'the tube wall with the skin on it',
  adhesive: 'the adhesive',
  skins: 'the skins over the fillets',
  foot: "the fin's foot",
}

function dominant(parts: RootHold['parts']): string {
  const order = (Object.keys(partName) as (keyof RootHold['parts'])[]).sort((a, b) => parts[b] - parts[a])
  const share = (part: keyof RootHold['parts']): string => `${Math.round(100 * parts[part])} %`
  return `Of the turn at the root ${share(order[0])} comes from ${partName[order[0]]}, ${share(order[1])} from ${partName[order[1]]}.`
}
