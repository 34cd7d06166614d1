/** What a root joint cannot be computed for, in the builder's words. */
import { millimetres } from '../../geometry/dimension-text.ts'
import type { Issue } from '../../issue.ts'
import { isotropicLayer, isStable, type LayerModuli } from './layer-moduli.ts'
import type { RootSection } from './root-stress.ts'

/** The outermost ply needs a radius of its own: a tenth of the skin's thickness is the least that can be meshed. */
export const leastFilletRadius = (skinThickness: number): number => 1.1 * skinThickness

export const jointIssues = (root: RootSection): Issue[] => [
  ...skinIssues(root),
  ...thicknessIssues(root),
  ...moduliIssues(root),
]

function skinIssues({ section, skin }: RootSection): Issue[] {
  if (!(skin.t > 0))
    return [
      {
        code: 'bond/no-skin',
        path: 'layup.plies',
        value: skin.t,
        message:
          "No ply reaches the fin's root, so nothing but adhesive holds the fin; the joint is computed for fins with skins.",
        hint: 'Let at least one structural ply run from fin to fin over the fillets.',
      },
    ]
  const least = leastFilletRadius(skin.t)
  if (section.r >= least) return []
  return [
    {
      code: 'bond/fillet-tight',
      path: 'fins.fillet.radius',
      value: section.r,
      message:
        `The fillet radius is ${millimetres(section.r)} under skins of ${millimetres(skin.t)}: the outermost ply would ` +
        'have no radius left.',
      hint: `Use a fillet of at least ${millimetres(least)}.`,
    },
  ]
}

function thicknessIssues({ section, tube, adhesive }: RootSection): Issue[] {
  const { R, h, filletHeight } = section
  const issues: Issue[] = []
  if (!(h <= R / 2))
    issues.push({
      code: 'bond/core-thick-for-joint',
      path: 'fins.core.thickness',
      value: 2 * h,
      message:
        `The core is ${millimetres(2 * h)} thick on a tube of ${millimetres(2 * R)} outer diameter; the root joint is ` +
        'computed for cores up to half the diameter.',
      hint: 'Check the units of both; judge the joint of so thick a fin by a proof load.',
    })
  if (!(adhesive.bondLine > 0 && adhesive.bondLine <= filletHeight / 2))
    issues.push({
      code: 'bond/bond-line-range',
      path: 'fins.joint.bondLine',
      value: adhesive.bondLine,
      message:
        `The adhesive under the core is ${millimetres(adhesive.bondLine)} thick; it must be thicker than zero and at most ` +
        `half the fillet's height, ${millimetres(filletHeight / 2)}.`,
      hint: 'Write the thickness of the base bond line as built, 0.2 to 0.5 mm as a rule.',
    })
  if (!(tube.wall > 0 && tube.wall < R))
    issues.push({
      code: 'bond/wall-range',
      path: 'tube.wall',
      value: tube.wall,
      message:
        `The tube's wall is ${millimetres(tube.wall)}; it must be thicker than zero and less than the outer radius, ` +
        `${millimetres(R)}.`,
      hint: 'Measure the wall of the tube.',
    })
  return issues
}

function moduliIssues({ skin, core, tube, adhesive }: RootSection): Issue[] {
  const { E, G } = adhesive
  const issues: Issue[] = []
  if (!(E > 0 && isStable(isotropicLayer(adhesive))))
    issues.push({
      code: 'bond/adhesive-moduli',
      path: 'fins.fillet.adhesive',
      value: { E, G },
      message: `The adhesive's E is ${gigapascals(E)} and its G ${gigapascals(G)}; both must be positive and G greater than E/3.`,
      hint: 'E / 3 is the G of rubber, E / 2.7 that of most epoxies; check both numbers and their units.',
    })
  const layers: readonly (readonly [string, string, LayerModuli])[] = [
    ['The core', 'fins.core.material', core],
    ['The skin', 'layup.plies', skin.moduli],
    ['The tube wall', 'tube.material', tube.moduli],
  ]
  for (const [name, path, moduli] of layers)
    if (!isStable(moduli))
      issues.push({
        code: 'bond/layer-moduli',
        path,
        value: moduli,
        message:
          `${name} has moduli that no elastic solid can have: every E and G must be positive and the Poisson ratios ` +
          'small enough.',
        hint: 'Check the moduli and Poisson ratios that the plan overrides.',
      })
  return issues
}

const gigapascals = (value: number): string => `${(value / 1e9).toPrecision(3)} GPa`
