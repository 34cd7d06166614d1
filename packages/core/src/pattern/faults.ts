/** What cannot be made, said with what to change; and a fillet that leaves little radius to lay cloth in. */
import { millimetres } from '../geometry/dimension-text.ts'
import { finPolygon, finSpan, rootLength } from '../geometry/fin-outline.ts'
import { signedArea } from '../geometry/polygon.ts'
import { selfCrossing } from '../geometry/polygon-crossing.ts'
import type { Issue } from '../issue.ts'
import type { NoOutline } from './outlines.ts'
import { buildUps, endName, type PatternInput, plyEnds, type ScheduledPly } from './schedule.ts'

/** Numbers that no drawing can be made from. All of them at once. */
export function inputIssues(input: PatternInput): readonly Issue[] {
  return [...outlineIssues(input.fins.outline), ...input.plies.flatMap(plyIssues), ...layupIssues(input.layup)]
}

/** Longest length that a lay-up can have. 100 m: anything beyond is a slip of units. */
const longest = 100

const usable = (value: number): boolean => value >= 0 && value < longest

function outlineIssues(outline: PatternInput['fins']['outline']): Issue[] {
  const path = 'fins.outline'
  const { points, edges } = outline
  const issue = (code: string, message: string, hint: string): Issue[] => [{ code, path, value: points, message, hint }]
  if (points.length < 3 || edges.length !== points.length - 1)
    return issue(
      'pattern/outline-points',
      `The fin outline has ${points.length} points and ${edges.length} named edges; it must have at least 3 points and one name for each segment between them.`,
      'List the corners from the root leading edge over the tip to the root trailing edge.',
    )
  if (!points.every(([x, y]) => Math.abs(x) < longest && usable(y)))
    return issue(
      'pattern/outline-range',
      'A corner of the fin outline lies inside the body or is not a length below 100 m.',
      'Measure y outboard from the body surface; the root lies at y = 0.',
    )
  const crossing = selfCrossing(finPolygon(outline))
  if (crossing !== null)
    return issue(
      'pattern/outline-crosses',
      `The fin outline crosses itself ${millimetres(crossing.at[0])} aft and ${millimetres(crossing.at[1])} outboard.`,
      'List the corners in order round the fin, without going back over an edge.',
    )
  if (!(signedArea(finPolygon(outline)) > 1e-6) || points[0]![1] !== 0 || points.at(-1)![1] !== 0)
    return issue(
      'pattern/outline-root',
      'The fin outline must enclose an area and begin and end on the body, at y = 0.',
      'Begin at the root leading edge and end at the root trailing edge.',
    )
  if (!(rootLength(outline) > 0))
    return issue(
      'pattern/outline-root',
      `The root's trailing end lies ${millimetres(-rootLength(outline))} ahead of its leading end.`,
      'Begin at the root leading edge and end at the root trailing edge, x measured aft.',
    )
  return []
}

function plyIssues(ply: ScheduledPly, index: number): Issue[] {
  const numbers = [
    ...plyEnds.map((end) => [`stepBack.${end}`, `step back from the ${endName[end]}`, ply.stepBack[end]] as const),
    ['overhang.edges', "overhang at the fin's edges", ply.overhang.edges] as const,
    ['overhang.bodyEnds', 'overhang at the ends on the body', ply.overhang.bodyEnds] as const,
    ['onBody', 'reach on the body', ply.onBody] as const,
    ['wrap', 'wrap over the edges', ply.wrap] as const,
    ['thickness', 'thickness', ply.thickness] as const,
    ['cloth', 'areal mass', ply.dryArealMass] as const,
  ]
  const issues = numbers
    .filter(([, , value]) => !usable(value))
    .map(([key, name, value]) => outOfRange(`plies[${index}].${key}`, `The ${name} of ${ply.id}`, value))
  return Number.isFinite(ply.angle)
    ? issues
    : [...issues, outOfRange(`plies[${index}].angle`, `The angle of ${ply.id}`, ply.angle)]
}

function layupIssues({ overrun, biasShear, stepPerThickness }: PatternInput['layup']): Issue[] {
  const issues = [
    ['layup.overrun.forward', 'The overrun forward of the root', overrun.forward],
    ['layup.overrun.aft', 'The overrun aft of the root', overrun.aft],
  ] as const
  const found = issues
    .filter(([, , value]) => !usable(value))
    .map(([path, name, value]) => outOfRange(path, name, value))
  if (!(biasShear >= 0 && biasShear < Math.PI / 3))
    found.push({
      code: 'pattern/bias-shear',
      path: 'layup.biasShear',
      value: biasShear,
      message: `The shear allowed for in bias plies is ${biasShear} rad; it must lie between 0° and 60°, past which no cloth shears.`,
      hint: 'Allow about 4°, 10° for a first lay-up.',
    })
  if (!(stepPerThickness >= 0 && stepPerThickness < 1e6))
    found.push(outOfRange('layup.stepPerThickness', 'The least step in ply thicknesses', stepPerThickness))
  return found
}

const outOfRange = (path: string, name: string, value: number): Issue => ({
  code: 'pattern/number-range',
  path,
  value,
  message: `${name} is ${value}; it must be a number of at least zero and below ${longest}.`,
  hint: 'Check the number and its unit.',
})

/** Nothing left of a ply. */
export function noOutlineIssue(
  ply: ScheduledPly,
  index: number,
  none: NoOutline['none'],
  { fins, layup }: Pick<PatternInput, 'fins' | 'layup'>,
): Issue {
  const { stepBack } = ply
  if (none === 'body')
    return {
      code: 'pattern/body-gone',
      path: `plies[${index}].stepBack.bodyForward`,
      value: stepBack.bodyForward,
      message:
        `${ply.id} is stepped back ${millimetres(stepBack.bodyForward)} and ${millimetres(stepBack.bodyAft)} from the lay-up's ends on the body, ` +
        `which are ${millimetres(rootLength(fins.outline) + layup.overrun.forward + layup.overrun.aft)} apart: nothing is left of it there.`,
      hint: 'Reduce these step-backs.',
    }
  const along = stepBack.leading + stepBack.trailing
  const chord = none === 'chord' || (along > 0 && stepBack.tip < finSpan(fins.outline))
  return {
    code: chord ? 'pattern/chord-gone' : 'pattern/ply-gone',
    path: `plies[${index}].stepBack.${chord ? 'leading' : 'tip'}`,
    value: chord ? stepBack.leading : stepBack.tip,
    message: chord
      ? `${ply.id} is stepped back ${millimetres(stepBack.leading)} from the leading edge, ${millimetres(stepBack.trailing)} from the trailing edge and ${millimetres(stepBack.tip)} from the tip: no chord is left of it at the root, which is ${millimetres(rootLength(fins.outline))} long.`
      : `${ply.id} is stepped back ${millimetres(stepBack.tip)} from the tip of a fin of ${millimetres(finSpan(fins.outline))} span: nothing is left of it on the fin.`,
    hint: 'Reduce its step-backs, or leave this ply out.',
  }
}

export const splitIssue = (ply: ScheduledPly, index: number, lost: number): Issue => ({
  code: 'pattern/ply-parted',
  path: `plies[${index}].stepBack`,
  value: ply.stepBack,
  message: `The step-backs of ${ply.id} part it: ${(lost * 1e4).toFixed(2)} cm² of it on each face no longer hang together with the root.`,
  hint: 'Reduce its step-backs where the fin is narrow.',
})

/** No hollow left to lay the ply into. */
export const tightFilletIssue = (
  ply: ScheduledPly,
  index: number,
  { r, z }: { readonly r: number; readonly z: number },
): Issue => ({
  code: 'pattern/fillet-gone',
  path: 'fins.fillet.radius',
  value: r,
  message: `The plies under ${ply.id} and half its own thickness fill ${millimetres(z, 2)} of the fillet's radius of ${millimetres(r)}: no hollow is left to lay ply ${index + 1} into.`,
  hint: 'Make the fillet larger than the lay-up is thick.',
})

/** Light twill follows a hollow of 6 mm and hardly less (common practice, no source). */
const leastHollow = 6e-3

/** The first ply that meets a hollow tighter than cloth follows. */
export function tightFilletRule(plies: readonly ScheduledPly[], r: number): readonly Issue[] {
  const z = buildUps(plies)
  const index = z.findIndex((below) => r - below < leastHollow)
  if (index < 0) return []
  return [
    {
      code: 'pattern/fillet-tight',
      path: 'fins.fillet.radius',
      value: r,
      message: `From ${plies[index]!.id} on the hollow that cloth is laid into has a radius of ${millimetres(r - z[index]!)}; woven cloth follows about ${millimetres(leastHollow, 0)} and lifts off tighter ones.`,
      hint: `Use a fillet of at least ${millimetres(Math.ceil((leastHollow + z.at(-1)!) * 1e4) / 1e4)}.`,
    },
  ]
}
