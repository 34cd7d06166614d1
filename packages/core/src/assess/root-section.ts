/** The section across the root as the joint sees it: moduli of core, skin and tube with axis 1 in the section, and what lies behind the wall. */
import type { LayerModuli } from '../bond/joint/layer-moduli.ts'
import { layerFromSheet } from '../bond/joint/layer-moduli.ts'
import type { RootHoldInput } from '../bond/joint/root-hold.ts'
import { type BaySection, baySection } from '../bond/section.ts'
import { finSpan } from '../geometry/fin-outline.ts'
import { invariant } from '../issue.ts'
import { skin } from '../laminate/fin-laminate.ts'
import { rotatedShearCompliance } from '../laminate/lamina.ts'
import { type BuiltLayer, sheetLamina, sheetLayer, totalThickness } from '../laminate/layer.ts'
import { laminateStiffness } from '../laminate/stiffness.ts'
import { inverse3 } from '../numeric/mat3.ts'
import type { CanDesign } from './design.ts'
import { bayPlies, type SkinPly, thinnerFace } from './skins.ts'

/** For a design whose patterns have been made, so that its section exists. */
export function designSection({ tube, fins }: CanDesign): BaySection {
  const { outline, core, count, fillet } = fins
  const section = baySection({
    tubeRadius: tube.outerRadius,
    coreThickness: core.thickness,
    finCount: count,
    span: finSpan(outline),
    filletRadius: fillet.radius,
  })
  invariant(section.ok, 'a can with patterns has a section')
  return section.value
}

/** `plies`: those that reach the root. The section is the same on both sides of the fin: where patches make its faces differ it has the thinner one. */
export function rootSection(design: CanDesign, plies: readonly SkinPly[]): RootHoldInput {
  const { tube, fins } = design
  const layers = skin('previous', bayPlies(thinnerFace(plies)))
  const { E, G } = fins.fillet.adhesive
  const { core } = fins
  return {
    section: designSection(design),
    skin: { t: totalThickness(layers), moduli: acrossRoot(layers) },
    core: acrossRoot([sheetLayer(core.material, { theta: core.grain, t: core.thickness, name: 'core' })]),
    tube: { wall: tube.wall, moduli: roundTube(sheetLamina(tube.material)) },
    adhesive: { E: E.value, G: G.value, bondLine: fins.joint.bondLine },
    backing: tube.backing,
  }
}

/** Layers in fin axes, stretched as one and sheared in series: axis 1 outboard, 2 along the root. All zero for no layers. */
function acrossRoot(layers: readonly BuiltLayer[]): LayerModuli {
  const t = totalThickness(layers)
  if (t === 0) return { E1: 0, E2: 0, E3: 0, nu12: 0, nu13: 0, nu23: 0, G13: 0 }
  const a = inverse3(laminateStiffness({ layers, reference: t / 2 }).A)
  invariant(a !== null, 'layers with positive moduli can be stretched')
  const shear = layers.reduce(
    (sum, { lamina, theta, t: own }) => sum + (own / t) * rotatedShearCompliance(lamina, theta).yz,
    0,
  )
  return layerFromSheet({ E1: 1 / (t * a[4]), E2: 1 / (t * a[0]), nu12: -a[1] / a[4], G13: 1 / shear })
}

/** A tube's axis 1 runs along it; the section sees it round the tube. */
const roundTube = ({ E1, E2, nu12, G23 }: ReturnType<typeof sheetLamina>): LayerModuli =>
  layerFromSheet({ E1: E2, E2: E1, nu12: (nu12 * E2) / E1, G13: G23 })
