/** What a root joint cannot be computed for, in the builder's words. */
import { millimetres } from '../../geometry/dimension-text.ts'
import type { Issue } from '../../issue.ts'
import { isotropicLayer, isStable, type LayerModuli } from './layer-moduli.ts'
import type { RootSection } from './root-stress.ts'

/** The outermost ply needs a radius of its own: a tenth of the skin's thickness is the least that can be meshed. */
export const leastFilletRadius = (skinThickness: number): number => 1.1 * skinThickness

export function jointIssues({ section, skin, core, tube, adhesive }: RootSection): Issue[] {
  const issues: Issue[] = []
  const report = (code: string, path: string, value: unknown, message: string, hint: string) =>
    issues.push({ code: `bond/${code}`, path, value, message, hint })
  if (!(skin.t > 0))
    report(
      'no-skin',
      'layup.plies',
      skin.t,
      'No ply reaches the fin’s root, so nothing but adhesive holds the fin; the joint is computed for fins with skins.',
      'Let at least one structural ply run from fin to fin over the fillets.',
    )
  else if (!(section.r >= leastFilletRadius(skin.t)))
    report(
      'fillet-tight',
      'fins.fillet.radius',
      section.r,
      `The fillet radius is ${millimetres(section.r)} under skins of ${millimetres(skin.t)}: the outermost ply would have no radius left.`,
      `Use a fillet of at least ${millimetres(leastFilletRadius(skin.t))}.`,
    )
  if (!(section.h <= section.R / 2))
    report(
      'core-thick-for-joint',
      'fins.core.thickness',
      2 * section.h,
      `The core is ${millimetres(2 * section.h)} thick on a tube of ${millimetres(2 * section.R)} outer diameter; the root joint is computed for cores up to half the diameter.`,
      'Check the units of both; judge the joint of so thick a fin by a proof load.',
    )
  if (!(adhesive.bondLine > 0 && adhesive.bondLine <= section.filletHeight / 2))
    report(
      'bond-line-range',
      'fins.fillet.bondLine',
      adhesive.bondLine,
      `The adhesive under the core is ${millimetres(adhesive.bondLine)} thick; it must be thicker than zero and at most half the fillet's height, ${millimetres(section.filletHeight / 2)}.`,
      'Write the thickness of the base bond line as built, 0.2 to 0.5 mm as a rule.',
    )
  if (!(tube.wall > 0 && tube.wall < section.R))
    report(
      'wall-range',
      'tube.wall',
      tube.wall,
      `The tube's wall is ${millimetres(tube.wall)}; it must be thicker than zero and less than the outer radius, ${millimetres(section.R)}.`,
      'Measure the wall of the tube.',
    )
  if (!(adhesive.E > 0 && isStable(isotropicLayer(adhesive))))
    report(
      'adhesive-moduli',
      'fins.fillet.adhesive',
      { E: adhesive.E, G: adhesive.G },
      `The adhesive's E is ${gigapascals(adhesive.E)} and its G ${gigapascals(adhesive.G)}; G must lie between E/3 and E.`,
      'E / 3 is the G of rubber, E / 2.7 that of most epoxies; check both numbers and their units.',
    )
  const layers: readonly (readonly [string, string, LayerModuli])[] = [
    ['The core', 'fins.core.material', core],
    ['The skin', 'layup.plies', skin.moduli],
    ['The tube wall', 'tube.material', tube.moduli],
  ]
  for (const [name, path, moduli] of layers)
    if (!isStable(moduli))
      report(
        'layer-moduli',
        path,
        moduli,
        `${name} has moduli that no elastic solid can have: every E and G must be positive and the Poisson ratios small enough.`,
        'Check the moduli and Poisson ratios that the plan overrides.',
      )
  return issues
}

const gigapascals = (value: number): string => `${(value / 1e9).toPrecision(3)} GPa`
