/**
 * Where a schedule breaks the rules of a sound lay-up, in words and numbers. A broken rule is a warning: the pieces can be
 * cut, and the builder may know better.
 *
 * 1. Only the last structural ply has exposed edges, and they lie on the trimmed perimeter; a later ply reaches past every
 *    other edge.  2. No edge lies on another's, and successive edges are `stepPerThickness` ply thicknesses apart: 50 is the
 *    taper of a scarf in FAA AC 43.13-1B, chapter 3 (light-load laminates; used here by analogy).  3. Every bias ply is
 *    covered by one along the axes, and none is outermost.  4. The innermost and outermost plies run the same way.  5. No
 *    step ends in the fillet or on the line where the core's edge shaping begins.  6. Plies are numbered from the core
 *    outward, and no two pieces of any can have one name.  7. A fin's two faces balance (rules-balance.ts).  8. Surface and peel plies reach as far as the structure.
 *
 * Rules 1, 3, 4, 5, 6 and 8 are common practice without a source; 7 follows from lamination theory (docs/methods/pattern.md).
 */
import { degrees, millimetres } from '../geometry/dimension-text.ts'
import type { EdgeProfiles } from '../geometry/edge-profile.ts'
import { edgeNames, type FinOutline } from '../geometry/fin-outline.ts'
import type { Issue } from '../issue.ts'
import { coverBy } from './covers.ts'
import { numberingRule } from './rules-numbering.ts'
import { spacingRules } from './rules-spacing.ts'
import { endName, type PatternInput, type PlyEnd, plyEnds, type ScheduledPly } from './schedule.ts'
import { isBias } from './trellis.ts'

export interface RuleInput {
  readonly plies: readonly ScheduledPly[]
  readonly layup: PatternInput['layup']
  readonly fins: { readonly count: number; readonly outline: FinOutline; readonly edges: EdgeProfiles }
  /** Height of the fillet's top above the body. */
  readonly filletTop: number
  /** Height of the outermost point of each ply on the fin. */
  readonly reach: readonly number[]
}

/** A ply with its place in the whole schedule, for the path of an issue. */
export interface Placed {
  readonly ply: ScheduledPly
  readonly index: number
}

export function brokenRules(input: RuleInput): readonly Issue[] {
  const placed = input.plies.map((ply, index): Placed => ({ ply, index }))
  const structural = placed.filter(({ ply }) => ply.role === 'structural' && ply.cover === 'bay')
  return [
    ...numberingRule(input.plies),
    ...structural.slice(0, -1).flatMap((place, i) => exposedRule(place, structural.slice(i + 1))),
    ...spacingRules(structural, input.layup.stepPerThickness),
    ...biasRules(structural),
    ...sameOutsideRule(structural),
    ...structural.flatMap((place) => stepPlaceRules(place, input)),
    ...outerPlyRules(placed, structural),
  ]
}

/** Rule 1. */
function exposedRule({ ply, index }: Placed, later: readonly Placed[]): Issue[] {
  const bare = plyEnds.filter((end) => later.every((other) => !(coverBy(other.ply, ply)[end] > 1e-9)))
  if (bare.length === 0) return []
  const last = later.at(-1)!.ply
  return [
    {
      code: 'pattern/edge-exposed',
      path: `plies[${index}].stepBack.${bare[0]}`,
      value: ply.stepBack[bare[0]!],
      message:
        `${ply.id} ends exposed at ${listed(bare.map(reached(ply)))}: no later structural ply reaches past it there. ` +
        `Only the last structural ply, ${last.id}, may have exposed edges.`,
      hint: `Step ${ply.id} back there, so that a later ply covers its edge.`,
    },
  ]
}

const reached =
  (ply: ScheduledPly) =>
  (end: PlyEnd): string =>
    `the ${endName[end]} (${ply.stepBack[end] > 0 ? `stepped back ${millimetres(ply.stepBack[end])}` : 'not stepped back'})`

/** Rule 3. */
function biasRules(structural: readonly Placed[]): Issue[] {
  const outermost = structural.at(-1)
  return structural.flatMap(({ ply, index }, i) => {
    if (!isBias(ply.angle)) return []
    const path = `plies[${index}].angle`
    const value = ply.angle
    const name = `${ply.id}, with its warp at ${degrees(ply.angle, 0)},`
    if (structural[i] === outermost)
      return [
        {
          code: 'pattern/bias-outermost',
          path,
          value,
          message: `${name} is the outermost structural ply; a ply on the bias is pulled out of shape by hand and its edges would stay exposed.`,
          hint: 'Lay a ply at 0° or 90° over it.',
        },
      ]
    const covered = structural.slice(i + 1).some((other) => !isBias(other.ply.angle) && reachesAll(other.ply, ply))
    if (covered) return []
    return [
      {
        code: 'pattern/bias-uncovered',
        path,
        value,
        message: `${name} is not covered all round by a later ply at 0° or 90°; if it is pulled short its edge stays bare.`,
        hint: 'Let a later ply at 0° or 90° reach at least as far at every edge.',
      },
    ]
  })
}

const reachesAll = (later: ScheduledPly, earlier: ScheduledPly): boolean =>
  plyEnds.every((end) => coverBy(later, earlier)[end] >= -1e-9)

/** Rule 4: a warp and its weft count as one direction. */
function sameOutsideRule(structural: readonly Placed[]): Issue[] {
  const first = structural[0]
  const last = structural.at(-1)
  if (first === undefined || last === undefined || isBias(first.ply.angle) === isBias(last.ply.angle)) return []
  return [
    {
      code: 'pattern/outside-differs',
      path: `plies[${last.index}].angle`,
      value: last.ply.angle,
      message:
        `The innermost structural ply ${first.ply.id} lies at ${degrees(first.ply.angle, 0)} and the outermost ${last.ply.id} at ` +
        `${degrees(last.ply.angle, 0)}; the two usually run the same way.`,
      hint: `With plies that alternate, an odd number does it: the schedule has ${structural.length}.`,
    },
  ]
}

/** Nearer to the line where edge shaping begins than a hand can keep apart. 2 mm. */
const onLine = 2e-3

/** Rule 5. */
function stepPlaceRules({ ply, index }: Placed, { fins, filletTop, reach }: RuleInput): Issue[] {
  const issues: Issue[] = []
  if (ply.stepBack.tip > 0 && reach[index]! <= filletTop)
    issues.push({
      code: 'pattern/step-in-fillet',
      path: `plies[${index}].stepBack.tip`,
      value: ply.stepBack.tip,
      message: `${ply.id}, stepped back ${millimetres(ply.stepBack.tip)} from the tip, ends in the fillet, ${millimetres(Math.max(0, reach[index]!))} above the body; the fillet's top is at ${millimetres(filletTop)}.`,
      hint: 'Step it back less, so that it ends on the flat of the fin.',
    })
  const close = edgeNames.filter((edge) => {
    const { kind, width } = fins.edges[edge]
    return kind !== 'square' && ply.stepBack[edge] > 0 && Math.abs(ply.stepBack[edge] - width) < onLine
  })
  for (const edge of close)
    issues.push({
      code: 'pattern/step-on-bevel',
      path: `plies[${index}].stepBack.${edge}`,
      value: ply.stepBack[edge],
      message: `${ply.id} ends ${millimetres(ply.stepBack[edge])} from the ${endName[edge]}, on the line where its ${fins.edges[edge].kind === 'bevel' ? 'bevel' : 'rounding'} begins (${millimetres(fins.edges[edge].width)}).`,
      hint: `Keep the step at least ${millimetres(onLine, 0)} away from that line.`,
    })
  return issues
}

/** Rule 8. */
function outerPlyRules(placed: readonly Placed[], structural: readonly Placed[]): Issue[] {
  const last = structural.at(-1)
  if (last === undefined) return []
  return placed.flatMap(({ ply, index }) => {
    if (ply.role === 'structural' || index < last.index) return []
    const short = plyEnds.filter((end) => coverBy(ply, last.ply)[end] < -1e-9)
    if (short.length === 0) return []
    const worst = short.reduce((a, b) => (ply.stepBack[b] > ply.stepBack[a] ? b : a))
    return [
      {
        code: 'pattern/outer-ply-short',
        path: `plies[${index}].stepBack.${worst}`,
        value: ply.stepBack[worst],
        message: `The ${ply.role} ply ${ply.id} stops short of ${last.ply.id} at ${listed(short.map((end) => `the ${endName[end]}`))}, by up to ${millimetres(-coverBy(ply, last.ply)[worst])}.`,
        hint: `Let ${ply.id} reach as far as ${last.ply.id}.`,
      },
    ]
  })
}

export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}
