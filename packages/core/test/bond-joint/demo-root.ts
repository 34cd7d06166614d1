/** The root of an invented fin: 102 mm tube of 2 mm wall, 3.2 mm core, 1.3 mm skins, four fins. SI. */
import type { RootJointInput } from '../../src/bond/joint/root-joint.ts'
import { type BaySection, baySection } from '../../src/bond/section.ts'

export const fillet = (filletRadius: number, { scale = 1 } = {}): BaySection => {
  const made = baySection({
    tubeRadius: 0.051 * scale,
    coreThickness: 3.2e-3 * scale,
    finCount: 4,
    span: 0.11 * scale,
    filletRadius: filletRadius * scale,
  })
  if (!made.ok) throw new Error('the demo section exists')
  return made.value
}

export const GPa = 1e9

export function demoRoot(filletRadius = 0.015): RootJointInput {
  return {
    section: fillet(filletRadius),
    skin: {
      t: 1.3e-3,
      moduli: { E1: 12 * GPa, E2: 12 * GPa, E3: 5.4 * GPa, nu12: 0.2, nu13: 0.35, nu23: 0.35, G13: 2 * GPa },
    },
    core: { E1: 15.2 * GPa, E2: 18.6 * GPa, E3: 6.5 * GPa, nu12: 0.114, nu13: 0.35, nu23: 0.35, G13: 2.4 * GPa },
    tube: {
      wall: 2e-3,
      moduli: { E1: 16 * GPa, E2: 12 * GPa, E3: 6.7 * GPa, nu12: 0.15, nu13: 0.35, nu23: 0.35, G13: 2.5 * GPa },
      inside: 'free',
    },
    adhesive: { E: 1.6 * GPa, G: 0.6 * GPa, bondLine: 0.3e-3 },
    averagingLength: 1e-3,
    allowable: { adhesive: 3e6, opening: 5e6 },
    line: { x: [0, 0.15, 0.3], V: [900, 1200, 2400], M: [40, 60, 120] },
  }
}
