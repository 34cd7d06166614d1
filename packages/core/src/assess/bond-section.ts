/** The fillets of a can: section, adhesive to mix. The margin of the root joint belongs to a later version. */
import { filletAdhesive } from '../bond/fillet.ts'
import { baySection } from '../bond/section.ts'
import { finSpan, rootLength } from '../geometry/fin-outline.ts'
import { type Issue, invariant } from '../issue.ts'
import type { BondSection } from './assessment.ts'
import type { CanDesign } from './design.ts'
import type { Section } from './flown.ts'

/** For a design whose patterns have been made, so that its section exists. */
export function bondSection({ tube, fins }: CanDesign): Section<BondSection> {
  const { outline, core, count, fillet } = fins
  const section = baySection({
    tubeRadius: tube.outerRadius,
    coreThickness: core.thickness,
    finCount: count,
    span: finSpan(outline),
    filletRadius: fillet.radius,
  })
  invariant(section.ok, 'a can with patterns has a section')
  const { radius, adhesive, waste } = fillet
  const density = adhesive.density.value
  const made = filletAdhesive({ section: section.value, rootLength: rootLength(outline), density, waste })
  return {
    value: {
      fillet: {
        radius_m: radius,
        area_m2: section.value.filletArea,
        volume_m3: made.volume,
        adhesiveMass_kg: made.mass,
        height_m: section.value.filletHeight,
        openAngle_deg: (section.value.phi * 180) / Math.PI,
        count: made.count,
        totalVolume_m3: made.totalVolume,
        totalAdhesiveMass_kg: made.totalMass,
        mixMass_kg: made.mixMass,
        runOuts: { volume_m3: made.runOut.volume, mixMassWith_kg: made.mixMassWithRunOuts },
      },
      margin: null,
      joint: null,
    },
    warnings: [withoutMargin],
  }
}

const withoutMargin: Issue = {
  code: 'bond/margin-not-computed',
  path: 'bond.margin',
  value: null,
  message: 'The strength of the root joint is not computed in this version.',
  hint: 'Prove the joint of every fin by a proof load in both directions; a lap-shear figure from a data sheet is no allowable (ASTM D4896).',
}
